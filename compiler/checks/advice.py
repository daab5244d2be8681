"""Advice on a week of training: what published guidelines say, and what is common practice. Never an error.

A week is judged where the program says for how many weeks it runs and its sessions how often they are held: without
either it may be a part of somebody's week, or a sketch.
"""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator
from math import floor

from ...grammar.diagnostic import Check, Diagnostic, Label
from ...grammar.source import Span
from ..guidelines import BALANCE_DAYS, OLDER, RESISTANCE_MINUTES, STRENGTH_DAYS
from ..model import Athlete, Program, Project
from ..training import together
from ..week import (
    BALANCE,
    PULL,
    PUSH,
    days_a_week,
    says_how_often,
    sessions_with,
    strength_sessions,
    weekly_seconds,
    weekly_sets,
)
from .athletes import BORN_FIRST
from .examples import in_weeks, with_basics
from .minutes import timed
from .places import header, part

_STRENGTH = """
session main, {} a week
  block legs
    must chair-stand 4 x 15
      advance reps by 1 to 20
    must plank 6 x 60 s, rest 90 s
      advance hold by 5 s to 90 s
"""

TOO_FEW_STRENGTH_DAYS = Check(
    code="strength-days-few",
    severity="advice",
    title="Strength work on fewer than two days a week",
    message="A week holds strength work on {days}; guidelines advise {advised} days or more.",
    help="Hold a session more often, such as `session {session}, {advised} a week`, or spread the work over two days.",
    explain="Work for all major muscles on 2 or more days a week: World Health Organization, 2020 guidelines (Bull et al., Br J "
    "Sports Med 2020;54:1451-1462; read in a summary), the guidelines for Americans of 2018 (2nd edition; read in a table of "
    "PMC8802999), the American Heart Association (Paluch et al., Circulation 2024;149(3):e217-e231; read in its list of top "
    "things to know). Counted are the days of the sessions with a work block. Where a program is only a part of the week, say so "
    "with `allow`.",
    wrong=in_weeks("", _STRENGTH.format(1)),
    right=in_weeks("", _STRENGTH.format(2)),
)


def find_strength_days_few(program: Program) -> Iterator[Diagnostic]:
    days = _strength_days(program)
    if days is not None and days < STRENGTH_DAYS:
        session = strength_sessions(program)[0]
        yield TOO_FEW_STRENGTH_DAYS.at(
            header(session.span), days=_days(days), advised=STRENGTH_DAYS, session=session.name
        )


def _strength_days(program: Program) -> int | None:
    """The days of a week with strength work; None where the week cannot be judged, or is not about strength."""
    sessions = strength_sessions(program)
    judged = program.weeks and not program.damaged and sessions and all(map(says_how_often, sessions))
    return days_a_week(sessions) if judged else None


TOO_FEW_STRENGTH_MINUTES = Check(
    code="strength-minutes-few",
    severity="advice",
    title="Less than half an hour of strength work a week",
    message="The work blocks of a week take {minutes} min together; the largest benefit is found at {advised} to 60.",
    help="Hold a session more often, or add a movement or sets.",
    explain="The largest reduction of risk is found at 30 to 60 minutes a week of resistance training: American Heart "
    "Association (Paluch et al., Circulation 2024;149(3):e217-e231; read in the key points of the American College of "
    "Cardiology). Counted are work blocks with their rests, by the planned clock; not warm-up, conditioning and cool-down. "
    "Less is better than nothing: where there is no more time, say so with `allow`.",
    wrong=in_weeks("", _STRENGTH.format(2).replace("6 x 60 s", "2 x 60 s")),
    right=in_weeks("", _STRENGTH.format(2)),
)


def find_strength_minutes_few(program: Program) -> Iterator[Diagnostic]:
    days = _strength_days(program)
    if days is None or days < STRENGTH_DAYS or len(list(timed(program))) < len(program.sessions):
        return
    seconds = weekly_seconds(program, "work")
    if seconds < RESISTANCE_MINUTES * 60:
        yield TOO_FEW_STRENGTH_MINUTES.at(
            header(strength_sessions(program)[0].span), minutes=floor(seconds / 60), advised=RESISTANCE_MINUTES
        )


_PUSHED = """
session main, 3 a week
  block upper
    must floor-press 4 x 10
      advance reps by 1 to 12, then load restarting reps
    must one-arm-row {} x 10 each side
      advance reps by 1 to 12, then load restarting reps
    must plank 4 x 45 s
      advance hold by 5 s to 60 s
"""

MORE_PUSH_THAN_PULL = Check(
    code="pull-below-push",
    severity="advice",
    title="Less pulling than pushing in a week",
    message="A week holds {push} of pushing and {pull} of pulling.",
    help="Add sets of a pull, such as a row, until there are as many, or take sets of a push out.",
    explain="Coaches commonly give pulling at least as many sets as pushing. This is common practice; no source was found for a "
    "figure. Counted are the sets of all movements with the pattern `push` and of those with `pull`, as often as each "
    "session is held.",
    wrong=in_weeks("", _PUSHED.format(3)),
    right=in_weeks("", _PUSHED.format(4)),
)


def find_more_push_than_pull(program: Program) -> Iterator[Diagnostic]:
    sessions = sessions_with(program, (PUSH, PULL))
    if not program.weeks or program.damaged or not all(map(says_how_often, sessions)):
        return
    push, pull = weekly_sets(program, (PUSH,)), weekly_sets(program, (PULL,))
    if pull < push:
        yield MORE_PUSH_THAN_PULL.at(_line_of(program, PULL), push=_sets(push), pull=_sets(pull))


_HALL = """
program hall-class
  revision 1, 2026-09-01
  runs 12 weeks
  session main, {} a week
    block strength
      must chair-stand 4 x 12
        advance reps by 1 to 15
      must single-leg-stand 4 x 60 s each side
        advance hold by 5 s to 90 s

athlete agnes "Agnes"
  born 1943
  has chair, floor
"""

TOO_FEW_BALANCE_DAYS = Check(
    code="balance-days-few",
    severity="advice",
    title="Balance work on fewer than three days a week, for somebody of 65 or more",
    message="{people}, and a week holds balance work on {days}; from {age} years on, guidelines advise {advised}.",
    help="Put a movement with the pattern `balance` into more sessions, or hold one of them more often.",
    explain="From 65 years on, varied work that holds functional balance and strength, at moderate or greater effort, on 3 or "
    "more days a week: World Health Organization, 2020 guidelines (Bull et al., Br J Sports Med 2020;54:1451-1462; read in a "
    "summary and in a response in the same journal). The guidelines for Americans of 2018 ask older people for balance work, "
    "too, and give no number of days (read in a table of PMC8802999). The age is that of the year in which the athlete "
    "`starts`, or of the program's date, from the year in `born`. Looked at are "
    "all programs that the athlete trains by, together.",
    wrong=with_basics(_HALL.format(2)),
    right=with_basics(_HALL.format(3)),
)


def find_balance_days_few(project: Project) -> Iterator[Diagnostic]:
    for programs, athletes in together(project):
        first = programs[0]
        sessions = [session for program in programs for session in sessions_with(program, (BALANCE,))]
        days = days_a_week(sessions)
        judged = all(program.weeks and not program.damaged and not program.returns for program in programs) and all(
            map(says_how_often, sessions)
        )
        older = [athlete for athlete in athletes if (_age(athlete, first) or 0) >= OLDER]
        if judged and older and days < BALANCE_DAYS:
            yield TOO_FEW_BALANCE_DAYS.at(
                _line_of(first, BALANCE),
                people=_people(older, first),
                days=_days(days),
                age=OLDER,
                advised=BALANCE_DAYS,
                labels=[Label(part(older[0].span, r"\bborn +\d+"), "the year of birth")],
            )


def _age(athlete: Athlete, program: Program) -> int | None:
    """The age that an athlete reaches in the year of the start, or of the program."""
    day = athlete.starts or program.dated
    if athlete.born is None or day is None or not BORN_FIRST <= athlete.born <= day.year:
        return None  # what is told as no year of birth leads to no age
    return day.year - athlete.born


def _people(older: list[Athlete], program: Program) -> str:
    day = older[0].starts or program.dated
    assert day is not None
    first = f"{older[0].title} reaches {_age(older[0], program)} in {day.year}"
    others = len(older) - 1
    return first if not others else f"{first}, {others} {'other is' if others == 1 else 'others are'} {OLDER} or older"


def _line_of(program: Program, pattern: str) -> Span:
    """The category that counts a pattern, else the first line of the program."""
    counting = (category for category in program.categories if pattern in category.counts)
    category = next(counting, None)
    return header(program.span if category is None else category.span)


def _days(days: int) -> str:
    return {0: "no day", 1: "one day"}.get(days, f"{days} days")


def _sets(sets: int) -> str:
    return {0: "none", 1: "one set"}.get(sets, f"{sets} sets")
