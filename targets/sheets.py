"""All sheets of a program, by file name."""

from __future__ import annotations

from ..compiler.model import Program, Project
from ..compiler.trim import Version, shortened
from . import handout, horizon, log_sheet, pdf, program_json, short
from .printing import USUAL, Printing


def build(project: Project, program: Program, printing: Printing = USUAL) -> dict[str, str | bytes]:
    """Every file that is made of a program. A shorter version that cannot be is left out: a check has told why."""
    files = for_athletes(program, printing)
    if not printing.large and any("large" in athlete.prints for athlete in project.athletes):
        files |= handout.render_large(program)
        if "pdf" not in printing.without:
            files |= pdf.render_large(program, printing)
    files |= horizon.render(project, program)
    files |= program_json.render(program)
    return files


def for_athletes(program: Program, printing: Printing) -> dict[str, str | bytes]:
    """The sheets that whoever trains gets: handout, shorter versions and blank logs, to print and as tables."""
    files: dict[str, str | bytes] = {**handout.render(program, printing.large)}
    shorts = short_versions(program)
    for version in shorts:
        files |= short.render(program, version, printing.large)
    files |= log_sheet.render(program, printing.large)
    if "tables" not in printing.without:
        files |= log_sheet.render_tables(program)
    if "pdf" not in printing.without:
        files |= pdf.render(program, shorts, printing)
    return files


def short_versions(program: Program) -> tuple[Version, ...]:
    """The shorter versions that the program asks for, as far as they can be."""
    tried = (shortened(program, session, asked) for session in program.sessions for asked in session.shorts)
    return tuple(version for version in tried if isinstance(version, Version))
