"""A log as a table: its text, told apart from other people's tables by its first row, and its cells with their places.

A spreadsheet becomes the text of its rows, cells parted by tabs, so that one reader serves both, and every cell has a place
in a text. A line end within a cell of it is written as `↵`, so that a row stays a line.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache

import attrs

from ...grammar.source import Source, Span

MARK = "setwright log"
VERSION = 1
ENDINGS = (".csv", ".xlsx")
LINE_END = "↵"
MOST_BYTES = 100_000_000  # of a file: some hundred thousand sessions
MOST_LETTERS = 5_000  # of a cell in quotes: quotes that nobody closed end there
BESIDE_FORMULAS = "'"  # before a text that a spreadsheet would take for a formula
FORMULAS = tuple("=+-@\t\r\n＝＋－＠")  # OWASP, CSV injection: the letters with which one begins, and their wide forms


@attrs.frozen(eq=False)
class Table(Source):
    """The text of a table: which sign parts its cells, and whether it is a spreadsheet, where people know cells by letters."""

    separator: str = ","
    lettered: bool = False

    def told(self, line: int, column: int, written: str) -> str:
        """`maren.csv:14:23`; of a spreadsheet `maren.xlsx: row 14, column E`."""
        if not self.lettered:
            return super().told(line, column, written)
        cells = _cells(written, 0, self.separator)
        number = next((place for place, (_, end) in enumerate(cells) if column - 1 <= end), 0)
        return f"{self.name}: row {line}, column {letters(number)}"

    def cell(self, row: Span, number: int) -> Span:
        """The place of a cell in a row, counted from 0; that of the row's end where it has fewer."""
        cells = _cells(self.text, row.start, self.separator)
        start, end = cells[number] if number < len(cells) else (row.end, row.end)
        return Span(self, start, end)


def table_of(name: str, text: str) -> Table | None:
    """The table of a text, None where its first row is not that of a log of ours."""
    head = text[: text.find("\n") + 1 or len(text)].removeprefix('"').lower()
    if not head.startswith(MARK):
        return None
    separator = next((sign for sign in "\t;," if sign in head), ",")
    return Table(name, text, separator=separator, lettered=separator == "\t" and name.endswith(".xlsx"))


def rows(table: Table, at: int = 0) -> Iterator[tuple[int, int, list[str]]]:
    """Where each row from a place on starts and ends, and the text of its cells. Empty lines are no rows."""
    text, separator = table.text, table.separator
    lines = iter(text[at:].split("\n"))
    quoted = _line_reader(separator)
    for line in lines:
        end = at + len(line)
        if '"' not in line:
            if line:
                yield at, end, line.split(separator)
        elif (simple := quoted(line)) is not None:
            yield at, end, simple
        else:
            spans = _cells(text, at, separator)
            while end < spans[-1][1]:  # a cell in quotes goes on in the next line
                end += 1 + len(next(lines))
            yield at, end, [_unquoted(text[start:stop]) for start, stop in spans]
        at = end + 1


Row = tuple[Span, list[str]]


def frame(table: Table) -> tuple[Row, Row, int]:
    """The first row, the one with the names of the columns, and where those below begin; blank rows between are none."""
    found: list[Row] = []
    end = 0
    for start, end, row in rows(table):
        if any(row):
            found.append((Span(table, start, end), [cell.strip() for cell in row]))
        if len(found) == 2:
            break
    nothing: Row = (Span(table, end, end), [])
    head, headers = [*found, nothing, nothing][:2]
    return head, headers, end + 1


def _line_reader(separator: str) -> Callable[[str], list[str] | None]:
    """A function from a line with quotes to its cells; None where a cell does not end in the line, or its quotes are odd."""
    waiting: list[str] = []
    readers = [csv.reader(iter(waiting.pop, None), delimiter=separator, strict=True)]

    def read(line: str) -> list[str] | None:
        waiting.append(line)
        try:
            return next(readers[0])
        except (IndexError, csv.Error):  # it asked for another line, or is no CSV
            readers[0] = csv.reader(iter(waiting.pop, None), delimiter=separator, strict=True)
            return None

    return read


def letters(number: int) -> str:
    """The letters by which a spreadsheet calls a column, counted from 0: `A`, `B`, ... `Z`, `AA`."""
    told = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        told = chr(ord("A") + rest) + told
    return told


def written(cells: Iterable[str], separator: str) -> str:
    """A row as a line of text, cells in quotes where they must be."""
    return separator.join(
        '"' + cell.replace('"', '""') + '"'
        if '"' in cell or separator in cell or "\n" in cell or "\r" in cell
        else cell
        for cell in cells
    )


def guarded(text: str) -> str:
    """A text as it is written into a table: with a mark before it where a spreadsheet would take it for a formula."""
    return BESIDE_FORMULAS + text if text.startswith((*FORMULAS, BESIDE_FORMULAS)) else text


def unguarded(text: str) -> str:
    """A text of a cell as it was before it was guarded. Whoever writes `'twas` themselves keeps it."""
    return text[1:] if text.startswith(BESIDE_FORMULAS) and guarded(text[1:]) == text else text


@lru_cache(maxsize=4)
def _cell_pattern(separator: str) -> re.Pattern[str]:
    sign = re.escape(separator)
    return re.compile(rf'"(?:[^"]|""){{0,{MOST_LETTERS}}}"(?=[{sign}\n]|\Z)|[^{sign}\n]*')


def _cells(text: str, at: int, separator: str) -> list[tuple[int, int]]:
    """Where the cells of the row at a place stand, their quotes included."""
    pattern = _cell_pattern(separator)
    found: list[tuple[int, int]] = []
    while True:
        match = pattern.match(text, at)
        assert match is not None
        found.append(match.span())
        at = match.end()
        if not text.startswith(separator, at):
            return found
        at += 1


def _unquoted(cell: str) -> str:
    return cell[1:-1].replace('""', '"') if len(cell) > 1 and cell[0] == cell[-1] == '"' else cell
