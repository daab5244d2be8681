"""Axes of whole numbers: repetitions, their total, sets, cues, and the rungs of a ladder."""

from __future__ import annotations

from typing import TYPE_CHECKING

import attrs

from ..clock import AMRAP_REPETITIONS, full_sets, least_sets
from ..load_scale import Scale
from ..model import Amrap, Block, Dose, Entry, Program, Reps, Start, Target, WorkSet
from ..quantity import Figure, Quantity
from .kind import AxisKind, Unfit, counts, each, instead

if TYPE_CHECKING:
    from ..course import Means
    from ..progression import Course, Reason, Track


class Repetitions(AxisKind):
    """Repetitions of a set; of unlike sets the largest counts, and all move by as much. A range is climbed to its top."""

    name = "reps"
    begun = True
    beginning = "with {} repetitions"
    easing = "-2"
    uneased = "no set of work counts repetitions that could go"

    def _unfit(self, block: Block, entry: Entry) -> Unfit | None:
        if all(isinstance(work.target, Reps) for work in entry.dose.sets):
            return None
        if counts(entry):
            return "an `amrap` set has no fixed number of repetitions", "Write `total reps` or `rung at 15 reps`."
        return f"the dose of `{entry.movement.name}` counts none", instead(entry)

    def endless(self, dose: Dose) -> bool:
        return top_of_range(dose) is None

    def told(self, program: Program, block: Block, entry: Entry) -> int | None:
        return max((work.target.low for work in entry.dose.sets if isinstance(work.target, Reps)), default=None)

    def begins(self, start: Start) -> int | None:
        return start.reps

    def start(self, program: Program, block: Block, entry: Entry, means: Means) -> Figure | None:
        return None if self.told(program, block, entry) is None else super().start(program, block, entry, means)

    def bound(self, told: int | Quantity | str | None, entry: Entry, scale: Scale) -> Figure | None:
        return top_of_range(entry.dose) if told is None else super().bound(told, entry, scale)

    def moved(self, dose: Dose, figure: Figure, course: Course) -> Dose:
        return _with_repetitions(dose, int(figure))

    def eased(self, dose: Dose, change: int | Quantity) -> Dose:
        """At 1 or more; a set of as many as possible is left that much earlier."""
        if not isinstance(change, int):
            return dose

        def fewer(target: Target) -> Target:
            match target:
                case Reps(low=low, high=high):
                    return Reps(max(low + change, min(low, 1)), max(high + change, min(high, 1)))
                case Amrap(leaving=leaving, expect=expect):
                    planned = None if expect is None else max(expect + change, min(expect, 1))
                    return Amrap((leaving or 0) - change, planned)
            return target

        return each(dose, fewer)


def top_of_range(dose: Dose) -> int | None:
    """Where repetitions end that nothing else bounds: at the top of the range of the largest set, if it is one."""
    ranges = [work.target for work in dose.sets if isinstance(work.target, Reps)]
    largest = max(ranges, key=lambda target: (target.low, target.high), default=None)
    return largest.high if largest is not None and largest.low < largest.high else None


def _with_repetitions(dose: Dose, reps: int) -> Dose:
    """A range becomes the number that is asked for now."""
    more = reps - max((work.target.low for work in dose.sets if isinstance(work.target, Reps)), default=reps)

    def moved(target: Target) -> Target:
        return _counting(target, max(target.low + more, 1)) if isinstance(target, Reps) else target

    return each(dose, moved)


class TotalRepetitions(AxisKind):
    """Repetitions of all sets together, in a circuit of all rounds."""

    name = "total reps"
    begun = True

    def _unfit(self, block: Block, entry: Entry) -> Unfit | None:
        return None if counts(entry) else (f"the dose of `{entry.movement.name}` counts no repetitions", instead(entry))

    def told(self, program: Program, block: Block, entry: Entry) -> int | None:
        said = [_said(work.target) for work in entry.dose.sets]
        return None if None in said else sum(count or 0 for count in said) * (block.rounds or 1)

    def start(self, program: Program, block: Block, entry: Entry, means: Means) -> Figure | None:
        dose = entry.dose
        if means.begins is not None and means.begins.reps is not None:
            dose = _with_repetitions(expecting(dose, means.begins.reps), means.begins.reps)
        return sum(planned(work.target) for work in dose.sets) * (block.rounds or 1) or None

    def least(self, block: Block, entry: Entry, scale: Scale) -> Figure:
        return full_sets(block, entry)

    def moved(self, dose: Dose, figure: Figure, course: Course) -> Dose:
        """What is more, or less, shared out as evenly as can be, the first sets having more; in every round the same."""
        counted = [count for work in dose.sets if (count := planned(work.target))]
        total = int(figure) if course.rounds is None else -(-int(figure) // course.rounds)
        more, left = divmod(total - sum(counted), len(counted) or 1)
        if not more and not left:
            return dose
        made: dict[tuple[int, bool], WorkSet] = {}  # most sets of a dose are the same object, and stay so
        for place, work in enumerate(dose.sets):
            key = (id(work), place < left)
            if key not in made:
                reps = max(planned(work.target) + more + key[1], 1)
                made[key] = WorkSet(_counting(work.target, reps), work.load)
        return attrs.evolve(dose, sets=tuple(made[id(work), place < left] for place, work in enumerate(dose.sets)))


def _said(target: Target) -> int | None:
    """The repetitions that a set is planned with, where the coach says any."""
    match target:
        case Reps(low=low):
            return low
        case Amrap(expect=expect):
            return expect
    return None


def planned(target: Target) -> int:
    """The repetitions that a set is planned with; 0 where it counts none."""
    said = _said(target)
    return said if said is not None else AMRAP_REPETITIONS if isinstance(target, Amrap) else 0


def expecting(dose: Dose, expected: int) -> Dose:
    """A dose whose sets of as many as possible are planned with a number of repetitions."""

    def replanned(target: Target) -> Target:
        amrap = isinstance(target, Amrap) and planned(target) != expected
        return _counting(target, expected) if amrap else target

    return each(dose, replanned)


def _counting(target: Target, reps: int) -> Target:
    """A target with as many repetitions, where it counts them."""
    match target:
        case Reps():
            return Reps(reps, reps)
        case Amrap(leaving=leaving):
            return Amrap(leaving, reps)
    return target


class Sets(AxisKind):
    """Sets, added to the end and taken from it; in a circuit they are the block's rounds."""

    name = "sets"
    first = True  # a total is shared out among the sets there are
    easing = "-1"
    uneased = "every movement has its fewest sets already"

    def _unfit(self, block: Block, entry: Entry) -> Unfit | None:
        if block.rounds is not None:
            return "in a circuit the sets are the rounds of its block", instead(entry)
        sets = entry.dose.sets
        if len({work.target for work in sets}) > 1 or any(work.load is not None for work in sets):
            return (
                "the sets of this dose are unlike",
                "Advance `load`, or write the dose as like sets, such as `3 x 8`.",
            )
        return None

    def told(self, program: Program, block: Block, entry: Entry) -> int:
        return full_sets(block, entry)

    def least(self, block: Block, entry: Entry, scale: Scale) -> Figure:
        return least_sets(entry, full_sets(block, entry))

    def moved(self, dose: Dose, figure: Figure, course: Course) -> Dose:
        if course.rounds is not None:
            return dose
        more = (int(figure) - len(dose.sets)) * dose.sets[-1:]
        return attrs.evolve(dose, sets=(dose.sets + more)[: int(figure)])

    def eased(self, dose: Dose, change: int | Quantity) -> Dose:
        return attrs.evolve(dose, sets=dose.sets[: fewer_sets(len(dose.sets), change, dose.least_sets)])


def fewer_sets(sets: int, change: int | Quantity | None, least: int) -> int:
    """Sets, or rounds, in an easier week: at least the fewest worth doing, and at least 1."""
    return max(sets + change, min(sets, least), min(sets, 1)) if isinstance(change, int) else sets


class Cues(AxisKind):
    """Words that are counted in the pause of a repetition."""

    name = "cues"

    def _unfit(self, block: Block, entry: Entry) -> Unfit | None:
        if entry.dose.tempo.cues is not None:
            return None
        return "the dose has no counted pause", "Add `pause 3 cues` to the dose."

    def told(self, program: Program, block: Block, entry: Entry) -> int | None:
        return entry.dose.tempo.cues

    def moved(self, dose: Dose, figure: Figure, course: Course) -> Dose:
        return attrs.evolve(dose, tempo=attrs.evolve(dose.tempo, cues=int(figure)))


class Rung(AxisKind):
    """The form of a movement: its place on the ladder, from 0. It is no part of a dose."""

    name = "rung"
    ladder = True
    afresh = True
    own_step = None
    begun = True
    beginning = "on `{}`"

    def step_unfit(self, step: int | Quantity) -> Unfit:
        return "always the next rung", "`rung` alone"

    def _unfit(self, block: Block, entry: Entry) -> Unfit | None:
        if entry.movement.rungs:
            return None
        return f"`{entry.movement.name}` has no rungs", "Give the movement `rungs`, or advance something else."

    def endless(self, dose: Dose) -> bool:
        return False

    def begins(self, start: Start) -> str | None:
        return start.rung

    def start(self, program: Program, block: Block, entry: Entry, means: Means) -> Figure:
        return (None if means.begins is None else _place(entry, means.begins.rung)) or 0

    def least(self, block: Block, entry: Entry, scale: Scale) -> Figure:
        return 0

    def bound(self, told: int | Quantity | str | None, entry: Entry, scale: Scale) -> Figure | None:
        return _place(entry, told) if isinstance(told, str) else super().bound(told, entry, scale)

    def following(self, figure: Figure | None, track: Track, course: Course) -> tuple[Figure | None, Reason | None]:
        top = course.rungs - 1 if track.bound is None else track.bound
        if figure is None:
            return None, None
        return (figure + 1, None) if figure < top else (None, "top")


def _place(entry: Entry, name: str | None) -> int | None:
    return next((place for place, rung in enumerate(entry.movement.rungs) if rung.name == name), None)
