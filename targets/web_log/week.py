"""Which week a log on the phone is for, and what the program asks for in it.

A way back has a log for each of its weeks. Any other program has one for the coming week: the one that holds the next day of
training after the last that was logged. Nobody asks a clock, so that the same source makes the same file.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

import attrs

from ...compiler.axes.measured import with_loads
from ...compiler.comeback import weeks_of
from ...compiler.easier import Changes, changes_in, eased_session
from ...compiler.implements import makings, nearest
from ...compiler.logbook import week_of
from ...compiler.model import DAYS, Athlete, Block, Entry, Made, Program
from ...compiler.quantity import UNITS, Quantity
from ..taking import made_of


def weeks_to_log(program: Program) -> tuple[int | None, ...]:
    """The weeks that have a log, counted from 1; None for a week of which nobody knows the number."""
    if program.returns is not None:
        return tuple(week.number for week in weeks_of(program.returns))
    athlete = program.athlete
    if athlete is None or athlete.starts is None:
        return (None,)
    if program.after is None:
        return (1,)
    return (week_of(program, _next_day(program, athlete, program.after)) or 1,)


def _next_day(program: Program, athlete: Athlete, last: date) -> date:
    """The next day of training after a day; where nobody says which days these are, the next one."""
    days = {DAYS.index(day) for day in athlete.days}
    days |= {DAYS.index(day) for session in program.sessions for day in session.days if not athlete.days}
    coming = (last + timedelta(days=ahead) for ahead in range(1, 8))
    return next((day for day in coming if not days or day.weekday() in days), last)


def in_week(program: Program, week: int | None) -> Program:
    """The program as it is in a week: its sessions alone, and lighter where the week is easier on purpose."""
    if week is None:
        return program
    if program.returns is not None:
        sessions = tuple(session for session in program.sessions if session.week in (None, week))
        return attrs.evolve(program, sessions=sessions)
    changes = changes_in(program, week)
    if not changes:
        return program
    eased = (eased_session(program, session, week) for session in program.sessions)
    sessions = tuple(
        attrs.evolve(after, blocks=tuple(_blocks(program, before.blocks, after.blocks, changes)))
        for before, after in zip(program.sessions, eased, strict=True)
    )
    return attrs.evolve(program, sessions=sessions)


def _blocks(program: Program, before: tuple[Block, ...], after: tuple[Block, ...], changes: Changes) -> Iterator[Block]:
    for block, eased in zip(before, after, strict=True):
        if "load" not in changes or eased is block:
            yield eased
            continue
        pairs = zip(block.entries, eased.entries, strict=True)
        yield attrs.evolve(eased, entries=tuple(_makeable(program, *pair) for pair in pairs))


def _makeable(program: Program, before: Entry, after: Entry) -> Entry:
    """An eased entry with loads that its athlete can make: the next lighter one, or that of before where none is."""
    if program.athlete is None or after.fitted is None or not after.fitted.made:
        return after
    loads = makings(program.athlete, after.movement)
    told: dict[Quantity, Quantity] = {}
    made: dict[Quantity | None, Made] = {}
    for old, new in _loads(before, after):
        how = made_of(before, old)
        if how is None or how.load is None:
            continue
        lighter = nearest(loads, how.load * new.amount / old.amount) or how
        if new.unit != "%" and lighter.load is not None:
            told[new] = Quantity(lighter.load / UNITS[new.unit][1], new.unit)
        made[told.get(new, new)] = lighter
    if not made:
        return after
    dose = with_loads(after.dose, lambda load: told.get(load, load))
    return attrs.evolve(after, dose=dose, fitted=attrs.evolve(after.fitted, made=tuple(made.items())))


def _loads(before: Entry, after: Entry) -> Iterator[tuple[Quantity, Quantity]]:
    """The loads of the sets that are left, as they were and as they are now."""
    for old, new in zip(before.dose.ramp, after.dose.ramp, strict=False):
        yield old.share, new.share
    for was, now in zip(before.dose.sets, after.dose.sets, strict=False):
        load, eased = was.load or before.dose.load, now.load or after.dose.load
        if load is not None and eased is not None:
            yield load, eased
