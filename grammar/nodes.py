"""The syntax tree: what was written, and where.

Leaves are Lark's tokens. Nodes and tokens alike carry `start_pos` and `end_pos`: offsets in code points from the start of
the *declaration* in which they stand, so that a declaration that only moved in its file is still the same tree. `Placed`
says where a declaration begins.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, TypeAlias, dataclass_transform

import attrs
from lark import Token

from .source import Source, Span


@dataclass_transform(frozen_default=True, eq_default=False)
def node(cls: type[Any]) -> Any:
    """A frozen, slotted class without methods of its own: those of `Node` serve all of them, and start-up stays short."""
    return attrs.frozen(cls, eq=False, repr=False, match_args=False)


@node
class Node:
    start_pos: int
    end_pos: int

    def _parts(self) -> tuple[str, ...]:
        """The names of the fields but for the two places."""
        fields: tuple[attrs.Attribute[object], ...] = attrs.fields(type(self))  # type: ignore[arg-type]
        return tuple(field.name for field in fields[2:])

    def children(self) -> Iterator[Node | Token]:
        """Nodes and tokens directly below this one, in the order of the text."""
        for name in self._parts():
            value = getattr(self, name)
            for child in value if isinstance(value, tuple) else (value,):
                if child is not None:
                    yield child

    def __eq__(self, other: object) -> bool:
        """The same words in the same tree; places do not count."""
        return type(self) is type(other) and all(getattr(self, name) == getattr(other, name) for name in self._parts())

    def __hash__(self) -> int:
        return hash((type(self), *(getattr(self, name) for name in self._parts())))

    def __repr__(self) -> str:
        fields = ", ".join(f"{name}={getattr(self, name)!r}" for name in self._parts())
        return f"{type(self).__name__}({fields})"


@node
class Setting(Node):
    """A line of one statement: its first word, then its other words and figures (commas dropped)."""

    keyword: Token
    values: tuple[Token, ...]


@node
class Clause(Node):
    """A part between commas: its first word or figure, then the others."""

    keyword: Token
    values: tuple[Token, ...]


@node
class Section(Node):
    """A word alone on its line with lines below it: prose tokens, or rungs."""

    keyword: Token
    lines: tuple[Token | Rung, ...]


@node
class Allow(Node):
    keyword: Token
    code: Token
    because: Token


@node
class Use(Node):
    keyword: Token
    target: Token


@node
class Rung(Node):
    name: Token
    text: Token
    clauses: tuple[Token | Clause, ...]


@node
class Movement(Node):
    keyword: Token
    name: Token
    title: Token | None
    lines: tuple[Setting | Section | Allow, ...]


@node
class Work(Node):
    """What is done in a set: `3 x 6`, `amrap leaving 2`, `20 m`; `count` is `3 x` where it is written."""

    count: Token | None
    done: Token
    modifiers: tuple[Clause, ...]


@node
class Dose(Node):
    """`sets` is the word of a list of unlike sets, where it is written; `parts` the first work and all that follows."""

    sets: Token | None
    parts: tuple[Work | Clause, ...]


@node
class Axis(Node):
    name: Token
    step: Token | None
    bound: Token | None
    at: Token | None
    restarting: tuple[Token, ...]


@node
class Advance(Node):
    keyword: Token
    axes: tuple[Axis, ...]


@node
class AdvanceNone(Node):
    keyword: Token
    because: Token


@node
class Else(Node):
    keyword: Token
    movement: Token
    dose: Dose
    lines: tuple[Advance | AdvanceNone | Setting, ...]


@node
class Entry(Node):
    priority: Token
    movement: Token
    dose: Dose
    lines: tuple[Advance | AdvanceNone | Setting | Else | Allow | Token, ...]


@node
class Block(Node):
    keyword: Token
    name: Token
    title: Token | None
    clauses: tuple[Clause, ...]
    lines: tuple[Entry | Allow | Token, ...]


@node
class Session(Node):
    keyword: Token
    name: Token
    title: Token | None
    frequency: Clause | None
    lines: tuple[Block | Setting | Allow | Token, ...]


@node
class Category(Node):
    keyword: Token
    name: Token
    title: Token | None
    clauses: tuple[Clause, ...]


@node
class Easing(Node):
    """One change of an easier week: `sets by -1`; `minus` is its sign, where it is written."""

    axis: Token
    minus: Token | None
    amount: Token


@node
class Easier(Node):
    keyword: Token
    weeks: tuple[Token, ...]
    changes: tuple[Easing, ...]


@node
class Returning(Node):
    """The way back to another program: `return to boat-shed after 3 weeks`, and shares below it."""

    keyword: Token
    program: Token
    weeks: Token
    lines: tuple[Setting, ...]


@node
class Program(Node):
    keyword: Token
    name: Token
    title: Token | None
    lines: tuple[Session | Category | Easier | Returning | Setting | Section | Allow, ...]


@node
class Athlete(Node):
    keyword: Token
    name: Token
    title: Token | None
    lines: tuple[Setting | Allow, ...]


@node
class Group(Node):
    keyword: Token
    name: Token
    title: Token | None
    members: tuple[Token, ...]


@node
class Log(Node):
    keyword: Token
    athlete: Token
    program: Token
    revision: Token | None


@node
class LoggedEntry(Node):
    movement: Token
    items: tuple[Token | Clause, ...]


@node
class LoggedSession(Node):
    date: Token
    session: Token
    short: Token | None
    clauses: tuple[Clause, ...]
    lines: tuple[LoggedEntry | Token, ...]


Declaration: TypeAlias = Use | Movement | Program | Block | Athlete | Group | Log | LoggedSession


@attrs.frozen(eq=False)
class Placed:
    """A declaration at its place; `damaged` when lines of it could not be read, so that what is missing may be there."""

    node: Declaration
    offset: int
    damaged: bool


@attrs.frozen(eq=False)
class Comment:
    """A comment, `#` included: offsets in the file, and whether it has its line to itself."""

    start: int
    end: int
    alone: bool


@attrs.frozen(eq=False)
class File:
    """A source as a list of declarations; `lost` holds the words of headers that could not be read."""

    source: Source
    declarations: tuple[Placed, ...]
    comments: tuple[Comment, ...]
    lost: frozenset[str]

    def span(self, placed: Placed, part: Node | Token) -> Span:
        """Where a node or token of one of the declarations stands."""
        start, end = part.start_pos, part.end_pos
        assert start is not None and end is not None
        return Span(self.source, placed.offset + start, placed.offset + end)
