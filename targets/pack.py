"""The pack of one athlete: every file of a program that was fitted to them."""

from __future__ import annotations

from ..compiler.fitting import Fitting
from ..compiler.logbook import Logbook
from ..compiler.model import Program
from . import calendar, handout, log_sheet, pdf, short, web_log
from .printing import USUAL, Printing


def pack(fitting: Fitting, printing: Printing = USUAL, logbook: Logbook | None = None) -> dict[str, str | bytes]:
    """Handout, short versions, calendar and blank logs of an athlete, by file name.

    The `logbook`, where there is one, tells the log for a phone what was done the last time.
    """
    files = for_athletes(fitting.program, printing, logbook)
    return files if "calendar" in printing.without else files | calendar.render(fitting.program)


def for_athletes(program: Program, printing: Printing, logbook: Logbook | None = None) -> dict[str, str | bytes]:
    """The sheets that whoever trains gets: handout, shorter versions and blank logs, to print, as tables and for a phone."""
    large, templates = printing.large, printing.templates
    files: dict[str, str | bytes] = {**handout.render(program, large, templates)}
    shorts = short.versions(program)
    for version in shorts:
        files |= short.render(program, version, large, templates)
    files |= log_sheet.render(program, large, templates)
    if "phone" not in printing.without:
        files |= web_log.render(program, web_log.last_times(logbook) if logbook is not None else {})
    if "tables" not in printing.without:
        files |= log_sheet.render_tables(program)
    if "pdf" not in printing.without:
        files |= pdf.render(program, shorts, printing)
    return files
