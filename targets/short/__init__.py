"""The short version: a session cut to the time that there is."""

from __future__ import annotations

from typing import Any

from ...compiler.model import Program
from ...compiler.trim import Version, shortened
from .. import telling, words
from ..sheet import file_stem, fill_html, fill_markdown, head, marks, prints_large
from ..taking import cautions
from ..templates import OURS, Templates
from .view import short_sheet


def render(program: Program, version: Version, large: bool = False, templates: Templates = OURS) -> dict[str, str]:
    """A shorter version of a session as HTML and as Markdown, by file name."""
    values, name = sheet_values(program, version, large), sheet_name(program, version)
    return {
        f"{name}.html": fill_html("short/short.html.jinja", values, templates),
        f"{name}.md": fill_markdown("short/short.md.jinja", values, templates),
    }


def sheet_name(program: Program, version: Version) -> str:
    """What the files of a shorter version are called, without their ending."""
    return f"{file_stem(program)}-{version.session.name}-short-{telling.file_time(version.limit)}"


def sheet_values(program: Program, version: Version, large: bool = False) -> dict[str, Any]:
    """All that a shorter version tells."""
    limit = telling.duration(version.limit)
    return {
        "head": head(program, words.SHORT, title=words.short_title(version.session.title, limit)),
        "marks": marks(),
        "sheet": short_sheet(program, version),
        "cautions": cautions(program, words.CAUTIONS_BRIEF, (entry.movement for entry in version.session.entries)),
        "own": program.athlete is not None,
        "large": large or prints_large(program),
    }


def versions(program: Program) -> tuple[Version, ...]:
    """The shorter versions that the program asks for. One that cannot be is left out: a check has told why."""
    tried = (shortened(program, session, asked) for session in program.sessions for asked in session.shorts)
    return tuple(version for version in tried if isinstance(version, Version))
