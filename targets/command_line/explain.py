"""`setwright explain`: every figure of a movement on an athlete's sheet, from its causes."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator

from ...compiler.fitting import Choice, Fitting, fit
from ...compiler.logbook import Logbook, Stands, logbook_of
from ...compiler.model import Athlete
from ...compiler.today import today
from ..explanation import Explanation, concerned, explain, movement_names
from .sources import athlete_of, chosen_programs, compile_source, concerning, trained_by
from .terminal import Refusal, has_errors, result_stream, suggestion, tell_findings, width, wrapped


def run(options: argparse.Namespace) -> int:
    """Explain a movement in each program that the athlete trains by; exit code 1 where the sources have errors."""
    result = compile_source(options.source, options.project)
    wrong = [found for found in concerning(result, options.athlete) if found.severity == "error"]
    tell_findings(wrong, options, sys.stderr)
    athlete = athlete_of(result.project, options.athlete)
    meant = chosen_programs(result, options.source, options) if options.program or options.revision else ()
    programs = meant or trained_by(result.project, athlete)
    books = [logbook_of(fit(one, athlete), result.project.programs, result.project.logs) for one in programs]
    fittings = [today(book) for book in books]
    told = [
        explain(fitting, choice, options.movement, _stands(book, choice))
        for book, fitting in zip(books, fittings, strict=True)
        for choice in concerned(fitting, options.movement)
    ]
    if not told:
        raise Refusal(_unknown(fittings, options.movement, athlete))
    stream = result_stream(options)
    print("\n\n".join("\n".join(_lines(one, width(stream))) for one in told), file=stream)
    return int(has_errors(wrong))


def _stands(book: Logbook, choice: Choice) -> Stands | None:
    """Where the athlete stands in an entry."""
    name = choice.chosen.movement.name if choice.chosen is not None else ""
    here = (one for one in book.stands if one.session.name == choice.session.name)
    return next((one for one in here if one.entry.movement.name == name), None)


def _unknown(fittings: list[Fitting], movement: str, athlete: Athlete) -> str:
    known = {name for fitting in fittings for name in movement_names(fitting)}
    return f"there is no movement `{movement}` in what {athlete.title} trains by. {suggestion(movement, sorted(known))}"


def _lines(told: Explanation, columns: int) -> Iterator[str]:
    """The figures below each other: what it is, what stands there, and below that why, and where."""
    yield told.title
    yield told.place
    indent = max(len(figure.name) for figure in told.figures) + 4
    for figure in told.figures:
        yield ""
        yield from wrapped(figure.told, f"  {figure.name}".ljust(indent), indent, columns)
        shown: set[str] = set()
        for cause in figure.causes:
            yield from wrapped(cause.told, " " * (indent + 2), indent + 2, columns)
            lines = [line for line in cause.lines if line[0] not in shown]
            shown |= {place for place, _ in lines}
            for place, text in lines:
                yield from wrapped(f"{place}  {text}", " " * (indent + 4), indent + 6, columns)
