"""The handout: the sheet that the athlete keeps."""

from __future__ import annotations

from ...compiler.model import Program
from .. import words
from ..sheet import fill_html, fill_markdown, head, marks
from .view import handout


def render(program: Program, large: bool = False) -> dict[str, str]:
    """The handout of a program as HTML and as Markdown, by file name; in large print as HTML alone."""
    values = {
        "head": head(program, words.HANDOUT),
        "marks": marks(),
        "sheet": handout(program),
        "large": large,
    }
    if large:
        return {f"{program.name}-handout-large.html": fill_html("handout/handout.html.jinja", values)}
    return {
        f"{program.name}-handout.html": fill_html("handout/handout.html.jinja", values),
        f"{program.name}-handout.md": fill_markdown("handout/handout.md.jinja", values),
    }
