"""The short version: a session cut to the time that there is."""

from __future__ import annotations

from ...compiler.model import Program
from ...compiler.trim import Version, shortened
from .. import telling, words
from ..sheet import file_stem, fill_html, fill_markdown, head, marks, prints_large
from ..taking import cautions
from .view import short_sheet


def render(program: Program, version: Version) -> dict[str, str]:
    """A shorter version of a session as HTML and as Markdown, by file name."""
    limit = telling.duration(version.limit)
    values = {
        "head": head(program, words.SHORT, title=words.short_title(version.session.title, limit)),
        "marks": marks(),
        "sheet": short_sheet(program, version),
        "cautions": cautions(program, words.CAUTIONS_BRIEF, (entry.movement for entry in version.session.entries)),
        "own": program.athlete is not None,
        "large": prints_large(program),
    }
    name = f"{file_stem(program)}-{version.session.name}-short-{telling.file_time(version.limit)}"
    return {
        f"{name}.html": fill_html("short/short.html.jinja", values),
        f"{name}.md": fill_markdown("short/short.md.jinja", values),
    }


def render_all(program: Program) -> dict[str, str]:
    """Every shorter version that the program asks for. One that cannot be is left out: a check has told why."""
    files: dict[str, str] = {}
    for session in program.sessions:
        for asked in session.shorts:
            version = shortened(program, session, asked)
            if isinstance(version, Version):
                files |= render(program, version)
    return files
