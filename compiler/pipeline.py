"""The compiler in one place: files, syntax trees, names, model, checks; each stage a function of the one before."""

from __future__ import annotations

import gc
import hashlib
import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from itertools import pairwise
from pathlib import Path

import attrs

from ..grammar import nodes, problems
from ..grammar.diagnostic import Diagnostic, Label
from ..grammar.nodes import File, Placed
from ..grammar.parse import cut, ended, parse_declaration
from ..grammar.source import Source
from . import model
from .checks import names
from .checks.registry import check_project
from .disk import files_at
from .log_files.merging import merged
from .log_files.reading import read_table
from .log_files.table import Table
from .lower import Declared, Reader, World, lower_movement
from .lower_people import lower_athlete, lower_group, lower_log
from .lower_program import come_back, declared_block, lower_program, with_fingerprint
from .project import LIBRARY, Loaded, load


@attrs.frozen(eq=False, repr=False, match_args=False)
class Result:
    """What came of a compilation: the project as far as it could be read, every finding, and the sources.

    `read` are the findings of the stages before the checks.
    """

    project: model.Project
    diagnostics: tuple[Diagnostic, ...]
    sources: tuple[Source, ...]
    read: tuple[Diagnostic, ...] = ()

    @property
    def has_errors(self) -> bool:
        return any(diagnostic.severity == "error" for diagnostic in self.diagnostics)


def compile_texts(texts: dict[str, str | bytes]) -> Result:
    """Compiles sources given as text (or bytes) by their paths in a project."""
    raw = {path: text.encode() if isinstance(text, str) else text for path, text in texts.items()}
    with uncollected():
        return _stages(load(list(raw), raw.get, known=tuple(raw)))


def compile_path(path: Path, project: Path | None = None) -> Result:
    """Compiles a file, or all `.coach` files below a folder, with what they use. Raises Unreadable."""
    files = files_at(path, project)
    with uncollected():
        return _stages(load(list(files.paths), files.fetch, files.shown, files.paths))


# The shipped library: its movements are parsed when somebody uses them.


@cache
def _library_source() -> tuple[Source, dict[str, tuple[int, int]]]:
    from .. import programs

    assert programs.__file__ is not None
    text = Path(programs.__file__).with_name(f"{LIBRARY}.coach").read_text("utf-8")
    cuts = [*cut(text), len(text)]
    header = re.compile(r"movement ([a-z0-9-]+)")
    pieces = {
        match[1]: (start, end) for start, end in pairwise(cuts) if (match := header.match(text, start)) is not None
    }
    return Source(f"{LIBRARY}.coach", text), pieces


@cache
def library_movement(name: str) -> Declared | None:
    """A movement of the shipped library."""
    source, pieces = _library_source()
    if name not in pieces:
        return None
    start, end = pieces[name]
    placed, found = parse_declaration(source, start, source.text[start:end])
    assert placed is not None and not found, found
    return Declared("movement", name, File(source, (placed,), (), frozenset()), placed, library=True)


def library_names() -> tuple[str, ...]:
    """The names of the shipped movements, in their order."""
    return tuple(_library_source()[1])


def library_movements() -> tuple[model.Movement, ...]:
    """The shipped movements, in their order: all are parsed, which takes a moment the first time."""
    alone = World({}, frozenset(), frozenset(), frozenset(), library_movement, (), frozenset(), frozenset())
    declared = (library_movement(name) for name in library_names())
    return tuple(lower_movement(alone, one) for one in declared if one is not None)


# Stages


@contextmanager
def uncollected() -> Iterator[None]:
    """A compilation makes many small objects and no rings worth looking for: the collector waits until it is done."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()


def _stages(loaded: Loaded) -> Result:
    world, declared = declare(loaded)
    project = lower(loaded, world, declared)
    read = (*loaded.found, *independent(world.found, loaded.found))
    found = list(check_project(project, read))
    order = {file.source: position for position, file in enumerate(loaded.files.values())}
    found.sort(key=lambda one: (order.get(one.span.source, -1), one.span.start, one.span.end))
    return Result(project, tuple(found), tuple(file.source for file in loaded.files.values()), read)


def independent(named: list[Diagnostic], read: tuple[Diagnostic, ...]) -> list[Diagnostic]:
    """The findings on names without those that stand behind a slip of the text on its line: they may only follow."""
    slips = [one.span for one in read if one.code in _SYNTAX]
    first: dict[tuple[Source, int], int] = {}
    for slip in slips:
        place = (slip.source, slip.line)
        first[place] = min(slip.start, first.get(place, slip.start))
    if not first:
        return named
    return [
        one for one in named if one.span.end <= first.get((one.span.source, one.span.line), len(one.span.source.text))
    ]


_SYNTAX = {check.code for check in problems.CHECKS} - {problems.WINDOWS_LINE_ENDS.code}

_KINDS: dict[type, str] = {
    nodes.Movement: "movement",
    nodes.Program: "program",
    nodes.Block: "block",
    nodes.Athlete: "athlete",
    nodes.Group: "group",
    nodes.Log: "log",
    nodes.LoggedSession: "logged session",
}


def declare(loaded: Loaded, more_things: Iterable[str] = ()) -> tuple[World, dict[str, list[Declared]]]:
    """Who declares what, and what each file sees; two things of one name are told.

    `more_things` are those that athletes have who are compiled elsewhere.
    """
    declared: dict[str, list[Declared]] = {}
    things = set(more_things)
    patterns: set[str] = set()
    lost: set[str] = set()
    for path, file in loaded.files.items():
        lost |= file.lost
        declared[path] = []
        for placed in file.declarations:
            if isinstance(placed.node, tuple(_KINDS)):
                declared[path].append(declared_as(file, placed))
            if isinstance(placed.node, nodes.Athlete):
                things |= _things(placed.node)
            elif isinstance(placed.node, nodes.Movement):
                patterns |= _patterns(placed.node)
    visible: dict[str, dict[tuple[str, str], Declared]] = {}
    world = World(
        visible,
        frozenset(lost),
        frozenset(things),
        frozenset(patterns),
        library_movement,
        library_names() if loaded.library_users else (),
        frozenset(loaded.files[path].source.name for path in loaded.library_users),
        frozenset(loaded.files[path].source.name for path in loaded.blind),
    )
    told: set[tuple[Declared, Declared]] = set()
    for path, file in loaded.files.items():
        seen: dict[tuple[str, str], Declared] = {}
        for other in [*loaded.seen_from(path)[1:], path]:
            for one in declared[other]:
                key = (one.kind, _key(one))
                if one.kind in ("log", "logged session"):
                    continue
                if key in seen and (one, seen[key]) not in told:
                    told.add((one, seen[key]))
                    tell_twice(world, one, seen[key])
                seen[key] = one
                if one.kind == "program":
                    seen["program", one.name] = one
        visible[file.source.name] = seen
    return world, declared


def declared_as(file: File, placed: Placed) -> Declared:
    """A declaration by its kind and name."""
    return Declared(_KINDS[type(placed.node)], _name(placed), file, placed)


def _name(placed: Placed) -> str:
    node = placed.node
    return str(node.name) if not isinstance(node, nodes.Use | nodes.Log | nodes.LoggedSession) else ""


def _key(one: Declared) -> str:
    """Programs are told apart by name and revision."""
    if not isinstance(one.placed.node, nodes.Program):
        return one.name
    revision = next(
        (str(line.values[0]) for line in one.placed.node.lines
         if isinstance(line, nodes.Setting) and line.keyword.type == "REVISION"), "1",
    )  # fmt: skip
    return f"{one.name} {revision}"


def _things(node: nodes.Athlete) -> set[str]:
    return {
        str(token)
        for line in node.lines
        if isinstance(line, nodes.Setting) and line.keyword.type == "HAS"
        if all(token.type == "NAME" for token in line.values)
        for token in line.values
    }


def _patterns(node: nodes.Movement) -> set[str]:
    return {
        str(token)
        for line in node.lines
        if isinstance(line, nodes.Setting) and line.keyword.type == "PATTERN"
        for token in line.values
        if token.type == "NAME"
    }


def tell_twice(world: World, one: Declared, earlier: Declared) -> None:
    """Tells that something has the name of something else."""
    node = one.placed.node
    assert not isinstance(node, nodes.Use | nodes.Log | nodes.LoggedSession)
    first = earlier.placed.node
    assert not isinstance(first, nodes.Use | nodes.Log | nodes.LoggedSession)
    label = Label(earlier.file.span(earlier.placed, first.name), "declared here")
    near = ", or another revision" if one.kind == "program" else ""
    Reader(world, one.file, one.placed).tell(
        names.NAME_TWICE, node.name, labels=(label,), kind=one.kind, found=node.name, near=near
    )


def lower(loaded: Loaded, world: World, declared: dict[str, list[Declared]]) -> model.Project:
    """All that the files declare, as objects of the model."""
    everything = [one for path in declared for one in declared[path]]
    movements = [lower_movement(world, one) for one in everything if one.kind == "movement"]
    programs: dict[str, list[model.Program]] = {}
    for path, here in declared.items():
        of_file = [lower_program(world, one) for one in here if one.kind == "program"]
        if of_file:
            fingerprint = _fingerprint(loaded, path)
            programs[path] = [with_fingerprint(program, fingerprint) for program in of_file]
    for path, of_file in programs.items():
        seen = [program for other in loaded.seen_from(path) for program in programs.get(other, ())]
        programs[path] = [come_back(program, seen) for program in of_file]
    for one in everything:
        if one.kind == "block":
            declared_block(world, one)  # what no session names is read, too, so that its slips are told
    logs: list[model.Log] = []
    for path, here in declared.items():
        seen = [program for other in loaded.seen_from(path) for program in programs.get(other, ())]
        logs += lower_logs(world, here, seen)
    logs += read_tables(loaded, world, programs)
    everywhere = tuple(program for of_file in programs.values() for program in of_file)
    return model.Project(
        tuple(movements),
        everywhere,
        tuple(lower_athlete(world, one) for one in everything if one.kind == "athlete"),
        tuple(lower_group(world, one) for one in everything if one.kind == "group"),
        merged(logs, everywhere, world.found),
    )


def read_tables(loaded: Loaded, world: World, programs: Mapping[str, Iterable[model.Program]]) -> Iterator[model.Log]:
    """The logs that stand in tables."""
    for path, table in loaded.tables().items():
        around = loaded.around(path)
        seen = [program for other in around for program in programs.get(other, ())]
        names = {loaded.files[other].source.name for other in around}
        athletes = [name for file in names for kind, name in world.visible[file] if kind == "athlete"]
        log = read_table(table, seen, athletes, world.found)
        if log is not None:
            yield log


def lower_logs(world: World, here: list[Declared], programs: list[model.Program]) -> list[model.Log]:
    """Each log with the sessions that stand below its header."""
    logs: list[tuple[Declared, list[Declared]]] = []
    for one in here:
        if one.kind == "log":
            logs.append((one, []))
        elif one.kind == "logged session" and logs:
            logs[-1][1].append(one)
        elif one.kind == "logged session" and not one.file.lost & {"log"}:
            assert isinstance(one.placed.node, nodes.LoggedSession)
            Reader(world, one.file, one.placed).tell(names.LOG_HEADER_MISSING, one.placed.node.date)
    return [lower_log(world, header, sessions, programs) for header, sessions in logs]


_OF_PEOPLE = re.compile(r"(?:athlete|group|log)(?![\w-])|\d{4}-\d\d-\d\d")


def _fingerprint(loaded: Loaded, path: str) -> str:
    """Twelve hexadecimal digits that change with any word of the programs, movements and blocks that a file sees.

    Athletes, groups and logs take no part: whoever comes to a crew makes no other program of it.
    """
    digest = hashlib.sha256()
    for other in sorted(loaded.seen_from(path)):
        text = "" if isinstance(loaded.files[other].source, Table) else loaded.files[other].source.text
        for start, end in pairwise([*cut(text), len(text)]):
            if not _OF_PEOPLE.match(text, start):
                digest.update(ended(text[start:end]).encode() + b"\n")
    if path in loaded.library_users:
        digest.update(_library_source()[0].text.encode())
    return digest.hexdigest()[:12]
