"""All loads of a barbell: milliseconds to work out every one, with how it is made. All are times of the processor."""

from collections.abc import Iterator
from statistics import median
from time import process_time

from setwright.compiler.implements import makings
from setwright.compiler.model import Athlete, Implement, Movement
from setwright.compiler.quantity import read_quantity

from ..generate import NOWHERE
from .trimming import Line

TURNS = 15
LIFT = Movement("lift", "Lift", ("squat",), loaded_by=("barbell",), span=NOWHERE)
KILOGRAMS = "2 x 25 kg, 2 x 20 kg, 2 x 15 kg, 2 x 10 kg, 4 x 5 kg, 4 x 2.5 kg, 4 x 1.25 kg, 4 x 0.5 kg"
MIXED = "{0} x 20 kg, {0} x 10 kg, {0} x 5 kg, {0} x 2.5 kg, {0} x 45 lb, {0} x 25 lb, {0} x 10 lb, {0} x 5 lb"


def lines() -> Iterator[Line]:
    """A set of plates in kilograms, and sets of kilograms and pounds mixed, of which nearly every sum is another."""
    yield _line("all loads of a barbell with 8 kinds of plates, ms", KILOGRAMS, 10)
    yield _line("the same, 4 kinds in kg and 4 in lb, two pairs of each", MIXED.format(4), 10)
    yield _line("the same, four pairs of each", MIXED.format(8), None)


def _line(what: str, plates: str, bar: float | None) -> Line:
    enumerated, in_full = [], []
    for turn in range(TURNS):
        ewa = Athlete("ewa", "Ewa", implements=(_barbell(plates, 20 + turn),), span=NOWHERE)
        start = process_time()
        made = makings(ewa, LIFT)
        enumerated.append(process_time() - start)
        assert all(one.load is not None for one in made)
        in_full.append(process_time() - start)
    first, whole = median(enumerated) * 1000, median(in_full) * 1000
    return what, whole, bar, f"{len(made):,} loads; {first:.1f} ms before each is told in full"


def _barbell(plates: str, mass: int) -> Implement:
    """A barbell of another mass in every turn, as what was worked out once is remembered."""
    kinds = (part.split(" x ") for part in plates.split(", "))
    each = tuple((int(count), read_quantity(plate)) for count, plate in kinds)
    return Implement("barbell", masses=(read_quantity(f"{mass} kg"),), plates=each, span=NOWHERE)
