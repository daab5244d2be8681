"""Which files a project consists of: what stands in a folder, and what the files there use.

Files are asked for by a function from path to bytes, so that this stage reads no disk of its own.
"""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Iterator
from pathlib import PurePosixPath
from typing import Any

import attrs
from lark import Token

from ..grammar import nodes
from ..grammar.cleaning import read_source
from ..grammar.diagnostic import Check, Diagnostic, nearest, or_list
from ..grammar.nodes import File, Placed
from ..grammar.parse import parse
from .checks import look, names
from .checks.log_files import NO_LOG
from .log_files.opening import is_table, open_table
from .log_files.placing import is_blank
from .log_files.table import Table, frame
from .model import Picture
from .pictures import MOST_BYTES, MOST_PIXELS, is_picture, read_picture

LIBRARY = "basics"

# The bytes of a file of the project, None where there is none, OUTSIDE where the path leads out of the project.
Fetch = Callable[[str], bytes | None]


@attrs.frozen(eq=False, repr=False, match_args=False)
class Loaded:
    """The files of a project by their paths in it, what each uses directly, and which see the shipped library."""

    files: dict[str, File]
    uses: dict[str, tuple[str, ...]]
    library_users: frozenset[str]
    blind: frozenset[str]  # paths of files of which a `use` line leads nowhere
    found: tuple[Diagnostic, ...]
    pictures: dict[str, Picture]  # by their paths
    logos: dict[
        tuple[str, str], str
    ]  # the path of a file, and what a `logo` line of it says -> the path of the picture

    def seen_from(self, path: str) -> list[str]:
        """The file itself and all that it uses, directly or not."""
        return _reached(self.uses, path)

    def tables(self) -> dict[str, Table]:
        """The logs as tables, by their paths."""
        return {path: file.source for path, file in self.files.items() if isinstance(file.source, Table)}

    def around(self, path: str) -> list[str]:
        """All that a log as a table sees: what those files see that use it; where none does, all files."""
        users = [one for one, used in self.uses.items() if path in used] or list(self.files)
        return list(dict.fromkeys(seen for user in users for seen in self.seen_from(user)))


def _reached(uses: dict[str, tuple[str, ...]], path: str) -> list[str]:
    """The path, and all to which `use` lines lead from it, the nearest first."""
    seen = [path]
    known = {path}
    for one in seen:  # grows as it is read
        for used in uses.get(one, ()):
            if used not in known:
                known.add(used)
                seen.append(used)
    return seen


def load(paths: list[str], fetch: Fetch, shown: Callable[[str], str] = str, known: tuple[str, ...] = ()) -> Loaded:
    """Reads the files at the paths (relative to the project, with slashes) and all that they use.

    `shown` gives the name under which a file is told to the coach; `known` the paths of other files of the project, to
    suggest one where a name is misspelt.
    """
    files: dict[str, File] = {}
    uses: dict[str, tuple[str, ...]] = {}
    library_users: set[str] = set()
    found: list[Diagnostic] = []
    no_logs: dict[str, str] = {}
    waiting = list(paths)
    while waiting:
        path = waiting.pop(0)
        if path in files or path in no_logs:
            continue
        raw = fetch(path)
        assert raw is not None, path
        file = _opened(shown(path), raw, found) if not is_table(path) else _table(shown(path), raw, found)
        if isinstance(file, str):
            no_logs[path] = file
            continue
        files[path] = file
        used: list[str] = []
        for placed in file.declarations:
            if not isinstance(placed.node, nodes.Use):
                continue
            target = placed.node.target
            if target.type == "NAME":
                if str(target) == LIBRARY:
                    library_users.add(path)
                else:
                    near = f"The shipped library is `use {LIBRARY}`; a file is named in quotes, with its ending."
                    found.append(
                        names.USE_NOT_FOUND.at(file.span(placed, target), what="library", found=target, near=near)
                    )
                continue
            written = str(target)[1:-1]
            other = _beside(path, written)
            if other.startswith("..") or other.startswith("/") or (bytes_there := fetch(other)) is OUTSIDE:
                found.append(names.USE_OUTSIDE.at(file.span(placed, target), found=written))
            elif bytes_there is None:
                near_files = nearest(other, known)
                near = f"Did you mean {or_list(near_files)}?" if near_files else "Check the path from this file."
                found.append(names.USE_NOT_FOUND.at(file.span(placed, target), what="file", found=written, near=near))
            else:
                used.append(other)
                waiting.append(other)
        uses[path] = tuple(used)
    found += _no_logs(files, no_logs)
    used_by_some = {one for used_there in uses.values() for one in used_there}
    for path in [one for one, file in files.items() if one not in used_by_some and _is_printed(file)]:
        del files[path], uses[path]
    uses = {path: tuple(one for one in used_there if one in files) for path, used_there in uses.items()}
    blind = {path for path, file in files.items() if "use" in file.lost}
    blind |= {path for path, file in files.items() for one in found if one.span.source is file.source and _hides(one)}
    found += _cycles(files, uses)
    pictures, logos = _logos(files, fetch, found)
    sees, hidden = frozenset(_through(library_users, uses)), frozenset(_through(blind, uses))
    return Loaded(files, uses, sees, hidden, tuple(found), pictures, logos)


def _beside(path: str, written: str) -> str:
    """The path of a file that is named in another one."""
    return posixpath.normpath(str(PurePosixPath(path).parent / written.replace("\\", "/")))


def _logos(
    files: dict[str, File], fetch: Fetch, found: list[Diagnostic]
) -> tuple[dict[str, Picture], dict[tuple[str, str], str]]:
    """The pictures that `logo` lines name, by their paths, and to which picture each line leads; what is wrong is told."""
    pictures: dict[str, Picture] = {}
    logos: dict[tuple[str, str], str] = {}
    for path, file, placed, token in _logo_lines(files):
        written = str(token)[1:-1]
        other = _beside(path, written)
        picture = _picture(other, written, fetch)
        if isinstance(picture, Picture):
            pictures[other], logos[path, written] = picture, other
        else:
            check, facts = picture
            found.append(check.at(file.span(placed, token), **facts))
    return pictures, logos


def _logo_lines(files: dict[str, File]) -> Iterator[tuple[str, File, Placed, Token]]:
    """The files that `logo` lines name, each with where it stands."""
    for path, file in files.items():
        for placed in file.declarations:
            for line in placed.node.lines if isinstance(placed.node, nodes.Program) else ():
                if isinstance(line, nodes.Setting) and line.keyword.type == "LOGO":
                    yield path, file, placed, line.values[0]


def _picture(path: str, written: str, fetch: Fetch) -> Picture | tuple[Check, dict[str, Any]]:
    """The picture at a path, or why it is no logo."""
    raw = OUTSIDE if path.startswith(("..", "/")) else fetch(path)
    if raw is OUTSIDE or raw is None:
        return look.LOGO_OUTSIDE if raw is OUTSIDE else look.LOGO_NOT_FOUND, {"found": written}
    if len(raw) > MOST_BYTES:
        return look.LOGO_TOO_LARGE, {"what": f"{len(raw):,} bytes", "most": f"{MOST_BYTES:,}"}
    picture = read_picture(raw) if is_picture(path) else None
    if picture is None:
        return look.LOGO_NO_PICTURE, {"found": written}
    if max(picture.width, picture.height) > MOST_PIXELS:
        size = f"{picture.width:,} by {picture.height:,} pixels"
        return look.LOGO_TOO_LARGE, {"what": size, "most": f"{MOST_PIXELS:,} a side"}
    return picture


def _opened(name: str, raw: bytes, found: list[Diagnostic]) -> File:
    """A source as declarations."""
    source, told = read_source(name, raw)
    found += told
    if not source.text and any(diagnostic.severity == "error" for diagnostic in told):
        return File(source, (), (), frozenset())
    file, told = parse(source)
    found += told
    return file


def _table(name: str, raw: bytes, found: list[Diagnostic]) -> File | str:
    """A table as a file without declarations, or why it is no log."""
    table, why, told = open_table(name, raw)
    found += told
    return File(table, (), (), frozenset()) if table is not None else why


def _is_printed(file: File) -> bool:
    """Whether it is a blank log as it was printed: one among other files is no source."""
    table = file.source
    return isinstance(table, Table) and bool(frame(table)[1][1]) and is_blank(table)


OUTSIDE = b"\0outside"


def _hides(finding: Diagnostic) -> bool:
    return finding.code in {names.USE_NOT_FOUND.code, names.USE_OUTSIDE.code}


def _through(some: set[str], uses: dict[str, tuple[str, ...]]) -> set[str]:
    """The files that are among some, themselves or through a file that they use."""
    return {path for path in uses if not some.isdisjoint(_reached(uses, path))}


def _cycles(files: dict[str, File], uses: dict[str, tuple[str, ...]]) -> list[Diagnostic]:
    """One finding a ring of files that use each other, at the `use` line that closes it."""
    found: list[Diagnostic] = []
    done: set[str] = set()
    for first, of_first in uses.items():
        trail = [(first, iter(of_first))] if first not in done else []
        while trail:
            path, rest = trail[-1]
            used = next(rest, None)
            if used is None:
                done.add(path)
                trail.pop()
                continue
            open_paths = [one for one, _ in trail]
            if used in open_paths:
                ring = " uses ".join([*open_paths[open_paths.index(used) :], used])
                found += _closing(files[path], path, used, ring)
            elif used not in done and used in uses:
                trail.append((used, iter(uses[used])))
    return found


def _no_logs(files: dict[str, File], no_logs: dict[str, str]) -> Iterator[Diagnostic]:
    """The `use` lines that name a table which is no log."""
    for path, file in files.items():
        for placed in file.declarations:
            for used, why in no_logs.items():
                if isinstance(placed.node, nodes.Use) and _leads_to(path, placed.node, used):
                    target = placed.node.target
                    yield NO_LOG.at(file.span(placed, target), found=str(target)[1:-1], why=why)


def _closing(file: File, path: str, used: str, ring: str) -> list[Diagnostic]:
    return [
        names.USE_CYCLE.at(file.span(placed, placed.node.target), found=ring)
        for placed in file.declarations
        if isinstance(placed.node, nodes.Use) and _leads_to(path, placed.node, used)
    ][:1]


def _leads_to(path: str, node: nodes.Use, used: str) -> bool:
    written = str(node.target)[1:-1] if node.target.type == "STRING" else ""
    return bool(written) and posixpath.normpath(str(PurePosixPath(path).parent / written)) == used
