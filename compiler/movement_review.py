"""What came of one movement in an athlete's logs: figures of every session, a trend, progress or a stall, and what may come next.

What is proposed is for the coach to judge: it follows from the rule, the ladder and the implements, and from nothing else.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from datetime import date
from fractions import Fraction
from typing import Final, Literal

import attrs

from .axes import AXES
from .breaks import Break
from .clock import repetition_time
from .judging import measured
from .logbook import Logbook, Stands, Step, asked_now
from .model import Entry, Rule, Rung, Tempo, Value
from .strength import MOST_REPETITIONS, Estimate, estimate
from .trend import Trend, trend

STALLED = 4  # sessions of a movement in which no axis advanced. Common practice, no source
TRENDING = 40  # sessions of which the trend is told, the latest: about three months. Common practice, no source
EASED = Fraction(10, 100)  # by how much a stalled load is proposed to go back. Common practice, no source

RETURNING = 42  # days after a break in which nobody is said to stall. Common practice, no source

Progress = Literal["begun", "progress", "returning", "stall", "ended", "stays"]
Measure = Literal["volume", "carried", "repetitions", "distance", "tension"]
ProposalKind = Literal["ease-load", "easier-rung", "harder-rung", "other-axis", "talk"]
# Axes that a coach may add to a rule which does not have them, in the order in which they are proposed.
OTHERS: Final = ("lower", "pause", "reps", "sets", "hold", "distance", "rest")
OF_LOGGED: Final = ("distance", "time", "pace")  # the same for what writes down a distance or a time
TIMED: Final = frozenset(("lower", "pause", "cues", "hold", "time"))  # axes that lengthen the time under tension


@attrs.frozen(eq=False, repr=False, match_args=False)
class Done(Value):
    """A movement in one session. Loads in kg, times in seconds, distances in metres; None where there is no such figure.

    `load` is what was lifted in the heaviest set, of both where it takes two. `rung` is the variant done, `moved` the part of
    the body's mass that it moves. `volume` is volume load, `carried` the load times the distance. `repetitions` and `tension`
    count both sides; `tension` is the time under tension.
    """

    day: date
    step: Step
    repetitions: int
    load: Fraction | None
    rung: Rung | None
    moved: Fraction | None
    volume: Fraction | None
    carried: Fraction | None
    tension: Fraction
    estimate: Estimate | None
    distance: Fraction | None
    time: Fraction | None

    @property
    def pace(self) -> Fraction | None:
        """Seconds for a kilometre."""
        return self.time / self.distance * 1000 if self.time and self.distance else None

    def figure(self, measure: Measure) -> Fraction | None:
        """The figure of a measure, None where there is none."""
        told: Fraction | int | None = getattr(self, measure)
        return (told if isinstance(told, Fraction) else Fraction(told)) if told else None


@attrs.frozen(eq=False, repr=False, match_args=False)
class Proposal(Value):
    """What a coach may think of: a load in kg, a rung or an axis to go to, or a talk."""

    kind: ProposalKind
    load: Fraction | None = None
    rung: Rung | None = None
    axis: str = ""


@attrs.frozen(eq=False, repr=False, match_args=False)
class MovementReview(Value):
    """A movement over all sessions: what was done, its trend by session, and whether it goes on.

    `measure` says what the trend is of; it counts the latest `TRENDING` sessions. `since` are the sessions since an axis last
    advanced. `best` is the highest rung, and on it the largest figure.
    """

    stands: Stands
    done: tuple[Done, ...]
    measure: Measure
    trend: Trend | None
    best: Done
    progress: Progress
    since: int
    proposals: tuple[Proposal, ...]


def movement_review(logbook: Logbook, stands: Stands, breaks: Sequence[Break] = ()) -> MovementReview:
    """The review of a movement that was logged at least once."""
    athlete = logbook.fitting.athlete
    body = athlete.body.base if athlete.body is not None else None
    done = _all_done(stands, body)
    measure = _measure(stands.entry, done)
    rungs = {rung.name: place for place, rung in enumerate(stands.entry.movement.rungs)}
    figures = [one.figure(measure) for one in done[-TRENDING:]]
    since = _since(stands)
    progress = _progress(stands, since, breaks)
    return MovementReview(
        stands,
        done,
        measure,
        trend([(float(place), float(figure)) for place, figure in enumerate(figures) if figure is not None]),
        max(done, key=lambda one: (rungs[one.rung.name] if one.rung else -1, float(getattr(one, measure) or 0))),
        progress,
        since,
        tuple(_proposals(logbook, stands, progress)),
    )


def _measure(entry: Entry, done: Sequence[Done]) -> Measure:
    """What most sessions have a figure of, the more telling first."""
    timed = isinstance(entry.rule, Rule) and any(axis.name in TIMED for axis in entry.rule.axes)
    last: tuple[Measure, ...] = ("tension", "repetitions") if timed else ("repetitions", "tension")
    measures: tuple[Measure, ...] = ("volume", "carried", "distance", *last)
    return max(measures, key=lambda measure: sum(bool(getattr(one, measure)) for one in done))


# Figures of a session


def volume_load(sets: Sequence[tuple[int, Fraction]]) -> Fraction:
    """Sets x repetitions x load, as a sum over the sets: Haff GG, Quantifying Workloads in Resistance Training, 2010 (from
    memory); as total repetitions times the resistance used, J Strength Cond Res 2017 (read in an introduction, 0700-16).
    """
    if len(sets) == 1:
        ((repetitions, load),) = sets
        return load * repetitions
    return sum((load * repetitions for repetitions, load in sets), Fraction(0))


def effective_load(body: Fraction, share: Fraction) -> Fraction:
    """The part of a body's mass that a variant moves, in the unit of the body's mass. The share is a published one of the
    rung, with its source beside it: as those of push-ups by Ebben et al., J Strength Cond Res 2011;25(10):2891-2894.
    """
    return body * share


def _all_done(stands: Stands, body: Fraction | None) -> tuple[Done, ...]:
    """Every session; where the same was asked for and done as before, the figures are those of before."""
    known: dict[tuple[object, ...], Done] = {}
    found = []
    for step in stands.steps:
        done, tempo = step.done, step.done.tempo
        # By identity: what is asked for and the figures of logs are the same objects where they are alike.
        things = (step.asked, done.load, tempo.lower, tempo.pause, tempo.up, *done.results)
        key = (done.rung, tempo.cues, *map(id, things))
        before = known.get(key)
        if before is None:
            before = known[key] = _done(stands, step, body)
        found.append(attrs.evolve(before, day=step.session.date, step=step))
    return tuple(found)


def _done(stands: Stands, step: Step, body: Fraction | None) -> Done:
    done, entry = step.done, stands.entry
    counts = [result for result in done.results if isinstance(result, int)]
    sides = 2 if entry.dose.each_side else 1
    loads = _set_loads(entry, step)
    load = max(loads, default=None)
    sets = _by_load(counts, loads)
    rung = next((one for one in entry.movement.rungs if one.name == (done.rung or step.asked.rung)), None)
    far, took = measured(done)
    held = took if took is not None and not entry.dose.logs else Fraction(0)
    under = repetition_time(entry.movement, _tempo(step)) * sum(counts) if counts else held
    return Done(
        step.session.date,
        step,
        sum(counts) * sides,
        load,
        rung,
        effective_load(body, rung.moves.base) if body is not None and rung is not None and rung.moves else None,
        volume_load([(sum(counted) * sides, lifted) for lifted, counted in sets.items()]) if sets else None,
        load * far * sides if load is not None and far is not None else None,
        under * sides,
        _estimate(sets),
        far,
        took,
    )


def _by_load(counts: Sequence[int], loads: Sequence[Fraction]) -> dict[Fraction, list[int]]:
    """The repetitions of the sets with each load; nothing where no load is known."""
    if len(loads) == 1:
        return {loads[0]: list(counts)} if counts else {}
    sets: dict[Fraction, list[int]] = {}
    for place, count in enumerate(counts if loads else ()):
        sets.setdefault(loads[min(place, len(loads) - 1)], []).append(count)
    return sets


def _estimate(sets: dict[Fraction, list[int]]) -> Estimate | None:
    """The largest estimate of all sets: with each load that of the most repetitions for which the formulas hold."""
    most = {load: max((one for one in counts if one <= MOST_REPETITIONS), default=0) for load, counts in sets.items()}
    found = [one for load, count in most.items() if (one := estimate(load, count)) is not None]
    return max(found, key=lambda one: one.epley, default=None)


def _set_loads(entry: Entry, step: Step) -> tuple[Fraction, ...]:
    """What was lifted in each set, in kg, of both where it takes two; nothing where nobody knows.

    Where the sets are asked for with unlike loads and the log tells one, it is that of the heaviest, the others in proportion.
    """
    told = step.done.load.base if step.done.load is not None else step.asked.load
    if told is None:
        return ()
    two = entry.fitted is not None and any(making.two for _, making in entry.fitted.made)
    heaviest = told * 2 if two else told
    dose = step.asked.dose
    if all(work.load is dose.sets[0].load for work in dose.sets):
        return (heaviest,)
    asked = [load.base for work in dose.sets if (load := work.load or dose.load) is not None]
    if len(asked) != len(dose.sets):
        return (heaviest,)
    return tuple(heaviest * load / max(asked) for load in asked)


def _tempo(step: Step) -> Tempo:
    """The tempo asked for, with what the log tells otherwise."""
    was = {
        name: value
        for name in ("lower", "pause", "cues", "up")
        if (value := getattr(step.done.tempo, name)) is not None
    }
    return attrs.evolve(step.asked.dose.tempo, **was) if was else step.asked.dose.tempo


# Progress


def _since(stands: Stands) -> int:
    """Sessions since an axis last advanced, or the best of an `amrap` was beaten on the way to the next rung."""
    since = 0
    for step in reversed(stands.steps):
        if step.turn is None:
            continue
        if step.turn.kind == "moved" or (step.turn.kind == "waiting" and step.short is None):
            return since
        since += 1
    return since


def _progress(stands: Stands, since: int, breaks: Sequence[Break]) -> Progress:
    turns = [step.turn for step in stands.steps if step.turn is not None]
    if not turns:
        return "stays"
    if turns[-1].kind == "exhausted":
        return "ended"
    asked = stands.course.good if stands.course is not None else 1
    if since >= STALLED + asked - 1:
        counted = [step.session.date for step in stands.steps if step.turn is not None]
        first, last = counted[-since], counted[-1]
        back = [one for one in breaks if one.next >= first and (last - one.next).days <= RETURNING]
        return "returning" if back else "stall"
    return "progress" if len(turns) > since else "begun"


def _proposals(logbook: Logbook, stands: Stands, progress: Progress) -> Iterator[Proposal]:
    """What a coach may think of next, the nearest first."""
    if progress not in ("stall", "ended"):
        return
    things = set(logbook.fitting.athlete.things)
    near = _eased(stands, things) if progress == "stall" else _rung(stands, 1, things)
    other = _other_axis(stands)
    yield from (one for one in (near, other) if one is not None)
    if near is None and other is None:
        yield Proposal("talk")


def _eased(stands: Stands, things: set[str]) -> Proposal | None:
    """Back to a lighter load that can be made, else to an easier rung."""
    asked = asked_now(stands)
    loads = stands.course.loads if stands.course is not None else None
    if asked.load is not None and loads:
        place = bisect_right(loads, asked.load * (1 - EASED))
        if place:
            return Proposal("ease-load", load=loads[place - 1])
    return _rung(stands, -1, things)


def _rung(stands: Stands, step: int, things: set[str]) -> Proposal | None:
    """The nearest rung in a direction that needs nothing but what is there."""
    rungs, now = stands.entry.movement.rungs, asked_now(stands).rung
    names = [rung.name for rung in rungs]
    if now not in names:
        return None
    at = names.index(now or "")
    there = rungs[at + 1 :] if step > 0 else rungs[:at][::-1]
    found = next((rung for rung in there if things.issuperset(rung.needs)), None)
    return Proposal("harder-rung" if step > 0 else "easier-rung", rung=found) if found is not None else None


def _other_axis(stands: Stands) -> Proposal | None:
    """The first axis that suits the movement and that its rule does not have."""
    entry = stands.entry
    if not isinstance(entry.rule, Rule):
        return None
    has = {axis.name for axis in entry.rule.axes}
    others = OF_LOGGED if entry.dose.logs else OTHERS
    suits = (name for name in others if name not in has and AXES[name].unfit(stands.block, entry) is None)
    found = next(suits, None)
    return Proposal("other-axis", axis=found) if found is not None else None
