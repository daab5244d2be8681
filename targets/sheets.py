"""All sheets of a program, by file name."""

from __future__ import annotations

from ..compiler.model import Program, Project
from ..compiler.trim import Version, shortened
from . import handout, horizon, log_sheet, program_json, short, web_log


def build(project: Project, program: Program) -> dict[str, str | bytes]:
    """Every file that is made of a program. A shorter version that cannot be is left out: a check has told why."""
    files: dict[str, str | bytes] = {}
    files |= handout.render(program)
    for version in short_versions(program):
        files |= short.render(program, version)
    files |= log_sheet.render(program)
    files |= log_sheet.render_tables(program)
    files |= web_log.render(program)
    if any("large" in athlete.prints for athlete in project.athletes):
        files |= handout.render(program, large=True)
    files |= horizon.render(project, program)
    files |= program_json.render(program)
    return files


def short_versions(program: Program) -> tuple[Version, ...]:
    """The shorter versions that the program asks for, as far as they can be."""
    tried = (shortened(program, session, asked) for session in program.sessions for asked in session.shorts)
    return tuple(version for version in tried if isinstance(version, Version))
