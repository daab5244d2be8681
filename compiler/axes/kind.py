"""What an axis of progression is: all that the compiler knows of one, in one class.

Most axes are counts that grow by whole numbers; that is what is written here. An axis of its own overrides what is
different. Figures are as `progression.py` tells them.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import attrs

from ..load_scale import Scale
from ..model import Amrap, Block, Distance, Dose, Entry, Movement, Program, Reps, Start, Target, Timed, WorkSet
from ..quantity import Dimension, Figure, Quantity, figure_of

if TYPE_CHECKING:
    from ..course import Means
    from ..progression import Course, Reason, Track

Unfit = tuple[str, str]  # why an axis does not suit an entry, and what to write instead


class AxisKind:
    """An axis of progression, as `load` or `reps`."""

    name: str
    dimension: Dimension | None = None  # of its steps and bounds; None for whole numbers
    called: str = "a whole number"  # a step, in words
    example: str = "1"  # a step
    usual: str | None = None  # a step that is usual, where it is not the example
    bound_example: str = "12"
    alone: bool = True  # it may stand without a step
    own_step: Figure | None = 1  # its step then; None where the athlete's things tell it
    shrinks: bool = False
    ladder: bool = False  # its figures are the rungs of a movement
    afresh: bool = False  # after a step the repetitions of before tell nothing: another variant, or another load
    first: bool = False  # a dose is moved by it before it is by others
    begun: bool = False  # an athlete can begin otherwise than the dose says
    beginning: str = "with {}"  # how an athlete begins, in words
    easing: str | None = None  # an example of how an easier week changes it, where one can
    uneased: str = ""  # why such a change may ease nothing

    def __repr__(self) -> str:
        return f"<{self.name}>"

    # What suits it

    def suits(self, value: int | Quantity | str, *, share: bool) -> bool:
        """Whether a value is told in what the axis moves in, or as a share where that can be."""
        if isinstance(value, Quantity):
            return value.dimension == self.dimension or (share and value.unit == "%")
        return self.dimension is None and isinstance(value, int)

    def step_unfit(self, step: int | Quantity) -> Unfit | None:
        """What its step is told in, and what to write instead; None where a step suits it."""
        if self.suits(step, share=self.dimension is not None):
            return None
        example = f"`{self.name} by {self.example}`"
        if self.dimension is None:
            return self.called, example
        return f"{self.called} or a share", f"{example} or `{self.name} by 5%`"

    def bound_share(self, dose: Dose) -> bool:
        """Whether its bound can be a share of the training maximum."""
        return False

    def unfit(self, block: Block, entry: Entry) -> Unfit | None:
        """Why it does not suit an entry, and what to write instead; None where it suits, or cannot be judged."""
        return self._unfit(block, entry) if entry.dose.sets else None

    def _unfit(self, block: Block, entry: Entry) -> Unfit | None:
        return None

    def endless(self, dose: Dose) -> bool:
        """Whether nothing ends it where it has no bound."""
        return not self.shrinks

    # Where it starts and ends, and by how much it moves

    def told(self, program: Program, block: Block, entry: Entry) -> int | Quantity | None:
        """Where it starts, as the program tells it."""
        return None

    def begins(self, start: Start) -> int | Quantity | str | None:
        """Where an athlete begins, as they tell it."""
        return None

    def start(self, program: Program, block: Block, entry: Entry, means: Means) -> Figure | None:
        """The figure at which it starts: the athlete's, else the dose's; None where neither says it."""
        begun = None if means.begins is None else self.begins(means.begins)
        if begun is None or isinstance(begun, str) or not self.suits(begun, share=False):
            begun = self.told(program, block, entry)
        return None if begun is None else figure_of(begun)

    def step(self, told: int | Quantity | None, scale: Scale) -> tuple[Figure | None, bool]:
        """A step, and whether it is a share of the figure that moves."""
        return (self.own_step, False) if told is None else _amount(told)

    def part(self, told: int | Quantity, scale: Scale) -> tuple[Figure | None, bool]:
        """What it is eased by, and whether that is a share of its figure; None where nobody knows it."""
        return _amount(told)

    def grain(self, scale: Scale) -> Figure:
        """What a share of it is rounded down to."""
        return 1

    def least(self, block: Block, entry: Entry, scale: Scale) -> Figure:
        """Where it ends when it is eased, or shrinks without a bound."""
        return 1

    def bound(self, told: int | Quantity | str | None, entry: Entry, scale: Scale) -> Figure | None:
        """Its bound as a figure."""
        return None if told is None or isinstance(told, str) else figure_of(told)

    # How it moves

    def following(self, figure: Figure | None, track: Track, course: Course) -> tuple[Figure | None, Reason | None]:
        """The next figure, and why it cannot be taken, or None where it can: one that nobody knows stays unknown."""
        if figure is None:
            return None, None
        if self.shrinks:
            end = track.least if track.bound is None else max(track.bound, track.least)
            following = figure - track.size(figure)
            return following, None if following >= end else "bound"
        following = figure + track.size(figure)
        return following, None if track.bound is None or following <= track.bound else "bound"

    def back(self, figure: Figure, part: Figure, track: Track, course: Course) -> Figure:
        """A figure taken back by a part, but never below the least."""
        return figure + part if self.shrinks else max(figure - part, min(track.least, figure))

    def moved(self, dose: Dose, figure: Figure, course: Course) -> Dose:
        """A dose with another figure; itself where the figure is no part of a dose."""
        return dose

    # Easier weeks

    def moves(self, movement: Movement) -> bool:
        """Whether it is this axis of a movement that an easier week changes."""
        return True

    def unsaid(self, movement: Movement) -> bool:
        """Whether a movement has such a figure that no dose says."""
        return False

    def figures(self, dose: Dose) -> tuple[Quantity, ...]:
        """The weights, times or distances in a dose."""
        return ()

    def eased(self, dose: Dose, change: int | Quantity) -> Dose:
        """A dose in an easier week; itself where the change is told in another kind of unit."""
        return dose


def _amount(told: int | Quantity) -> tuple[Figure, bool]:
    return figure_of(told), isinstance(told, Quantity) and told.unit == "%"


def instead(entry: Entry) -> str:
    """The axis that moves what a dose does tell."""
    match entry.dose.sets[0].target:
        case Timed():
            return "Write `hold by 5 s`." if entry.movement.held else "Write `time by 10%`."
        case Distance():
            return "Write `distance by 5 m`."
        case Amrap():
            return "Write `total reps by 1`."
    return "Write `reps by 1 to 12`."


def counts(entry: Entry) -> bool:
    """Whether a dose counts repetitions."""
    return isinstance(entry.dose.sets[0].target, Reps | Amrap)


def each(dose: Dose, change: Callable[[Target], Target]) -> Dose:
    """A dose with all of its targets changed."""
    changed: dict[int, WorkSet] = {}  # most sets of a dose are the same object
    for work in dose.sets:
        if id(work) not in changed:
            target = change(work.target)
            changed[id(work)] = work if target is work.target else WorkSet(target, work.load)
    return attrs.evolve(dose, sets=tuple(changed[id(work)] for work in dose.sets))
