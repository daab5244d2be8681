"""The review: what came of an athlete's logs, in figures, week by week and movement by movement.

Everything here is reckoned from the logbook. Nothing is diagnosed: a note that names a stop sign is put first, with the words
of the athlete.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from fractions import Fraction

import attrs

from .alarms import speaks
from .breaks import Break, breaks_in
from .effort import WeekOfEffort, session_load, week_of_effort
from .guidelines import COMPENDIUM_AGES, MODERATE_WALK, VIGOROUS_WALK, moderate_minutes
from .judging import measured
from .logbook import Logbook, pace_of
from .model import LoggedSession, Program, Value
from .movement_review import MovementReview, movement_review
from .week import COUNTED, strength_sessions, times_a_week

WEEK = 7  # days


@attrs.frozen(eq=False, repr=False, match_args=False)
class Count(Value):
    """Sessions of a week: how many are planned, and how many were done in full and short."""

    planned: int
    full: int
    short: int

    @property
    def done(self) -> int:
        """All that were done."""
        return self.full + self.short


@attrs.frozen(eq=False, repr=False, match_args=False)
class WeekReview(Value):
    """A week of training, counted from 1. Minutes as fractions, distances in metres.

    `strength` counts the sessions with a work block, `others` all else. `minutes` are of all sessions that tell them, and
    `untold` how many do not. `moving` are the minutes of conditioning that were logged, `counts` what of them counts against
    the weekly advice. `over` is False for a week whose last day nobody has logged yet.
    """

    number: int
    first: date
    strength: Count
    others: Count
    minutes: Fraction
    untold: int
    effort: WeekOfEffort | None
    moving: Fraction
    counts: Fraction
    distance: Fraction
    over: bool


@attrs.frozen(eq=False, repr=False, match_args=False)
class Review(Value):
    """The review of an athlete in a program, as of `newest`, the newest day that anybody logged.

    `alarms` are the sessions whose notes must be read first, `named` those that name a stop sign and take it back. `pace` is
    the median of logged to planned minutes of full sessions, None with fewer than three. `graded` says whether walks are told
    apart by their speed; of those whom the figures do not cover all minutes count.
    """

    logbook: Logbook
    newest: date
    alarms: tuple[LoggedSession, ...]
    named: tuple[LoggedSession, ...]
    weeks: tuple[WeekReview, ...]
    breaks: tuple[Break, ...]
    movements: tuple[MovementReview, ...]
    pace: Fraction | None
    graded: bool


def review(logbook: Logbook, newest: date | None = None) -> Review:
    """The review of a logbook; `newest` is the day of its last session where nothing is said."""
    sessions = logbook.sessions
    last = sessions[-1].date if sessions else date.min
    newest = max(newest or last, last)
    graded = _is_graded(logbook, newest)
    breaks = tuple(breaks_in(sessions))
    spoken = {id(session): speaks(session.note) for session in sessions}
    return Review(
        logbook,
        newest,
        tuple(session for session in sessions if spoken[id(session)] == "alarm"),
        tuple(session for session in sessions if spoken[id(session)] == "named"),
        tuple(_weeks(logbook, newest, graded)),
        breaks,
        tuple(
            movement_review(logbook, one, breaks) for one in logbook.stands if one.steps and one.block.kind in COUNTED
        ),
        pace_of(logbook),
        graded,
    )


# Weeks


def _weeks(logbook: Logbook, newest: date, graded: bool) -> Iterable[WeekReview]:
    program, sessions = logbook.fitting.program, logbook.sessions
    if not sessions:
        return
    begins = sessions[0].date
    if program.athlete is not None and program.athlete.starts is not None:
        begins = min(program.athlete.starts, begins)
    by_week: dict[int, list[LoggedSession]] = {}
    for session in sessions:
        by_week.setdefault((session.date - begins).days // WEEK, []).append(session)
    names = {session.name for session in strength_sessions(program)}
    conditioning = {one.entry.movement.name for one in logbook.stands if one.block.kind == "conditioning"}
    for number in range((newest - begins).days // WEEK + 1):
        here = by_week.get(number, [])
        first = begins + timedelta(days=WEEK * number)
        walks = [walk for session in here for walk in _walks(session, conditioning, session.session not in names)]
        yield WeekReview(
            number + 1,
            first,
            _count(program, number + 1, [one for one in here if one.session in names], names, within=True),
            _count(program, number + 1, [one for one in here if one.session not in names], names, within=False),
            sum((one.took.base / 60 for one in here if one.took is not None), Fraction(0)),
            sum(one.took is None for one in here),
            _effort(here),
            sum((took for _, took in walks), Fraction(0)) / 60,
            _counting(walks, graded),
            sum((far for far, _ in walks), Fraction(0)),
            newest >= first + timedelta(days=WEEK - 1),
        )


def _count(program: Program, number: int, done: Sequence[LoggedSession], names: set[str], *, within: bool) -> Count:
    held = (session for session in program.sessions if session.week in (None, number))
    planned = sum(times_a_week(session) for session in held if (session.name in names) == within)
    short = sum(session.short is not None for session in done)
    return Count(planned, len(done) - short, short)


def _effort(sessions: Sequence[LoggedSession]) -> WeekOfEffort | None:
    """The week's session loads; None where no session tells both its effort and its minutes."""
    days = [Fraction(0)] * WEEK
    told = [one for one in sessions if one.rpe is not None and one.took is not None]
    for session in told:
        assert session.rpe is not None and session.took is not None
        days[session.date.weekday()] += session_load(Fraction(session.rpe), session.took.base / 60)
    return week_of_effort(days) if told else None


def _walks(session: LoggedSession, names: set[str], whole: bool) -> Iterable[tuple[Fraction, Fraction]]:
    """Metres and seconds of each conditioning movement of a session; the session's minutes where it is nothing else."""
    told = [measured(entry) for entry in session.entries if entry.movement in names]
    if len(told) == 1 and told[0][1] is None and whole and session.took is not None:
        told = [(told[0][0], session.took.base)]
    for far, took in told:
        yield far or Fraction(0), took or Fraction(0)


def _counting(walks: Sequence[tuple[Fraction, Fraction]], graded: bool) -> Fraction:
    """Minutes that count against the advice: slow walks do not, fast ones twice; all where speed does not tell."""
    moderate = vigorous = Fraction(0)
    for far, took in walks:
        speed = far / took if graded and far and took else MODERATE_WALK
        if speed >= VIGOROUS_WALK:
            vigorous += took
        elif speed >= MODERATE_WALK:
            moderate += took
    return moderate_minutes(moderate, vigorous) / 60


def _is_graded(logbook: Logbook, newest: date) -> bool:
    """Whether the speeds from which on a walk counts hold for the athlete's age."""
    born = logbook.fitting.athlete.born
    youngest, oldest = COMPENDIUM_AGES
    return born is not None and youngest <= newest.year - born <= oldest
