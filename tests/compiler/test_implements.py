"""The loads that can be made of bells, plates and containers, worked out by hand, in a coach's source."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from itertools import product

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from setwright.compiler.implements import (
    DENSITIES,
    MOST_LOADS,
    Makings,
    bands,
    fine,
    height,
    left_out,
    makeable_loads,
    makings,
    nearest,
    serves,
)
from setwright.compiler.means import means_of
from setwright.compiler.model import Athlete, Implement, Made, Movement
from setwright.compiler.pipeline import compile_texts
from setwright.compiler.quantity import UNITS, Quantity, decimal_text, read_quantity
from setwright.compiler.reasons import own_place
from setwright.compiler.vocabulary import FILLINGS

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
    return list(lift_of(kinds, *has).loads)


def lift_of(kinds: str, *has: str) -> Makings:
    """What can be made for a movement loaded by these kinds, and how."""
    result = compile_texts({"a.coach": TEXT.format(kinds=kinds, has="\n".join(f"  has {line}" for line in has))})
    assert not result.has_errors, [one.message for one in result.diagnostics]
    lift = next(one for one in result.project.movements if one.name == "lift")
    return makings(result.project.athletes[0], lift)


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


def lifting(*kinds: str) -> Movement:
    return Movement("lift", "Lift", ("squat",), loaded_by=kinds, span=NOWHERE)


def athlete(*implements: Implement) -> Athlete:
    return Athlete("ewa", "Ewa", implements=implements, span=NOWHERE)


def handle(masses: list[str], plates: list[tuple[int, str]], pair: bool = False) -> Implement:
    return Implement(
        "handle",
        pair,
        masses=tuple(map(read_quantity, masses)),
        plates=tuple((count, read_quantity(mass)) for count, mass in plates),
        span=NOWHERE,
    )


def told(made: Made | None) -> str:
    """How a load is made, in short: `handle 2.5+1.25`, `two handle`, `container sand 1.5`."""
    if made is None:
        return "none"
    plates = "+".join(str(plate) for count, plate in made.plates for _ in range(count))
    filling = f"{made.filling} {decimal_text(made.litres)}" if made.litres is not None else ""
    return " ".join(filter(None, ("two" if made.two else "", made.implement.kind, plates, filling, made.band)))


# Against every way to put plates on, told one by one: written anew here, with nothing of what is tested.


def by_hand(bare: str, plates: list[tuple[int, str]], ends: int) -> dict[Fraction, tuple[int, list[Fraction]]]:
    """Each load of a handle with its fewest plates; of as few those that are the heaviest when the heavy come first."""
    weights = {mass: read_quantity(mass).base for mass in (bare, *(mass for _, mass in plates))}
    found: dict[Fraction, tuple[int, list[Fraction]]] = {}
    for chosen in product(*(range(count // ends + 1) for count, _ in plates)):
        put = [weights[mass] for n, (_, mass) in zip(chosen, plates, strict=True) for _ in range(n)]
        put.sort(reverse=True)
        load = weights[bare] + 2 * sum(put)
        best = found.get(load)
        if best is None or len(put) < best[0] or (len(put) == best[0] and put > best[1]):
            found[load] = (len(put), put)
    return found


MASSES = [f"{kg} kg" for kg in (0.5, 1, 1.25, 2, 2.5, 5, 10)] + [f"{lb} lb" for lb in (1.5, 2.5, 5, 10, 25, 45)]
PLATES = st.lists(
    st.tuples(st.integers(0, 9), st.sampled_from(MASSES)), min_size=1, max_size=5, unique_by=lambda one: one[1]
)


@settings(deadline=None, max_examples=200)
@given(st.sampled_from(["2 kg", "2.5 kg", "5 lb"]), PLATES, st.booleans())
def test_plates_are_those_on_all_ends_and_the_fewest(bare: str, plates: list[tuple[int, str]], two: bool):
    has = handle([bare], plates, pair=True)
    made = makings(athlete(has), lifting("handle pair" if two else "handle"))
    wanted = by_hand(bare, plates, 4 if two else 2)
    assert made.loads == tuple(sorted(wanted))
    for one in made:
        assert one.load is not None
        put = [plate.base for count, plate in one.plates for _ in range(count)]
        assert (len(put), put) == wanted[one.load]
        assert (one.implement, one.two) == (has, two)


@settings(deadline=None, max_examples=200)
@given(PLATES, st.fractions(min_value=0, max_value=120, max_denominator=1000))
def test_the_nearest_is_not_above_and_none_lies_between(plates: list[tuple[int, str]], target: Fraction):
    made = makings(athlete(handle(["2 kg"], plates)), lifting("handle"))
    near = nearest(made, target)
    below = [load for load in by_hand("2 kg", plates, 2) if load <= target]
    assert (near.load if near else None) == max(below, default=None)


@settings(deadline=None, max_examples=200)
@given(
    litres=st.integers(1, 4000).map(lambda ml: Fraction(ml, 1000)),
    weighing=st.sampled_from([None, "0.3 kg", "0.123 kg", "1 lb"]),
    limit=st.sampled_from([None, "0.1 kg", "2 kg", "2.04 kg", "5 lb", "20 kg"]),
    fill=st.lists(st.sampled_from(FILLINGS), min_size=1, max_size=3, unique=True),
)
def test_containers_are_filled_to_lines(litres: Fraction, weighing: str | None, limit: str | None, fill: list[str]):
    has = Implement(
        "container",
        volume=Quantity(litres, "l"),
        weighing=None if weighing is None else read_quantity(weighing),
        limit=None if limit is None else read_quantity(limit),
        fill=tuple(fill),
        span=NOWHERE,
    )
    empty = Fraction(0) if weighing is None else read_quantity(weighing).base
    most = empty + litres * DENSITIES["water"] if limit is None else read_quantity(limit).base
    lines = [*(line for line in (Fraction(tenth, 10) for tenth in range(1, 41)) if line < litres), litres]
    wanted: dict[Fraction, tuple[str, Fraction]] = {}
    for filling, line in ((filling, line) for filling in fill for line in lines):
        mass = empty + line * DENSITIES[filling]
        load = Fraction(int(mass * 10 + Fraction(1, 2)), 10)
        if mass <= most and load and (limit is None or load <= most):
            wanted.setdefault(load, (filling, line))
    made = makings(athlete(has), lifting("container"))
    assert {one.load: (one.filling, one.litres) for one in made} == wanted
    assert list(made.loads) == sorted(wanted)


@pytest.mark.parametrize(
    ("kinds", "has", "target", "made"),
    [
        # One of a pair where one is enough, both where a pair is asked for; where either serves, one is enough.
        ("dumbbell, barbell", ["dumbbell pair 4 kg, 6 kg"], "6", "dumbbell"),
        ("dumbbell pair, barbell", ["dumbbell pair 4 kg, 6 kg"], "6", "two dumbbell"),
        ("dumbbell, dumbbell pair", ["dumbbell pair 4 kg, 6 kg"], "6", "dumbbell"),
        ("dumbbell pair, barbell", ["dumbbell 6 kg"], "6", "none"),
        # The simplest of several: a bell, a pair, the fewest plates, a container.
        ("dumbbell pair, kettlebell", ["dumbbell pair 8 kg", "kettlebell 8 kg"], "8", "kettlebell"),
        ("kettlebell, handle", ["handle 3 kg with plates 2 x 2.5 kg", "kettlebell 8 kg"], "8", "kettlebell"),
        (
            "barbell, handle",
            ["handle 2 kg with plates 4 x 1 kg", "barbell 4 kg with plates 2 x 1 kg"],
            "6",
            "barbell 1 kg",
        ),
        (
            "container, handle",
            ["container 9 l, fill water", "handle 3 kg with plates 2 x 2.5 kg"],
            "8",
            "handle 2.5 kg",
        ),
        # The fewest plates, and of as few the heavier ones first: 5 + 1 is as much as 3 + 3.
        ("handle, barbell", ["handle 2 kg with plates 2 x 5 kg, 4 x 3 kg, 2 x 1 kg"], "14", "handle 5 kg+1 kg"),
        ("handle, barbell", ["handle 2 kg with plates 4 x 1.25 kg, 2 x 2.5 kg"], "7.2", "handle 2.5 kg"),
        ("handle, barbell", ["handle 2 kg with plates 2 x 1.25 kg"], "2", "handle"),
        ("handle, barbell", ["handle 2 kg with plates 2 x 1.25 kg"], "1.9", "none"),
        # All four ends of a pair alike, or all plates on one of them.
        ("handle pair, barbell", ["handle pair 2 kg with plates 4 x 1.25 kg"], "50", "two handle 1.25 kg"),
        ("handle, barbell", ["handle pair 2 kg with plates 4 x 1.25 kg"], "50", "handle 1.25 kg+1.25 kg"),
        # What is said first is used first: water to 5 l is 4.99 kg, sand to 3.1 l 4.82.
        ("container, barbell", ["container 5 l, limit 8 kg, fill water, sand"], "4.8", "container water 4.8"),
        ("container, barbell", ["container 5 l, limit 8 kg, fill sand, water"], "4.8", "container sand 3.1"),
        ("container, barbell", ["container 5 l, limit 8 kg, fill water, sand"], "50", "container sand 5"),
        ("container, barbell", ["container 5 l, limit 6 kg, fill water, sand"], "50", "container sand 3.8"),
        ("container, barbell", ["container 5 l, fill sand"], "50", "container sand 3.2"),
        ("container pair, barbell", ["container pair 5 l, fill water"], "2", "two container water 2"),
    ],
)
def test_how_a_load_is_made(kinds: str, has: list[str], target: str, made: str):
    assert told(nearest(lift_of(kinds, *has), Fraction(target))) == made


def test_what_stands_for_pounds_stays_in_pounds():
    made = lift_of("barbell, handle", "barbell 45 lb with plates 2 x 45 lb, 2 x 2.5 kg")[-1]
    assert made.plates == ((1, Quantity(Fraction(45), "lb")), (1, Quantity(Fraction(5, 2), "kg")))


def test_makings_are_a_sequence_of_what_is_made():
    made = lift_of("kettlebell, barbell", "kettlebell 8 kg, 12 kg, 16 kg")
    assert [one.load for one in made] == list(made.loads) == [8, 12, 16]
    assert made[1:] == tuple(made)[1:]
    assert made[-1].load == 16
    assert not lift_of("handle, barbell", "kettlebell 8 kg")


def test_equal_implements_of_two_athletes_keep_their_own_places():
    """They are worked out once; what is told of each is told of its own line."""
    text = TEXT.format(kinds="kettlebell, handle", has="  has kettlebell 8 kg\n\nathlete bram\n  has kettlebell 8 kg")
    project = compile_texts({"a.coach": text}).project
    lift = next(one for one in project.movements if one.name == "lift")
    first, second = (makings(one, lift) for one in project.athletes)
    assert first is second
    told = [own_place(first[0].implement, one).start for one in project.athletes]
    assert told == [one.implements[0].span.start for one in project.athletes]
    assert told[0] != told[1]


def test_bands_are_steps_without_a_weight():
    has = Implement("band", steps=("red", "blue"), span=NOWHERE)
    made = bands(athlete(has), lifting("band"))
    assert [(one.load, one.band) for one in made] == [(None, "red"), (None, "blue")]
    assert bands(athlete(has), lifting("handle")) == ()
    assert not makings(athlete(has), lifting("band"))
    squat = Movement("band-squat", "Band squat", ("squat",), needs=("band",), span=NOWHERE)
    assert serves(has, squat)
    assert not serves(has, lifting("handle"))


def test_only_straight_sides_have_a_share_of_the_height():
    jug = lift_of("container, barbell", "container 8 l, fill water")
    bucket = lift_of("container, barbell", "container 8 l, straight, fill water")
    assert height(jug[1]) is None
    assert height(bucket[1]) == Fraction(2, 80)
    assert height(bucket[-1]) == 1


@pytest.mark.parametrize(
    ("has", "fine_loads"),
    [
        ("kettlebell 8 kg", False),
        ("handle 2 kg with plates 4 x 1 kg, 4 x 5 kg", False),
        ("handle 5 lb with plates 4 x 1 kg, 4 x 5 kg", False),
        ("handle 2 kg with plates 4 x 1 kg, 4 x 5 lb", True),
        ("container 5 l, fill water", True),
    ],
)
def test_which_loads_are_so_fine_that_the_next_is_no_step(has: str, fine_loads: bool):
    text = TEXT.format(kinds="kettlebell, handle, container", has=f"  has {has}")
    project = compile_texts({"a.coach": text}).project
    lift = next(one for one in project.movements if one.name == "lift")
    assert fine(project.athletes[0], lift) is fine_loads
    brought = means_of(project.athletes[0])(lift)
    assert brought is not None
    assert brought.least_step == (Fraction(2, 100) if fine_loads else 0)


def test_more_loads_than_anyone_can_tell_apart_are_not_counted():
    plates = [(12, mass) for mass in ("20 kg", "15.1 kg", "10.2 kg", "5.3 kg", "45 lb", "25.1 lb", "5.2 lb")]
    has = handle(["20 kg"], plates)
    made = makings(athlete(has), lifting("handle"))
    assert 0 < len(made) <= MOST_LOADS
    left = left_out(has)
    assert left
    assert not {plate for one in made for _, plate in one.plates} & set(left)
    assert max(plate.base for plate in left) < min(plate.base for one in made for _, plate in one.plates)
    assert left_out(handle(["20 kg"], plates[:4])) == ()


@pytest.mark.parametrize(
    "has",
    [
        handle(["2 kg"], [(999_999_999, "1 kg")]),
        handle(["2 kg"], [(2, "0 kg"), (3, "1 kg")]),
        handle([], [(2, "999999999 kg")]),
        Implement("container", volume=read_quantity("999999999 l"), fill=("sand",), span=NOWHERE),
        Implement("container", volume=read_quantity("0 l"), fill=("sand",), span=NOWHERE),
        Implement("container", volume=read_quantity("5 l"), span=NOWHERE),
        Implement("container", volume=read_quantity("5 l"), weighing=read_quantity("9 kg"), fill=("sand",),
                  limit=read_quantity("3 kg"), span=NOWHERE),
    ],
)  # fmt: skip
def test_absurd_figures_end(has: Implement):
    """A finding tells of them; until it is heard nothing hangs or fails."""
    made = makings(athlete(has), lifting("handle", "container"))
    assert list(made.loads) == sorted({one.load for one in made if one.load is not None})
    assert len(made) <= MOST_LOADS


@pytest.mark.parametrize("written", MASSES)
def test_pint_agrees_on_what_plates_weigh(written: str):
    units = pint.UnitRegistry(non_int_type=Decimal)
    amount, unit = written.split()
    theirs = units.Quantity(
        Decimal(45) + 2 * Decimal(amount) * units.Quantity(Decimal(1), unit).to("kg").magnitude, "kg"
    )
    (bare, loaded) = makings(athlete(handle(["45 kg"], [(2, written)])), lifting("handle")).loads
    assert bare == 45
    assert abs(loaded - Fraction(theirs.magnitude)) <= Fraction(1, 10**20)
