"""What a calendar holds: for each session of an athlete its days, and a short text of what is to be done."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import attrs

from ...compiler import clock
from ...compiler.dates import Held, held
from ...compiler.model import Program
from .. import telling
from .. import words as common
from ..plan import PlannedBlock, PlannedEntry, movements, planned_session
from ..sheet import head
from ..taking import cautions
from . import words


@attrs.frozen
class Changed:
    """One day of a session on which it is told otherwise, because its week is easier."""

    day: date
    title: str
    text: str


@attrs.frozen
class Event:
    """A session: its name, what is told of it, and when it is held: on days of the week from the first to the last day."""

    name: str
    title: str
    text: str
    days: tuple[str, ...]
    first: date
    last: date | None
    changed: tuple[Changed, ...]


@attrs.frozen
class Calendar:
    """The sessions of a program for its athlete, as its revision has them, and since when they are so."""

    athlete: str
    program: str
    title: str
    about: str
    revision: int
    since: date
    events: tuple[Event, ...]


def calendar(program: Program) -> Calendar | None:
    """The calendar of a program that was fitted to an athlete; None where no day of it is known."""
    found = held(program)
    athlete = program.athlete
    if not found or athlete is None or athlete.starts is None:
        return None
    dates = [day for day in (program.dated, program.after) if day is not None]
    known = {one.session.name for one in found}
    others = [session.title for session in program.sessions if session.name not in known]
    return Calendar(
        athlete.name,
        program.name,
        f"{program.title}: {athlete.title}",
        words.left_out(others) if others else "",
        program.revision,
        max(dates, default=athlete.starts),
        tuple(_event(program, one, athlete.starts) for one in found),
    )


def _event(program: Program, one: Held, starts: date) -> Event:
    session = one.session
    timetable = clock.timetable(program, session)
    minutes = telling.whole_minutes(timetable.seconds)
    plan = planned_session(program, timetable)
    told = "\n".join(
        (
            *(line for block in plan.blocks for line in ("", *_block(block))),
            "",
            *((words.FIGURES_BACK, common.BACK_HEALTH) if program.returns is not None else (words.FIGURES,)),
            *cautions(program, common.CAUTIONS_SHORT, movements(program), brief=True),
            words.edition(program.title, head(program, "").edition),
        )
    )
    whole = common.session_line("", minutes, plan.limit)
    return Event(
        session.name,
        words.event(session.title, minutes),
        whole + "\n" + told,
        one.days,
        one.first,
        one.last,
        tuple(_changed(program, one, starts, told)),
    )


def _changed(program: Program, one: Held, starts: date, told: str) -> Iterator[Changed]:
    """The days of easier weeks, with what to leave out before everything else."""
    session = one.session
    for easier, less in telling.easier_by_week(program, session):
        minutes = telling.easier_minutes(program, session, easier)
        title = words.easier_event(session.title, minutes)
        text = "\n".join((less, common.NOTHING_MOVES_ON, common.session_line("", minutes, ""), told))
        for week in easier.weeks:
            yield from (Changed(day, title, text) for day in one.in_week(starts, week))


def _block(block: PlannedBlock) -> Iterator[str]:
    yield f"{block.title}:" if not block.circuit else f"{block.title}: {block.circuit}"
    yield from (_entry(entry) for entry in block.entries)


def _entry(entry: PlannedEntry) -> str:
    title = ", ".join(filter(None, (entry.title, entry.form)))
    return f"- {title}: " + " ".join(filter(None, (entry.condition, entry.dose, entry.before, entry.tempo)))
