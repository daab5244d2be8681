"""The pack of one athlete: every file of a program that was fitted to them."""

from __future__ import annotations

from ..compiler.fitting import Fitting
from . import calendar, handout, log_sheet, short
from .sheets import short_versions


def pack(fitting: Fitting, *, tables: bool = True) -> dict[str, str | bytes]:
    """Handout, short versions, calendar and blank logs of an athlete, by file name; the logs as tables, too, or not."""
    program = fitting.program
    files: dict[str, str | bytes] = {**handout.render(program)}
    for version in short_versions(program):
        files |= short.render(program, version)
    files |= calendar.render(program)
    files |= log_sheet.render(program)
    return files | log_sheet.render_tables(program) if tables else files
