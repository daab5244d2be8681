"""Twenty men at three exercises, read through a log, and the published summary of their figures reproduced.

Data: scikit-learn's `load_linnerud`, which gives as its reference Tenenhaus M. La regression PLS. Technip, 1998. The summary
is that of the data itself; the body measures in pounds, inches and beats a minute (the units from memory).
"""

from statistics import mean, median, pstdev, stdev

import pytest
from setwright.compiler.model import Log
from setwright.compiler.pipeline import compile_texts
from sklearn.datasets import load_linnerud

MOVEMENTS = {"Chins": "pull-up", "Situps": "sit-up", "Jumps": "jump"}
SUMMARY = {  # sum, mean, sample and population standard deviation, least, middle, most
    "Chins": (189, 9.45, 5.2863, 5.1524, 1, 11.5, 17),
    "Situps": (2911, 145.55, 62.5666, 60.9824, 50, 122.5, 251),
    "Jumps": (1406, 70.3, 51.2775, 49.9791, 25, 54, 250),
    "Weight": (3572, 178.6, 24.6905, 24.0653, 138, 176, 247),
    "Waist": (708, 35.4, 3.2020, 3.1209, 31, 35, 46),
    "Pulse": (1122, 56.1, 7.2104, 7.0278, 46, 55, 74),
}
COLUMNS = "date,session,note,movement,set 1"


def source(weights: list[int]) -> str:
    """A program of the three exercises, and the men with what they weigh."""
    lines = ["program club", "  session test"]
    lines += ["    block all", *(f"      do {one} 1 x amrap, expect 90" for one in MOVEMENTS.values())]
    for one in MOVEMENTS.values():
        lines += [f"movement {one}", "  pattern pull"]
    for number, weight in enumerate(weights, 1):
        lines += [f"athlete man-{number}", f"  body {weight} lb", "  starts 2026-06-15"]
    return "\n".join(lines)


@pytest.fixture(scope="module")
def figures() -> dict[str, list[float]]:
    """The figures as they come back out of twenty logs: three of sets, one of a body, two of notes."""
    data = load_linnerud(as_frame=True)
    files: dict[str, str | bytes] = {"club.coach": source([int(one) for one in data.frame["Weight"]])}
    for number, row in enumerate(data.frame.itertuples(index=False), 1):
        lines = [f"setwright log 1,man-{number},club", COLUMNS]
        note = f"Waist {row.Waist:g}. Pulse {row.Pulse:g}."
        for name, movement in MOVEMENTS.items():
            lines.append(f"2026-06-17,test,{note},{movement},{getattr(row, name):g}")
        files[f"man-{number}.csv"] = "\n".join(lines)
    result = compile_texts(files)
    assert not [one for one in result.diagnostics if one.span.source.name.endswith(".csv")]
    return read_back(result.project.logs, {one.name: one.body for one in result.project.athletes})


def read_back(logs: tuple[Log, ...], bodies: dict) -> dict[str, list[float]]:
    found: dict[str, list[float]] = {name: [] for name in SUMMARY}
    for log in sorted(logs, key=lambda one: int(one.athlete.removeprefix("man-"))):
        (session,) = log.sessions
        for name, movement in MOVEMENTS.items():
            (figure,) = next(one for one in session.entries if one.movement == movement).results
            found[name].append(int(figure))
        words = session.note.replace(".", "").split()
        found["Waist"].append(int(words[1]))
        found["Pulse"].append(int(words[3]))
        found["Weight"].append(float(bodies[log.athlete].amount))
    return found


@pytest.mark.parametrize("name", SUMMARY)
def test_the_summary(name: str, figures: dict[str, list[float]]):
    of = figures[name]
    total, middle, sample, population, least, half, most = SUMMARY[name]
    assert (sum(of), min(of), median(of), max(of)) == (total, least, half, most)
    assert mean(of) == pytest.approx(middle)
    assert stdev(of) == pytest.approx(sample, abs=5e-5)
    assert pstdev(of) == pytest.approx(population, abs=5e-5)


@pytest.mark.parametrize(
    ("one", "other", "published"),
    [
        ("Chins", "Situps", 0.6957), ("Chins", "Jumps", 0.4958), ("Situps", "Jumps", 0.6692), ("Chins", "Waist", -0.5522),
        ("Situps", "Waist", -0.6456), ("Weight", "Waist", 0.8702), ("Weight", "Pulse", -0.3658),
    ],
)  # fmt: skip
def test_the_correlations(one: str, other: str, published: float, figures: dict[str, list[float]]):
    from statistics import correlation

    assert correlation(figures[one], figures[other]) == pytest.approx(published, abs=5e-5)
