"""What an athlete is told to pick up or to fill, and the weight that is printed for it."""

from fractions import Fraction

import attrs
import pytest
from setwright.compiler.fitting import Fitting, fit
from setwright.compiler.model import Athlete, Fitted, Implement, Made, Rule
from setwright.compiler.quantity import Quantity, read_quantity
from setwright.grammar.source import Source, Span
from setwright.targets.taking import lifted_with, making, next_loads, told_weight
from setwright.targets.telling import next_step

SPAN = Span(Source("crew.coach", "athlete maren\n"), 0, 7)


def implement(kind: str, *masses: str, **more: object) -> Implement:
    return Implement(kind, masses=tuple(map(read_quantity, masses)), span=SPAN, **more)  # type: ignore[arg-type]


def plates(*told: tuple[int, str]) -> tuple[tuple[int, Quantity], ...]:
    return tuple((count, read_quantity(mass)) for count, mass in told)


KETTLEBELL = implement("kettlebell", "12 kg", "16 kg")
PAIR = implement("dumbbell", "5 kg", "25 lb", pair=True)
HANDLE = implement("handle", "2 kg", plates=plates((2, "1.25 kg"), (4, "2.5 kg")))
HANDLES = implement("handle", "2 kg", pair=True, plates=plates((8, "2.5 kg")))
BAR = implement("barbell", "45 lb", plates=plates((4, "45 lb"), (2, "10 lb")))
BARS = implement("barbell", "15 kg", "20 kg", plates=plates((2, "5 kg")))
JUG = implement(
    "container", title="water jug", volume=read_quantity("5 l"), weighing=read_quantity("0.3 kg"), fill=("sand",)
)
BAND = implement("band", steps=("yellow", "red"))


def in_kg(mass: str) -> Fraction:
    return read_quantity(mass).base


@pytest.mark.parametrize(
    ("had", "made", "told"),
    [
        ((KETTLEBELL,), Made(in_kg("12 kg"), KETTLEBELL), "the 12 kg kettlebell"),
        ((PAIR,), Made(in_kg("25 lb"), PAIR), "one 25 lb dumbbell"),
        ((PAIR,), Made(in_kg("5 kg"), PAIR, two=True), "two 5 kg dumbbells, one in each hand"),
        ((HANDLE,), Made(in_kg("2 kg"), HANDLE), "empty handle"),
        (
            (HANDLE,),
            Made(Fraction("9.5"), HANDLE, plates=plates((1, "2.5 kg"), (1, "1.25 kg"))),
            "handle, 2.5 kg and 1.25 kg each side",
        ),
        (
            (HANDLES,),
            Made(in_kg("12 kg"), HANDLES, two=True, plates=plates((2, "2.5 kg"))),
            "two handles, one in each hand: on each, 2 × 2.5 kg each side",
        ),
        ((HANDLES,), Made(in_kg("2 kg"), HANDLES, two=True), "two empty handles, one in each hand"),
        (
            (BAR,),
            Made(in_kg("155 lb"), BAR, plates=plates((1, "45 lb"), (1, "10 lb"))),
            "bar with 45 lb and 10 lb each side",
        ),
        ((BARS,), Made(in_kg("25 kg"), BARS, plates=plates((1, "5 kg"))), "15 kg bar with 5 kg each side"),
        ((JUG,), Made(Fraction("5.1"), JUG, filling="sand", litres=Fraction("3.1")), "water jug, sand to 3.1 l"),
        ((JUG,), Made(Fraction("8.1"), JUG, filling="sand", litres=Fraction(5)), "water jug, full of sand"),
        (
            (JUG,),
            Made(Fraction("5.1"), JUG, two=True, filling="sand", litres=Fraction("3.1")),
            "two of “water jug”, one in each hand: each sand to 3.1 l",
        ),
        ((BAND,), Made(None, BAND, band="red"), "the red band"),
        ((), Made(in_kg("12 kg"), None), ""),
    ],
)
def test_what_to_take(had: tuple[Implement, ...], made: Made, told: str):
    assert making(Athlete("maren", "Maren", implements=had, span=SPAN), made) == told


def test_a_container_with_straight_sides_tells_its_height():
    jug = attrs.evolve(JUG, straight=True)
    made = Made(Fraction("5.1"), jug, filling="sand", litres=Fraction("3.1"))
    assert (
        making(Athlete("maren", "Maren", implements=(jug,), span=SPAN), made)
        == "water jug, sand to 3.1 l (62% of its height)"
    )


def test_containers_of_one_name_are_told_apart_by_their_volume():
    small, large = (attrs.evolve(JUG, volume=read_quantity(volume)) for volume in ("5 l", "20 l"))
    maren = Athlete("maren", "Maren", implements=(small, large), span=SPAN)
    assert making(maren, Made(Fraction(3), large, filling="sand", litres=Fraction(2))) == "20 l water jug, sand to 2 l"


@pytest.mark.parametrize(
    ("mass", "unit", "told"),
    [
        ("12 kg", "kg", "12 kg"),
        ("8.25 kg", "kg", "8.25 kg"),
        ("25 lb", "kg", "11.3 kg"),  # 11.339...: never rounded up
        ("155 lb", "lb", "155 lb"),
        ("20 kg", "lb", "44 lb"),  # 44.09...
        ("45 lb", "kg", "20.4 kg"),  # 20.41...
    ],
)
def test_no_weight_is_told_heavier_than_it_is(mass: str, unit: str, told: str):
    assert told_weight(in_kg(mass), unit) == told


def test_only_the_implements_that_there_are(ewa: Fitting, joss: Fitting):
    carry = next(entry.movement for entry in ewa.program.sessions[0].entries if entry.movement.name == "suitcase-carry")
    assert lifted_with(ewa.athlete, carry) == ("dumbbell", "handle", "container")
    assert lifted_with(joss.athlete, carry) == ("dumbbell",)
    nobody_says = Athlete("maren", "Maren", span=SPAN)
    assert lifted_with(nobody_says, carry) == carry.loaded_by


def test_the_loads_that_come_next(ewa: Fitting):
    session = ewa.program.sessions[0]
    places = {entry.movement.name: (block, entry) for block in session.blocks for entry in block.entries}
    assert next_loads(ewa.program, *places["deadlift"]).loads == (
        ("78.9 kg", "bar with 45 lb and 2 × 10 lb each side"),
        ("83.5 kg", "bar with 45 lb, 2 × 10 lb and 5 lb each side"),
    )
    assert next_loads(ewa.program, *places["push-up"]).loads == ()
    assert next_loads(ewa.program, *places["suitcase-carry"]).loads[:2] == (
        ("5.3 kg", "water jug, sand to 3.2 l (64% of its height)"),
        ("5.6 kg", "water jug, sand to 3.4 l (68% of its height)"),
    )


def test_the_bands_that_come_next(ewa: Fitting):
    (block, row) = next(
        (block, entry)
        for block in ewa.program.sessions[0].blocks
        for entry in block.entries
        if entry.movement.name == "band-row"
    )
    assert isinstance(row.rule, Rule)
    heavier = attrs.evolve(
        row,
        rule=attrs.evolve(row.rule, axes=(attrs.evolve(row.rule.axes[0], name="load", step=None, bound=None),)),
        fitted=Fitted(None, ((None, Made(None, attrs.evolve(BAND, steps=("yellow",)), band="yellow")),)),
    )
    assert next_loads(ewa.program, block, heavier).loads == (("the red band", ""),)
    assert next_step(heavier).endswith(": take the next stronger band.")


def test_the_loads_of_unlike_sets_come_next_together(ewa: Fitting):
    """Free of the cap of who trains alone, whose last set could go no higher."""
    athlete = attrs.evolve(ewa.athlete, alone=False)
    program = fit(ewa.written, athlete).program
    (block, squat) = next(
        (block, entry)
        for block in program.sessions[0].blocks
        for entry in block.entries
        if entry.movement.name == "back-squat"
    )
    first, how = next_loads(program, block, squat).loads[0]
    assert first == (
        "42.6 kg (bar with 2 × 10 lb and 5 lb each side), 60.8 kg (bar with 45 lb each side) "
        "and 69.8 kg (bar with 45 lb and 10 lb each side)"
    )
    assert how == ""
    assert "take the next heavier load" in next_step(squat)
    assert "2.5 kg" not in next_step(squat)
