"""The review: what came of an athlete's logs, a page for the coach and one for the athlete; and the crew in order of need."""

from __future__ import annotations

from collections.abc import Sequence

import attrs
from markupsafe import Markup

from ...compiler.crew_review import Ranked
from ...compiler.review import Review
from .. import telling
from .. import words as common
from ..prose import SafeMarkdown
from ..sheet import Head, file_stem, fill_html, fill_markdown, head, prints_large
from . import charts
from . import words as say
from .view import Page, crew_page, page


def render(review: Review) -> dict[str, str]:
    """The coach's review and the athlete's page of progress, as HTML and as Markdown, by file name.

    Pictures are left out where nothing is installed that draws them: all of their figures are in the tables.
    """
    program, view = review.logbook.fitting.program, page(review)
    drawn = drawings(view) if charts.available() else {}
    stem, files = file_stem(program), {}
    html, markdown = _tables(view)  # the same on both pages
    for kind, name, coach in ((say.REVIEW, "review", True), (say.PROGRESS, "progress", False)):
        values = {
            "head": _head(review, kind),
            "sheet": view,
            "drawn": drawn,
            "say": say,
            "coach": coach,
            "large": not coach and prints_large(program),
            "own": True,
        }
        files[f"{stem}-{name}.html"] = fill_html("review/review.html.jinja", {**values, "tables": html})
        files[f"{stem}-{name}.md"] = fill_markdown("review/review.md.jinja", {**values, "tables": markdown})
    return files


def _tables(view: Page) -> tuple[dict[str, Markup], dict[str, SafeMarkdown]]:
    """The table of each movement as HTML and as Markdown, by its key."""
    filled = [(one.key, {"one": one, "say": say}) for one in view.movements]
    html = {key: Markup(fill_html("review/figures.html.jinja", values)) for key, values in filled}
    return html, {key: SafeMarkdown(fill_markdown("review/figures.md.jinja", values)) for key, values in filled}


def drawings(view: Page) -> dict[str, Markup]:
    """The picture of each movement, by its key."""
    return {one.key: charts.draw(one.drawing, one.key, one.chart_title, one.chart_told) for one in view.movements}


def render_crew(ranked: Sequence[Ranked], without: Sequence[str] = ()) -> dict[str, str]:
    """Who of a crew needs the coach first, and why; `without` are the names of those who have no log."""
    pressing = sum(bool(one.needs) for one in ranked)
    facts = ((common.ATHLETES, say.crew_facts(len(ranked), pressing)),)
    values = {
        "head": Head(say.CREW_KIND, say.CREW, "", facts, "", say.CREW, draft=False),
        "sheet": crew_page(ranked, without),
        "say": say,
        "large": False,
        "own": False,
    }
    return {
        "review.html": fill_html("review/crew.html.jinja", values),
        "review.md": fill_markdown("review/crew.md.jinja", values),
    }


def _head(review: Review, kind: str) -> Head:
    sessions = review.logbook.sessions
    told = head(review.logbook.fitting.program, kind)
    first, last = (telling.day(session.date) for session in (sessions[0], sessions[-1]))
    return attrs.evolve(told, facts=(*told.facts, (say.LOGGED, say.logged_fact(len(sessions), first, last))))
