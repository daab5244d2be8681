"""The findings of every fitting in a project, and of the logbooks of those who have a log."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from ...grammar.diagnostic import Diagnostic
from ..model import Project
from ..training import in_training
from . import logged, outgrown
from .fitting import fitting_findings
from .places import declaration, is_inside
from .undone import find_begins_undone

if TYPE_CHECKING:
    from ..fitting import Choice, Fitting


def unfit(project: Project, found: Iterable[Diagnostic], fitted: list[Fitting] | None = None) -> Iterator[Diagnostic]:
    """The findings of every fitting in a project: of sound programs, and athletes of whom nothing is wrong.

    `fitted` takes the fittings, for whoever needs them afterwards.
    """
    if not project.athletes:
        return
    from ..fitting import fit  # no program alone needs these
    from ..logbook import logbook_of
    from ..today import today

    wrong = [one.span for one in found if one.severity == "error"]
    places = {athlete.name: declaration(athlete.span) for athlete in project.athletes} if wrong else {}
    broken = {name for name, place in places.items() for span in wrong if is_inside(span, place)}
    if any(not any(is_inside(span, place) for place in places.values()) for span in wrong):
        return
    choices: dict[str, list[Choice]] = {}
    for program, athletes in in_training(project):
        for athlete in athletes:
            if athlete.name not in broken:
                fitting = fit(program, athlete)
                if fitted is not None:
                    fitted.append(fitting)
                choices.setdefault(athlete.name, []).extend(fitting.choices)
                found_here = list(fitting_findings(fitting))
                yield from found_here
                if project.logs and not any(one.severity == "error" for one in found_here):
                    book = logbook_of(fitting, project.programs, project.logs)
                    yield from outgrown.find_outgrown(today(book))
                    for find in logged.LOGBOOK_CHECKS:
                        yield from find(book)
    for athlete in project.athletes:
        if athlete.begins and athlete.name in choices:
            yield from find_begins_undone(athlete, choices[athlete.name])
