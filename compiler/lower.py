"""From the syntax tree to the model: every name resolved, every figure read.

`Reader` holds what all declarations need: the file and place of the declaration at hand, the names that can be seen from
it, and the findings so far. The other modules of this stage are functions over it: `lower_dose`, `lower_people`.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from datetime import date
from typing import Any

import attrs
from lark import Token

from ..grammar import nodes
from ..grammar.diagnostic import Check, Diagnostic, Label, nearest, or_list
from ..grammar.nodes import File, Placed
from ..grammar.source import Span
from . import model
from .checks import names
from .quantity import Quantity, read_quantity
from .vocabulary import IMPLEMENTS, THINGS

Part = nodes.Node | Token


@attrs.define(eq=False, repr=False, match_args=False)
class Declared:
    """A declaration with a name, and what it means once somebody asks."""

    kind: str
    name: str
    file: File
    placed: Placed
    library: bool = False
    value: Any = None  # the model object, once lowered


@attrs.define(eq=False, repr=False, match_args=False)
class World:
    """What can be seen from each file, what anybody has, and all findings."""

    visible: dict[str, dict[tuple[str, str], Declared]]  # file name -> (kind, name) -> declaration
    lost: frozenset[str]  # words of headers that could not be read
    things: frozenset[str]  # everything some athlete has
    patterns: frozenset[str]  # every pattern that a movement of the project names
    library: Callable[[str], Declared | None]  # a movement of the shipped library, by name
    library_names: Iterable[str]
    uses_library: frozenset[str]  # names of the files that see the library
    blind: frozenset[str]  # names of the files that would see more if a `use` line of theirs led somewhere
    logos: dict[tuple[str, str], model.Picture]  # file name, and what a `logo` line there says -> the picture
    found: list[Diagnostic] = attrs.field(factory=list)
    told_library: set[str] = attrs.field(factory=set)  # files told that they do not see the library
    elsewhere: Callable[[str], Collection[str]] = (
        lambda file: ()
    )  # athletes that a file sees and that are compiled elsewhere


@attrs.frozen(eq=False, repr=False, match_args=False)
class Reader:
    """One declaration being read."""

    world: World
    file: File
    placed: Placed
    quiet: bool = False  # the library's own findings are its tests' business

    def span(self, part: Part) -> Span:
        return self.file.span(self.placed, part)

    def tell(self, check: Check, part: Part, *, labels: Iterable[Label] = (), **facts: object) -> None:
        if not self.quiet:
            self.world.found.append(check.at(self.span(part), labels=labels, **facts))

    # Names

    def movement(self, token: Token, kind: str = "movement", more: Iterable[str] = ()) -> model.Movement | None:
        """The movement of that name; told and None where there is none, with the nearest of all and of `more` names."""
        found = self.find("movement", str(token))
        if found is None and self.file.source.name in self.world.uses_library:
            found = self.world.library(str(token))
        if found is not None:
            return lower_movement(self.world, found)
        self.unknown(kind, token, more=more)
        return None

    def find(self, kind: str, name: str) -> Declared | None:
        return self.world.visible[self.file.source.name].get((kind, name))

    def knows(self, kind: str, name: str) -> bool:
        """Whether something of that name is declared, here or elsewhere."""
        return self.find(kind, name) is not None or (
            kind == "athlete" and name in self.world.elsewhere(self.file.source.name)
        )

    def unknown(self, kind: str, token: Token, known: Iterable[str] | None = None, *, more: Iterable[str] = ()) -> None:
        """Tells of a name that nothing has, unless what would declare it could not be read."""
        if str(token) in self.world.lost or self.file.source.name in self.world.blind:
            return
        if known is None:
            here = self.world.visible[self.file.source.name]
            known = [name for of_kind, name in here if of_kind == kind.split(" ", 1)[0] and " " not in name]
            if kind.startswith("movement") and self.file.source.name in self.world.uses_library:
                known += list(self.world.library_names)
            if kind == "athlete":
                known += self.world.elsewhere(self.file.source.name)
        name = self.file.source.name
        if kind.startswith("movement") and name not in self.world.uses_library and self.world.library(str(token)):
            if name in self.world.told_library:
                return  # one line at the top of the file mends them all
            self.world.told_library.add(name)
        near = nearest(str(token), (*known, *more))
        if near:
            help = f"Did you mean {or_list(near)}?"
        elif kind.startswith("movement") and self.file.source.name not in self.world.uses_library:
            help = "Write `use basics` at the top of the file for the shipped movements, or declare the movement."
        else:
            help = f"Declare it, or write `use` and the file in which the {kind} is declared at the top of this one."
        self.tell(names.NAME_UNKNOWN, token, kind=kind, found=token, near=help)

    # Words and figures

    def one_of(self, token: Token, known: Iterable[str], what: str) -> str | None:
        """The word, if it is one of the known ones; told and None otherwise."""
        known = list(known)
        if str(token) in known:
            return str(token)
        near = nearest(str(token), known)
        self.tell(names.WORD_UNKNOWN, token, found=token, what=what, near=or_list(near or known))
        return None

    def things(self, tokens: Iterable[Token]) -> tuple[str, ...]:
        """The names of things that must be there; told where nobody is known to have one."""
        needs = name_tokens(tokens)
        known = THINGS | self.world.things
        for need in needs:
            if str(need) not in known:
                near = nearest(str(need), known)
                help = f"Did you mean {or_list(near)}?" if near else f"Known things are {or_list(sorted(THINGS))}."
                self.tell(names.NEED_UNKNOWN, need, found=need, near=help)
        return tuple(map(str, needs))

    def date(self, token: Token) -> date | None:
        try:
            return date.fromisoformat(str(token))
        except ValueError:
            self.tell(names.DATE_IMPOSSIBLE, token, found=token)
            return None

    def once(self, said: dict[str, Any], key: str, value: Any, part: Part, word: str | None = None) -> None:
        """Keeps a value that may be said once; tells where it is said again."""
        if key in said:
            if self.placed.damaged:
                return  # the line between the two that parted them may not have been read
            self.tell(names.SAID_TWICE, part, found=word or key)
        else:
            said[key] = value

    def allow(self, line: nodes.Allow) -> model.Allow:
        return model.Allow(str(line.code), text(line.because), span=self.span(line))


def text(token: Token | None) -> str:
    """What stands between the quotes."""
    return str(token)[1:-1] if token is not None else ""


def title(name: Token, written: Token | None) -> str:
    """The printed title: the text after the name, or the name with a capital and spaces."""
    return text(written) if written is not None else str(name).replace("-", " ").capitalize()


def prose(lines: Iterable[Any]) -> str:
    """The lines of prose among the lines, joined: the bar and one blank after it taken off."""
    return "\n".join(
        str(line)[2:] if str(line)[1:2] == " " else str(line)[1:]
        for line in lines
        if isinstance(line, Token) and line.type == "PROSE"
    )


def quantity(token: Token) -> Quantity:
    """The quantity that a token of the grammar's figures spells."""
    return read_quantity(str(token))


def name_tokens(tokens: Iterable[Token]) -> list[Token]:
    """The names among the tokens."""
    return [token for token in tokens if token.type == "NAME"]


# Movements


def lower_movement(world: World, declared: Declared) -> model.Movement:
    """The movement of a declaration, made once."""
    if declared.value is None:
        reader = Reader(world, declared.file, declared.placed, declared.library)
        declared.value = _movement(reader, declared.placed.node)  # type: ignore[arg-type]
    movement: model.Movement = declared.value
    return movement


def _movement(reader: Reader, node: nodes.Movement) -> model.Movement:
    said: dict[str, Any] = {}
    cues: list[str] = []
    cautions: list[str] = []
    allows: list[model.Allow] = []
    for line in node.lines:
        if isinstance(line, nodes.Allow):
            allows.append(reader.allow(line))
            continue
        values = line.values if isinstance(line, nodes.Setting) else ()
        match line.keyword.type:
            case "CUE":
                cues.append(text(values[0]))
            case "CAUTION":
                cautions.append(text(values[0]))
            case "PATTERN":
                reader.once(said, "patterns", tuple(map(str, name_tokens(values))), line, "pattern")
            case "HELD":
                reader.once(said, "held", True, line)
            case "NEEDS":
                reader.once(said, "needs", reader.things(values), line)
            case "LOADED":
                reader.once(said, "loaded_by", _loaded_by(reader, values), line, "loaded")
            case "REP":
                reader.once(said, "rep", quantity(values[0]), line)
            case "COVERS":
                reader.once(said, "covers", (quantity(values[0]), quantity(values[2])), line)
            case "RUNGS":
                rungs = tuple(_rung(reader, rung) for rung in line.lines if isinstance(rung, nodes.Rung))  # type: ignore[union-attr]
                reader.once(said, "rungs", rungs, line)
            case "HOW":
                reader.once(said, "how", prose(line.lines), line)  # type: ignore[union-attr]
    return model.Movement(
        name=str(node.name),
        title=title(node.name, node.title),
        patterns=said.pop("patterns", ()),
        cues=tuple(cues),
        cautions=tuple(cautions),
        allows=tuple(allows),
        span=reader.span(node.name),
        **said,
    )


def _loaded_by(reader: Reader, values: Iterable[Token]) -> tuple[str, ...]:
    kinds: list[str] = []
    for token in values:
        if token.type == "NAME":
            kinds.append(reader.one_of(token, IMPLEMENTS, "an implement") or str(token))
        elif token.type == "PAIR":
            kinds[-1] += " pair"
    return tuple(kinds)


def _rung(reader: Reader, node: nodes.Rung) -> model.Rung:
    said: dict[str, Any] = {}
    for part in node.clauses:
        if isinstance(part, Token):
            if part.type == "PERCENT":
                said["moves"] = quantity(part)
            continue
        match part.keyword.type:
            case "SOURCE":
                reader.once(said, "source", text(part.values[0]), part)
            case "MOVES":
                reader.once(said, "moves", quantity(part.values[0]), part)
            case "NEEDS":
                reader.once(said, "needs", reader.things(part.values), part)
    return model.Rung(str(node.name), text(node.text), **said)
