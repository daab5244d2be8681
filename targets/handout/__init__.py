"""The handout: the sheet that the athlete keeps."""

from __future__ import annotations

from typing import Any

from ...compiler.model import Program
from .. import words
from ..plan import movements
from ..sheet import file_stem, fill_html, fill_markdown, head, marks, prints_large
from ..taking import cautions
from ..templates import OURS, Templates
from .view import handout


def render(program: Program, large: bool = False, templates: Templates = OURS) -> dict[str, str]:
    """The handout of a program as HTML and as Markdown, by file name; the HTML in large print if that is asked for."""
    values = sheet_values(program, large)
    name = f"{file_stem(program)}-handout"
    return {
        f"{name}.html": fill_html("handout/handout.html.jinja", values, templates),
        f"{name}.md": fill_markdown("handout/handout.md.jinja", values, templates),
    }


def render_large(program: Program, templates: Templates = OURS) -> dict[str, str]:
    """The handout in large print beside the usual one, for those of many readers who ask for it."""
    page = fill_html("handout/handout.html.jinja", sheet_values(program, large=True), templates)
    return {f"{file_stem(program)}-handout-large.html": page}


def sheet_values(program: Program, large: bool = False) -> dict[str, Any]:
    """All that a handout tells."""
    return {
        "head": head(program, words.HANDOUT),
        "marks": marks(),
        "sheet": handout(program),
        "cautions": cautions(program, words.CAUTIONS, movements(program)),
        "own": program.athlete is not None,
        "large": large or prints_large(program),
    }
