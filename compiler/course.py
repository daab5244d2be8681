"""From an entry to its course of progression, and from a standing on it back to a dose."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import attrs

from .clock import AMRAP_REPETITIONS, full_sets, rest_time
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
    load as a share, where it is not the program's.
    """

    begins: Start | None = None
    loads: tuple[Fraction, ...] | None = None
    maximum: Fraction | None = None
    jump: Fraction | None = None


UNKNOWN = Means()


def course_of(program: Program, block: Block, entry: Entry, means: Means = UNKNOWN) -> Course | None:
    """The course of an entry; None where it has no rule, or stays as it is on purpose."""
    rule = entry.rule
    if not isinstance(rule, Rule):
        return None
    scale = _scale(program, entry.dose, means)
    starts = starting_figures(program, block, entry, means)
    names = [axis.name for axis in rule.axes]
    tracks = [_track(axis, names, starts, scale, entry) for axis in rule.axes]
    ease = None
    if rule.ease is not None and rule.missed is not None:
        name, amount = rule.ease
        if name not in names:
            names.append(name)
            tracks.append(Track(name, starts[name], grain=scale.grain if name == "load" else 1))
        figure, share = _amount(amount)
        ease = (names.index(name), figure, share)
    return Course(
        tuple(tracks),
        axes=len(rule.axes),
        good=rule.good,
        missed=rule.missed,
        ease=ease,
        loads=means.loads if scale.unit != "%" else None,
        jump=_jump(program, means),
        rungs=len(entry.movement.rungs),
        expected=_expected(entry.dose, means.begins),
        rounds=block.rounds,
        unit=scale.unit,
    )


def _jump(program: Program, means: Means) -> Fraction:
    if means.jump is not None:
        return means.jump
    return program.jump.base if program.jump is not None else JUMP


@attrs.frozen(eq=False, repr=False, match_args=False)
class _Scale(Value):
    """What the loads of an entry are told in: the unit, what one share of the maximum is in it, and the rounding."""

    unit: str
    whole: Fraction = Fraction(1)

    @property
    def grain(self) -> Fraction:
        """A tenth of the unit."""
        return UNITS[self.unit][1] / 10


def _scale(program: Program, dose: Dose, means: Means) -> _Scale:
    """A share of the maximum stays one, unless the maximum is known, or the athlete begins with a weight."""
    loads = [dose.load, *(work.load for work in dose.sets)]
    told = next((load.unit for load in loads if load is not None), None)
    begun = means.begins is not None and means.begins.load is not None
    if told != "%":
        return _Scale(told or program.units)
    if dose.load is None or (means.maximum is None and not begun):
        return _Scale("%")
    return _Scale(program.units, Fraction(1) if means.maximum is None else means.maximum)


def starting_figures(program: Program, block: Block, entry: Entry, means: Means = UNKNOWN) -> dict[str, Figure | None]:
    """The figure from which each axis of an entry starts: of the athlete, else of the dose; None where neither says it."""
    dose = entry.dose
    sets = full_sets(block, entry)
    rounds = block.rounds or 1
    first = dose.sets[0].target if dose.sets else None
    reps = [work.target.low for work in dose.sets if isinstance(work.target, Reps)]
    expected = _expected(dose, means.begins)
    time = first.time.base if isinstance(first, Timed) else None
    figures: dict[str, Figure | None] = {
        "load": _load_start(program, dose, means),
        "reps": max(reps, default=None),
        "total reps": (sum(reps) * rounds if expected is None else expected * sets) or None,
        "sets": sets,
        "lower": _base(dose.tempo.lower),
        "pause": _base(dose.tempo.pause) or Fraction(0),
        "cues": dose.tempo.cues,
        "hold": time,
        "time": time,
        "distance": first.length.base if isinstance(first, Distance) else None,
        "pace": _pace(entry),
        "rest": rest_time(program, block, entry),
        "rung": 0,
    }
    if means.begins is not None:
        figures.update(_begun(entry, means.begins, bool(reps), sets))
    return figures


def _load_start(program: Program, dose: Dose, means: Means) -> Fraction | None:
    """Of sets with loads of their own the heaviest counts: the others keep their distance from it."""
    if dose.load is not None:
        return dose.load.base * _scale(program, dose, means).whole
    return max((work.load.base for work in dose.sets if work.load is not None), default=None)


def _pace(entry: Entry) -> Fraction | None:
    """Seconds for the distance of a set, where the movement tells its speed."""
    target = entry.dose.sets[0].target if entry.dose.sets else None
    if not isinstance(target, Distance) or entry.movement.covers is None:
        return None
    length, time = entry.movement.covers
    return target.length.base * time.base / length.base


def _begun(entry: Entry, begins: Start, counts: bool, sets: int) -> dict[str, Figure | None]:
    """The figures at which an athlete begins otherwise than the dose says."""
    figures: dict[str, Figure | None] = {}
    if begins.load is not None:
        figures["load"] = begins.load.base
    rungs = [rung.name for rung in entry.movement.rungs]
    if begins.rung in rungs:
        figures["rung"] = rungs.index(begins.rung)
    if begins.reps is not None and counts:
        figures["reps"] = begins.reps
        figures["total reps"] = begins.reps * sets
    if begins.amount is not None:
        axes = ("hold", "time") if begins.amount.dimension == "time" else ("distance",)
        figures.update(dict.fromkeys(axes, begins.amount.base))
    return figures


def _expected(dose: Dose, begins: Start | None) -> int | None:
    """The repetitions with which an `amrap` set begins; None for other sets."""
    amrap = next((work.target for work in dose.sets if isinstance(work.target, Amrap)), None)
    if amrap is None:
        return None
    if begins is not None and begins.reps is not None:
        return begins.reps
    return AMRAP_REPETITIONS if amrap.expect is None else amrap.expect


def _track(axis: Axis, names: list[str], starts: dict[str, Figure | None], scale: _Scale, entry: Entry) -> Track:
    step: Figure | None
    if axis.step is not None:
        step, share = _amount(axis.step)
    else:
        step, share = None if axis.name in ("load", "rung") else 1, False
    if share and axis.name == "load" and _is_share(entry.dose) and step is not None:
        # Of a load told as a share of the maximum the step is points of it: from 70 % by 5 % to 75 %.
        step, share = step * scale.whole, False
    return Track(
        axis.name,
        starts[axis.name],
        step,
        share,
        scale.grain if axis.name == "load" else 1,
        _bound(axis, entry, scale),
        axis.at,
        tuple(names.index(other) for other in axis.restarting if other in names),
    )


def _is_share(dose: Dose) -> bool:
    return any(load is not None and load.unit == "%" for load in (dose.load, *(work.load for work in dose.sets)))


def _bound(axis: Axis, entry: Entry, scale: _Scale) -> Figure | None:
    bound = axis.bound
    if isinstance(bound, str):
        rungs = [rung.name for rung in entry.movement.rungs]
        return rungs.index(bound) if bound in rungs else None
    if isinstance(bound, Quantity):
        return bound.base * scale.whole if bound.unit == "%" else bound.base
    target = entry.dose.sets[0].target if entry.dose.sets else None
    if bound is None and axis.name == "reps" and isinstance(target, Reps) and target.low < target.high:
        return target.high  # a range ends at its top
    return bound


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
    figures = {track.name: figure for track, figure in zip(course.tracks, standing.figures, strict=True)}
    sets = figures.pop("sets", None)
    if sets is not None:  # before the total, which is shared out among the sets there are
        dose = attrs.evolve(dose, sets=dose.sets[:1] * int(sets))
    for name, figure in figures.items():
        if figure is not None:
            dose = _moved(dose, name, figure, course)
    return dose


def _moved(dose: Dose, name: str, figure: Figure, course: Course) -> Dose:
    match name:
        case "load":
            return _with_load(dose, Fraction(figure), course.unit)
        case "reps":
            return _with_reps(dose, int(figure))
        case "total reps":
            return _with_total(dose, int(figure), course.rounds)
        case "lower":
            return attrs.evolve(dose, tempo=attrs.evolve(dose.tempo, lower=_seconds(figure)))
        case "pause" if figure:
            return attrs.evolve(dose, tempo=attrs.evolve(dose.tempo, pause=_seconds(figure)))
        case "cues":
            return attrs.evolve(dose, tempo=attrs.evolve(dose.tempo, cues=int(figure)))
        case "hold" | "time":
            return _each(dose, Timed, lambda target: Timed(_seconds(figure)))
        case "distance":
            return _each(dose, Distance, lambda target: Distance(Quantity(Fraction(figure), "m")))
        case "rest":
            return attrs.evolve(dose, rest=_seconds(figure))
    return dose


def _each(dose: Dose, kind: type[Target], change: Callable[[Target], Target]) -> Dose:
    """The dose with every target of a kind changed."""

    changed: dict[int, WorkSet] = {}  # most sets of a dose are the same object
    for work in dose.sets:
        if id(work) not in changed:
            same = not isinstance(work.target, kind)
            changed[id(work)] = work if same else WorkSet(change(work.target), work.load)
    return attrs.evolve(dose, sets=tuple(changed[id(work)] for work in dose.sets))


def _expecting(dose: Dose, expected: int) -> Dose:
    return _each(dose, Amrap, lambda target: _with_repetitions(target, expected))


def _with_repetitions(target: Target, repetitions: int) -> Target:
    return Amrap(target.leaving, repetitions) if isinstance(target, Amrap) else Reps(repetitions, repetitions)


def _with_load(dose: Dose, load: Fraction, unit: str) -> Dose:
    """Sets with loads of their own all move by as much as the heaviest."""
    own = [work.load.base for work in dose.sets if work.load is not None]
    if dose.load is not None or not own:
        return attrs.evolve(dose, load=_in(load, unit))
    more = load - max(own)
    sets = (
        work if work.load is None else attrs.evolve(work, load=_in(work.load.base + more, unit)) for work in dose.sets
    )
    return attrs.evolve(dose, sets=tuple(sets))


def _in(load: Fraction, unit: str) -> Quantity:
    return Quantity(load / UNITS[unit][1], unit)


def _with_reps(dose: Dose, reps: int) -> Dose:
    """Unlike sets all move by as much as the largest; a range becomes the number that is asked for now."""
    more = reps - max((work.target.low for work in dose.sets if isinstance(work.target, Reps)), default=reps)

    def moved(target: Target) -> Target:
        assert isinstance(target, Reps)
        return Reps(target.low + more, target.low + more)

    return _each(dose, Reps, moved)


def _with_total(dose: Dose, total: int, rounds: int | None) -> Dose:
    """A total shared out as evenly as can be, the first sets having more; a circuit asks the same in every round."""
    sets = []
    left = total
    for work, remaining in zip(dose.sets, range(rounds or len(dose.sets), 0, -1), strict=False):
        share = -(-left // remaining)
        left -= share
        sets.append(attrs.evolve(work, target=_with_repetitions(work.target, share)))
    return attrs.evolve(dose, sets=tuple(sets))


def _seconds(figure: Figure) -> Quantity:
    return Quantity(Fraction(figure), "s")
