"""The findings that concern one athlete, of all that were found in a project."""

from __future__ import annotations

from typing import TYPE_CHECKING

import attrs

from ...grammar.diagnostic import Diagnostic
from ..model import Athlete
from .allows import ALLOW_UNUSED
from .places import declaration, is_inside
from .registry import check_project

if TYPE_CHECKING:
    from ..pipeline import Result


def findings_about(result: Result, athlete: Athlete) -> tuple[Diagnostic, ...]:
    """What is wrong with the programs, with an athlete and with their logs, as if there were nobody else.

    That an `allow` silences nothing is told only where it is so for everybody.
    """
    project = result.project
    others = [one.span for one in project.athletes if one.name != athlete.name]
    for log in project.logs:
        if log.athlete != athlete.name:
            others += [log.span, *(session.span for session in log.sessions)]
    elsewhere = [declaration(span) for span in (*others, *(group.span for group in project.groups))]
    read = [one for one in result.read if not any(is_inside(one.span, place) for place in elsewhere)]
    logs = tuple(log for log in project.logs if log.athlete == athlete.name)
    mine = attrs.evolve(project, athletes=(athlete,), groups=(), logs=logs)
    everywhere = set(result.diagnostics)
    found = [one for one in check_project(mine, read) if one.code != ALLOW_UNUSED.code or one in everywhere]
    order = {source: place for place, source in enumerate(result.sources)}
    found.sort(key=lambda one: (order.get(one.span.source, -1), one.span.start, one.span.end))
    return tuple(found)
