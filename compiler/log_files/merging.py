"""The same log in several forms, as a text, as CSV, as a spreadsheet: every session of it counts once.

What two logs tell alike counts once, and of what they tell differently that with more in it counts. Neither depends on the
order in which they are read.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import TypeAlias

import attrs

from ...grammar.diagnostic import Diagnostic, Label
from ...grammar.source import Span
from ..checks.log_files import FORMS_DIFFER
from ..checks.logs import program_of
from ..model import Log, LoggedEntry, LoggedSession, Program, Project
from ..quantity import Quantity

_Content: TypeAlias = tuple[object, ...]


def merged(logs: Iterable[Log], programs: Iterable[Program], found: list[Diagnostic]) -> tuple[Log, ...]:
    """The logs without the sessions that another of them tells as well; those told differently are told."""
    logs = tuple(logs)
    whose: dict[tuple[str, str], list[Log]] = {}
    for log in logs:
        whose.setdefault((log.athlete, log.program), []).append(log)
    if all(len(same) == 1 for same in whose.values()):
        return logs
    project = Project(programs=tuple(programs))
    left_out: set[int] = set()
    for same in whose.values():
        if len(same) > 1:
            left_out |= _left_out(same, project, found)
    kept = (
        attrs.evolve(log, sessions=tuple(one for one in log.sessions if id(one) not in left_out)) if left_out else log
        for log in logs
    )
    return tuple(log for log in kept if log.sessions)


def _left_out(logs: list[Log], project: Project, found: list[Diagnostic]) -> set[int]:
    """The sessions, by their identity, that do not count because another log tells them."""
    told: dict[tuple[date, str], list[tuple[int | None, list[LoggedSession]]]] = {}
    for log in logs:
        program = program_of(log, project)
        revision = program.revision if program is not None else log.revision
        own: dict[tuple[date, str], list[LoggedSession]] = {}
        for session in log.sessions:
            own.setdefault((session.date, session.session), []).append(session)
        for key, sessions in own.items():
            told.setdefault(key, []).append((revision, sessions))
    left_out: set[int] = set()
    for ways in told.values():
        if len(ways) == 1:
            continue
        contents = [_content(revision, sessions) for revision, sessions in ways]
        best = max(range(len(ways)), key=lambda place: _fullness(ways[place][1], contents[place]))
        for place, (_, sessions) in enumerate(ways):
            if place == best:
                continue
            left_out |= {id(one) for one in sessions}
            if contents[place] != contents[best]:
                found.append(_differs(sessions[0], ways[best][1][0]))
    return left_out


def _differs(session: LoggedSession, other: LoggedSession) -> Diagnostic:
    label = Label(_first_line(other), "this one counts")
    return FORMS_DIFFER.at(_first_line(session), session=session.session, date=session.date, labels=[label])


def _first_line(session: LoggedSession) -> Span:
    span = session.span
    end = span.source.text.find("\n", span.start)
    return Span(span.source, span.start, min(span.end, end)) if end != -1 else span


def _content(revision: int | None, sessions: list[LoggedSession]) -> _Content:
    """All that is told of a day's session, the order of its movements left out."""
    return (revision, tuple(sorted((_told(one) for one in sessions), key=repr)))


def _told(session: LoggedSession) -> _Content:
    head = (_figure(session.short), _figure(session.took), session.rpe, session.note.strip())
    return (head, tuple(sorted((_done(entry) for entry in session.entries), key=repr)))


def _done(entry: LoggedEntry) -> _Content:
    tempo = entry.tempo
    how = (entry.load, tempo.lower, tempo.pause, tempo.cues, tempo.up, entry.rest)
    return (
        entry.movement,
        entry.rung,
        entry.band,
        entry.rpe,
        tuple(map(_figure, how)),
        tuple(map(_figure, entry.results)),
    )


def _figure(told: object) -> object:
    """A figure in the base unit of its dimension, so that a minute is 60 seconds."""
    return (told.dimension, told.base) if isinstance(told, Quantity) else told


def _fullness(sessions: list[LoggedSession], content: _Content) -> tuple[object, ...]:
    """How much is told: figures first, then movements, then what else is said; alike in all, any rule that knows no order."""
    figures = sum(len(entry.results) for one in sessions for entry in one.entries)
    movements = sum(len(one.entries) for one in sessions)
    said = sum(len([part for part in (one.short, one.took, one.rpe) if part]) + len(one.note) for one in sessions)
    return figures, movements, said, repr(content)
