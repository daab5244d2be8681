"""The overview: who gets what and why, for a coach of nine people or an organisation of a hundred thousand.

Rows come one after another and are told one after another: nothing here grows with their number.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from .. import words
from ..sheet import Head, stream_html, stream_markdown
from .view import Row, as_json, from_json, row_of, row_without, summary

__all__ = ["Row", "Rows", "as_json", "from_json", "render_overview", "row_of", "row_without"]

Rows = Callable[[], Iterable[Row]]  # all rows from the first on, each time it is called


def render_overview(rows: Rows) -> dict[str, Iterator[str]]:
    """The overview as HTML and as Markdown, by file name, each in pieces; the rows are gone through several times."""
    found = summary(rows())
    facts = ((words.ATHLETES, words.overview_facts(found.athletes, found.without, found.warned)),)
    values = {
        "head": Head(words.OVERVIEW_KIND, words.OVERVIEW, "", facts, "", words.OVERVIEW, draft=False),
        "summary": found,
        "needing": lambda: (row for row in rows() if row.errors or row.warnings),
        "rows": rows,
        "large": False,
        "own": False,
    }
    return {
        "overview.html": stream_html("overview/overview.html.jinja", values),
        "overview.md": stream_markdown("overview/overview.md.jinja", values),
    }
