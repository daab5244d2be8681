"""Whether a logged movement went as it was asked for: good, or why it fell short.

Good is when each set reached its target, at the load, on the rung and in the tempo asked for; a set of as many repetitions
as possible, when all of them together beat the best so far. In a short version the sets that were done count. More than was
asked for is good: a heavier load, a stronger band, a higher rung, a slower lowering.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

import attrs

from .model import Amrap, Distance, Dose, LoggedEntry, Movement, Reps, Timed, Value
from .quantity import Quantity, figure_of

Short = Literal["load", "band", "rung", "lower", "pause", "cues", "rest", "sets", "result", "best", "distance", "time"]


@attrs.frozen(eq=False, repr=False, match_args=False)
class Shortfall(Value):
    """What fell short: what was asked for, and what was done. `sets` and `best` are counts, `result` is of one set."""

    kind: Short
    asked: Quantity | int | str
    done: Quantity | int | str


@attrs.frozen(eq=False, repr=False, match_args=False)
class Asked(Value):
    """What a session asked for in a movement: its dose with as many sets as there are, and what stands in no dose.

    `load` is what is lifted in the heaviest set, in kg, where anybody knows it. `bands` are those at hand, the weakest first,
    for what is done with a band. `best` is the most repetitions so far of all
    `amrap` sets together.
    """

    movement: Movement
    dose: Dose
    sets: int
    load: Fraction | None = None
    band: str | None = None
    bands: tuple[str, ...] = ()
    rung: str | None = None
    best: int | None = None
    distance: Fraction | None = None
    time: Fraction | None = None


# Loads so near are the same: they are told to a tenth of a kilogram, and people write down whole ones. Common practice, no source
GRAIN, NEAR = Fraction(1, 20), Fraction(1, 100)


def shortfall(asked: Asked, done: LoggedEntry, *, short: bool) -> Shortfall | None:
    """What fell short of what was asked for; None where the session was good."""
    return _state(asked, done) or _sets(asked, done, short=short) or _results(asked, done)


def _state(asked: Asked, done: LoggedEntry) -> Shortfall | None:
    """What the sets were done with, against what was asked for; what the log does not tell was as asked."""
    if asked.load is not None and done.load is not None and is_lighter(done.load.base, asked.load):
        return Shortfall("load", Quantity(asked.load, "kg"), done.load)
    if climbed(asked.bands, asked.band, done.band) < 0:
        return Shortfall("band", asked.band or "", done.band or "")
    if climbed([rung.name for rung in asked.movement.rungs], asked.rung, done.rung) < 0:
        return Shortfall("rung", asked.rung or "", done.rung or "")
    tempo, was = asked.dose.tempo, done.tempo
    if tempo.lower is not None and was.lower is not None and was.lower.base < tempo.lower.base:
        return Shortfall("lower", tempo.lower, was.lower)
    if tempo.pause is not None and was.pause is not None and was.pause.base < tempo.pause.base:
        return Shortfall("pause", tempo.pause, was.pause)
    if tempo.cues is not None and was.cues is not None and was.cues < tempo.cues:
        return Shortfall("cues", tempo.cues, was.cues)
    if asked.dose.rest is not None and done.rest is not None and done.rest.base > asked.dose.rest.base:
        return Shortfall("rest", asked.dose.rest, done.rest)
    return None


def is_lighter(load: Fraction, than: Fraction) -> bool:
    """Whether a load is lighter than another by more than what is told of either."""
    return load < than - max(GRAIN, than * NEAR)


def climbed(ladder: Sequence[str], asked: str | None, done: str | None) -> int:
    """How many steps above what was asked for something was done; below zero for less, 0 where nobody can tell."""
    return ladder.index(done) - ladder.index(asked) if asked in ladder and done in ladder else 0


def _sets(asked: Asked, done: LoggedEntry, *, short: bool) -> Shortfall | None:
    if asked.dose.logs:
        return None
    wanted = asked.dose.least_sets if short else asked.sets
    return Shortfall("sets", wanted, len(done.results)) if len(done.results) < wanted else None


def _results(asked: Asked, done: LoggedEntry) -> Shortfall | None:
    """The first set that did not reach its target; of `amrap` sets, all together."""
    if asked.dose.logs:
        return _measured(asked, done)
    targets = [work.target for work in asked.dose.sets]
    total = 0
    for place, result in enumerate(done.results):
        target = targets[min(place, len(targets) - 1)]
        if isinstance(target, Amrap):
            total += result if isinstance(result, int) else 0
            continue
        wanted = (
            target.high if isinstance(target, Reps) else target.time if isinstance(target, Timed) else target.length
        )
        if figure_of(result) < figure_of(wanted):
            return Shortfall("result", wanted, result)
    if asked.best is not None and any(isinstance(target, Amrap) for target in targets) and total <= asked.best:
        return Shortfall("best", asked.best, total)
    return None


def _measured(asked: Asked, done: LoggedEntry) -> Shortfall | None:
    """A distance and a time that were written down, against what is asked for by now."""
    far, took = measured(done)
    for target in (work.target for work in asked.dose.sets):
        if isinstance(target, Timed) and took is not None and took < target.time.base and asked.time is None:
            return Shortfall("time", target.time, Quantity(took, "s"))
        if isinstance(target, Distance) and far is not None and far < target.length.base:
            return Shortfall("distance", target.length, Quantity(far, "m"))
    if asked.distance is not None and far is not None and far < asked.distance:
        return Shortfall("distance", Quantity(asked.distance, "m"), Quantity(far, "m"))
    if asked.time is not None and took is not None and took < asked.time:
        return Shortfall("time", Quantity(asked.time, "s"), Quantity(took, "s"))
    return None


def measured(done: LoggedEntry) -> tuple[Fraction | None, Fraction | None]:
    """The metres and the seconds of a movement that writes them down, all of its figures together."""
    told = [result for result in done.results if isinstance(result, Quantity)]
    metres = [result.base for result in told if result.dimension == "length"]
    seconds = [result.base for result in told if result.dimension == "time"]
    return sum(metres, Fraction(0)) if metres else None, sum(seconds, Fraction(0)) if seconds else None
