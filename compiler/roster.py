"""The roster: who is declared where in a project, without compiling all of them at once.

What is about an athlete, the declaration and the logs, is cut out of the files as text before they are parsed. What is left,
the programs, movements and groups, is compiled once; athletes are compiled a few at a time (`person.py`), wherever there is
room. So an organisation of any size needs the memory of a few of its people.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise

import attrs

from ..grammar import nodes
from ..grammar.cleaning import read_source
from ..grammar.diagnostic import Diagnostic
from ..grammar.parse import begins_declaration, cut, ended
from ..grammar.source import Source, Span
from .log_files import cells
from .log_files.opening import is_table, open_table
from .log_files.placing import is_blank
from .log_files.table import rows, table_of, written
from .lower import title
from .model import Group
from .project import OUTSIDE, Fetch, Loaded

_ATHLETE = re.compile(r"athlete +([a-z0-9]+(?:-[a-z0-9]+)*)(?![\w-])")
_LOG = re.compile(r"log +([a-z0-9]+(?:-[a-z0-9]+)*) +on(?![\w-])")
_GROUP = re.compile(r"group(?![\w-])")
_NAME = r"[a-z0-9]+(?:-[a-z0-9]+)*"
# A group on one line, in which nothing is wrong: other groups, and what is wrong with them, are left to the parser.
_PLAIN_GROUP = re.compile(rf'group +({_NAME})(?: +"[^"\n]*")? *: *({_NAME}(?: *, *{_NAME})*) *(?:#[^\n]*)?\n\s*')
_SESSION = re.compile(r"\d{4}-\d\d-\d\d")
_THINGS = re.compile(r"^ +has +([a-z][a-z0-9-]*(?: *, *[a-z][a-z0-9-]*)*) *(?:#.*)?$", re.M)


@attrs.frozen
class Place:
    """Where a piece of text stands: characters of a file from `start` to `end`, after so many lines of it."""

    path: str
    start: int
    end: int
    before: int


@attrs.frozen
class Piece:
    """Some lines of a file, the text of one declaration or of one log, and how many lines stand before them."""

    path: str
    before: int
    text: str

    def source(self, name: str) -> Source:
        """The lines as a source that is known by a name."""
        table = table_of(name, self.text) if is_table(self.path) else None
        return table or Source(name, self.text, self.before)


@attrs.define
class Roster:
    """All athletes of a project by name, in the order of the source, and the pieces about each of them.

    It fills as the files are read through `fetch`, which leaves the athletes out of what it gives.
    """

    read: Fetch
    athletes: dict[str, list[Place]] = attrs.field(factory=dict)
    logs: dict[str, list[Place]] = attrs.field(factory=dict)
    things: set[str] = attrs.field(factory=set)  # all that some athlete has
    base: dict[str, bytes] = attrs.field(factory=dict)  # what is left of each file, each line at its place
    odd: list[Diagnostic] = attrs.field(factory=list)  # what was found when tables were opened
    thinned: set[str] = attrs.field(factory=set)  # files of which something was taken out
    groups: dict[str, Group] = attrs.field(factory=dict)  # those that `thin` took out

    def fetch(self, path: str) -> bytes | None:
        """The bytes of a file without its athletes and logs, as `read` gives them otherwise."""
        if path not in self.base:
            raw = self.read(path)
            if raw is None or raw is OUTSIDE:
                return raw
            if is_table(path):
                return self._without_rows(path, raw)
            self.base[path] = self._without_people(path, raw)
        return self.base[path]

    def thin(self, path: str) -> bytes | None:
        """The bytes of a file without its athletes, logs and groups: no program depends on a group."""
        raw = self.fetch(path)
        if raw is None or raw is OUTSIDE or is_table(path) or b"group" not in raw:
            return raw
        source, found = read_source(path, raw)
        if any(one.severity == "error" for one in found):
            return raw
        text, left, at = source.text, [], 0
        for start, end in pairwise([*cut(text), len(text)]):
            plain = _PLAIN_GROUP.fullmatch(text, start, end)
            if plain is not None:
                of_group = tuple(re.split(r" *, *", plain[2]))
                self.groups[plain[1]] = Group(plain[1], plain[1], of_group, span=Span(source, start, end))
                left += [text[at:start], "\n" * text.count("\n", start, end)]
                at = end
        return "".join([*left, text[at:]]).encode()

    def _without_rows(self, path: str, raw: bytes) -> bytes:
        """Of a log as a table its first row, which says whose it is; a blank one and any other table are as if not there."""
        table, _, odd = open_table(path, raw)
        if table is None:
            return b""
        head = next(rows(table))[2]
        left = (written(head, table.separator) + "\n").encode()
        if is_blank(table):
            return raw
        self.odd += odd
        self.base[path] = left
        name = cells.name(head[1]) if len(head) > 1 else ""
        self.logs.setdefault(name, []).append(Place(path, 0, len(table.text), 0))
        return left

    def _without_people(self, path: str, raw: bytes) -> bytes:
        source, found = read_source(path, raw)
        if any(one.severity == "error" for one in found):
            return raw
        text, left, at = source.text, [], 0
        for name, kind, place in _places(path, text):
            (self.athletes if kind == "athlete" else self.logs).setdefault(name, []).append(place)
            left += [text[at : place.start], "\n" * text.count("\n", place.start, place.end)]
            at = place.end
            if kind == "athlete":
                for match in _THINGS.finditer(text, place.start, place.end):
                    self.things.update(re.split(r" *, *", match[1]))
        if not at:
            return raw
        self.thinned.add(path)
        kept = "".join([*left, text[at:]])
        return (kept if b"\r" not in raw else kept.replace("\n", "\r\n")).encode()

    def pieces(self, name: str) -> tuple[Piece, ...]:
        """What the project says about an athlete: the declaration, then the logs."""
        places = [*self.athletes.get(name, ()), *self.logs.get(name, ())]
        return tuple(Piece(one.path, one.before, self.text(one.path)[one.start : one.end]) for one in places)

    def text(self, path: str) -> str:
        """The whole text of a file, read again: it is not kept."""
        return _text(self.read, path)

    def left(self, path: str) -> str:
        """The text of what is left of a file."""
        return _text(self.fetch, path)

    def strangers(self) -> Iterator[str]:
        """Names that have a log and are no athlete."""
        return (name for name in self.logs if name not in self.athletes)

    def seen_from(self, loaded: Loaded, path: str) -> frozenset[str]:
        """The names of the athletes that a file sees."""
        seen = set(loaded.seen_from(path))
        return frozenset(name for name, places in self.athletes.items() if any(one.path in seen for one in places))


@lru_cache(maxsize=3)
def _text(read: Fetch, path: str) -> str:
    raw = read(path)
    if raw is not None and is_table(path):
        table = open_table(path, raw)[0]
        return table.text if table is not None else ""
    return read_source(path, raw)[0].text if raw is not None else ""


def _places(path: str, text: str) -> Iterator[tuple[str, str, Place]]:
    """Name, kind and place of each piece that is about an athlete.

    A line at the left edge that begins no declaration, not even by a slip, belongs to the declaration above it.
    """
    cuts = cut(text)
    opened: tuple[str, str, int, int] | None = None  # name, kind, start, lines before
    lines, counted = 0, 0
    for start in cuts:
        athlete = _ATHLETE.match(text, start)
        log = None if athlete else _LOG.match(text, start)
        if not athlete and not log and opened is not None:
            goes_on = opened[1] == "log" and _SESSION.match(text, start)
            if goes_on or not begins_declaration(text, start, 0):
                continue
        lines, counted = lines + text.count("\n", counted, start), start
        if opened is not None:
            yield opened[0], opened[1], Place(path, opened[2], start, opened[3])
        begun = athlete or log
        opened = (begun[1], "athlete" if athlete else "log", start, lines) if begun else None
    if opened is not None:
        yield opened[0], opened[1], Place(path, opened[2], len(text), opened[3])


def declarations(text: str) -> list[tuple[int, int]]:
    """Where the declarations of a text begin and end, groups left out: they change no program."""
    cuts = cut(text)
    return [(start, end) for start, end in pairwise([*cuts, len(text)]) if not _GROUP.match(text, start)]


def shared_texts(loaded: Loaded) -> dict[str, bytes]:
    """What the packs of all athletes depend on: the declarations of each file, by its path.

    A log as a table is none, unless a `use` line must lead to it.
    """
    used = {path for of_file in loaded.uses.values() for path in of_file}
    tables = loaded.tables()
    texts = {
        path: loaded.files[path].source.text for path in sorted(loaded.files) if path not in tables or path in used
    }
    return {
        path: "".join(ended(text[start:end]) + "\n\n" for start, end in declarations(text)).encode()
        for path, text in texts.items()
    }


def groups_of(loaded: Loaded) -> tuple[Group, ...]:
    """All groups of a project, whether or not their members are known."""
    return tuple(
        Group(
            str(placed.node.name),
            title(placed.node.name, placed.node.title),
            tuple(map(str, placed.node.members)),
            span=file.span(placed, placed.node.name),
        )
        for file in loaded.files.values()
        for placed in file.declarations
        if isinstance(placed.node, nodes.Group)
    )
