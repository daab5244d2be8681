"""The blank log as a spreadsheet: ready to print, checked as it is filled in, and locked around the cells to fill in.

Every text is written as a text, whatever it begins with. A cell takes what the reader of logs understands, `10`, `10 kg` or
`8,5`; so what is asked for there is told, and a doubtful figure asked about, but only an effort that is on no scale is
refused. The lock has no password: it saves from slips.
"""

from __future__ import annotations

import io
from collections.abc import Iterable
from datetime import date, datetime
from functools import lru_cache
from math import ceil
from typing import Any, TypeAlias

import attrs

from ...compiler.log_files import cells, columns
from .. import words
from .table import LogTable, TableRow

_CREATED = datetime(2000, 1, 1)  # the same bytes every time: when it was made is no business of a log
_A4 = 9  # the number of the paper
_MARGIN = 0.4  # inches
_WIDTHS = {
    columns.DATE: 11.5,
    columns.SESSION: 9,
    columns.NOTE: 20,
    columns.MOVEMENT: 18,
    columns.ASKED: 32,
    columns.RUNG: 11,
}
_WIDTH, _HELP_WIDTH = 6.5, 72
_LINE, _ROW, _HEADERS_ROW = 15, 27, 33  # points: of a line of text; of a row, for a pen; of the names of the columns
_MORE = 1000  # rows below, for further weeks
_MOST_LISTED, _MOST_FOOT = 255, 120  # letters of a list within a cell, by the format; of a part of a header or footer
_DAYS = (date(2000, 1, 1), date(2099, 12, 31))

Check: TypeAlias = dict[str, Any]


@attrs.frozen
class Foot:
    """What stands on every page: above, and below on the left. The number of the page stands on the right."""

    top: str
    left: str


def as_xlsx(table: LogTable, help: Iterable[str] = (), foot: Foot | None = None) -> bytes:
    """The table as a spreadsheet; `help` stands on a second sheet."""
    from xlsxwriter import Workbook  # only where one is written

    made = io.BytesIO()
    book = Workbook(made, {"in_memory": True})
    book.set_properties({"created": _CREATED, "title": foot.top if foot is not None else ""})
    sheet = book.add_worksheet(words.LOG_TABLE_SHEET)
    _Sheet(book, sheet, table).fill()
    _print(sheet, table, foot)
    helping = book.add_worksheet(words.LOG_TABLE_HELP_SHEET)
    helping.set_column(0, 0, _HELP_WIDTH)
    helping.set_paper(_A4)
    helping.fit_to_pages(1, 0)
    wrapped = book.add_format({"text_wrap": True, "valign": "top"})
    for number, told in enumerate(help):
        helping.set_row(number, _LINE * ceil(len(told) / _HELP_WIDTH) + 3)
        helping.write_string(number, 0, told, wrapped)
    book.close()
    return made.getvalue()


def _print(sheet: Any, table: LogTable, foot: Foot | None) -> None:
    """On paper: across, as wide as a page, the two rows on top on each of them."""
    sheet.set_landscape()
    sheet.set_paper(_A4)
    sheet.set_margins(left=_MARGIN, right=_MARGIN, top=0.7, bottom=0.7)
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(0, 1)
    sheet.print_area(0, 0, len(table.lines) - 1, len(table.headers) - 1)
    if foot is not None:
        sheet.set_header(f"&L{_plain(foot.top)}")
        sheet.set_footer(f"&L{_plain(foot.left)}&R{words.PAGE} &P {words.PAGE_OF} &N")


def _plain(text: str) -> str:
    """A text of a header or footer, in which `&` begins an order."""
    return text[:_MOST_FOOT].replace("&", "&&")


class _Sheet:
    """The sheet that is filled in."""

    def __init__(self, book: Any, sheet: Any, table: LogTable) -> None:
        self.book, self.sheet, self.table = book, sheet, table
        self.forms: dict[tuple[str, bool, bool], Any] = {}

    def fill(self) -> None:
        names = [header.split()[0] for header in self.table.headers]
        widths = [_width(name, header) for name, header in zip(names, self.table.headers, strict=True)]
        for place, (name, width) in enumerate(zip(names, widths, strict=True)):
            self.sheet.set_column(place, place, width, self.format(**_OF.get(name, {}), locked=False))
        self.sheet.set_row(1, _HEADERS_ROW)
        for place, text in enumerate(self.table.head):
            self.sheet.write_string(0, place, text, self.format(font_color=_FAINT))
        header = self.format(bold=True, bottom=2, text_wrap=True, valign="vcenter", bg_color=_SHADE)
        for place, text in enumerate(self.table.headers):
            self.sheet.write_string(1, place, text, header)
        for number, row in enumerate(self.table.rows, start=2):
            self.row(number, row, names, widths)
        self.checks()
        self.sheet.freeze_panes(2, 0)
        self.sheet.protect("", {"format_columns": True, "format_rows": True, "insert_rows": True})

    def row(self, number: int, row: TableRow, names: list[str], widths: list[float]) -> None:
        lines = max(ceil(len(text) / width) for text, width in zip(row.cells, widths, strict=True))
        self.sheet.set_row(number, max(_ROW, _LINE * lines))
        for place, (name, text, header) in enumerate(zip(names, row.cells, self.table.headers, strict=True)):
            form = self.form_of(name, row.begins, header in row.waiting)
            if name in columns.PRINTED and text:
                self.sheet.write_string(number, place, text, form)
            else:
                self.sheet.write_blank(number, place, None, form)

    def form_of(self, name: str, begins: bool, waits: bool) -> Any:
        """How a cell looks in a row with which a session begins, or in another, and whether it waits for something."""
        key = (name, begins, waits)
        if key not in self.forms:
            self.forms[key] = self.format(**_form(*key))
        return self.forms[key]

    def format(self, **form: Any) -> Any:
        return self.book.add_format(form)

    # What is checked

    def checks(self) -> None:
        """Each check once, with all cells that it is for; what is said once of a session also of further weeks below."""
        checks: dict[int, Check] = {}
        found: dict[int, list[tuple[int, int, int, int]]] = {}
        last = len(self.table.lines) - 1
        for place, header in enumerate(self.table.headers):
            name = header.split()[0]
            if name in columns.PRINTED:
                continue
            if name in _OF_ALL:
                checks[id(_OF_ALL[name])] = _OF_ALL[name]
                found.setdefault(id(_OF_ALL[name]), []).append((2, place, last + _MORE, place))
                continue
            for number, row in enumerate(self.table.rows, start=2):
                check = _check(name, row.choices.get(header, ()), self.unit(row))
                if check is None:
                    continue
                checks[id(check)] = check
                there = found.setdefault(id(check), [])
                if there and there[-1][1] == place and there[-1][2] == number - 1:
                    there[-1] = (there[-1][0], place, number, place)
                else:
                    there.append((number, place, number, place))
        for key, places in found.items():
            self.sheet.data_validation(*places[0], {**checks[key], "multi_range": _ranges(places)})

    def unit(self, row: TableRow) -> str:
        return row.cells[self.table.headers.index(columns.UNIT)]


_FAINT, _SHADE, _RULE = "#595959", "#F0F0F0", "#7F7F7F"
_OF: dict[str, dict[str, Any]] = {
    columns.DATE: {"num_format": "yyyy-mm-dd", "align": "left"},
    columns.TIME: {"num_format": "@"},  # 31:00 is minutes, and no time of the day
    columns.NOTE: {"text_wrap": True},
    columns.ASKED: {"font_color": _FAINT},
}
_OF_SESSION = (columns.DATE, columns.SESSION, *columns.OF_SESSION)


def _form(name: str, begins: bool, waits: bool) -> dict[str, Any]:
    """The format of a cell. What is said once of a session is locked below its first row."""
    if name in _OF_SESSION and not begins:
        return {}
    form = {**_OF.get(name, {}), "border": 1, "valign": "vcenter"}
    form |= {f"{side}_color": _RULE for side in ("top", "bottom", "left", "right")}
    if begins:
        form |= {"top": 2, "top_color": "#000000"}
    if name in columns.PRINTED:
        return form | {"text_wrap": True}
    return form | {"locked": False} | ({} if waits else {"bg_color": _SHADE})


def _between(least: Any, most: Any, message: str, kind: str = "decimal") -> Check:
    """A figure that is asked about where it is not between two others."""
    return {
        "validate": kind,
        "criteria": "between",
        "minimum": least,
        "maximum": most,
        "error_type": "warning",
        "error_title": words.LOG_TABLE_SURE,
        "error_message": message,
    }


_EFFORT: Check = _between(0, 10, words.LOG_TABLE_EFFORT) | {"error_type": "stop"}
_OF_ALL: dict[str, Check] = {
    columns.DATE: _between(*_DAYS, words.LOG_TABLE_DAY, "date"),
    columns.MINUTES: _between(1, 300, words.LOG_TABLE_MINUTES),
    columns.RPE: _EFFORT,
    columns.EFFORT: _EFFORT,
}
_SECONDS = _between(0, 120, words.LOG_TABLE_SECONDS)
_OF_FIGURES: dict[str, Check] = {
    columns.LOAD: _between(0, 1000, words.LOG_TABLE_LOAD),
    columns.LOWER: _SECONDS,
    columns.PAUSE: _SECONDS,
    columns.CUES: _between(0, 20, words.LOG_TABLE_COUNT, "integer"),
    columns.REST: _between(0, 900, words.LOG_TABLE_SECONDS),
    columns.DISTANCE: _between(0, 200, words.LOG_TABLE_DISTANCE),
}
_SETS = {
    cells.REPS: _between(0, 200, words.LOG_TABLE_COUNT, "integer"),
    "s": _between(0, 1200, words.LOG_TABLE_SECONDS),
    "": _between(0, 10_000, words.LOG_TABLE_FIGURE),
}


@lru_cache(maxsize=1024)
def _check(name: str, choices: tuple[str, ...], unit: str) -> Check | None:
    """The check of a cell of a movement, None where there is none; the same object for the same."""
    if not choices:
        return _SETS.get(unit, _SETS[""]) if name == columns.SET else _OF_FIGURES.get(name)
    if len(",".join(choices)) > _MOST_LISTED or any("," in one for one in choices):
        return None
    return {
        "validate": "list",
        "source": list(choices),
        "error_type": "warning",
        "error_title": words.LOG_TABLE_SURE,
        "error_message": words.LOG_TABLE_ONE_OF,
    }


def _ranges(places: list[tuple[int, int, int, int]]) -> str:
    from xlsxwriter.utility import xl_range

    return " ".join(xl_range(*place) for place in places)


def _width(name: str, header: str) -> float:
    """As wide as what is written there; else as the longest word of the header, which is set in bold."""
    return _WIDTHS.get(name, max(_WIDTH, max(map(len, header.split())) * 1.2 + 1))
