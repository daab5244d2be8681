"""The pack of one athlete: every file of a program that was fitted to them."""

from __future__ import annotations

from ..compiler.fitting import Fitting
from . import calendar, handout, log_sheet, short
from .templates import OURS, Templates


def pack(fitting: Fitting, *, tables: bool = True, templates: Templates = OURS) -> dict[str, str | bytes]:
    """Handout, short versions, calendar and blank logs of an athlete, by file name; the logs as tables, too, or not."""
    program = fitting.program
    files: dict[str, str | bytes] = {**handout.render(program, templates=templates)}
    files |= short.render_all(program, templates)
    files |= calendar.render(program)
    files |= log_sheet.render(program, templates)
    return files | log_sheet.render_tables(program) if tables else files
