"""The review: what came of an athlete's logs, in figures, and who needs the coach.

Everything here is reckoned from the logbook. Nothing is diagnosed: a note that speaks of pain, dizziness or the chest is put
first, with the words of the athlete, and what is proposed is for the coach to judge.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import date
from fractions import Fraction
from typing import Literal

import attrs

from .clock import set_time
from .effort import WeekOfEffort, session_load, week_of_effort
from .judging import measured
from .logbook import Logbook, Stands, Step, pace_of, week_of
from .model import Entry, LoggedSession, Reps, Tempo, Timed, Value
from .quantity import Quantity
from .strength import Estimate, estimate
from .trend import Trend, trend
from .week import COUNTED, times_a_week

STALLED = 4  # sessions of a movement without a step forward. Common practice, no source

Progress = Literal["begun", "progress", "stall", "ended", "stays"]
Proposal = Literal["ease", "harder", "another-axis", "none"]

# Words at which a coach stops reading and asks. Stop signs: allinahealth.org and geisinger.org (read), in everyday words.
_ALARM = re.compile(
    r"\b(pain\w*|hurt\w*|ache[ds]?|aching|dizz\w+|faint\w*|light-?headed|black(?:ed)? out|chest|"
    r"breathless\w*|out of breath|palpitation\w*|racing heart|heart (?:raced|stumbled)|numb\w*|nause\w+|sick to)\b",
    re.IGNORECASE,
)


@attrs.frozen(eq=False, repr=False, match_args=False)
class Done(Value):
    """A movement in one session. Loads in kg, times in seconds, distances in metres; None where there is no such figure.

    `load` is what was lifted, of both where it takes two. `moved` is the share of the body's mass that the rung moves.
    `volume` is repetitions times load, both sides counted.
    """

    day: date
    step: Step
    repetitions: int
    load: Fraction | None
    moved: Fraction | None
    volume: Fraction | None
    tension: Fraction
    estimate: Estimate | None
    distance: Fraction | None
    time: Fraction | None


@attrs.frozen(eq=False, repr=False, match_args=False)
class MovementReview(Value):
    """A movement over all sessions: what was done, its trend by session, and whether it goes on.

    `measure` says what the trend is of. `since` are the sessions since the last step forward.
    """

    stands: Stands
    done: tuple[Done, ...]
    measure: Literal["volume", "repetitions", "distance", "tension"]
    trend: Trend | None
    progress: Progress
    since: int
    proposal: Proposal


@attrs.frozen(eq=False, repr=False, match_args=False)
class WeekReview(Value):
    """A week of training, counted from 1: sessions planned and done, minutes, effort, and what was walked."""

    number: int
    planned: int
    full: int
    short: int
    minutes: Fraction
    effort: WeekOfEffort | None
    moving: Fraction  # minutes of conditioning that were logged


@attrs.frozen(eq=False, repr=False, match_args=False)
class Review(Value):
    """The review of an athlete in a program; `alarms` are the sessions whose notes must be read first.

    `pace` is the median of logged to planned minutes of full sessions, None with fewer than three.
    """

    logbook: Logbook
    alarms: tuple[LoggedSession, ...]
    weeks: tuple[WeekReview, ...]
    movements: tuple[MovementReview, ...]
    pace: Fraction | None


def review(logbook: Logbook) -> Review:
    """The review of a logbook."""
    sessions = logbook.sessions
    return Review(
        logbook,
        tuple(session for session in sessions if alarming(session.note)),
        tuple(_weeks(logbook)),
        tuple(_movement(logbook, one) for one in logbook.stands if one.steps and one.block.kind in COUNTED),
        pace_of(logbook),
    )


def alarming(note: str) -> bool:
    """Whether a note speaks of what a physician should hear of first."""
    return _ALARM.search(note) is not None


# Weeks


def _weeks(logbook: Logbook) -> Iterable[WeekReview]:
    program = logbook.fitting.program
    planned = sum(times_a_week(session) for session in program.sessions)
    by_week: dict[int, list[LoggedSession]] = {}
    for session in logbook.sessions:
        by_week.setdefault(week_of(program, session.date) or 1, []).append(session)
    for number in range(1, max(by_week, default=0) + 1):
        here = by_week.get(number, [])
        yield WeekReview(
            number,
            planned,
            sum(session.short is None for session in here),
            sum(session.short is not None for session in here),
            sum((session.took.base / 60 for session in here if session.took is not None), Fraction(0)),
            _effort(here),
            _moving(logbook, here),
        )


def _effort(sessions: Sequence[LoggedSession]) -> WeekOfEffort | None:
    """The week's session loads; None where no session tells both its effort and its minutes."""
    days = [Fraction(0)] * 7
    told = [one for one in sessions if one.rpe is not None and one.took is not None]
    for session in told:
        assert session.rpe is not None and session.took is not None
        days[session.date.weekday()] += session_load(Fraction(session.rpe), session.took.base / 60)
    return week_of_effort(days) if told else None


def _moving(logbook: Logbook, sessions: Sequence[LoggedSession]) -> Fraction:
    """Minutes of conditioning: the times that were logged of it."""
    names = {one.entry.movement.name for one in logbook.stands if one.block.kind == "conditioning"}
    seconds = [
        measured(entry)[1] or Fraction(0)
        for session in sessions
        for entry in session.entries
        if entry.movement in names
    ]
    return sum(seconds, Fraction(0)) / 60


# Movements


def _movement(logbook: Logbook, stands: Stands) -> MovementReview:
    body = logbook.fitting.athlete.body
    done = tuple(_done(stands, step, body) for step in stands.steps)
    measure = _measure(done)
    figures = [float(getattr(one, measure)) for one in done if getattr(one, measure) is not None]
    since = _since(stands)
    progress = _progress(stands, since)
    return MovementReview(
        stands,
        done,
        measure,
        trend([(float(place), figure) for place, figure in enumerate(figures)]),
        progress,
        since,
        _proposal(stands, progress),
    )


def _measure(done: Sequence[Done]) -> Literal["volume", "repetitions", "distance", "tension"]:
    last = done[-1]
    if last.volume is not None:
        return "volume"
    if last.distance is not None:
        return "distance"
    return "repetitions" if last.repetitions else "tension"


def _done(stands: Stands, step: Step, body: Quantity | None) -> Done:
    done, entry = step.done, stands.entry
    counts = [result for result in done.results if isinstance(result, int)]
    sides = 2 if entry.dose.each_side else 1
    repetitions = sum(counts) * sides
    load = _lifted(entry, step)
    rung = next((one for one in entry.movement.rungs if one.name == (done.rung or step.asked.rung)), None)
    moved = body.base * rung.moves.base if body is not None and rung is not None and rung.moves is not None else None
    far, took = measured(done)
    dose = attrs.evolve(step.asked.dose, tempo=_tempo(step))
    counted = sum((set_time(entry.movement, dose, Reps(count, count)) for count in counts), Fraction(0))
    held = [result for result in done.results if isinstance(result, Quantity) and result.dimension == "time"]
    tension = counted + sum((set_time(entry.movement, dose, Timed(time)) for time in held), Fraction(0))
    best = [estimate(load, count) for count in counts] if load is not None else []
    estimates = [one for one in best if one is not None]
    return Done(
        step.session.date,
        step,
        repetitions,
        load,
        moved,
        load * repetitions if load is not None and repetitions else None,
        tension,
        max(estimates, key=lambda one: one.epley, default=None),
        far,
        took,
    )


def _lifted(entry: Entry, step: Step) -> Fraction | None:
    """What was lifted, of both where it takes two."""
    load = step.done.load.base if step.done.load is not None else step.asked.load
    two = entry.fitted is not None and any(making.two for _, making in entry.fitted.made)
    return load * 2 if load is not None and two else load


def _tempo(step: Step) -> Tempo:
    """The tempo asked for, with what the log tells otherwise."""
    was = {
        name: value
        for name in ("lower", "pause", "cues", "up")
        if (value := getattr(step.done.tempo, name)) is not None
    }
    return attrs.evolve(step.asked.dose.tempo, **was)


def _since(stands: Stands) -> int:
    """Sessions since the last step forward: an axis that moved, or a best that was beaten."""
    since = 0
    for step in reversed(stands.steps):
        if step.turn is None:
            continue
        if step.turn.kind in ("moved", "counting") or (step.turn.kind == "waiting" and step.short is None):
            return since
        since += 1
    return since


def _progress(stands: Stands, since: int) -> Progress:
    turns = [step.turn for step in stands.steps if step.turn is not None]
    if not turns:
        return "stays"
    if turns[-1].kind == "exhausted":
        return "ended"
    if since >= STALLED:
        return "stall"
    return "progress" if len(turns) > since else "begun"


def _proposal(stands: Stands, progress: Progress) -> Proposal:
    """What a coach may think of next: a proposal, no more."""
    if progress == "ended":
        climbs = stands.course is not None and any(track.name == "rung" for track in stands.course.tracks)
        return "another-axis" if climbs or not stands.entry.movement.rungs else "harder"
    return "ease" if progress == "stall" else "none"
