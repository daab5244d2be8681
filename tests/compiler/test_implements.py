"""The loads that can be made of bells, plates and containers, worked out by hand, in a coach's source."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from setwright.compiler.implements import makeable_loads
from setwright.compiler.model import Athlete, Implement, Movement
from setwright.compiler.pipeline import compile_texts
from setwright.compiler.quantity import UNITS, Quantity

from ..generate import NOWHERE, movement

TEXT = """use basics

movement lift
  pattern squat
  loaded by one of {kinds}
  cue "Close"
  caution "Stop when it hurts."
  how
    | Lift it.

athlete ewa "Ewa"
  starts 2026-06-15
{has}
"""


def loads(kinds: str, *has: str) -> list[Fraction]:
    """What can be made for a movement loaded by these kinds, in kg."""
    result = compile_texts({"a.coach": TEXT.format(kinds=kinds, has="\n".join(f"  has {line}" for line in has))})
    assert not result.has_errors, [one.message for one in result.diagnostics]
    lift = next(one for one in result.project.movements if one.name == "lift")
    return list(makeable_loads(result.project.athletes[0], lift))


def kilograms(text: str) -> list[Fraction]:
    return list(map(Fraction, text.split()))


@pytest.mark.parametrize(
    ("kinds", "has", "made"),
    [
        ("dumbbell, kettlebell", ["dumbbell 8 kg", "kettlebell 16 kg, 12 kg"], "8 12 16"),
        ("dumbbell, kettlebell", ["dumbbell 8 kg", "kettlebell 8 kg"], "8"),
        ("kettlebell, barbell", ["dumbbell 8 kg"], ""),
        # One of a pair serves where one is enough, but one alone is no pair.
        ("dumbbell, barbell", ["dumbbell pair 4 kg, 6 kg", "dumbbell 8 kg"], "4 6 8"),
        ("dumbbell pair, barbell", ["dumbbell pair 4 kg, 6 kg", "dumbbell 8 kg"], "4 6"),
        # Plates on both ends alike: 2, 2 + 2.5, 2 + 5, 2 + 7.5, 2 + 10, 2 + 12.5
        ("handle, barbell", ["handle 2 kg with plates 2 x 1.25 kg, 4 x 2.5 kg"], "2 4.5 7 9.5 12 14.5"),
        # 20 and two of 5, of 10, or of both: 20 + 10, 20 + 20, 20 + 30
        ("handle, barbell", ["barbell 20 kg with plates 2 x 5 kg, 2 x 10 kg"], "20 30 40 50"),
        # Water, a line at every tenth of a litre: 0.3 + litres x 0.998 is 0.3998, 0.4996, 0.5994, 0.6992, 0.799
        ("container, barbell", ['container 0.5 l "jug" weighing 0.3 kg, fill water'], "0.4 0.5 0.6 0.7 0.8"),
        # Sand is heavier than the water that a jug was made for: 0.4 l of water are 0.3992, of sand 0.1555, 0.311, 0.4665
        ("container, barbell", ['container 0.4 l "bag", fill sand'], "0.2 0.3"),
        # Rice: 0.0753, 0.1506, 0.2259; to the brim 0.25 l, 0.18825
        ("container, barbell", ['container 0.25 l "bag", fill rice'], "0.1 0.2"),
        ("band, barbell", ['band "red", "blue"'], ""),
    ],
)
def test_what_can_be_made(kinds: str, has: list[str], made: str):
    assert loads(kinds, *has) == kilograms(made)


def test_pounds_are_exact():
    pound = UNITS["lb"][1]
    assert loads("barbell, handle", "barbell 45 lb with plates 2 x 45 lb, 2 x 10 lb") == [
        45 * pound,
        65 * pound,
        135 * pound,
        155 * pound,
    ]


def test_things_are_no_loads():
    athlete = Athlete("ewa", "Ewa", things=("floor", "step"), span=NOWHERE)
    assert makeable_loads(athlete, movement()) == ()


def test_many_plates_take_no_time():
    # Ten kinds of plates of twenty each would be 11 to the power of 10 combinations; the sums are few.
    plates = tuple((20, Quantity(Fraction(size), "kg")) for size in range(1, 11))
    athlete = Athlete("ewa", "Ewa", implements=(Implement("handle", plates=plates, span=NOWHERE),), span=NOWHERE)
    lift = Movement("lift", "Lift", ("squat",), loaded_by=("handle",), span=NOWHERE)
    assert makeable_loads(athlete, lift) == tuple(range(0, 2 * 10 * 55 + 1, 2))


PLATES = st.lists(st.tuples(st.integers(1, 8), st.fractions(min_value=Fraction(1, 4), max_value=25)), max_size=3)


@settings(deadline=None)
@given(st.fractions(min_value=0, max_value=20), PLATES)
def test_plates_are_those_on_both_ends(handle: Fraction, plates: list[tuple[int, Fraction]]):
    """Against every way to put a plate on or leave it off: those whose two ends are alike."""
    has = Implement(
        "handle",
        masses=(Quantity(handle, "kg"),),
        plates=tuple((count, Quantity(mass, "kg")) for count, mass in plates),
        span=NOWHERE,
    )
    athlete = Athlete("ewa", "Ewa", implements=(has,), span=NOWHERE)
    lift = Movement("lift", "Lift", ("squat",), loaded_by=("handle",), span=NOWHERE)
    made = makeable_loads(athlete, lift)
    one_end = [mass for count, mass in plates for _ in range(count // 2)]
    ends = {
        sum((mass for mass, on in zip(one_end, put, strict=True) if on), Fraction(0))
        for put in product((0, 1), repeat=len(one_end))
    }
    assert made == tuple(sorted(handle + 2 * end for end in ends))
