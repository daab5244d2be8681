"""Where the cell of a column stands in a row of a log as a table, and whether anything was filled in."""

from __future__ import annotations

from functools import lru_cache

from ...grammar.source import Span
from .columns import PRINTED, Columns, read_columns
from .table import Table, frame, rows


def cell_of(table: Table, row: Span, column: str | int) -> Span:
    """The cell of a column in a row, or of a figure by its number, counted from 0; the row where there is none."""
    columns = _columns(table)
    if isinstance(column, str):
        return table.cell(row, columns.at[column]) if column in columns.at else row
    texts = next(rows(table, row.start))[2]
    filled = [place for _, place in columns.figures if place < len(texts) and texts[place].strip()]
    return table.cell(row, filled[column]) if column < len(filled) else row


def is_blank(table: Table) -> bool:
    """Whether nothing stands in a table but what a blank log has already."""
    columns, body = _columns(table), frame(table)[2]
    filled = [place for name, place in columns.at.items() if name not in PRINTED] + list(columns.sets)
    return not any(row[place].strip() for _, _, row in rows(table, body) for place in filled if place < len(row))


@lru_cache(maxsize=8)
def _columns(table: Table) -> Columns:
    return read_columns(frame(table)[1][1])
