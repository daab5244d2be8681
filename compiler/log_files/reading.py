"""From a log as a table to the log of the model: row by row, every name and figure of it looked up or told."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

import attrs

from ...grammar.diagnostic import Check, Diagnostic, nearest, or_list
from ...grammar.source import Span
from .. import model
from ..checks import log_files as told
from . import cells
from .columns import (
    DATE,
    DISTANCE,
    KNOWN,
    MINUTES,
    MOVEMENT,
    NOTE,
    OF_SESSION,
    RPE,
    SESSION,
    SHORT,
    TIME,
    Columns,
    picker,
    read_columns,
)  # fmt: skip
from .movement_cells import MovementCells, Problem, State
from .placing import is_blank
from .table import LINE_END, MARK, VERSION, Row, Table, frame, rows, unguarded


@attrs.define
class _Draft:
    """A session as far as it was read; without a date nobody knows where it belongs."""

    date: date | None
    name: str
    span: Span
    raw: tuple[str, str]  # the cells with which its last row began
    first: str  # the movement of its first row: who names it again, with a date or the session, begins another
    states: dict[tuple[str, ...], State]  # what cells of movements say in the sessions of this name
    told: bool = False
    said: dict[str, Any] = attrs.field(factory=dict)
    last: tuple[str, ...] = ()
    entries: list[model.LoggedEntry] = attrs.field(factory=list)
    named: set[str] = attrs.field(factory=set)


def read_table(
    table: Table, programs: Iterable[model.Program], athletes: Iterable[str], found: list[Diagnostic]
) -> model.Log | None:
    """The log of a table, read against the revision that it names; None of a blank one, and where nobody knows whose it is."""
    head, headers, body = frame(table)
    if not headers[1]:
        return None
    columns = read_columns(headers[1])
    missing = next((name for name in (DATE, MOVEMENT) if name not in columns.at), None)
    if missing is not None:
        found.append(told.COLUMN_MISSING.at(headers[0], column=missing, columns=or_list(KNOWN)))
        return None
    if is_blank(table):
        return None
    unplaced, program = _program(table, head[1], list(programs), list(athletes))
    if unplaced is not None or program is None:
        found.append(unplaced or told.UNPLACED.at(head[0]))
        return None
    athlete, revision = cells.name(head[1][1]), head[1][3] if len(head[1]) > 3 else ""
    reader = _Reader(table, columns, program, found)
    reader.tell_columns(headers)
    sessions = reader.sessions(body)
    if not sessions:
        return None
    number = int(revision) if revision.strip() else None
    return model.Log(athlete, program.name, number, sessions, span=table.cell(head[0], 1))


def _program(
    table: Table, head: list[str], programs: list[model.Program], athletes: list[str]
) -> tuple[Diagnostic | None, model.Program | None]:
    """The program of a log, in the revision that it names; or what is wrong with the row that says so."""
    row = Span(table, 0, 0)
    version, athlete, program, revision = (cell.strip() for cell in [*head, "", "", "", ""][:4])

    def wrong(place: int, what: str, instead: str) -> tuple[Diagnostic, None]:
        return told.UNPLACED.at(table.cell(row, place), what=what, instead=instead), None

    if version.lower() != f"{MARK} {VERSION}":
        return wrong(
            0, f"`{version}` is not a kind that is known", f"Write `{MARK} {VERSION}`, or take a fresh blank log."
        )
    if cells.name(athlete) not in athletes:
        what = f"There is no athlete `{athlete}` here" if athlete else "Nobody says whose this log is"
        return wrong(
            1, what, _instead(athlete, athletes, "Write the athlete's name into the second cell of the first row.")
        )
    named = [one for one in programs if one.name == cells.name(program)]
    if not named:
        names = {one.name for one in programs}
        return wrong(
            2, f"There is no program `{program}` here", _instead(program, names, "Write its name into the third cell.")
        )
    revised = [one for one in named if revision in ("", str(one.revision))]
    if not revised:
        there = or_list(str(one.revision) for one in named)
        return wrong(
            3, f"There is no revision `{revision}` of `{program}` here", f"The revisions that are there are {there}."
        )
    return None, max(revised, key=lambda one: one.revision)


def _instead(word: str, known: Iterable[str], otherwise: str) -> str:
    near = nearest(word, known) if word else []
    return f"Did you mean {or_list(near)}?" if near else otherwise


class _Reader:
    """One table being read."""

    def __init__(self, table: Table, columns: Columns, program: model.Program, found: list[Diagnostic]) -> None:
        self.table, self.columns, self.program, self.found = table, columns, program, found
        self.drafts: list[_Draft] = []
        self.by_day: dict[tuple[date, str], _Draft] = {}
        self.session_names = cells.by_name({one.name: one.title for one in program.sessions})
        self.only = program.sessions[0].name if len(program.sessions) == 1 else None
        self.movements = MovementCells(columns, program)
        self.abouts: dict[tuple[str, ...], dict[str, Any]] = {}  # what rows say of sessions, where nothing is wrong
        self.states: dict[str, dict[tuple[str, ...], State]] = {}

    # Findings

    def tell(self, row: Span, column: str | int, check: Check, **facts: Any) -> None:
        place = self.columns.at[column] if isinstance(column, str) else column
        self.found.append(check.at(self.table.cell(row, place), **facts))

    def tell_columns(self, headers: Row) -> None:
        """Tells of columns that are not read."""
        for place in (*self.columns.strange, *self.columns.again):
            found = headers[1][place]
            near = nearest(found, KNOWN)
            what = "no column of a log" if place in self.columns.strange else "a column that is there already"
            help = f"Did you mean {or_list(near)}?" if near and place in self.columns.strange else "It can stay."
            self.tell(headers[0], place, told.COLUMN_UNKNOWN, found=found, what=what, near=help)

    # Rows

    def sessions(self, body: int) -> tuple[model.LoggedSession, ...]:
        """All sessions of which the date is known, in the order of their first rows."""
        self._rows(body)
        return tuple(
            model.LoggedSession(
                one.date,
                one.name,
                one.said.get(SHORT),
                one.said.get(MINUTES),
                one.said.get(RPE),
                tuple(one.entries),
                one.said.get(NOTE, ""),
                span=one.span,
            )
            for one in self.drafts
            if one.date is not None
        )

    def _rows(self, body: int) -> None:
        table, columns = self.table, self.columns
        width, when_at, movement_at = columns.width, columns.at[DATE], columns.at[MOVEMENT]
        name_at = columns.at.get(SESSION, when_at)
        short_at, minutes_at, rpe_at, note_at = (columns.at.get(name, -1) for name in OF_SESSION)
        of_state = picker([columns.at[name] for name in (MOVEMENT, *columns.states)])
        of_sets, of_figures = picker(list(columns.sets)), picker([place for _, place in columns.figures])
        far_at, long_at = columns.at.get(DISTANCE, -1), columns.at.get(TIME, -1)
        draft = self._draft(None, "", Span(table, body, body), ("", ""), "")
        span = Span
        for start, end, row in rows(table, body):
            if len(row) < width:
                row.extend([""] * (width - len(row)))
            row.append("")  # what a column says that is not there
            movement = row[movement_at]
            if row[when_at] or row[name_at]:
                raw = row[when_at], row[name_at]
                if raw != draft.raw or movement == draft.first:
                    draft = self._begun(draft, row, raw, Span(table, start, end))
            if movement and not draft.first:
                draft.first = movement
            if row[short_at] or row[minutes_at] or row[rpe_at] or row[note_at]:
                self._about(draft, (row[short_at], row[minutes_at], row[rpe_at], row[note_at]), Span(table, start, end))
            texts = of_state(row)
            state = draft.states.get(texts) or self._state(draft, texts)
            problems: tuple[Problem, ...] = ()
            try:  # nearly always all of them were read before
                if row[far_at] or row[long_at]:
                    read = zip(state.known, of_figures(row), strict=True)
                    figures = tuple([known[text] for known, text in read if text])
                else:
                    figures = tuple(map(state.of_set, filter(None, of_sets(row))))
            except KeyError:
                figures, problems = self.movements.figures(state, of_figures(row))
            if state.problems or problems:
                self._tell_row((*state.problems, *problems), Span(table, start, end))
            if state.movement is None:
                if (figures or not state.empty) and not state.problems and not self.program.damaged:
                    self._tell_unnamed(Span(table, start, end))
                continue
            draft.named.add(movement)
            if figures or not state.empty:
                if draft.date is None and not draft.told:
                    self._tell_undated(draft, Span(table, start, end))
                draft.entries.append(state.entry(figures, span=span(table, start, end)))

    def _state(self, draft: _Draft, texts: tuple[str, ...]) -> State:
        state = draft.states[texts] = self.movements.state(draft.name, texts)
        return state

    def _tell_row(self, problems: Iterable[Problem], row: Span) -> None:
        for column, check, facts in problems:
            self.tell(row, column, check, **facts)

    def _tell_unnamed(self, row: Span) -> None:
        self.tell(
            row, MOVEMENT, told.ROW_UNPLACED, what="This row has figures, but no movement",
            instead="Write the movement into its column. Until then the row is left out.",
        )  # fmt: skip

    def _tell_undated(self, draft: _Draft, row: Span) -> None:
        draft.told = True
        self.tell(
            row, DATE, told.ROW_UNPLACED, what="This row has figures, but no date stands in it or above it",
            instead="Write the date into the first row of the session. Until then the session is left out.",
        )  # fmt: skip

    # Sessions

    def _begun(self, draft: _Draft, row: list[str], raw: tuple[str, str], span: Span) -> _Draft:
        """The session to which a row belongs that says a date or a session."""
        when, written = raw[0].strip(), raw[1].strip() if SESSION in self.columns.at else ""
        movement = row[self.columns.at[MOVEMENT]]
        name = self._session(written, span) if written else self.only
        if when in cells.NOTHING:
            if draft.name == name and movement not in draft.named:
                draft.raw = raw
                return draft
            return self._draft(None, name or "", span, raw, movement)
        day = self._day(when, span)
        if name is None:
            self.tell(
                span, DATE, told.ROW_UNPLACED, what="This row has a date, but names no session",
                instead=f"Write {or_list(one.name for one in self.program.sessions)}. Until then it is left out.",
            )  # fmt: skip
        if day is None or name is None:
            draft = self._draft(None, name or "", span, raw, movement)
            draft.told = True
            return draft
        there = self.by_day.get((day, name))
        if there is not None and (not there.first or movement != there.first):
            there.raw = raw
            return there
        self.by_day[day, name] = self._draft(day, name, span, raw, movement)
        return self.by_day[day, name]

    def _draft(self, day: date | None, name: str, span: Span, raw: tuple[str, str], first: str) -> _Draft:
        self.drafts.append(_Draft(day, name, span, raw, first, self.states.setdefault(name, {})))
        return self.drafts[-1]

    def _session(self, written: str, row: Span) -> str:
        name = self.session_names.get(written) or self.session_names.get(cells.name(written))
        if name is None and not self.program.damaged:
            near = or_list(nearest(cells.name(written), self.session_names)) or or_list(
                one.name for one in self.program.sessions
            )
            left_out = "it counts for none of the program's"
            self.tell(
                row, SESSION, told.NAME_UNKNOWN, kind="session", found=written, near=f"Write {near}.", left_out=left_out
            )
        return name or cells.name(written)

    def _day(self, written: str, row: Span) -> date | None:
        meant = cells.days(written)
        if len(meant) == 1:
            return meant[0]
        what = f"may be {meant[0]:%Y-%m-%d} or {meant[1]:%Y-%m-%d}" if meant else "is no date"
        example = or_list(map(str, meant)) if meant else "`2026-06-17`"
        self.tell(row, DATE, told.DATE_UNREADABLE, found=written, what=what, example=example)
        return None

    def _about(self, draft: _Draft, about: tuple[str, ...], row: Span) -> None:
        """The cells of a row that are about its session."""
        if about == draft.last:
            return
        draft.last = about
        if draft.date is None and not draft.told:
            self._tell_undated(draft, row)
        if not draft.said and about in self.abouts:
            draft.said = dict(self.abouts[about])
            return
        is_first, problems = not draft.said, len(self.found)
        for column, cell in zip(OF_SESSION, about, strict=True):
            if cell.strip() not in cells.NOTHING:
                self._say(draft, column, cell.strip(), row)
        if is_first and len(self.found) == problems:
            self.abouts[about] = dict(draft.said)

    def _say(self, draft: _Draft, column: str, written: str, row: Span) -> None:
        """One cell that is about a session. A note goes on in another row; all else is said once."""
        if column == NOTE:
            lines = draft.said.get(NOTE, "").split("\n") if NOTE in draft.said else []
            more = unguarded(written).replace(LINE_END, "\n").split("\n")
            draft.said[NOTE] = "\n".join([*lines, *(line for line in more if line not in lines)])
            return
        unit = self.columns.units.get(column) or "min"
        read = cells.effort(written) if column == RPE else cells.minutes(written, unit)
        if read is None:
            what, example = ("an effort from 0 to 10", "`6`") if column == RPE else ("a number of minutes", "`58`")
            self.tell(row, column, told.CELL_UNREADABLE, found=written, what=what, example=example)
            return
        first = draft.said.setdefault(column, read)
        if first != read:
            self.tell(row, column, told.SAID_OTHERWISE, found=written, first=first)
