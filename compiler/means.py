"""What an athlete brings to each movement: where they begin, the loads at hand, their maximum and their limits."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from .alike import alike
from .course import Means, course_of
from .guidelines import LEAST_STEP
from .implements import Makings, fine, makings
from .model import Athlete, Block, Entry, Movement, Program
from .progression import Course, Standing
from .remembering import remembered

MeansOf = Callable[[Movement], Means | None]  # None: the movement is not done


@remembered(4)  # all who ask of one athlete
def means_of(athlete: Athlete) -> MeansOf:
    """What an athlete brings to each movement; None for what is avoided, which nobody follows."""
    begins = {begin.movement: begin for begin in athlete.begins}
    maxima = {name: maximum.base for name, maximum in athlete.maxima}
    jump = athlete.jump.base if athlete.jump is not None else None
    excluded = {exclusion.movement for exclusion in athlete.avoids}

    known: dict[tuple[str, ...], tuple[Makings | None, Fraction]] = {}

    def means(movement: Movement) -> Means | None:
        if not excluded.isdisjoint((movement.name, *movement.patterns)):
            return None
        if movement.loaded_by not in known:
            step = LEAST_STEP if fine(athlete, movement) else Fraction(0)
            known[movement.loaded_by] = _loads(athlete, movement), step
        made, step = known[movement.loaded_by]
        begun = begins.get(movement.name)
        by_band = begun is not None and begun.band is not None
        return Means(
            begun,
            None if made is None or by_band else made.loads,
            maxima.get(movement.name),
            jump,
            cap=athlete.alone_cap if athlete.alone else None,
            least_step=step,
            first=made.first if made else None,
        )

    return means


def stands(program: Program, block: Block, entry: Entry) -> tuple[Course, Standing] | None:
    """The course of an entry that was fitted to an athlete, and where they stand on it; None where there is none."""
    if program.athlete is None or entry.fitted is None:
        return None
    return entry.fitted.stands or alike(_begun, program, block, entry)


def _begun(program: Program, block: Block, entry: Entry) -> tuple[Course, Standing] | None:
    """The course of an entry that no log has led on, and its beginning."""
    assert program.athlete is not None
    brought = means_of(program.athlete)(entry.movement)
    course = course_of(program, block, entry, brought) if brought is not None else None
    return None if course is None else (course, course.start)


def _loads(athlete: Athlete, movement: Movement) -> Makings | None:
    """The loads at hand for a movement; None where nobody says what is there, or a band is all there is."""
    if not movement.loaded_by or not (athlete.implements or athlete.things):
        return None
    made = makings(athlete, movement)
    bands = "band" in movement.loaded_by and any(implement.kind == "band" for implement in athlete.implements)
    return made if made.loads or not bands else None
