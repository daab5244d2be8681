"""The blank log as a table: a week of sessions, a row for each movement; as CSV, and in `workbook.py` as a spreadsheet.

What is read back from such a table, and how, says `compiler/log_files`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import attrs

from ...compiler.clock import full_sets
from ...compiler.implements import bands
from ...compiler.log_files import columns
from ...compiler.log_files.movement_cells import unit_of
from ...compiler.log_files.table import MARK, VERSION, guarded, written
from ...compiler.model import Block, Entry, Program, Session
from ...compiler.quantity import decimal_text
from .. import telling
from ..taking import load_in
from .view import axis_names, is_banded, most_sets, times


@attrs.frozen
class TableRow:
    """The texts of a row; which columns wait for something, and what may be chosen in some of them."""

    cells: tuple[str, ...]
    waiting: frozenset[str]
    choices: Mapping[str, tuple[str, ...]]
    begins: bool  # whether a session begins with it


@attrs.frozen
class LogTable:
    """A row that says whose log it is, the names of the columns, and the rows below them."""

    head: tuple[str, ...]
    headers: tuple[str, ...]
    rows: tuple[TableRow, ...]

    @property
    def lines(self) -> tuple[tuple[str, ...], ...]:
        return (self.head, self.headers, *(row.cells for row in self.rows))


def log_table(program: Program) -> LogTable:
    """The blank table of a program, that of its athlete where it was fitted to one."""
    logged = [(session, _logged(session)) for session in program.sessions]
    entries = [pair for _, pairs in logged for pair in pairs]
    headers = tuple(_headers(program, entries))
    rows = tuple(
        row
        for session, pairs in logged
        for row in tuple(_session(program, session, pairs, headers)) * len(times(session))
    )
    whose = program.athlete.name if program.athlete is not None else ""
    return LogTable((f"{MARK} {VERSION}", whose, program.name, str(program.revision)), headers, rows)


def as_csv(table: LogTable) -> str:
    """The table as CSV: lines that end as RFC 4180 has them."""
    return "".join(written(map(guarded, line), ",") + "\r\n" for line in table.lines)


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


def _session(program: Program, session: Session, pairs: _Pairs, headers: tuple[str, ...]) -> Iterator[TableRow]:
    """The rows of a session, its name in the first of them."""
    shorts = tuple(decimal_text(short.limit.base / 60) for short in session.shorts)
    for number, (block, entry) in enumerate(pairs):
        asked = telling.dose(entry.dose, full_sets(block, entry), block.rounds is not None, load_in(program, entry))
        cells = {columns.MOVEMENT: entry.movement.name, columns.ASKED: asked}
        cells[columns.UNIT] = "" if _measured(entry) else unit_of(entry.dose)
        waiting, choices = set(_waiting(block, entry)), _choices(program, entry)
        if not number:
            cells[columns.SESSION] = session.name
            waiting |= {columns.DATE, columns.MINUTES, columns.RPE, columns.NOTE} | (
                {columns.SHORT} if shorts else set()
            )
            choices[columns.SHORT] = shorts
        yield TableRow(
            tuple(cells.get(header, "") for header in headers),
            frozenset(header for header in headers if header in waiting or header.split()[0] in waiting),
            {header: told for header in headers if (told := choices.get(header.split()[0]))},
            not number,
        )


def _waiting(block: Block, entry: Entry) -> Iterator[str]:
    """The columns in which something is to be written down of a movement."""
    dose, axes = entry.dose, axis_names(entry)
    if entry.movement.loaded_by or dose.load is not None:
        yield columns.LOAD
    if entry.movement.rungs:
        yield columns.RUNG
    said = {columns.LOWER: dose.tempo.lower, columns.PAUSE: dose.tempo.pause, columns.CUES: dose.tempo.cues}
    yield from (name for name, told in said.items() if told is not None or name in axes)
    if "rest" in axes:
        yield columns.REST
    yield from dose.logs
    if not _measured(entry):
        most = max(full_sets(block, entry), most_sets(entry))
        yield from (f"{columns.SET} {number}" for number in range(1, most + 1))


def _choices(program: Program, entry: Entry) -> dict[str, tuple[str, ...]]:
    """What there is to choose from: the rungs of a movement, and the bands that an athlete has for it."""
    choices = {columns.RUNG: tuple(rung.name for rung in entry.movement.rungs)}
    if program.athlete is not None and is_banded(entry):
        choices[columns.LOAD] = tuple(made.band for made in bands(program.athlete, entry.movement))
    return choices


def _measured(entry: Entry) -> bool:
    """Whether a distance or a time is written down instead of a figure for each set."""
    return not {"distance", "time"}.isdisjoint(entry.dose.logs)
