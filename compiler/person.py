"""One athlete compiled against the programs of a project, which were compiled before without anybody in them."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence

import attrs

from ..grammar import problems
from ..grammar.diagnostic import Diagnostic
from ..grammar.parse import ended, parse
from ..grammar.source import Source
from . import model
from .checks import allows
from .checks.registry import check_person, check_project
from .fingerprint import digest
from .fitting import Fitting
from .log_files.merging import merged
from .log_files.opening import is_table
from .log_files.reading import read_table
from .log_files.table import Table
from .lower import Declared, World
from .lower_people import lower_athlete
from .pipeline import declare, declared_as, independent, lower, lower_logs, tell_twice
from .project import Loaded, load
from .roster import Piece, Roster


@attrs.frozen(eq=False)
class Base:
    """What all athletes of a project share: its files without them, what each file sees, and the programs."""

    loaded: Loaded
    world: World
    project: model.Project

    def seen_programs(self, path: str) -> list[model.Program]:
        """The programs that a file sees."""
        seen = self.loaded.around(path) if is_table(path) else self.loaded.seen_from(path)
        names = {self.loaded.files[one].source.name for one in seen}
        return [one for one in self.project.programs if one.span.source.name in names]


@attrs.frozen(eq=False)
class Person:
    """An athlete, the programs that they train by, fitted to them, and all that was found in what is written about them.

    `athlete` is None where the declaration could not be read. `sources` are the pieces, in the order in which they came.
    """

    athlete: model.Athlete | None
    fittings: tuple[Fitting, ...]
    logs: tuple[model.Log, ...]
    diagnostics: tuple[Diagnostic, ...]
    sources: tuple[Source, ...]

    @property
    def has_errors(self) -> bool:
        return any(one.severity == "error" for one in self.diagnostics)


def read(texts: Mapping[str, bytes]) -> Loaded:
    """Files given by their paths, as the roster left them."""
    return load(list(texts), texts.get)


def base_of(loaded: Loaded, things: Iterable[str] = ()) -> Base:
    """The base of files that were read; `things` are those that their athletes have."""
    world, declared = declare(loaded, things)
    return Base(loaded, world, lower(loaded, world, declared))


def check_base(loaded: Loaded, roster: Roster) -> tuple[Diagnostic, ...]:
    """What is wrong with everything but the athletes and their logs, in the order of the source.

    That an `allow` silences nothing is not told: it may silence what only an athlete brings about.
    """
    paths = {file.source.name: path for path, file in loaded.files.items()}
    seen: dict[str, Collection[str]] = {}

    def elsewhere(name: str) -> Collection[str]:
        if name not in seen:
            seen[name] = roster.seen_from(loaded, paths[name])
        return seen[name]

    world, declared = declare(loaded, roster.things)
    world.elsewhere = elsewhere
    project = lower(loaded, world, declared)
    thinned = {loaded.files[path].source for path in roster.thinned}
    emptied = [one for one in loaded.found if one.code == problems.FILE_EMPTY.code and one.span.source in thinned]
    read = (*(one for one in loaded.found if one not in emptied), *roster.odd)
    found = check_project(project, [*read, *independent(world.found, read)])
    order = {file.source: position for position, file in enumerate(loaded.files.values())}
    told = [one for one in found if one.code != allows.ALLOW_UNUSED.code]
    return tuple(sorted(told, key=lambda one: (order.get(one.span.source, -1), one.span.start, one.span.end)))


def compile_person(base: Base, pieces: Sequence[Piece]) -> Person:
    """The athlete of the pieces, as `check` finds everything in a project of that athlete alone."""
    world = attrs.evolve(base.world, found=[], told_library=set(), visible=dict(base.world.visible))
    read: list[Diagnostic] = []
    people: list[Declared] = []
    pending: list[tuple[str, list[Declared]]] = []
    sources: list[Source] = []
    tables: list[tuple[str, Table]] = []
    for piece in pieces:
        there = base.loaded.files.get(piece.path)
        source = piece.source(there.source.name if there is not None else piece.path)
        if isinstance(source, Table):
            sources.append(source)
            tables.append((piece.path, source))
            continue
        file, found = parse(source)
        sources.append(file.source)
        read += found
        world.lost |= file.lost
        declared = [declared_as(file, placed) for placed in file.declarations]
        people += [one for one in declared if one.kind == "athlete"]
        pending.append((piece.path, [one for one in declared if one.kind != "athlete"]))
    for one in people[1:]:
        tell_twice(world, one, people[0])
    written = digest(*(ended(piece.text) for piece in pieces))  # wherever it stands
    athletes = [attrs.evolve(lower_athlete(world, one), fingerprint=written) for one in people]
    logs: list[model.Log] = []
    for path, declared in pending:
        if declared:
            _show(base, world, path, people)
            logs += lower_logs(world, declared, base.seen_programs(path))
    for path, table in tables:
        log = read_table(table, base.seen_programs(path), {one.name for one in people}, world.found)
        logs += [log] if log is not None else []
    logs = list(merged(logs, base.project.programs, world.found))
    project = attrs.evolve(base.project, athletes=tuple(athletes), groups=(), logs=tuple(logs))
    fittings: list[Fitting] = []
    told = check_person(project, [*read, *independent(world.found, tuple(read))], fittings)
    return Person(athletes[0] if athletes else None, tuple(fittings), tuple(logs), told, tuple(sources))


def _show(base: Base, world: World, path: str, people: Sequence[Declared]) -> None:
    """Lets a file see the athletes that are declared in the files that it uses."""
    seen = {base.loaded.files[one].source.name for one in base.loaded.seen_from(path)}
    name = base.loaded.files[path].source.name
    shown = {("athlete", one.name): one for one in people if one.file.source.name in seen}
    world.visible[name] = {**world.visible[name], **shown}
