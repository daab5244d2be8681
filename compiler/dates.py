"""On which days of the calendar an athlete holds the sessions of a program.

Weeks are counted from the day on which the athlete starts, as everywhere. A session is held on its own days, or every day.
Sessions that only say how often they are held are put on the athlete's own days in turn, in the order of the source, where
all of them together are held as often as the athlete has days. Of other sessions nobody knows the days.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

import attrs

from .model import DAYS, Program, Session

WEEK = timedelta(days=7)


@attrs.frozen
class Held:
    """A session and its days: of the week, in their order, the first day, and the last, None where it goes on for good."""

    session: Session
    days: tuple[str, ...]
    first: date
    last: date | None

    def in_week(self, starts: date, number: int) -> Iterator[date]:
        """Its days in a week, counted from 1."""
        for day in _week_days(starts, number):
            if DAYS[day.weekday()] in self.days and self.first <= day and (self.last is None or day <= self.last):
                yield day


def held(program: Program) -> tuple[Held, ...]:
    """The sessions whose days are known, of a program that was fitted to an athlete; none where nobody knows the first."""
    athlete = program.athlete
    if athlete is None or athlete.starts is None:
        return ()
    dealt = _dealt(program, tuple(day for day in DAYS if day in athlete.days))
    found = []
    for session in program.sessions:
        days = session.days or (DAYS if session.per_week == len(DAYS) else dealt.get(session.name, ()))
        if days:
            found.append(_held(session, days, athlete.starts, program.weeks))
    return tuple(found)


def _held(session: Session, days: tuple[str, ...], starts: date, weeks: int | None) -> Held:
    first_week, last_week = (1, weeks) if session.week is None else (session.week, session.week)
    first = next(day for day in _week_days(starts, first_week) if DAYS[day.weekday()] in days)
    if last_week is None:
        return Held(session, days, first, None)
    last = [day for day in _week_days(starts, last_week) if DAYS[day.weekday()] in days][-1]
    return Held(session, days, first, last)


def _week_days(starts: date, number: int) -> Iterator[date]:
    """The seven days of a week, counted from 1."""
    first = starts + (number - 1) * WEEK
    return (first + timedelta(days=day) for day in range(7))


def _dealt(program: Program, days: tuple[str, ...]) -> dict[str, tuple[str, ...]]:
    """The days of sessions that only say how often they are held, by the name of each; of every week by itself."""
    found: dict[str, tuple[str, ...]] = {}
    for week in dict.fromkeys(session.week for session in program.sessions):
        left = {
            session.name: session.per_week
            for session in program.sessions
            if session.week == week and not session.days and session.per_week not in (None, len(DAYS))
        }
        if sum(left.values()) == len(days):
            found |= _in_turn(left, days)
    return found


def _in_turn(left: dict[str, int], days: tuple[str, ...]) -> dict[str, tuple[str, ...]]:
    """One day after another to one session after another, until each has as many as it wants."""
    found: dict[str, tuple[str, ...]] = dict.fromkeys(left, ())
    waiting = list(left)
    for day in days:
        name = waiting.pop(0)
        found[name] += (day,)
        if len(found[name]) < left[name]:
            waiting.append(name)
    return found
