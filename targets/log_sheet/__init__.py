"""The log sheet: the page on which an athlete writes down what was done, and the same as a text and as a table to fill in."""

from __future__ import annotations

from typing import Any

from ...compiler.model import Program
from .. import words
from ..plan import movements
from ..sheet import file_stem, fill_html, fill_text, head, prints_large
from ..taking import cautions
from ..templates import OURS, Templates
from .table import as_csv, log_table
from .view import log_sheet
from .workbook import Foot, as_xlsx


def render(program: Program, large: bool = False, templates: Templates = OURS) -> dict[str, str]:
    """The blank log of a program, to print and as a text in the language, by file name."""
    values = sheet_values(program, large)
    return {
        f"{file_stem(program)}-log.html": fill_html("log_sheet/log.html.jinja", values, templates),
        f"{file_stem(program)}-log.txt": fill_text("log_sheet/log.txt.jinja", values),
    }


def sheet_values(program: Program, large: bool = False) -> dict[str, Any]:
    """All that a blank log tells."""
    return {
        "head": head(program, words.LOG),
        "sheet": log_sheet(program),
        "cautions": cautions(program, words.CAUTIONS_SHORT, movements(program), brief=True),
        "large": large or prints_large(program),
        "own": program.athlete is not None,
    }


def render_tables(program: Program) -> dict[str, str | bytes]:
    """The blank log of a program as CSV and as a spreadsheet, by file name."""
    table = log_table(program)
    minded = cautions(program, words.CAUTIONS_SHORT, movements(program), brief=True)
    made = head(program, words.LOG)
    help = (words.log_text_head(made.title), made.edition, *minded, *words.LOG_TABLE_HELP)
    book = as_xlsx(table, help, Foot(made.running, made.edition))
    return {f"{file_stem(program)}-log.csv": as_csv(table), f"{file_stem(program)}-log.xlsx": book}
