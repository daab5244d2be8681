"""Axes that are measured: load, times and distances."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

import attrs

from ..clock import rest_time
from ..load_scale import Scale, loads_of, makeable, scale_of
from ..model import Block, Dose, Entry, Movement, Program, Start, Timed, WorkSet
from ..model import Distance as AskedDistance
from ..quantity import UNITS, Figure, Quantity, figure_of
from .kind import AxisKind, Unfit, counts, each, instead

if TYPE_CHECKING:
    from ..course import Means
    from ..progression import Course, Reason, Track


def less(figure: Quantity, change: int | Quantity) -> Quantity:
    """A weight, time, distance or share after a change: a share of itself, or an amount in its own kind of unit.

    A load told as a share of the training maximum is eased by a share of that share: 80% by -10% is 72%. A figure that
    would be eased to nothing stays as it is.
    """
    if not isinstance(change, Quantity):
        return figure
    if change.unit == "%":
        eased = figure.amount * (1 + change.base)
    elif change.dimension == figure.dimension:
        eased = figure.amount + change.to(figure.unit).amount
    else:
        return figure
    return Quantity(eased, figure.unit) if eased > 0 else figure


class Load(AxisKind):
    """The load of a dose, to the next that can be made; of unlike sets the heaviest counts, and all move by as much."""

    name = "load"
    dimension = "mass"
    called = "a weight"
    example = "2 kg"
    bound_example = "20 kg"
    afresh = True
    own_step = None
    begun = True
    beginning = "at {}"
    easing = "-10%"
    uneased = "no movement of work has a load"

    def bound_share(self, dose: Dose) -> bool:
        return any(load.unit == "%" for load in loads_of(dose))

    def endless(self, dose: Dose) -> bool:
        return False

    def told(self, program: Program, block: Block, entry: Entry) -> Quantity | None:
        loads = loads_of(entry.dose)
        return max(loads, key=figure_of) if len({load.dimension for load in loads}) == 1 else None

    def begins(self, start: Start) -> Quantity | None:
        return start.load

    def start(self, program: Program, block: Block, entry: Entry, means: Means) -> Figure | None:
        """The athlete's first weight, else that of the heaviest set; of those that can be made, the next not heavier.

        Where neither is told, the one to begin with, else the lightest that can be made.
        """
        scale = scale_of(program.units, entry.dose, means)
        begun = None if means.begins is None or means.begins.load is None else scale.figure(means.begins.load)
        start = max(scale.figures(entry.dose), default=None) if begun is None else begun
        if start is not None and scale.most is not None:
            start = min(start, scale.most)
        if not means.loads or scale.shares:
            return start
        if start is None:
            return means.loads[0] if means.first is None else means.first
        return makeable(means.loads, start, start)

    def step(self, told: int | Quantity | None, scale: Scale) -> tuple[Figure | None, bool]:
        """Of a load told as a share of the maximum a step is points of it: from 70 % by 5 % to 75 %."""
        if isinstance(told, Quantity) and (scale.shares or told.unit != "%"):
            return scale.figure(told), False
        return super().step(told, scale)

    def part(self, told: int | Quantity, scale: Scale) -> tuple[Figure | None, bool]:
        if isinstance(told, Quantity) and told.unit != "%":
            return scale.figure(told), False
        return super().part(told, scale)

    def grain(self, scale: Scale) -> Figure:
        return scale.grain

    def least(self, block: Block, entry: Entry, scale: Scale) -> Figure:
        return scale.grain

    def bound(self, told: int | Quantity | str | None, entry: Entry, scale: Scale) -> Figure | None:
        ends = (scale.figure(told) if isinstance(told, Quantity) else None, scale.most)
        return min((end for end in ends if end is not None), default=None)

    def following(self, figure: Figure | None, track: Track, course: Course) -> tuple[Figure | None, Reason | None]:
        """The lightest that can be made and is heavier by the step or more, but not by more than the jump.

        With no step it is heavier by the least that is worth a step, which counts where loads are fine.
        """
        if figure is None:
            return None, "no-heavier" if course.loads == () else None
        if course.loads is None and track.step is None:
            return None, "bound" if track.bound is not None and figure >= track.bound else None
        wanted = figure * (1 + course.least_step) if track.step is None else figure + track.size(figure)
        following: Figure | None = wanted
        if course.shares and course.loads and track.step is not None:
            return _next_share(figure, wanted, track, course)
        if course.loads is not None:
            place = max(bisect_right(course.loads, figure), bisect_left(course.loads, wanted))
            following = course.loads[place] if place < len(course.loads) else None
        if following is None:
            return None, "no-heavier"
        if track.bound is not None and following > track.bound:
            return following, "bound"
        now = course.lifted(figure)  # of a share what is lifted for it, which may be much less
        return following, "jump" if figure and following - now > course.jump * now else None

    def back(self, figure: Figure, part: Figure, track: Track, course: Course) -> Figure:
        """To the next lighter that can be made, where anybody knows them."""
        if not course.loads:
            return super().back(figure, part, track, course)
        lighter = course.loads[: bisect_left(course.loads, figure)]
        return max((one for one in lighter if one <= figure - part), default=min(lighter, default=figure))

    def moved(self, dose: Dose, figure: Figure, course: Course) -> Dose:
        """The others move to the next that can be made and is not heavier."""
        scale = Scale(course.unit, course.maximum)
        told, load = scale.figures(dose), Fraction(figure)
        if not told:
            return attrs.evolve(dose, load=_in(load, course.unit))
        more = load - max(told)

        def moved(one: Quantity) -> Quantity:
            known = scale.figure(one)
            if known is None:
                return one
            wanted = max(known + more, min(known, scale.grain))
            if (wanted < load or course.shares) and course.loads:
                wanted = makeable(course.loads, wanted, min(course.loads[0], load))
            return _in(wanted, one.unit if one.dimension == UNITS[course.unit][0] else course.unit)

        return with_loads(dose, moved)

    def unsaid(self, movement: Movement) -> bool:
        """Only the athlete may know it."""
        return bool(movement.loaded_by)

    def figures(self, dose: Dose) -> tuple[Quantity, ...]:
        return loads_of(dose)

    def eased(self, dose: Dose, change: int | Quantity) -> Dose:
        ramp = tuple(attrs.evolve(lighter, share=less(lighter.share, change)) for lighter in dose.ramp)
        return attrs.evolve(with_loads(dose, lambda load: less(load, change)), ramp=ramp)


def _next_share(load: Figure, wanted: Figure, track: Track, course: Course) -> tuple[Figure | None, Reason | None]:
    """The next share of the maximum, judged by what is lifted for it."""
    if track.bound is not None and wanted > track.bound:
        return wanted, "bound"
    now, following = course.lifted(load), course.lifted(wanted)
    if course.loads and wanted > course.loads[-1] == now:
        return wanted, "no-heavier"
    return (following, "jump") if following - now > course.jump * now else (wanted, None)


def made_of(eased: Dose, ordinary: Dose, loads: Sequence[Fraction]) -> Dose:
    """An eased dose with each weight as the next that can be made and is not heavier; as in an ordinary week if none is."""

    def made(load: Quantity | None, before: Quantity | None) -> Quantity | None:
        if load is None or before is None or load.dimension != "mass":
            return load
        return _in(makeable(loads, load.base, before.base), load.unit)

    both = zip(eased.sets, ordinary.sets, strict=False)
    sets = tuple(WorkSet(work.target, made(work.load, before.load)) for work, before in both)
    return attrs.evolve(eased, sets=sets, load=made(eased.load, ordinary.load))


def with_loads(dose: Dose, change: Callable[[Quantity], Quantity]) -> Dose:
    """The dose with every load changed."""
    sets = tuple(work if work.load is None else WorkSet(work.target, change(work.load)) for work in dose.sets)
    return attrs.evolve(dose, sets=sets, load=None if dose.load is None else change(dose.load))


def _in(load: Fraction, unit: str) -> Quantity:
    return Quantity(load / UNITS[unit][1], unit)


class InSeconds(AxisKind):
    """An axis that is told in time."""

    dimension = "time"
    called = "a time"
    example = "5 s"
    bound_example = "60 s"
    alone = False


class Lower(InSeconds):
    """How long a repetition is lowered."""

    name = "lower"
    usual = "1 s"

    def _unfit(self, block: Block, entry: Entry) -> Unfit | None:
        if not counts(entry) or entry.movement.held:
            return f"`{entry.movement.name}` is not lowered", instead(entry)
        if entry.dose.tempo.lower is None:
            return "nothing says from how many seconds", "Add `lower 3 s` to the dose."
        return None

    def told(self, program: Program, block: Block, entry: Entry) -> Quantity | None:
        return entry.dose.tempo.lower

    def moved(self, dose: Dose, figure: Figure, course: Course) -> Dose:
        return attrs.evolve(dose, tempo=attrs.evolve(dose.tempo, lower=_seconds(figure)))


class Pause(InSeconds):
    """How long a repetition is paused in: not at all where nothing is said."""

    name = "pause"
    usual = "1 s"

    def _unfit(self, block: Block, entry: Entry) -> Unfit | None:
        if not counts(entry) or entry.movement.held:
            return f"the dose of `{entry.movement.name}` has no repetitions to pause in", instead(entry)
        tempo = entry.dose.tempo
        if tempo.pause is not None or tempo.cues is None:
            return None
        return "the pause is counted in cues", f"Write `cues by 1 to {tempo.cues + 3}`."

    def told(self, program: Program, block: Block, entry: Entry) -> Quantity:
        return entry.dose.tempo.pause or Quantity(Fraction(0), "s")

    def start(self, program: Program, block: Block, entry: Entry, means: Means) -> Figure:
        return super().start(program, block, entry, means) or Fraction(0)

    def moved(self, dose: Dose, figure: Figure, course: Course) -> Dose:
        return attrs.evolve(dose, tempo=attrs.evolve(dose.tempo, pause=_seconds(figure)))


class Rest(InSeconds):
    """The rest between two sets, which shrinks; in a circuit it is the block's."""

    name = "rest"
    usual = "15 s"
    shrinks = True

    def _unfit(self, block: Block, entry: Entry) -> Unfit | None:
        return None if block.rounds is None else ("in a circuit the rest is that of its block", instead(entry))

    def told(self, program: Program, block: Block, entry: Entry) -> Quantity:
        return Quantity(rest_time(program, block, entry), "s")

    def least(self, block: Block, entry: Entry, scale: Scale) -> Figure:
        return 0

    def moved(self, dose: Dose, figure: Figure, course: Course) -> Dose:
        return attrs.evolve(dose, rest=_seconds(figure))


def _seconds(figure: Figure) -> Quantity:
    return Quantity(Fraction(figure), "s")


class OfTarget(AxisKind):
    """A time or a distance that sets ask for; of unlike sets the largest counts, and all move by as much."""

    asked: type[Timed | AskedDistance]
    begun = True
    alone = False

    def told(self, program: Program, block: Block, entry: Entry) -> Quantity | None:
        return max(self.figures(entry.dose), key=figure_of, default=None)

    def begins(self, start: Start) -> Quantity | None:
        return start.amount

    def moved(self, dose: Dose, figure: Figure, course: Course) -> Dose:
        more = Fraction(figure) - max((one.base for one in self.figures(dose)), default=Fraction(figure))
        return self._each(dose, lambda told: _longer(told, more))

    def figures(self, dose: Dose) -> tuple[Quantity, ...]:
        return tuple(_asked(work.target) for work in dose.sets if isinstance(work.target, self.asked))

    def eased(self, dose: Dose, change: int | Quantity) -> Dose:
        return self._each(dose, lambda told: less(told, change))

    def _each(self, dose: Dose, change: Callable[[Quantity], Quantity]) -> Dose:
        asked = self.asked
        return each(dose, lambda target: asked(change(_asked(target))) if isinstance(target, asked) else target)


def _asked(target: Timed | AskedDistance) -> Quantity:
    return target.time if isinstance(target, Timed) else target.length


def _longer(told: Quantity, more: Fraction) -> Quantity:
    """A time or a distance with some more, but 1 s or 1 m at the least; in the unit it was told in where it stays short."""
    if not more:
        return told
    figure = max(told.base + more, min(Fraction(1), told.base))
    amount = figure / UNITS[told.unit][1]
    if (amount * 10).denominator == 1:
        return Quantity(amount, told.unit)
    return Quantity(figure, "s" if told.dimension == "time" else "m")


class Hold(OfTarget, InSeconds):
    """How long a position is held."""

    name = "hold"
    asked = Timed
    easing = "-5 s"
    uneased = "no movement of work is a held position"

    def _unfit(self, block: Block, entry: Entry) -> Unfit | None:
        if entry.movement.held:
            return None
        return f"`{entry.movement.name}` is not a held position", instead(entry)

    def moves(self, movement: Movement) -> bool:
        return movement.held


class Time(OfTarget, InSeconds):
    """How long a set lasts that is no hold."""

    name = "time"
    asked = Timed
    usual = "10%"
    easing = "-10%"
    uneased = "no dose of work but a hold is told in time"

    def _unfit(self, block: Block, entry: Entry) -> Unfit | None:
        if isinstance(entry.dose.sets[0].target, Timed) or "time" in entry.dose.logs:
            return None
        return "the dose is not told in time", instead(entry)

    def moves(self, movement: Movement) -> bool:
        return not movement.held


class Distance(OfTarget):
    """The distance that a set covers."""

    name = "distance"
    asked = AskedDistance
    dimension = "length"
    called = "a distance"
    example = "5 m"
    bound_example = "40 m"
    easing = "-5 m"
    uneased = "no dose of work is told in metres"

    def _unfit(self, block: Block, entry: Entry) -> Unfit | None:
        return None if _in_metres(entry) else ("the dose is not told in metres, and none are logged", _METRES)


class Pace(InSeconds):
    """How quick a set is, which shrinks: seconds for the distance that the dose is written with. It is no part of a dose.

    When the distance has moved, `pace_time` in `course.py` tells the seconds for the new one.
    """

    name = "pace"
    usual = "2%"
    shrinks = True

    def _unfit(self, block: Block, entry: Entry) -> Unfit | None:
        return None if _in_metres(entry) else ("without a distance there is no pace", _METRES)

    def start(self, program: Program, block: Block, entry: Entry, means: Means) -> Figure | None:
        """Known where the movement tells its speed."""
        written = Distance().told(program, block, entry)
        if written is None or not written.base or entry.movement.covers is None:
            return None
        length, time = entry.movement.covers
        return written.base * time.base / length.base

    def grain(self, scale: Scale) -> Figure:
        """So fine that a share is as good as exact: 2 % of 14 s are 0.28 s."""
        return Fraction(1, 10000)


_METRES = "Write the dose in metres, such as `4 x 20 m`, or add `log distance and time` to it."


def _in_metres(entry: Entry) -> bool:
    return isinstance(entry.dose.sets[0].target, AskedDistance) or "distance" in entry.dose.logs
