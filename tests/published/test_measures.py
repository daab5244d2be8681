"""Measures of training against published and worked values; what was read where stands beside each."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from scipy.stats import theilslopes
from setwright.compiler.clock import repetition_time
from setwright.compiler.effort import session_load, week_of_effort
from setwright.compiler.guidelines import MODERATE_WALK, MOVING_MINUTES, VIGOROUS_WALK, moderate_minutes
from setwright.compiler.model import Movement, Tempo
from setwright.compiler.movement_review import effective_load, volume_load
from setwright.compiler.pipeline import compile_texts
from setwright.compiler.quantity import Quantity
from setwright.compiler.strength import brzycki, epley, estimate
from setwright.compiler.trend import trend

from ..generate import NOWHERE


@pytest.mark.parametrize(
    ("repetitions", "by_epley", "by_brzycki"),
    # Worked from the formulas with 1/30 and 36/37, load 100 (computed in double precision).
    [(3, 110.000, 105.882), (5, 116.667, 112.500), (8, 126.667, 124.138), (10, 133.333, 133.333)],
)
def test_estimates_of_a_maximum(repetitions: int, by_epley: float, by_brzycki: float) -> None:
    assert float(epley(Fraction(100), repetitions)) == pytest.approx(by_epley, abs=5e-4)
    assert float(brzycki(Fraction(100), repetitions)) == pytest.approx(by_brzycki, abs=5e-4)


def test_epley_the_other_way_round_is_the_published_table() -> None:
    """Shares of the maximum for 2 to 10 repetitions: read in a secondary source (rstudio-pubs 708250)."""
    shares = [round(float(100 / epley(Fraction(1), reps))) for reps in range(2, 11)]
    assert shares == [94, 91, 88, 86, 83, 81, 79, 77, 75]


def test_one_repetition_is_the_maximum_and_more_than_ten_tell_nothing() -> None:
    found = estimate(Fraction(80), 1)
    assert found is not None and found.epley == found.brzycki == 80
    assert estimate(Fraction(80), 11) is None and estimate(Fraction(80), 0) is None and estimate(Fraction(0), 5) is None


def test_a_week_of_effort() -> None:
    """Worked week, computed: effort x minutes = 4x60, 0, 5x45, 0, 6x50, 3x30, 0."""
    done = [(4, 60), (0, 0), (5, 45), (0, 0), (6, 50), (3, 30), (0, 0)]
    week = week_of_effort([session_load(Fraction(rpe), Fraction(minutes)) for rpe, minutes in done])
    assert week.load == 855
    assert week.monotony == pytest.approx(0.937285, abs=1e-6)  # by the standard deviation of a sample
    assert week.strain == pytest.approx(801.378976, abs=1e-6)
    same = week_of_effort([Fraction(180)] * 7)
    assert (same.load, same.monotony, same.strain) == (1260, None, None)
    with pytest.raises(ValueError, match="seven"):
        week_of_effort([Fraction(1)] * 6)


@pytest.mark.parametrize("seed", range(40))
def test_a_trend_is_that_of_scipy(seed: int) -> None:
    random = Random(f"trend {seed}")
    count = random.randint(4, 40)
    ys = [float(random.choice((0, 1, 2, 3, 5, 8)) + random.randint(0, 4) * 0.25) for _ in range(count)]
    xs = sorted(random.randint(0, 60) for _ in range(count)) if seed % 2 else list(range(count))
    found = trend([(float(x), y) for x, y in zip(xs, ys, strict=True)])
    if len(set(xs)) == 1:
        assert found is None
        return
    slope, intercept, low, high = theilslopes(ys, xs, 0.95)
    assert found is not None
    assert (found.slope, found.intercept, found.low, found.high) == pytest.approx((slope, intercept, low, high))


def test_few_points_are_no_trend() -> None:
    assert trend([(0.0, 1.0), (1.0, 2.0), (2.0, 3.0)]) is None
    assert trend([(1.0, 1.0)] * 5) is None


@pytest.mark.parametrize(
    ("sets", "volume"),
    # Worked: 3 x 10 x 20 kg = 600 kg; 2 sets of 12 and 10 at 8 kg = 176 kg (computed).
    [([(10, 20), (10, 20), (10, 20)], 600), ([(12, 8), (10, 8)], 176), ([], 0), ([(30, 20)], 600)],
)
def test_volume_load(sets: list[tuple[int, int]], volume: int) -> None:
    assert volume_load([(reps, Fraction(load)) for reps, load in sets]) == volume


@pytest.mark.parametrize(
    ("repetitions", "parts", "seconds"),
    # Tempos of Wilk et al., J Hum Kinet 2018 (2/0/2/0, 5/0/3/0, 6/0/4/0: read in PMC6006544), and 3/1/1/0; products computed.
    [(10, (2, 0, 2, 0), 40), (8, (5, 0, 3, 0), 64), (8, (6, 0, 4, 0), 80), (10, (3, 1, 1, 0), 50)],
)
def test_time_under_tension(repetitions: int, parts: tuple[int, int, int, int], seconds: int) -> None:
    lower, pause, up, top = (Quantity(Fraction(part), "s") for part in parts)
    tempo = Tempo(lower=lower, pause=pause, up=up, top=top)
    assert repetition_time(Movement("lift", "Lift", ("squat",), span=NOWHERE), tempo) * repetitions == seconds


@pytest.mark.parametrize(
    ("rung", "share", "kilograms"),
    # Shares of Ebben et al., J Strength Cond Res 2011;25(10):2891-2894 (read in a secondary source); of 70 kg, computed.
    [
        ("bench", 41, "28.7"),
        ("knees", 49, "34.3"),
        ("box", 55, "38.5"),
        ("toes", 64, "44.8"),
        ("feet-raised", 70, "49.0"),
    ],
)
def test_effective_load_of_a_push_up(rung: str, share: int, kilograms: str) -> None:
    lines = (
        "use basics",
        "program hall",
        "  session main",
        "    block push",
        "      do push-up 3 x 8",
        "        advance reps by 1",
    )
    (program,) = compile_texts({"hall.coach": "\n".join(lines)}).project.programs
    push_up = program.sessions[0].entries[0].movement
    moves = next(one.moves for one in push_up.rungs if one.name == rung)
    assert moves == Quantity(Fraction(share), "%")
    assert effective_load(Fraction(70), moves.base) == Fraction(kilograms)


def test_weekly_minutes() -> None:
    """Computed: 100 min moderate + 25 min vigorous = 150, which meets the least advised; 90 + 20 = 130, which does not."""
    least, most = MOVING_MINUTES
    assert (least, most) == (150, 300)  # World Health Organization 2020, read in oecd.org
    assert moderate_minutes(Fraction(100), Fraction(25)) >= least
    assert moderate_minutes(Fraction(90), Fraction(20)) == 130


def test_speeds_of_walking() -> None:
    """2.5 and 4.5 miles an hour; 1 mile an hour is 26.8224 m a minute (computed from the exact mile)."""
    assert Fraction("26.8224") * Fraction(5, 2) == MODERATE_WALK * 60
    assert Fraction("26.8224") * Fraction(9, 2) == VIGOROUS_WALK * 60
