"""From what was typed to compiled projects and the programs that are meant."""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from .terminal import Refusal, suggestion

if TYPE_CHECKING:
    from ...compiler.model import Athlete, Program, Project
    from ...compiler.pipeline import Result
    from ...grammar.diagnostic import Diagnostic


def compile_source(source: str, project: str | None) -> Result:
    """The compiled file or folder; a place that is not there is refused with the nearest one that is."""
    where = places(source, project)
    from ...compiler.disk import Unreadable
    from ...compiler.pipeline import compile_path

    try:
        return compile_path(*where)
    except Unreadable as unreadable:
        raise Refusal(str(unreadable)) from None


def concerning(result: Result, person: str | None) -> tuple[Diagnostic, ...]:
    """The findings on an athlete and on the programs, where one is named who is there; else all."""
    athlete = next((one for one in result.project.athletes if one.name == person), None)
    if athlete is None:
        return result.diagnostics
    from ...compiler.checks.about import findings_about

    return findings_about(result, athlete)


def places(source: str, project: str | None) -> tuple[Path, Path | None]:
    """The paths of a source and of its project; one that is not there is refused."""
    path = Path(source)
    if not path.exists() and not path.is_symlink():
        raise Refusal(f"there is no file or folder {source}.{_nearby(path)}")
    if project is not None and not Path(project).is_dir():
        raise Refusal(f"--project: there is no folder {project}.")
    return path, Path(project) if project is not None else None


def _nearby(path: Path) -> str:
    """A question after the sources beside a missing one."""
    from ...grammar.diagnostic import nearest, or_list

    there = path.parent.iterdir() if path.parent.is_dir() else ()
    known = [near.name for near in there if near.suffix == ".coach" or near.is_dir()]
    ended = f"{path.name}.coach"
    near = [ended] if ended in known else nearest(path.name, known)
    return f" Did you mean {or_list(str(path.with_name(name)) for name in near)}?" if near else ""


def merged(results: Sequence[Result]) -> tuple[Diagnostic, ...]:
    """The findings of all results, a finding in a file that several of them use told once."""
    found = {
        (finding.span.source.name, finding.span.start, finding.span.end, finding.code, finding.message): finding
        for result in results
        for finding in result.diagnostics
    }
    return tuple(found.values())


def chosen_programs(result: Result, source: str, options: argparse.Namespace) -> tuple[Program, ...]:
    """The programs that are meant: of each name the newest revision that the source declares, or the one asked for.

    A program that the source only uses is meant when it is named.
    """
    everywhere = result.project.programs
    declared = [program for program in everywhere if _is_in(program.span.source.name, Path(source))]
    meant = [program for program in everywhere if program.name == options.program] if options.program else declared
    if options.program and not meant:
        known = {program.name for program in everywhere}
        raise Refusal(f"there is no program `{options.program}` in {source}. {_or_none(options.program, known)}")
    if not meant:
        raise Refusal(f"{source} declares no program.{_used(everywhere)}")
    if options.revision is None:
        return tuple(_newest(meant))
    revised = [program for program in meant if program.revision == options.revision]
    if not revised:
        known = {str(program.revision) for program in meant}
        raise Refusal(f"there is no revision {options.revision} in {source}, only {', '.join(sorted(known, key=int))}.")
    return tuple(revised)


def athlete_of(project: Project, name: str) -> Athlete:
    """The athlete of a name."""
    found = next((athlete for athlete in project.athletes if athlete.name == name), None)
    if found is not None:
        return found
    known = [athlete.name for athlete in project.athletes]
    raise Refusal(f"there is no athlete `{name}` here. {suggestion(name, known) if known else 'It declares none.'}")


def trained_by(project: Project, athlete: Athlete) -> tuple[Program, ...]:
    """The programs by which an athlete trains."""
    from ...compiler.training import trains_by

    programs = trains_by(project, athlete)
    if not programs:
        known = ", ".join(dict.fromkeys(program.name for program in project.programs))
        raise Refusal(f"{athlete.title} trains by no program here. Say which: --program NAME ({known}).")
    return programs


def _newest(programs: Iterable[Program]) -> Iterable[Program]:
    """The newest revision of each program, in the order of the source."""
    newest: dict[str, Program] = {}
    for program in programs:
        if program.name not in newest or newest[program.name].revision < program.revision:
            newest[program.name] = program
    return newest.values()


def _is_in(name: str, given: Path) -> bool:
    """Whether a file, by its name as a source, is the one given or stands below the folder given."""
    place, file = given.resolve(), Path(name).resolve()
    return file == place or place in file.parents


def _or_none(word: str, known: set[str]) -> str:
    return suggestion(word, sorted(known)) if known else "It declares none."


def _used(programs: Sequence[Program]) -> str:
    """What to type instead, where a program is used but not declared."""
    return f" Name one that it uses: --program {programs[0].name}." if programs else ""
