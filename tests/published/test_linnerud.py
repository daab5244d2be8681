"""Open data read through a log: 20 men, three exercises and their weight; sums, means and spreads as they are published.

The data are those that scikit-learn carries as `load_linnerud` (files linnerud_exercise.csv and linnerud_physiological.csv,
read as printed from scikit-learn 1.9.1), after Tenenhaus M, La regression PLS, Technip 1998. That the weights are pounds is
from memory.
"""

from __future__ import annotations

from fractions import Fraction
from statistics import mean, median, pstdev, stdev

import pytest
from setwright.compiler.fitting import fit
from setwright.compiler.logbook import logbook_of
from setwright.compiler.pipeline import compile_texts
from setwright.compiler.quantity import UNITS
from setwright.compiler.review import Review, review

# Chins, situps, jumps, weight.
MEN = (
    (5, 162, 60, 191), (2, 110, 60, 189), (12, 101, 101, 193), (12, 105, 37, 162), (13, 155, 58, 189), (4, 101, 42, 182),
    (8, 101, 38, 211), (6, 125, 40, 167), (15, 200, 40, 176), (17, 251, 250, 154), (17, 120, 38, 169), (13, 210, 115, 166),
    (14, 215, 105, 154), (1, 50, 50, 247), (6, 70, 31, 193), (12, 210, 120, 202), (4, 60, 25, 176), (11, 230, 80, 157),
    (15, 225, 73, 156), (2, 110, 43, 138),
)  # fmt: skip
PROGRAM = """use basics

movement chin "Chin" pattern pull
movement situp "Situp" pattern trunk
movement jump "Jump" pattern squat

program club
  session test
    block all
      must chin 1 x amrap
        advance none because "a test, once"
      must situp 1 x amrap
        advance none because "a test, once"
      must jump 1 x amrap
        advance none because "a test, once"
"""


@pytest.fixture(scope="module")
def men() -> list[Review]:
    text = PROGRAM.replace(" pattern", "\n  pattern")
    for number, (chins, situps, jumps, weight) in enumerate(MEN, start=1):
        text += f"\nathlete man-{number}\n  body {weight} lb\n  starts 2026-06-15\n  follows club\n"
        text += f"\nlog man-{number} on club\n\n2026-06-15 test\n  chin {chins}\n  situp {situps}\n  jump {jumps}\n"
    result = compile_texts({"club.coach": text})
    assert not result.has_errors, [one for one in result.diagnostics if one.severity == "error"][:3]
    (program,) = result.project.programs
    return [review(logbook_of(fit(program, one), (program,), result.project.logs)) for one in result.project.athletes]


@pytest.mark.parametrize(
    ("name", "summary", "spreads"),
    # Sum, mean, least, median and most as published with the data; standard deviations of a sample and of all: computed.
    [
        ("chin", (189, 9.45, 1, 11.5, 17), (5.2863, 5.1524)),
        ("situp", (2911, 145.55, 50, 122.5, 251), (62.5666, 60.9824)),
        ("jump", (1406, 70.3, 25, 54, 250), (51.2775, 49.9791)),
        ("weight", (3572, 178.6, 138, 176, 247), (24.6905, 24.0653)),
    ],
)
def test_the_summary_comes_back(
    men: list[Review], name: str, summary: tuple[float, ...], spreads: tuple[float, float]
) -> None:
    figures = [_figure(one, name) for one in men]
    found = sum(figures), mean(figures), min(figures), median(figures), max(figures)
    assert tuple(float(one) for one in found) == summary
    assert (float(stdev(figures)), float(pstdev(figures))) == pytest.approx(spreads, abs=5e-5)


def _figure(one: Review, name: str) -> Fraction:
    if name == "weight":
        body = one.logbook.fitting.athlete.body
        assert body is not None
        return body.base / UNITS["lb"][1]
    (movement,) = (each for each in one.movements if each.stands.entry.movement.name == name)
    return Fraction(movement.done[0].repetitions)
