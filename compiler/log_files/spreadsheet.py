"""A spreadsheet as the text of its rows: cells parted by tabs, figures and days as people write them."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterable
from datetime import date, datetime, time, timedelta
from typing import Any

from .table import LINE_END, MARK

MOST_UNPACKED = 1_000_000_000  # bytes: a small file can unpack to more than there is memory for
_BREAKS = re.compile(r"\r\n|[\r\n]")


class NoSpreadsheet(Exception):
    """Bytes that are no spreadsheet that can be read: why, in a few words."""


def marked_sheets(raw: bytes) -> list[str]:
    """The texts of the sheets whose first cell is that of a log of ours, in their order. Raises NoSpreadsheet."""
    from python_calamine import CalamineError, CalamineWorkbook  # only where there is a spreadsheet

    try:
        with zipfile.ZipFile(io.BytesIO(raw)) as packed:
            if sum(part.file_size for part in packed.infolist()) > MOST_UNPACKED:
                raise NoSpreadsheet("it is too large")
        book = CalamineWorkbook.from_filelike(io.BytesIO(raw))
        sheets = (book.get_sheet_by_name(name).to_python(skip_empty_area=False) for name in book.sheet_names)
        return [_text(rows) for rows in sheets if rows and rows[0] and str(rows[0][0]).lower().startswith(MARK)]
    except (CalamineError, zipfile.BadZipFile, OSError, ValueError) as error:
        raise NoSpreadsheet("it is damaged, or something else under that name") from error


def _text(rows: Iterable[list[Any]]) -> str:
    """Rows as lines. What was told once is kept: a log says the same few hundred things again and again."""
    told: _Told = _Told()
    known = told.__getitem__
    return "".join(["\t".join(map(known, row)) + "\n" for row in rows])


class _Told(dict[Any, str]):
    """Cells, and how each is written. Equal values of two types, as 1, 1.0 and True, are written alike."""

    def __missing__(self, value: Any) -> str:
        text = self[value] = _told(value)
        return text


def _told(value: Any) -> str:
    match value:
        case str():
            line = _BREAKS.sub(LINE_END, value.strip()).replace("\t", " ")
            return '"' + line.replace('"', '""') + '"' if '"' in line else line
        case bool() | int():
            return str(int(value))
        case float():
            return str(int(value)) if value.is_integer() else format(value, ".10g")
        case datetime() if (value.hour, value.minute, value.second) == (0, 0, 0):
            return value.date().isoformat()
        case timedelta():
            return _clock(round(value.total_seconds()))
        case time():
            return _clock(value.hour * 3600 + value.minute * 60 + value.second)
        case date() | datetime():
            return value.isoformat()
    return str(value)


def _clock(seconds: int) -> str:
    return f"{seconds // 3600}:{seconds // 60 % 60:02}:{seconds % 60:02}"
