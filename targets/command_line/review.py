"""`setwright review`: what came of the logs, a page for each athlete and one for the crew."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path

import attrs

from ...compiler.crew_review import Ranked, ranked
from ...compiler.fitting import fit
from ...compiler.groups import members
from ...compiler.logbook import logbook_of
from ...compiler.model import Program, Project
from ...compiler.review import Review, review
from ...compiler.training import who_trains
from .sources import chosen_programs, compile_source
from .terminal import Refusal, counted, errors_in_the_way, has_errors, result_stream, suggestion, tell_findings

EVERYBODY = "all"


@attrs.frozen
class _Crew:
    """Who is reviewed in a program, and the names of those meant who have no log of it."""

    reviews: tuple[Review, ...]
    without: tuple[str, ...]


def run(options: argparse.Namespace) -> int:
    """Review everybody who is meant and has a log; exit code 1 where the sources have errors in the way."""
    result = compile_source(options.source, options.project)
    tell_findings(result.diagnostics, options, sys.stderr)
    if told := errors_in_the_way(result.diagnostics):
        print(f"{told} first.", file=sys.stderr)
        return 1
    wanted = _wanted(result.project, options)
    programs = chosen_programs(result, options.source, options)
    crews = [_crew(result.project, program, wanted) for program in programs]
    found = ranked(one for crew in crews for one in crew.reviews)
    if not found:
        raise Refusal(f"nobody who is meant has a log in {options.source}.")
    without = tuple(dict.fromkeys(name for crew in crews for name in crew.without)) if wanted is not None else ()
    _write(found, without, options)
    return int(has_errors(result.diagnostics))


def _wanted(project: Project, options: argparse.Namespace) -> tuple[str, ...] | None:
    """The names of the athletes who are meant; None for everybody who has a log."""
    if options.people is None:
        return None
    known = [athlete.name for athlete in project.athletes]
    groups = {group.name for group in project.groups}
    found: dict[str, None] = {}
    for name in options.people:
        if name in groups or name in known:
            found |= dict.fromkeys(members(project.groups, name))
        elif name == EVERYBODY:
            found |= dict.fromkeys(known)
        else:
            raise Refusal(
                f"there is no athlete or group `{name}` in {options.source}. {suggestion(name, [*known, *groups])}"
            )
    return tuple(found)


def _crew(project: Project, program: Program, wanted: tuple[str, ...] | None) -> _Crew:
    days = [session.date for log in project.logs if log.program == program.name for session in log.sessions]
    trains = who_trains(project, program)
    meant = [athlete for athlete in trains if wanted is None or athlete.name in wanted]
    reviews, without = [], []
    for athlete in meant:
        book = logbook_of(fit(program, athlete), project.programs, project.logs)
        if book.sessions:
            reviews.append(review(book, max(days)))
        else:
            without.append(athlete.title)
    return _Crew(tuple(reviews), tuple(without))


def _write(found: tuple[Ranked, ...], without: tuple[str, ...], options: argparse.Namespace) -> None:
    from ..review import charts, render, render_crew  # templates are loaded only once there is something to write
    from ..writing import write_files

    files: dict[str, str | bytes] = {}
    for one in found:
        athlete = one.review.logbook.fitting.athlete.name
        files |= {f"{athlete}/{name}": content for name, content in render(one.review).items()}
    written = write_files(Path(options.to), files | render_crew(found, without))
    stream = result_stream(options)
    for line in _summary(found, without):
        print(line, file=stream)
    count = len(written.changed) + len(written.unchanged)
    same = f" ({len(written.unchanged)} already as they should be)" if written.unchanged else ""
    print(f"{counted(count, 'file')} in {options.to}{same}: begin with {Path(options.to) / 'review.html'}", file=stream)
    if not charts.available():
        print('The pages have no pictures: drawing them needs `pip install "setwright[review]"`.', file=sys.stderr)


def _summary(found: tuple[Ranked, ...], without: tuple[str, ...]) -> Iterator[str]:
    """A line for each athlete in the order of need, with the most pressing reasons below."""
    from ..review import words as say
    from ..review.view import need_told

    for place, one in enumerate(found, start=1):
        fitting = one.review.logbook.fitting
        sessions = counted(len(one.review.logbook.sessions), "session")
        yield f"{place}. {fitting.athlete.title}, {fitting.program.title}: {sessions}"
        yield from (f"   {need_told(need)}" for need in one.needs)
        if not one.needs:
            yield f"   {say.NOTHING_PRESSES}"
    if without:
        yield f"{say.WITHOUT_LOG}: {', '.join(without)}"
