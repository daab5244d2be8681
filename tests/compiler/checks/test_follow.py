"""One slip, one finding: what only follows from an error told already is left out."""

from __future__ import annotations

import pytest
from setwright.compiler.checks.registry import ALL
from setwright.compiler.pipeline import compile_texts

PROGRAM = """use basics

program store-room
  category balance required, at least 2 a week
  session main, 2 a week
    within 40 min
    block ready "Get ready", warm-up
      do march-in-place 1 x 3 min
    block legs, rounds 3, rest 30 s
      must split-squat 8 each side, lower 3 s, at least 2 sets
        advance lower by 1 s to 6 s, then reps by 1 to 10
      key single-leg-stand 20 s each side
        after 2 good
        advance hold by 5 s to 30 s, then rung restarting hold
  session walk, every day
    block out "Outside", conditioning
      do walk 1 x 30 min, log distance and time
        advance distance by 5%
"""


def codes(text: str) -> list[str]:
    return [one.code for one in compile_texts({"program.coach": text}).diagnostics]


def test_the_program_is_sound() -> None:
    assert codes(PROGRAM) == []


@pytest.mark.parametrize(
    ("sound", "slip"),
    [
        ("lower 3 s, at", "lower 3, at"),
        ("lower by 1 s to", "lower 1 s to"),
        ("lower by 1 s to", "lower by 1 zz to"),
        ("by 1 s to 6 s", "by 1 s to zz s"),
        ("rounds 3", "rounds"),
        ("warm-up", "warm-uq"),
        ("conditioning", "conditionink"),
        ("log distance", "log distanze"),
        ("single-leg-stand 20", "single-leg-stant 20"),
        ("within 40 min", "within 40 mim"),
        ("advance distance", "advanze distance"),
        ("advance hold by", "advance hould by"),
        ("20 s each side", "20 zz each side"),
    ],
)
def test_one_slip_one_finding(sound: str, slip: str) -> None:
    assert sound in PROGRAM
    found = codes(PROGRAM.replace(sound, slip, 1))
    assert len(found) == 1 and found[0] not in {check.code for check in ALL}


def test_a_slip_elsewhere_hides_nothing() -> None:
    text = PROGRAM.replace("log distance", "log distanze").replace("hold by 5 s", "hold by 0 s")
    assert codes(text) == ["step-zero", "word-unknown"]


def test_a_category_that_is_nowhere_is_told_once() -> None:
    assert codes(PROGRAM.replace("category balance", "category balanze")) == ["category-empty"]
