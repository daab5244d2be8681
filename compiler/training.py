"""Who trains by which program.

An athlete trains by the programs that the line `follows` names; else by those that the athlete logs; else, by the only
program there is. Of a program in several revisions the newest counts.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from .model import Athlete, Program, Project


def trains_by(project: Project, athlete: Athlete) -> tuple[Program, ...]:
    """The programs by which an athlete trains, each once."""
    return _named(athlete, _logged(project), _newest(project))


def in_training(project: Project) -> Iterator[tuple[Program, tuple[Athlete, ...]]]:
    """Every program in its newest revision, with those who train by it."""
    newest = _newest(project)
    trains: dict[str, list[Athlete]] = {name: [] for name in newest}
    logged = _logged(project)
    for athlete in project.athletes:
        for program in _named(athlete, logged, newest):
            trains[program.name].append(athlete)
    for name, program in newest.items():
        yield program, tuple(trains[name])


def together(project: Project) -> Iterator[tuple[tuple[Program, ...], tuple[Athlete, ...]]]:
    """The programs that make up somebody's training, with all for whom they do; nobody where they are none."""
    newest, logged = _newest(project), _logged(project)
    trains: dict[tuple[str, ...], list[Athlete]] = {}
    for athlete in project.athletes:
        names = tuple(program.name for program in _named(athlete, logged, newest))
        trains.setdefault(names, []).append(athlete)
    for names, athletes in trains.items():
        if names:
            yield tuple(newest[name] for name in names), tuple(athletes)


def who_trains(project: Project, program: Program) -> tuple[Athlete, ...]:
    """Those who train by a program, in whichever revision it is given."""
    return next((athletes for newest, athletes in in_training(project) if newest.name == program.name), ())


def _named(
    athlete: Athlete, logged: Mapping[str, Mapping[str, None]], newest: Mapping[str, Program]
) -> tuple[Program, ...]:
    only = newest if len(newest) == 1 else ()
    names = dict.fromkeys(athlete.follows) or logged.get(athlete.name) or only
    return tuple(newest[name] for name in names if name in newest)


def _newest(project: Project) -> dict[str, Program]:
    return {program.name: program for program in sorted(project.programs, key=lambda one: one.revision)}


def _logged(project: Project) -> dict[str, dict[str, None]]:
    """The names of the programs that each athlete logs."""
    logged: dict[str, dict[str, None]] = {}
    for log in project.logs:
        logged.setdefault(log.athlete, {})[log.program] = None
    return logged
