"""Programs, sessions and blocks, from the syntax tree to the model."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

import attrs
from lark import Token

from ..grammar import nodes
from ..grammar.diagnostic import or_list
from . import model
from .axes import AXES, EASED
from .checks import names
from .checks.comeback import BESIDE, TO_A_RETURN
from .checks.look import ACCENT_NO_COLOUR
from .comeback import comeback, offered_loads, offered_volume
from .lower import Declared, Reader, World, name_tokens, prose, quantity, text, title
from .lower_dose import figure, lower_dose, lower_rule
from .quantity import Quantity
from .vocabulary import ACCENTS

_OF_A_RETURN = frozenset(("REVISION", "FOR", "COACH", "LETTERHEAD", "ACCENT", "LOGO", "AIMS", "RULES"))
_OF_A_LOOK = ("letterhead", "accent", "accent_span", "logo", "logo_span", "shows")
_COLOUR = re.compile("#[0-9a-fA-F]{6}")


def lower_program(world: World, declared: Declared) -> model.Program:
    """The program of a declaration; `damaged` when something of it could not be read."""
    reader = Reader(world, declared.file, declared.placed)
    node = declared.placed.node
    assert isinstance(node, nodes.Program)
    said: dict[str, Any] = {}
    categories: list[model.Category] = []
    sessions: list[model.Session] = []
    easier: list[model.Easier] = []
    allows: list[model.Allow] = []
    returning = any(isinstance(line, nodes.Returning) for line in node.lines)
    for line in node.lines:
        if returning and not isinstance(line, nodes.Returning | nodes.Allow) and line.keyword.type not in _OF_A_RETURN:
            reader.tell(BESIDE, line.keyword, word=line.keyword)
            continue
        if isinstance(line, nodes.Returning):
            reader.once(said, "returns", _returning(reader, line), line, "return")
        elif isinstance(line, nodes.Session):
            sessions.append(_session(reader, line, [session.name for session in sessions]))
        elif isinstance(line, nodes.Category):
            categories.append(_category(reader, line, [category.name for category in categories]))
        elif isinstance(line, nodes.Easier):
            easier.append(_easier(reader, line))
        elif isinstance(line, nodes.Allow):
            allows.append(reader.allow(line))
        elif isinstance(line, nodes.Section):
            reader.once(said, line.keyword.lower(), prose(line.lines), line.keyword)
        else:
            _program_setting(reader, line, said)
    damaged = declared.placed.damaged or said.pop("damaged", False)
    look = model.Look(**{name: said.pop(name) for name in _OF_A_LOOK if name in said})
    return model.Program(
        name=str(node.name),
        title=title(node.name, node.title),
        categories=tuple(categories),
        sessions=tuple(sessions),
        easier=tuple(easier),
        allows=tuple(allows),
        look=look,
        damaged=damaged or _lost_blocks(node, sessions),
        span=reader.span(node.name),
        **said,
    )


def _returning(reader: Reader, node: nodes.Returning) -> model.Return:
    """The way back, with the shares that are offered where the coach writes none."""
    named = reader.find("program", str(node.program))
    if named is None:
        reader.unknown("program", node.program)
    elif any(isinstance(line, nodes.Returning) for line in named.placed.node.lines):  # type: ignore[union-attr]
        reader.tell(TO_A_RETURN, node.program, to=node.program)
    said: dict[str, tuple[Quantity, ...]] = {}
    for line in node.lines:
        shares = tuple(map(quantity, line.values))
        reader.once(said, line.keyword.lower(), shares, line)
    volume = said.get("volume") or offered_volume(said.get("load"))
    loads = said.get("load") or offered_loads(volume)
    return model.Return(str(node.program), int(node.weeks), volume, loads, span=reader.span(node))


def come_back(program: model.Program, seen: Iterable[model.Program]) -> model.Program:
    """A program that returns to another, with the sessions of its weeks; any other as it is. `seen` are those of its file."""
    if program.returns is None:
        return program
    named = [one for one in seen if one.name == program.returns.to and one.returns is None]
    if not named:
        return attrs.evolve(program, damaged=True)
    return comeback(program, max(named, key=lambda one: one.revision))


def _lost_blocks(node: nodes.Program, sessions: list[model.Session]) -> bool:
    """Whether a block is missing from the sessions, or an entry from one of their blocks."""
    written = sum(
        isinstance(line, nodes.Block)
        for session in node.lines
        if isinstance(session, nodes.Session)
        for line in session.lines
    )
    lowered = [block for session in sessions for block in session.blocks]
    return len(lowered) < written or any(block.damaged for block in lowered)


def _program_setting(reader: Reader, line: nodes.Setting, said: dict[str, Any]) -> None:
    values = line.values
    match line.keyword.type:
        case "REVISION":
            reader.once(said, "revision", int(values[0]), line)
            if len(values) > 1:
                said.setdefault("dated", reader.date(values[1]))
        case "FOR":
            reader.once(said, "audience", text(values[0]), line, "for")
        case "COACH":
            reader.once(said, "coach", text(values[0]), line)
            if len(values) > 1:
                said.setdefault("ask_by", text(values[-1]))
        case "UNITS":
            unit = reader.one_of(values[0], ("kg", "lb"), "a unit of weight")
            reader.once(said, "units", unit or "kg", line)
        case "RUNS":
            reader.once(said, "weeks", int(values[0]), line, "runs")
        case "REST":
            reader.once(said, "rest", quantity(values[0]), line)
            if len(values) > 1:
                reader.once(said, "change", quantity(values[-1]), line)
        case "CHANGE":
            reader.once(said, "change", quantity(values[0]), line)
        case "JUMP":
            reader.once(said, "jump", quantity(values[0]), line)
        case "LETTERHEAD":
            reader.once(said, "letterhead", tuple(told for value in values if (told := text(value).strip())), line)
        case "ACCENT":
            reader.once(said, "accent", _colour(reader, values[0]), line)
            said.setdefault("accent_span", reader.span(values[0]))
        case "LOGO":
            reader.once(said, "logo", reader.world.logos.get((reader.file.source.name, text(values[0]))), line)
            said.setdefault("logo_span", reader.span(values[0]))
            if len(values) > 1:
                said.setdefault("shows", text(values[-1]).strip())


def _colour(reader: Reader, token: Token) -> str:
    """An accent as `#1f5c4a`, "" where it is told as no colour."""
    if token.type == "NAME":
        return ACCENTS.get(reader.one_of(token, ACCENTS, "an accent") or "", "")
    if _COLOUR.fullmatch(text(token)) is None:
        reader.tell(ACCENT_NO_COLOUR, token, found=text(token), names=or_list(ACCENTS))
        return ""
    return text(token).lower()


def _easier(reader: Reader, node: nodes.Easier) -> model.Easier:
    said: dict[str, Any] = {}
    for change in node.changes:
        axis = str(change.axis)
        if axis not in AXES:
            reader.one_of(change.axis, EASED, "an axis that a week can ease")
            continue
        amount = figure(change.amount)
        reader.once(said, axis, -amount if change.minus is not None else amount, change)
    return model.Easier(tuple(map(int, node.weeks)), tuple(said.items()), span=reader.span(node))


def _category(reader: Reader, node: nodes.Category, earlier: list[str]) -> model.Category:
    _unlike(reader, "category", node, earlier)
    said: dict[str, Any] = {}
    for clause in node.clauses:
        match clause.keyword.type:
            case "REQUIRED":
                reader.once(said, "required", True, clause)
            case "AT":
                reader.once(said, "at_least", int(clause.values[1]), clause, "at least")
            case "COUNTS":
                reader.once(said, "counts", tuple(map(str, name_tokens(clause.values))), clause)
    said.setdefault("counts", (str(node.name),))
    return model.Category(str(node.name), title(node.name, node.title), span=reader.span(node.name), **said)


def _unlike(reader: Reader, kind: str, node: Any, earlier: list[str]) -> None:
    if str(node.name) in earlier:
        reader.tell(names.NAME_TWICE, node.name, kind=kind, found=node.name, near="")


def _session(reader: Reader, node: nodes.Session, earlier: list[str]) -> model.Session:
    _unlike(reader, "session", node, earlier)
    said: dict[str, Any] = {"within_span": None}
    shorts: list[model.Short] = []
    blocks: list[model.Block] = []
    allows: list[model.Allow] = []
    if node.frequency is not None:
        said |= _frequency(reader, node.frequency)
    for line in node.lines:
        if isinstance(line, nodes.Block):
            block = _block_or_reference(reader, line)
            if block is not None:
                if block.name in [other.name for other in blocks]:
                    _unlike(reader, "block", line, [block.name])
                blocks.append(block)
        elif isinstance(line, nodes.Allow):
            allows.append(reader.allow(line))
        elif isinstance(line, nodes.Setting) and line.keyword.type == "WITHIN":
            reader.once(said, "within", quantity(line.values[0]), line)
            said["within_span"] = reader.span(line)
        elif isinstance(line, nodes.Setting):
            by = reader.one_of(line.values[2], ("sets", "movements"), "a way to make a session shorter")
            shorts.append(model.Short(quantity(line.values[0]), by or "sets", span=reader.span(line)))  # type: ignore[arg-type]
    return model.Session(
        name=str(node.name),
        title=title(node.name, node.title),
        blocks=tuple(blocks),
        shorts=tuple(shorts),
        note=prose(node.lines),
        allows=tuple(allows),
        span=reader.span(node.name),
        **said,
    )


def _frequency(reader: Reader, clause: nodes.Clause) -> dict[str, Any]:
    match clause.keyword.type:
        case "INT":
            return {"per_week": int(clause.keyword)}
        case "EVERY":
            return {"per_week": 7, "days": model.DAYS}
        case _:
            written = [reader.one_of(day, model.DAYS, "a day of the week") for day in name_tokens(clause.values)]
            days = tuple(filter(None, written))
            return {"per_week": len(days), "days": days}


def _block_or_reference(reader: Reader, node: nodes.Block) -> model.Block | None:
    """The block as it stands there, or the top-level block of its name where only a name stands there."""
    if node.lines or node.title is not None or node.clauses:
        return _block(reader, node)
    declared = reader.find("block", str(node.name))
    if declared is None:
        reader.unknown("block", node.name)
        return None
    return declared_block(reader.world, declared)


def declared_block(world: World, declared: Declared) -> model.Block:
    """The block of a top-level declaration, made once."""
    if declared.value is None:
        declared.value = _block(Reader(world, declared.file, declared.placed), declared.placed.node)  # type: ignore[arg-type]
    block: model.Block = declared.value
    return block


def _block(reader: Reader, node: nodes.Block) -> model.Block:
    """A block with the entries whose movements are known."""
    said: dict[str, Any] = {}
    for clause in node.clauses:
        match clause.keyword.type:
            case "NAME":
                kind = reader.one_of(clause.keyword, model.BLOCK_KINDS, "a kind of block")
                reader.once(said, "kind", kind or "work", clause, "the kind of the block")
            case "ROUNDS":
                reader.once(said, "rounds", int(clause.values[0]), clause)
            case "REST":
                reader.once(said, "rest", quantity(clause.values[0]), clause)
            case "CHANGE":
                reader.once(said, "change", quantity(clause.values[0]), clause)
    said.setdefault("kind", "work")
    entries = [_entry(reader, line) for line in node.lines if isinstance(line, nodes.Entry)]
    return model.Block(
        name=str(node.name),
        title=title(node.name, node.title),
        entries=tuple(entry for entry in entries if entry is not None),
        note=prose(node.lines),
        allows=tuple(reader.allow(line) for line in node.lines if isinstance(line, nodes.Allow)),
        damaged=reader.placed.damaged or None in entries or _lost_else(node, entries),
        span=reader.span(node.name),
        **said,
    )


def _lost_else(node: nodes.Block, entries: list[model.Entry | None]) -> bool:
    """Whether an `else` is missing from the entries of a block."""
    written = sum(
        isinstance(one, nodes.Else) for line in node.lines if isinstance(line, nodes.Entry) for one in line.lines
    )
    return sum(len(entry.otherwise) for entry in entries if entry is not None) < written


def _entry(reader: Reader, node: nodes.Entry) -> model.Entry | None:
    movement = reader.movement(node.movement)
    dose, condition = lower_dose(reader, node.dose)
    rule = lower_rule(reader, node)
    otherwise = [
        alternative
        for line in node.lines
        if isinstance(line, nodes.Else) and (alternative := _alternative(reader, line)) is not None
    ]
    if movement is None:
        return None
    return model.Entry(
        str(node.priority),  # type: ignore[arg-type]
        movement,
        dose,
        rule,
        tuple(otherwise),
        condition,
        prose(node.lines),
        tuple(reader.allow(line) for line in node.lines if isinstance(line, nodes.Allow)),
        span=reader.span(node.movement),
    )


def _alternative(reader: Reader, node: nodes.Else) -> model.Alternative | None:
    movement = reader.movement(node.movement)
    dose, condition = lower_dose(reader, node.dose)
    rule = lower_rule(reader, node)
    if movement is None:
        return None
    return model.Alternative(movement, dose, rule, condition, span=reader.span(node.movement))


def with_fingerprint(program: model.Program, fingerprint: str) -> model.Program:
    """The program, with the fingerprint of the sources it came from."""
    return attrs.evolve(program, fingerprint=fingerprint)
