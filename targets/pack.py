"""The pack of one athlete: every file of a program that was fitted to them."""

from __future__ import annotations

from ..compiler.fitting import Fitting
from . import handout, log_sheet, short
from .sheets import short_versions


def pack(fitting: Fitting) -> dict[str, str | bytes]:
    """Handout, short versions and blank logs of an athlete, by file name."""
    program = fitting.program
    files: dict[str, str | bytes] = {**handout.render(program)}
    for version in short_versions(program):
        files |= short.render(program, version)
    return files | log_sheet.render(program) | log_sheet.render_tables(program)
