"""The blank log as a table: a week of sessions, a row for each movement, as CSV and as a spreadsheet.

What is read back from such a table, and how, says `compiler/log_files`.
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import Any

import attrs

from ...compiler.clock import full_sets
from ...compiler.log_files import columns
from ...compiler.log_files.movement_cells import unit_of
from ...compiler.log_files.table import MARK, VERSION, guarded, written
from ...compiler.model import Block, Entry, Program, Session
from .. import telling, words
from ..taking import load_in
from .view import axis_names, most_sets, times

_CREATED = datetime(2000, 1, 1)  # the same bytes every time: when it was made is no business of a log
_WIDTHS = {columns.DATE: 12, columns.NOTE: 28, columns.MOVEMENT: 24, columns.ASKED: 44, columns.RUNG: 14}
_WIDTH, _HELP_WIDTH = 9, 100


@attrs.frozen
class LogTable:
    """A row that says whose log it is, the names of the columns, and the rows below them."""

    head: tuple[str, ...]
    headers: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    @property
    def lines(self) -> tuple[tuple[str, ...], ...]:
        return (self.head, self.headers, *self.rows)


def log_table(program: Program) -> LogTable:
    """The blank table of a program, that of its athlete where it was fitted to one."""
    logged = [(session, _logged(session)) for session in program.sessions]
    entries = [pair for _, pairs in logged for pair in pairs]
    headers = tuple(_headers(program, entries))
    rows = tuple(
        row for session, pairs in logged for _ in times(session) for row in _session(program, session, pairs, headers)
    )
    whose = program.athlete.name if program.athlete is not None else ""
    return LogTable((f"{MARK} {VERSION}", whose, program.name, str(program.revision)), headers, rows)


def as_csv(table: LogTable) -> str:
    """The table as CSV: lines that end as RFC 4180 has them."""
    return "".join(written(map(guarded, line), ",") + "\r\n" for line in table.lines)


def as_xlsx(table: LogTable, help: Iterable[str] = ()) -> bytes:
    """The table as a spreadsheet, every text as a text, whatever it begins with; `help` stands on a second sheet."""
    from xlsxwriter import Workbook  # only where one is written

    made = io.BytesIO()
    book = Workbook(made, {"in_memory": True, "default_date_format": "yyyy-mm-dd"})
    book.set_properties({"created": _CREATED})
    sheet = book.add_worksheet(words.LOG_TABLE_SHEET)
    faint, strong = book.add_format({"font_color": "#595959"}), book.add_format({"bold": True, "bottom": 1})
    formats = {
        columns.DATE: book.add_format({"num_format": "yyyy-mm-dd"}),
        columns.TIME: book.add_format({"num_format": "@"}),  # 31:00 is minutes, and no time of the day
        columns.ASKED: faint,
    }
    for place, header in enumerate(table.headers):
        name = header.split()[0]
        sheet.set_column(place, place, _WIDTHS.get(name, _WIDTH), formats.get(name))
    for number, line in enumerate(table.lines):
        _write(sheet, number, line, [faint, strong][number] if number < 2 else None)
    sheet.freeze_panes(2, 0)
    helping = book.add_worksheet(words.LOG_TABLE_HELP_SHEET)
    helping.set_column(0, 0, _HELP_WIDTH, book.add_format({"text_wrap": True}))
    for number, told in enumerate(help):
        helping.write_string(number, 0, told)
    book.close()
    return made.getvalue()


def _write(sheet: Any, number: int, line: tuple[str, ...], form: Any) -> None:
    for place, cell in enumerate(line):
        if cell:
            sheet.write_string(number, place, cell, form)


_Pairs = list[tuple[Block, Entry]]


def _logged(session: Session) -> _Pairs:
    """The entries that are logged, each with its block: no warm-up and no cool-down."""
    kinds = {"work", "conditioning"}
    return [(block, entry) for block in session.blocks if block.kind in kinds for entry in block.entries]


def _headers(program: Program, entries: _Pairs) -> Iterator[str]:
    """The columns that the program needs, each with the unit of a plain number in it."""
    axes = {axis for _, entry in entries for axis in axis_names(entry)}
    tempos = [entry.dose.tempo for _, entry in entries]
    logs = {name for _, entry in entries for name in entry.dose.logs}
    yield from (columns.DATE, columns.SESSION)
    if any(session.shorts for session in program.sessions):
        yield f"{columns.SHORT} min"
    yield from (f"{columns.MINUTES} min", columns.RPE, columns.NOTE, columns.MOVEMENT, columns.ASKED)
    if any(entry.movement.loaded_by or entry.dose.load is not None for _, entry in entries):
        yield f"{columns.LOAD} {program.units}"
    if any(entry.movement.rungs for _, entry in entries):
        yield columns.RUNG
    if "lower" in axes or any(tempo.lower is not None for tempo in tempos):
        yield f"{columns.LOWER} s"
    if "pause" in axes or any(tempo.pause is not None for tempo in tempos):
        yield f"{columns.PAUSE} s"
    if "cues" in axes or any(tempo.cues is not None for tempo in tempos):
        yield columns.CUES
    if "rest" in axes:
        yield f"{columns.REST} s"
    if "effort" in logs:
        yield columns.EFFORT
    yield columns.UNIT
    most = max(
        (max(full_sets(block, entry), most_sets(entry)) for block, entry in entries if not _measured(entry)), default=0
    )
    yield from (f"{columns.SET} {number}" for number in range(1, most + 1))
    if "distance" in logs:
        yield f"{columns.DISTANCE} {'km' if program.units == 'kg' else 'mi'}"
    if "time" in logs:
        yield f"{columns.TIME} min"


def _session(program: Program, session: Session, pairs: _Pairs, headers: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """The rows of a session, its name in the first of them."""
    name = session.name
    for block, entry in pairs:
        asked = telling.dose(entry.dose, full_sets(block, entry), block.rounds is not None, load_in(program, entry))
        cells = {columns.SESSION: name, columns.MOVEMENT: entry.movement.name, columns.ASKED: asked}
        cells[columns.UNIT] = "" if _measured(entry) else unit_of(entry.dose)
        yield tuple(cells.get(header, "") for header in headers)
        name = ""


def _measured(entry: Entry) -> bool:
    """Whether a distance or a time is written down instead of a figure for each set."""
    return not {"distance", "time"}.isdisjoint(entry.dose.logs)
