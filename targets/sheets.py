"""All sheets of a program, by file name."""

from __future__ import annotations

from ..compiler.model import Program, Project
from . import handout, horizon, pdf, program_json
from .pack import for_athletes
from .printing import USUAL, Printing


def build(project: Project, program: Program, printing: Printing = USUAL) -> dict[str, str | bytes]:
    """Every file that is made of a program, pages by the templates of the coach where they bring any.

    A shorter version that cannot be is left out: a check has told why.
    """
    files = for_athletes(program, printing)
    if not printing.large and any("large" in athlete.prints for athlete in project.athletes):
        files |= handout.render_large(program, printing.templates)
        if "pdf" not in printing.without:
            files |= pdf.render_large(program, printing)
    files |= horizon.render(project, program)
    files |= program_json.render(program)
    return files
