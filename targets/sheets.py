"""All sheets of a program, by file name."""

from __future__ import annotations

from ..compiler.model import Program, Project
from . import handout, horizon, log_sheet, program_json, short, web_log
from .templates import OURS, Templates


def build(project: Project, program: Program, templates: Templates = OURS) -> dict[str, str | bytes]:
    """Every file that is made of a program, sheets by the templates of the coach where they bring any.

    A shorter version that cannot be is left out: a check has told why.
    """
    files: dict[str, str | bytes] = {}
    files |= handout.render(program, templates=templates)
    files |= short.render_all(program, templates)
    files |= log_sheet.render(program, templates)
    files |= log_sheet.render_tables(program)
    files |= web_log.render(program)
    if any("large" in athlete.prints for athlete in project.athletes):
        files |= handout.render(program, large=True, templates=templates)
    files |= horizon.render(project, program)
    files |= program_json.render(program)
    return files
