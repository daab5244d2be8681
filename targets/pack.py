"""The pack of one athlete: every file of a program that was fitted to them."""

from __future__ import annotations

from ..compiler.fitting import Fitting
from ..compiler.logbook import Logbook
from . import calendar, handout, log_sheet, short, web_log
from .templates import OURS, Templates


def pack(
    fitting: Fitting,
    *,
    logbook: Logbook | None = None,
    tables: bool = True,
    phone: bool = True,
    templates: Templates = OURS,
) -> dict[str, str | bytes]:
    """Handout, short versions, calendar and blank logs of an athlete, by file name.

    The `logbook`, where there is one, tells the log for a phone what was done the last time.
    """
    program = fitting.program
    files: dict[str, str | bytes] = {**handout.render(program, templates=templates)}
    files |= short.render_all(program, templates)
    files |= calendar.render(program)
    files |= log_sheet.render(program, templates)
    if phone:
        files |= web_log.render(program, web_log.last_times(logbook) if logbook is not None else {})
    return files | log_sheet.render_tables(program) if tables else files
