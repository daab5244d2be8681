"""All sheets of a program, by file name."""

from __future__ import annotations

from ..compiler.model import Program, Project
from ..compiler.trim import Version, shortened
from . import handout, horizon, log_sheet, program_json, short
from .templates import OURS, Templates


def build(project: Project, program: Program, templates: Templates = OURS) -> dict[str, str | bytes]:
    """Every file that is made of a program, sheets by the templates of the coach where they bring any.

    A shorter version that cannot be is left out: a check has told why.
    """
    files: dict[str, str | bytes] = {}
    files |= handout.render(program, templates=templates)
    for version in short_versions(program):
        files |= short.render(program, version, templates)
    files |= log_sheet.render(program, templates)
    files |= log_sheet.render_tables(program)
    if any("large" in athlete.prints for athlete in project.athletes):
        files |= handout.render(program, large=True, templates=templates)
    files |= horizon.render(project, program)
    files |= program_json.render(program)
    return files


def short_versions(program: Program) -> tuple[Version, ...]:
    """The shorter versions that the program asks for, as far as they can be."""
    tried = (shortened(program, session, asked) for session in program.sessions for asked in session.shorts)
    return tuple(version for version in tried if isinstance(version, Version))
