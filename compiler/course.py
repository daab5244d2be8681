"""From an entry to its course of progression, and from a standing on it back to a dose.

Of unlike sets the largest counts, for a load, for repetitions, a time or a distance: the others keep their distance from it.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import attrs

from .axes import AXES
from .axes.counted import expecting, planned
from .axes.kind import AxisKind
from .clock import full_sets
from .guidelines import LARGEST_STEP
from .load_scale import scale_of
from .model import Amrap, Block, Dose, Entry, Program, Reps, Rule, Start, Value
from .progression import Course, Standing, Track
from .quantity import Figure, Quantity


@attrs.frozen(eq=False, repr=False, match_args=False)
class Means(Value):
    """What an athlete brings to a movement; all of it may be unknown.

    `loads` are those that can be made, in kg, rising; `maximum` is the training maximum in kg; `jump` the largest step of a
    load as a share, where it is not the program's; `cap` the largest load, as a share of the maximum; `least_step` the
    smallest step worth taking, as a share, of loads so fine that the next is none; `first` the load to begin with where
    nothing is said.
    """

    begins: Start | None = None
    loads: tuple[Fraction, ...] | None = None
    maximum: Fraction | None = None
    jump: Fraction | None = None
    cap: Quantity | None = None
    least_step: Fraction = Fraction(0)
    first: Fraction | None = None


UNKNOWN = Means()


def course_of(program: Program, block: Block, entry: Entry, means: Means = UNKNOWN) -> Course | None:
    """The course of an entry; None where it has no rule, or stays as it is on purpose."""
    rule = entry.rule
    if not isinstance(rule, Rule):
        return None
    scale = scale_of(program.units, entry.dose, means)
    names = [axis.name for axis in rule.axes]

    def track(name: str, **ends: Any) -> Track:
        kind = AXES[name]
        start, grain = kind.start(program, block, entry, means), kind.grain(scale)
        return Track(kind, start, grain=grain, least=kind.least(block, entry, scale), **ends)

    tracks = []
    for axis in rule.axes:
        step, share = AXES[axis.name].step(axis.step, scale)
        bound = AXES[axis.name].bound(axis.bound, entry, scale)
        restarts = tuple(names.index(other) for other in axis.restarting if other in names)
        tracks.append(track(axis.name, step=step, share=share, bound=bound, at=axis.at, restarts=restarts))
    ease = None
    if rule.ease is not None and rule.missed is not None:
        name, amount = rule.ease
        less, share = AXES[name].part(amount, scale)
        if less is not None:
            if name not in names:
                names.append(name)
                tracks.append(track(name))
            ease = (names.index(name), less, share)
    counts = [work.target for work in entry.dose.sets if isinstance(work.target, Reps)]
    lows = [target.low for target in counts] or [0]
    return Course(
        tuple(tracks),
        axes=len(rule.axes),
        good=rule.good,
        missed=rule.missed,
        ease=ease,
        loads=means.loads if scale.unit != "%" else None,
        jump=_jump(program, means),
        least_step=means.least_step,
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


def _jump(program: Program, means: Means) -> Fraction:
    """The largest step of a load as a share: the athlete's own, else the program's, else what guidelines advise."""
    if means.jump is not None:
        return means.jump
    return LARGEST_STEP if program.jump is None else program.jump.base


def _expected(dose: Dose, begins: Start | None) -> int | None:
    """The repetitions with which an `amrap` set begins; None for other sets."""
    amrap = next((work.target for work in dose.sets if isinstance(work.target, Amrap)), None)
    if amrap is None:
        return None
    return planned(amrap) if begins is None or begins.reps is None else begins.reps


def dose_at(entry: Entry, course: Course, standing: Standing) -> Dose:
    """The dose of an entry as it is for somebody who stands there. A rung and a pace are no part of a dose."""
    dose = entry.dose
    if standing.expected is not None:
        dose = expecting(dose, standing.expected)
    moved: list[tuple[AxisKind, Figure]] = []
    for track, figure in zip(course.tracks, standing.figures, strict=True):
        if figure is not None and (figure != track.start or track.kind.begun):
            moved.insert(0 if track.kind.first else len(moved), (track.kind, figure))
    for kind, figure in moved:
        dose = kind.moved(dose, figure, course)
    return dose


def pace_time(entry: Entry, dose: Dose, pace: Figure) -> Quantity:
    """The time for the distance of a dose, at a pace that is told for the distance of the entry as written.

    Of unlike sets it is the time of the longest.
    """
    written, now = (max(length.base for length in AXES["distance"].figures(one)) for one in (entry.dose, dose))
    return Quantity(pace * now / written, "s")
