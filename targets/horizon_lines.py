"""A look ahead as lines of plain text, for a terminal or a file."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import zip_longest
from textwrap import wrap

from ..compiler.horizon import Outlook
from . import words
from .horizon_table import (
    Row,
    SessionTable,
    TwoRuns,
    cells_told,
    done_otherwise,
    shown_weeks,
    sign,
    signs_told,
    two_runs,
)

WIDTH = 100
WIDEST = 30  # of a title or a dose
COLUMNS = 16  # weeks in a table at most


def ahead_lines(outlook: Outlook, who: str, width: int = WIDTH) -> Iterator[str]:
    """Both runs of a program, session by session: signs of all weeks, then what each week asks for."""
    program, easier = outlook.good.program, outlook.good.easier
    yield words.ahead_title(program.title, program.revision, outlook.good.weeks, who)
    missed = words.every_missed(outlook.missed.missed_every or 0)
    sessions = two_runs(outlook)
    for session in sessions:
        yield ""
        yield ", ".join(filter(None, (session.good.title, session.good.often)))
        yield from _signs(session, missed, width)
        yield from _run(words.ALL_GOOD, session.good, easier, width)
        if session.alike:
            yield ""
            yield f"  {words.the_same(missed)}"
        else:
            yield from _run(missed, session.missed, easier, width)
        if session.still:
            yield ""
            yield from _wrapped(words.unchanged([f"{title} {dose}" for title, dose in session.still]), width)
    yield ""
    yield from _explained(outlook, sessions, width)
    yield from _wrapped(done_otherwise(outlook.fitting), width)


def _explained(outlook: Outlook, sessions: Sequence[TwoRuns], width: int) -> Iterator[str]:
    """What the signs and the cells mean."""
    tables = [table for session in sessions for table in (session.good, session.missed)]
    yield from _wrapped(f"{', '.join(signs_told(tables))}.", width)
    yield from _wrapped(cells_told(tables), width)
    if any(len(shown_weeks(table, len(table.minutes))) > COLUMNS for table in tables):
        yield from _wrapped(words.SOME_WEEKS, width)
    elif any(len(shown_weeks(table, COLUMNS)) < len(table.minutes) for table in tables):
        yield from _wrapped(words.LEFT_OUT_WEEKS, width)
    if any(table.over for table in tables):
        yield from _wrapped(words.OVER_EXPLAINED, width)


def _wrapped(text: str, width: int) -> list[str]:
    return wrap(text, width, initial_indent="  ", subsequent_indent="  ")


# Signs


def _signs(session: TwoRuns, missed: str, width: int) -> Iterator[str]:
    """Each movement as a line of signs, one a week; both runs side by side where they fit."""
    if not session.good.rows:
        return
    widest = max(len(_short(row.title)) for row in session.good.rows)
    titles = ["", words.WEEK_NUMBER, *(_short(row.title) for row in session.good.rows)]
    weeks, strip = len(session.good.minutes), max(width - widest - 4, 20) // 5 * 5
    parts = [range(first, min(first + strip, weeks)) for first in range(0, weeks, strip)]
    runs = [(words.ALL_GOOD, session.good), (missed, session.missed)][: 1 if session.alike else 2]
    strips = [_strip(title, table.rows, part) for title, table in runs for part in parts]
    beside = widest + 2 + sum(len(each[0]) + 2 for each in strips) <= width
    for together in [strips] if beside else [[each] for each in strips]:
        yield ""
        for title, *signs in zip(titles, *together, strict=True):
            yield f"  {title:<{widest}}  {'  '.join(signs)}".rstrip()


def _strip(title: str, rows: Sequence[Row], weeks: range) -> list[str]:
    """A title, a ruler, and the signs of each movement, all of one width."""
    lines = [title, _ruler(weeks), *("".join(sign(row.cells[week]) for week in weeks) for row in rows)]
    widest = max(map(len, lines))
    return [f"{line:<{widest}}" for line in lines]


def _ruler(weeks: range) -> str:
    """The first week and every fifth, the last figure of each in its place."""
    line = [" "] * len(weeks)
    for place, week in enumerate(weeks):
        number = str(week + 1)
        if (place == 0 or (week + 1) % 5 == 0) and len(number) <= place + 1:
            line[place + 1 - len(number) : place + 1] = number
    return "".join(line)


# Tables


def _run(title: str, table: SessionTable, easier: frozenset[int], width: int) -> Iterator[str]:
    """The movements by week, as many weeks side by side as fit, and the minutes."""
    yield ""
    yield f"  {title}"
    even = not table.over and len(set(table.minutes)) == 1
    if table.rows or not even:
        heads = [words.WEEK_NUMBER, *(_short(row.title) for row in table.rows), words.minutes_of(table.limit)]
        yield from _columns(heads[:-1] if even else heads, table, easier, width)
    if even:
        yield f"  {words.same_minutes(table.limit, table.minutes[0])}"


def _columns(heads: Sequence[str], table: SessionTable, easier: frozenset[int], width: int) -> Iterator[str]:
    widest = max(map(len, heads))
    shown = list(shown_weeks(table, COLUMNS))
    while shown:
        columns: list[list[str]] = []
        room = width - widest - 2
        for before, week in zip_longest((None, *shown), shown):
            if week is None:
                break
            column = _column(table, easier, before if columns else None, week)
            room -= max(map(len, column)) + 2
            if columns and room < 0:
                break
            columns.append(column)
        if shown[0] > 1:
            yield ""
        shown = shown[len(columns) :]
        widths = [max(map(len, column)) for column in columns]
        for head, *cells in zip(heads, *columns, strict=False):
            padded = (f"{cell:<{width}}" for cell, width in zip(cells, widths, strict=True))
            yield f"  {head:<{widest}}  {'  '.join(padded)}".rstrip()


def _column(table: SessionTable, easier: frozenset[int], before: int | None, week: int) -> list[str]:
    """A week: its number, what it asks of each movement otherwise than the column before, its minutes."""
    return [
        f"{week}{words.EASIER_WEEK if week in easier else ''}",
        *(_cell(row, before, week) for row in table.rows),
        f"{table.minutes[week - 1]}{words.OVER_LIMIT if week in table.over else ''}",
    ]


def _cell(row: Row, before: int | None, week: int) -> str:
    cell = row.cells[week - 1]
    told = cell.dose if before is None else cell.since(row.cells[before - 1])
    return _short(told or words.NOTHING_MOVES) + (f" {words.ENDS_HERE}" if cell.ends else "")


def _short(text: str) -> str:
    return text if len(text) <= WIDEST else f"{text[: WIDEST - 3]}..."
