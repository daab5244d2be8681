"""The pack of one athlete: every file of a program that was fitted to them."""

from __future__ import annotations

from ..compiler.fitting import Fitting
from ..compiler.logbook import Logbook
from . import handout, log_sheet, short, web_log


def pack(
    fitting: Fitting, *, logbook: Logbook | None = None, tables: bool = True, phone: bool = True
) -> dict[str, str | bytes]:
    """Handout, short versions and blank logs of an athlete, by file name; the logs as tables and for a phone, too, or not.

    The `logbook`, where there is one, tells the log for a phone what was done the last time.
    """
    program = fitting.program
    files: dict[str, str | bytes] = {**handout.render(program)}
    files |= short.render_all(program)
    files |= log_sheet.render(program)
    if phone:
        files |= web_log.render(program, web_log.last_times(logbook) if logbook is not None else {})
    return files | log_sheet.render_tables(program) if tables else files
