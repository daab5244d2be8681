"""What the coach's page holds: what comes, for whom; a week in figures; every movement by week, drawn and in tables."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

import attrs

from ...compiler.horizon import outlook
from ...compiler.model import Program, Project
from ...compiler.week import says_how_often
from ...compiler.week_coverage import week_coverage
from .. import words
from ..horizon_table import SessionTable, TwoRuns, cells_told, drawn_told, shown_weeks, two_runs
from ..week_table import week_rows
from .comes import Comes, for_athletes, for_nobody, nobody_trains
from .picture import Picture, pictures

COLUMNS = 6  # weeks side by side on a page
MOST = 18  # weeks of a run in tables
SOME = 12  # of a longer one


@attrs.frozen
class Cell:
    told: str
    ends: bool


@attrs.frozen
class Column:
    week: int
    easier: bool
    minutes: int
    over: bool


@attrs.frozen
class Part:
    """Some weeks of a table: a column each, and a row of cells for each movement."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, tuple[Cell, ...]], ...]


@attrs.frozen
class Run:
    """A run of a session; `even` tells the minutes where they are the same in every week, and the parts do not then."""

    key: str
    title: str
    same: bool  # as the run before
    parts: tuple[Part, ...]
    even: str


@attrs.frozen
class SessionAhead:
    title: str
    often: str
    minutes: str
    pictures: tuple[Picture, ...]
    runs: tuple[Run, ...]
    still: str


@attrs.frozen
class CoachPage:
    weeks: str
    nobody: tuple[str, ...]
    athletes: tuple[Comes, ...]
    nobody_trains: str
    week: tuple[tuple[str, str], ...]
    week_notes: tuple[str, ...]
    sessions: tuple[SessionAhead, ...]
    drawn: tuple[str, ...]
    reading: tuple[str, ...]


def coach_page(project: Project, program: Program) -> CoachPage:
    """The coach's page of a program."""
    look = outlook(program)
    sessions = two_runs(look)
    tables = [table for session in sessions for table in (session.good, session.missed)]
    unsaid = [session.title for session in program.sessions if not says_how_often(session)]
    some = any(len(shown_weeks(table, look.good.weeks)) > MOST for table in tables)
    ends = any(cell.ends for table in tables for row in table.rows for cell in row.cells)
    left_out = any(len(shown_weeks(table, MOST)) < look.good.weeks for table in tables)
    return CoachPage(
        words.weeks_taken(look.good.weeks, said=program.weeks is not None),
        for_nobody(project, look),
        for_athletes(project, program),
        words.NOBODY_TRAINS if nobody_trains(project, program) else "",
        week_rows(week_coverage(program)),
        (*((words.counted_once(unsaid),) if unsaid else ()), words.HOW_COUNTED),
        tuple(_session(place, session, look.good.easier) for place, session in enumerate(sessions, start=1)),
        drawn_told(tables),
        (
            cells_told(tables),
            *((words.END_EXPLAINED,) if ends else ()),
            *((words.SOME_WEEKS,) if some else (words.LEFT_OUT_WEEKS,) if left_out else ()),
        ),
    )


def _session(place: int, session: TwoRuns, easier: frozenset[int]) -> SessionAhead:
    missed = words.every_missed(3)
    runs = [(words.ALL_GOOD, session.good), (missed, session.missed)]
    drawn = runs[:1] if session.alike else runs
    still = [f"{title} {dose}" for title, dose in session.still]
    return SessionAhead(
        session.good.title,
        session.good.often,
        words.minutes_of(session.good.limit),
        pictures(f"ahead-{place}", drawn, easier) if session.good.rows or not _even(session.good) else (),
        (
            _run(f"weeks-{place}-good", words.ALL_GOOD, session.good, easier),
            _run(f"weeks-{place}-missed", missed, session.missed, easier, same=session.alike),
        ),
        words.unchanged(still) if still else "",
    )


def _even(table: SessionTable) -> bool:
    return not table.over and len(set(table.minutes)) == 1


def _run(key: str, title: str, table: SessionTable, easier: frozenset[int], *, same: bool = False) -> Run:
    weeks = shown_weeks(table, MOST, SOME) if table.rows or not _even(table) else ()
    parts = tuple(_part(table, part, easier) for part in _batches(weeks)) if not same else ()
    return Run(key, title, same, parts, words.same_minutes(table.limit, table.minutes[0]) if _even(table) else "")


def _unbroken(dose: str) -> str:
    """A dose in which no figure parts from what it counts at the end of a line."""
    return re.sub(r"(?<=\d) (?=[a-z])|(?<=x) (?=\d)", "\u00a0", dose)


def _batches(weeks: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    for first in range(0, len(weeks), COLUMNS):
        yield weeks[first : first + COLUMNS]


def _part(table: SessionTable, weeks: tuple[int, ...], easier: frozenset[int]) -> Part:
    columns = tuple(Column(week, week in easier, table.minutes[week - 1], week in table.over) for week in weeks)
    rows = []
    for row in table.rows:
        cells = [row.cells[week - 1] for week in weeks]
        told = [cells[0].dose, *(cell.since(before) for before, cell in pairwise(cells))]
        rows.append(
            (row.title, tuple(Cell(_unbroken(text), cell.ends) for text, cell in zip(told, cells, strict=True)))
        )
    return Part(columns, tuple(rows))
