"""The coach's page: what comes in the weeks ahead, for the coach and not for the athlete."""

from __future__ import annotations

from ...compiler.model import Program, Project
from .. import words
from ..sheet import fill_html, fill_markdown, head
from .view import coach_page


def render(project: Project, program: Program) -> dict[str, str]:
    """The coach's page of a program as HTML and as Markdown, by file name."""
    values = {
        "head": head(program, words.COACH_PAGE),
        "sheet": coach_page(project, program),
        "large": False,
        "own": False,
    }
    return {
        f"{program.name}-coach.html": fill_html("horizon/horizon.html.jinja", values),
        f"{program.name}-coach.md": fill_markdown("horizon/horizon.md.jinja", values),
    }
