"""`setwright next`: what the next session asks for, and why."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator

from ...compiler import clock
from ...compiler.checks.fitting import fitting_findings
from ...compiler.fitting import fit
from ...compiler.groups import members
from ...compiler.logbook import Logbook, logbook_of
from ...compiler.model import Athlete, Project, Session
from ...compiler.pipeline import Result
from ...compiler.today import today
from .. import telling, words
from .. import turn_words as turns
from ..plan import planned_session
from ..turns_told import why_next
from .sources import athlete_of, chosen_programs, compile_source, concerning, trained_by
from .terminal import Refusal, has_errors, result_stream, suggestion, tell_findings, width, wrapped


def run(options: argparse.Namespace) -> int:
    """Tell the next sessions of an athlete in each program; exit code 1 where the sources have errors."""
    result = compile_source(options.source, options.project)
    wrong = [found for found in concerning(result, options.people) if found.severity == "error"]
    tell_findings(wrong, options, sys.stderr)
    told = [text for athlete in _meant(result.project, options.people) for text in _told(result, athlete, options)]
    stream = result_stream(options)
    print("\n\n".join(told), file=stream)
    return int(has_errors(wrong))


def _meant(project: Project, name: str) -> tuple[Athlete, ...]:
    """The athlete of a name, or the members of the group."""
    known = [*(group.name for group in project.groups), *(one.name for one in project.athletes)]
    if name not in known:
        raise Refusal(f"there is no athlete or group `{name}` here. {suggestion(name, known)}")
    return tuple(athlete_of(project, one) for one in members(project.groups, name))


def _told(result: Result, athlete: Athlete, options: argparse.Namespace) -> Iterator[str]:
    """The next sessions of an athlete in all programs that are meant."""
    project = result.project
    meant = chosen_programs(result, options.source, options) if options.program or options.revision else ()
    for program in meant or trained_by(project, athlete):
        fitting = fit(program, athlete)
        unfit = [one for one in fitting_findings(fitting) if one.severity == "error"]
        if unfit:
            raise Refusal(f"{athlete.title} cannot do {program.name} as it is: mend what `setwright check` tells.", 1)
        book = logbook_of(fitting, project.programs, project.logs)
        sessions = [one for one in book.fitting.program.sessions if options.session in (None, one.name)]
        if not sessions:
            known = [one.name for one in book.fitting.program.sessions]
            raise Refusal(
                f"there is no session `{options.session}` in {program.name}. {suggestion(options.session, known)}"
            )
        for session in sessions:
            yield "\n".join(_lines(book, session, width(result_stream(options))))


def _lines(book: Logbook, session: Session, columns: int) -> Iterator[str]:
    """A session as it is asked for next: block for block, each movement with what it asks for and why."""
    program = today(book).program
    now = next(one for one in program.sessions if one.name == session.name)
    plan = planned_session(program, clock.timetable(program, now))
    stands = {one.entry.movement.title: one for one in book.stands if one.session.name == session.name}
    yield turns.next_session(book.fitting.athlete.title, program.title, program.revision, now.title)
    yield turns.last_logged(*_last(book))
    for block in plan.blocks:
        yield ""
        yield f"{words.MINUTE} {block.minute}  {block.title}"
        if block.circuit:
            yield from wrapped(block.circuit, "  ", 2, columns)
        for entry in block.entries:
            form = f"{words.DO_IT}: {entry.form}." if entry.form else ""
            told = [entry.before, entry.dose, form, entry.rest, entry.tempo]
            yield from wrapped(" ".join(filter(None, told)), f"  {entry.sign} {entry.title}: ", 6, columns)
            for load, how in entry.takes:
                yield from wrapped(f"{words.TAKE}: {f'{load}: ' if load else ''}{how}.", "      ", 6, columns)
            if entry.title in stands and (why := why_next(stands[entry.title])):
                yield from wrapped(why, "      ", 6, columns)


def _last(book: Logbook) -> tuple[int, str]:
    sessions = book.sessions
    return len(sessions), telling.day(sessions[-1].date) if sessions else ""
