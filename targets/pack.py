"""The pack of one athlete: every file of a program that was fitted to them."""

from __future__ import annotations

from ..compiler.fitting import Fitting
from ..compiler.model import Program
from . import handout, log_sheet, pdf, short
from .printing import USUAL, Printing


def pack(fitting: Fitting, printing: Printing = USUAL) -> dict[str, str | bytes]:
    """Handout, short versions and blank logs of an athlete, by file name."""
    return for_athletes(fitting.program, printing)


def for_athletes(program: Program, printing: Printing) -> dict[str, str | bytes]:
    """The sheets that whoever trains gets: handout, shorter versions and blank logs, to print and as tables."""
    files: dict[str, str | bytes] = {**handout.render(program, printing.large)}
    shorts = short.versions(program)
    for version in shorts:
        files |= short.render(program, version, printing.large)
    files |= log_sheet.render(program, printing.large)
    if "tables" not in printing.without:
        files |= log_sheet.render_tables(program)
    if "pdf" not in printing.without:
        files |= pdf.render(program, shorts, printing)
    return files
