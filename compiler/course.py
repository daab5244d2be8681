"""From an entry to its course of progression, and from a standing on it back to a dose.

Of unlike sets the largest counts, for a load, for repetitions, a time or a distance: the others keep their distance from it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import TypeAlias, TypeVar

import attrs

from .clock import AMRAP_REPETITIONS, full_sets, rest_time
from .load_scale import Scale, makeable, scale_of
from .model import (
    Amrap,
    Axis,
    Block,
    Distance,
    Dose,
    Entry,
    Program,
    Reps,
    Rule,
    Start,
    Target,
    Tempo,
    Timed,
    Value,
    WorkSet,
)
from .progression import JUMP, Course, Figure, Standing, Track
from .quantity import UNITS, Quantity


@attrs.frozen(eq=False, repr=False, match_args=False)
class Means(Value):
    """What an athlete brings to a movement; all of it may be unknown.

    `loads` are those that can be made, in kg, rising; `maximum` is the training maximum in kg; `jump` the largest step of a
    load as a share, where it is not the program's; `cap` the largest load, as a share of the maximum.
    """

    begins: Start | None = None
    loads: tuple[Fraction, ...] | None = None
    maximum: Fraction | None = None
    jump: Fraction | None = None
    cap: Quantity | None = None


UNKNOWN = Means()

Starts: TypeAlias = dict[str, Figure | None]  # the figure of each axis, by its name

# The axes in which an athlete can begin otherwise than the dose says.
BEGUN = frozenset({"load", "reps", "total reps", "hold", "time", "distance", "rung"})


def course_of(program: Program, block: Block, entry: Entry, means: Means = UNKNOWN) -> Course | None:
    """The course of an entry; None where it has no rule, or stays as it is on purpose."""
    rule = entry.rule
    if not isinstance(rule, Rule):
        return None
    scale = _scale(program, entry.dose, means)
    starts = starting_figures(program, block, entry, means)
    names = [axis.name for axis in rule.axes]
    tracks = [_track(axis, names, starts, scale, (block, entry)) for axis in rule.axes]
    ease = None
    if rule.ease is not None and rule.missed is not None and _can_ease(rule.ease, scale):
        name, amount = rule.ease
        if name not in names:
            names.append(name)
            grain = scale.grain if name == "load" else 1
            tracks.append(Track(name, starts[name], grain=grain, least=_least(name, block, entry, scale)))
        ease = (names.index(name), *_amount(amount))
    counts = [work.target for work in entry.dose.sets if isinstance(work.target, Reps)]
    lows = [target.low for target in counts] or [0]
    return Course(
        tuple(tracks),
        axes=len(rule.axes),
        good=rule.good,
        missed=rule.missed,
        ease=ease,
        loads=means.loads if scale.unit != "%" else None,
        jump=means.jump if means.jump is not None else program.jump.base if program.jump is not None else JUMP,
        rungs=len(entry.movement.rungs),
        expected=_expected(entry.dose, means.begins),
        asked=min((target.high for target in counts), default=None),
        spread=max(lows) - min(lows),
        sets=full_sets(block, entry),
        rounds=block.rounds,
        unit=scale.unit,
        maximum=scale.maximum,
        shares=scale.shares and scale.unit != "%",
    )


def _scale(program: Program, dose: Dose, means: Means) -> Scale:
    return attrs.evolve(scale_of(program.units, dose, means.maximum, means.begins), cap=means.cap)


def _can_ease(ease: tuple[str, int | Quantity], scale: Scale) -> bool:
    """Whether anybody knows the part that is eased: not a weight, of a share of an unknown maximum."""
    name, amount = ease
    if name != "load" or not isinstance(amount, Quantity):
        return True
    return amount.unit == "%" or scale.figure(amount) is not None


def starting_figures(program: Program, block: Block, entry: Entry, means: Means = UNKNOWN) -> Starts:
    """The figure from which each axis of an entry starts: of the athlete, else of the dose; None where neither says it."""
    dose = entry.dose
    targets = [work.target for work in dose.sets]
    time = max((target.time.base for target in targets if isinstance(target, Timed)), default=None)
    figures: Starts = {
        "load": _load_start(program, dose, means),
        "reps": max((target.low for target in targets if isinstance(target, Reps)), default=None),
        "total reps": _total(_begun_dose(dose, means.begins)) * (block.rounds or 1) or None,
        "sets": full_sets(block, entry),
        "lower": _base(dose.tempo.lower),
        "pause": _base(dose.tempo.pause) or Fraction(0),
        "cues": dose.tempo.cues,
        "hold": time,
        "time": time,
        "distance": max((target.length.base for target in targets if isinstance(target, Distance)), default=None),
        "pace": _pace(entry),
        "rest": rest_time(program, block, entry),
        "rung": 0,
    }
    if means.begins is not None:
        figures.update(_begun(entry, means.begins))
    return figures


def _load_start(program: Program, dose: Dose, means: Means) -> Fraction | None:
    """The athlete's first weight, else that of the heaviest set; of those that can be made, the next not heavier.

    Where neither is told, the lightest that can be made.
    """
    scale = _scale(program, dose, means)
    begun = None if means.begins is None or means.begins.load is None else scale.figure(means.begins.load)
    start = max(scale.figures(dose), default=None) if begun is None else begun
    if start is not None and scale.most is not None:
        start = min(start, scale.most)
    if not means.loads or scale.shares:
        return start
    return means.loads[0] if start is None else makeable(means.loads, start, start)


def _pace(entry: Entry) -> Fraction | None:
    """Seconds for the distance of a set, where the movement tells its speed."""
    target = entry.dose.sets[0].target if entry.dose.sets else None
    if not isinstance(target, Distance) or entry.movement.covers is None:
        return None
    length, time = entry.movement.covers
    return target.length.base * time.base / length.base


def _begun(entry: Entry, begins: Start) -> Starts:
    """The figures at which an athlete begins otherwise than the dose says; the load and the total are known already."""
    figures: Starts = {}
    rungs = [rung.name for rung in entry.movement.rungs]
    if begins.rung in rungs:
        figures["rung"] = rungs.index(begins.rung)
    if begins.reps is not None and any(isinstance(work.target, Reps) for work in entry.dose.sets):
        figures["reps"] = begins.reps
    if begins.amount is not None:
        axes = ("hold", "time") if begins.amount.dimension == "time" else ("distance",)
        figures.update(dict.fromkeys(axes, begins.amount.base))
    return figures


def _total(dose: Dose) -> int:
    return sum(_planned(work.target) for work in dose.sets)


def _begun_dose(dose: Dose, begins: Start | None) -> Dose:
    """The dose with the repetitions at which an athlete begins."""
    if begins is None or begins.reps is None:
        return dose
    return _with_reps(_expecting(dose, begins.reps), begins.reps)


def _expected(dose: Dose, begins: Start | None) -> int | None:
    """The repetitions with which an `amrap` set begins; None for other sets."""
    amrap = next((work.target for work in dose.sets if isinstance(work.target, Amrap)), None)
    if amrap is None:
        return None
    return _planned(amrap) if begins is None or begins.reps is None else begins.reps


def _planned(target: Target) -> int:
    """The repetitions that a set is planned with; 0 where it counts none."""
    match target:
        case Reps(low=low):
            return low
        case Amrap(expect=expect):
            return AMRAP_REPETITIONS if expect is None else expect
    return 0


def _track(axis: Axis, names: list[str], starts: Starts, scale: Scale, place: tuple[Block, Entry]) -> Track:
    step: Figure | None = None if axis.name in ("load", "rung") else 1
    share = False
    if axis.step is not None:
        step, share = _amount(axis.step)
    if axis.name == "load" and isinstance(axis.step, Quantity) and (scale.shares or not share):
        # Of a load told as a share of the maximum a step is points of it: from 70 % by 5 % to 75 %.
        step, share = scale.figure(axis.step), False
    return Track(
        axis.name,
        starts[axis.name],
        step,
        share,
        scale.grain if axis.name == "load" else 1,
        _least(axis.name, *place, scale),
        _bound(axis, place[1], scale),
        axis.at,
        tuple(names.index(other) for other in axis.restarting if other in names),
    )


def _least(axis: str, block: Block, entry: Entry, scale: Scale) -> Figure:
    """Where an axis ends when it is eased, or shrinks without a bound."""
    match axis:
        case "load":
            return scale.grain
        case "sets":
            return min(entry.dose.least_sets, full_sets(block, entry))
        case "total reps":
            return full_sets(block, entry)
    return 0 if axis in ("rest", "rung") else 1


def _bound(axis: Axis, entry: Entry, scale: Scale) -> Figure | None:
    bound = axis.bound
    if axis.name == "load":
        ends = (scale.figure(bound) if isinstance(bound, Quantity) else None, scale.most)
        return min((end for end in ends if end is not None), default=None)
    if isinstance(bound, str):
        rungs = [rung.name for rung in entry.movement.rungs]
        return rungs.index(bound) if bound in rungs else None
    if isinstance(bound, Quantity):
        return bound.base
    return top_of_range(entry.dose) if bound is None and axis.name == "reps" else bound


def top_of_range(dose: Dose) -> int | None:
    """Where repetitions end that nothing else bounds: at the top of the range of the largest set, if it is one."""
    ranges = [work.target for work in dose.sets if isinstance(work.target, Reps)]
    largest = max(ranges, key=lambda target: (target.low, target.high), default=None)
    return largest.high if largest is not None and largest.low < largest.high else None


def _amount(value: int | Quantity) -> tuple[Figure, bool]:
    """A figure, and whether it is a share of another."""
    return (value.base, value.unit == "%") if isinstance(value, Quantity) else (value, False)


def _base(value: Quantity | None) -> Fraction | None:
    return None if value is None else value.base


# From a standing back to a dose


def dose_at(entry: Entry, course: Course, standing: Standing) -> Dose:
    """The dose of an entry as it is for somebody who stands there. A rung and a pace are no part of a dose."""
    dose = entry.dose
    if standing.expected is not None:
        dose = _expecting(dose, standing.expected)
    moved = {
        track.name: figure
        for track, figure in zip(course.tracks, standing.figures, strict=True)
        if figure is not None and (figure != track.start or track.name in BEGUN)
    }
    sets = moved.pop("sets", None)
    if sets is not None and course.rounds is None:  # before the total, which is shared out among the sets there are
        more = (int(sets) - len(dose.sets)) * dose.sets[-1:]
        dose = attrs.evolve(dose, sets=(dose.sets + more)[: int(sets)])
    for name, figure in moved.items():
        dose = _moved(dose, name, figure, course)
    return dose


def _moved(dose: Dose, name: str, figure: Figure, course: Course) -> Dose:
    match name:
        case "load":
            return _with_load(dose, Fraction(figure), course)
        case "reps":
            return _with_reps(dose, int(figure))
        case "total reps":
            return _with_total(dose, int(figure), course.rounds)
        case "lower" | "pause" | "cues":
            return attrs.evolve(dose, tempo=_with_tempo(dose.tempo, name, figure))
        case "hold" | "time":
            return _with_time(dose, Fraction(figure))
        case "distance":
            return _with_distance(dose, Fraction(figure))
        case "rest":
            return attrs.evolve(dose, rest=_seconds(figure))
    return dose


def _with_tempo(tempo: Tempo, part: str, figure: Figure) -> Tempo:
    if part == "cues":
        return attrs.evolve(tempo, cues=int(figure))
    seconds = _seconds(figure)
    return attrs.evolve(tempo, lower=seconds) if part == "lower" else attrs.evolve(tempo, pause=seconds)


def _with_time(dose: Dose, time: Fraction) -> Dose:
    more = time - max((work.target.time.base for work in dose.sets if isinstance(work.target, Timed)), default=time)
    return _each(dose, Timed, lambda target: Timed(_longer(target.time, more)))


def _with_distance(dose: Dose, length: Fraction) -> Dose:
    lengths = (work.target.length.base for work in dose.sets if isinstance(work.target, Distance))
    more = length - max(lengths, default=length)
    return _each(dose, Distance, lambda target: Distance(_longer(target.length, more)))


_Kind = TypeVar("_Kind", bound=Target)


def _each(dose: Dose, kind: type[_Kind], change: Callable[[_Kind], Target]) -> Dose:
    """The dose with every target of a kind changed."""
    changed: dict[int, WorkSet] = {}  # most sets of a dose are the same object
    for work in dose.sets:
        target = work.target
        if id(work) not in changed:
            changed[id(work)] = WorkSet(change(target), work.load) if isinstance(target, kind) else work
    return attrs.evolve(dose, sets=tuple(changed[id(work)] for work in dose.sets))


def _longer(told: Quantity, more: Fraction) -> Quantity:
    """A time or a distance with some more, but 1 s or 1 m at the least; in the unit it was told in where it stays short."""
    if not more:
        return told
    figure = max(told.base + more, min(Fraction(1), told.base))
    amount = figure / UNITS[told.unit][1]
    if (amount * 10).denominator == 1:
        return Quantity(amount, told.unit)
    return Quantity(figure, "s" if told.dimension == "time" else "m")


def _expecting(dose: Dose, expected: int) -> Dose:
    return _each(dose, Amrap, lambda target: target if _planned(target) == expected else _counting(target, expected))


def _with_load(dose: Dose, load: Fraction, course: Course) -> Dose:
    """All loads of a dose moved by as much as the heaviest; the others to the next that can be made and is not heavier."""
    scale = Scale(course.unit, course.maximum)
    told = scale.figures(dose)
    if not told:
        return attrs.evolve(dose, load=_in(load, course.unit))
    more = load - max(told)

    def moved(one: Quantity) -> Quantity:
        figure = scale.figure(one)
        if figure is None:
            return one
        wanted = max(figure + more, min(figure, scale.grain))
        if (wanted < load or course.shares) and course.loads:
            wanted = makeable(course.loads, wanted, min(course.loads[0], load))
        return _in(wanted, one.unit if one.dimension == UNITS[course.unit][0] else course.unit)

    sets = tuple(work if work.load is None else attrs.evolve(work, load=moved(work.load)) for work in dose.sets)
    return attrs.evolve(dose, sets=sets, load=None if dose.load is None else moved(dose.load))


def made_of(dose: Dose, loads: Sequence[Fraction]) -> Dose:
    """The dose with each of its weights as the next load that can be made and is not heavier, else as the lightest."""

    def made(load: Quantity | None) -> Quantity | None:
        if load is None or load.dimension != "mass":
            return load
        return _in(makeable(loads, load.base, loads[0]), load.unit)

    sets = tuple(attrs.evolve(work, load=made(work.load)) for work in dose.sets)
    return attrs.evolve(dose, load=made(dose.load), sets=sets)


def _in(load: Fraction, unit: str) -> Quantity:
    return Quantity(load / UNITS[unit][1], unit)


def _with_reps(dose: Dose, reps: int) -> Dose:
    """Unlike sets all move by as much as the largest; a range becomes the number that is asked for now."""
    more = reps - max((work.target.low for work in dose.sets if isinstance(work.target, Reps)), default=reps)
    return _each(dose, Reps, lambda target: _counting(target, max(target.low + more, 1)))


def _with_total(dose: Dose, total: int, rounds: int | None) -> Dose:
    """What is more, or less, shared out as evenly as can be, the first sets having more.

    A circuit asks the same in every round.
    """
    counts = [count for work in dose.sets if (count := _planned(work.target))]
    if rounds is not None:
        total = -(-total // rounds)
    more, left = divmod(total - sum(counts), len(counts) or 1)
    if not more and not left:
        return dose
    sets = []
    for place, work in enumerate(dose.sets):
        reps = max(_planned(work.target) + more + (place < left), 1)
        sets.append(attrs.evolve(work, target=_counting(work.target, reps)))
    return attrs.evolve(dose, sets=tuple(sets))


def _counting(target: Target, reps: int) -> Target:
    """A target with as many repetitions, where it counts them."""
    match target:
        case Reps():
            return Reps(reps, reps)
        case Amrap(leaving=leaving):
            return Amrap(leaving, reps)
    return target


def _seconds(figure: Figure) -> Quantity:
    return Quantity(Fraction(figure), "s")
