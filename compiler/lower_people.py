"""Athletes, groups and logs, from the syntax tree to the model."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from lark import Token

from ..grammar import nodes, problems
from ..grammar.diagnostic import or_list
from . import model
from .checks import beginnings, logs, names
from .lower import Declared, Reader, World, name_tokens, prose, quantity, text, title
from .quantity import Quantity, read_quantity
from .vocabulary import FILLINGS, IMPLEMENTS, PATTERNS, PRINTS


def lower_athlete(world: World, declared: Declared) -> model.Athlete:
    """The athlete of a declaration."""
    reader = Reader(world, declared.file, declared.placed)
    node = declared.placed.node
    assert isinstance(node, nodes.Athlete)
    said: dict[str, Any] = {}
    lists: dict[str, list[Any]] = {}
    for line in node.lines:
        if isinstance(line, nodes.Allow):
            lists.setdefault("allows", []).append(reader.allow(line))
        else:
            _athlete_setting(reader, line, said, lists)
    said |= {key: tuple(values) for key, values in lists.items()}
    return model.Athlete(
        name=str(node.name),
        title=title(node.name, node.title),
        span=reader.span(node.name),
        **said,
    )


def _athlete_setting(reader: Reader, line: nodes.Setting, said: dict[str, Any], lists: dict[str, list[Any]]) -> None:
    values = line.values
    match line.keyword.type:
        case "BORN":
            reader.once(said, "born", int(values[0]), line)
        case "BODY":
            reader.once(said, "body", quantity(values[0]), line)
        case "TRAINS":
            reader.once(said, "alone", values[0].type == "ALONE", line, "trains")
        case "STARTS":
            reader.once(said, "starts", reader.date(values[0]), line)
            days = [reader.one_of(day, model.DAYS, "a day of the week") for day in name_tokens(values)]
            said["days"] = tuple(filter(None, days))
        case "FOLLOWS":
            lists.setdefault("follows", []).extend(_follows(reader, name_tokens(values)))
        case "HAS":
            _has(reader, line, lists)
        case "AVOIDS":
            lists.setdefault("avoids", []).extend(_avoids(reader, values))
        case "BEGINS":
            start = _start(reader, line)
            if start is not None:
                lists.setdefault("begins", []).append(start)
        case "MAX":
            if reader.movement(values[0]) is not None:
                lists.setdefault("maxima", []).append((str(values[0]), quantity(values[1])))
        case "ALONE":
            reader.once(said, "alone_cap", quantity(values[-1]), line, "alone at most")
        case "JUMP":
            reader.once(said, "jump", quantity(values[0]), line)
        case "PRINTS":
            said["prints"] = (*said.get("prints", ()), reader.one_of(values[0], PRINTS, "a way to print") or "")


def _avoids(reader: Reader, values: Sequence[Token]) -> Iterator[model.Exclusion]:
    """The movements and patterns of a line, each with the reason that stands at its end."""
    because = text(values[-1]) if values[-1].type == "STRING" else ""
    patterns = reader.world.patterns.union(PATTERNS)
    for name in name_tokens(values):
        if str(name) in patterns or reader.movement(name, "movement or pattern", patterns) is not None:
            yield model.Exclusion(str(name), because, span=reader.span(name))


def _follows(reader: Reader, tokens: Iterable[Token]) -> Iterator[str]:
    """The programs that can be seen, of these names."""
    for name in tokens:
        if reader.find("program", str(name)) is not None:
            yield str(name)
        else:
            reader.unknown("program", name)


def _start(reader: Reader, line: nodes.Setting) -> model.Start | None:
    name, *rest = line.values
    movement = reader.movement(name)
    said: dict[str, Any] = {}
    for token in rest:
        if token.type == "INT":
            reader.once(said, "reps", int(token), token)
        elif token.type == "MASS" and movement is not None and not movement.loaded_by:
            reader.tell(beginnings.BEGINS_WITHOUT_LOAD, token, movement=name, load=token)
        elif token.type == "MASS":
            reader.once(said, "load", quantity(token), token)
        elif token.type == "STRING" and movement is not None and not _takes_bands(movement):
            reader.tell(beginnings.BEGINS_WITHOUT_BAND, token, movement=name)
        elif token.type == "STRING":
            reader.once(said, "band", text(token), token, "the band")
        elif token.type in ("TIME", "LENGTH"):
            reader.once(said, "amount", quantity(token), token, "the time or distance")
        elif token.type == "NAME" and movement is not None and _rung(reader, movement, token):
            reader.once(said, "rung", str(token), token, "the rung")
    return model.Start(str(name), span=reader.span(line), **said) if movement is not None else None


def _takes_bands(movement: model.Movement) -> bool:
    return any(kind.split()[0] == "band" for kind in movement.loaded_by)


def _rung(reader: Reader, movement: model.Movement, token: Token) -> bool:
    rungs = [rung.name for rung in movement.rungs]
    if str(token) in rungs:
        return True
    if rungs:
        reader.one_of(token, rungs, f"a rung of {movement.name}")
    else:
        reader.tell(
            names.NAME_UNKNOWN, token, kind="rung", found=token, near=f"`{movement.name}` has no rungs: leave it out."
        )
    return False


def _has(reader: Reader, line: nodes.Setting, lists: dict[str, list[Any]]) -> None:
    first, *rest = line.values
    if all(token.type == "NAME" for token in rest):
        for thing in line.values:
            if str(thing) in IMPLEMENTS:
                if reader.placed.damaged:
                    continue  # its figures may be what could not be read
                example = {"container": "has container 5 l, fill water", "band": 'has band "red"'}
                reader.tell(
                    names.IMPLEMENT_BARE, thing, found=thing,
                    near=f"Write `{example.get(str(thing), f'has {thing} 6 kg')}`, with the figures of yours.",
                )  # fmt: skip
            else:
                lists.setdefault("things", []).append(str(thing))
        return
    kind = reader.one_of(first, IMPLEMENTS, "an implement")
    if kind is not None:
        lists.setdefault("implements", []).append(_implement(reader, kind, rest, line))


def _implement(reader: Reader, kind: str, rest: Sequence[Token], line: nodes.Setting) -> model.Implement:
    masses: list[Quantity] = []
    plates: list[tuple[int, Quantity]] = []
    said: dict[str, Any] = {}
    fill: list[str] = []
    steps: list[str] = []
    before = ""
    for position, token in enumerate(rest):
        match token.type:
            case "MASS" if before == "SETS_X":
                plates.append((int(str(rest[position - 1]).rstrip("x× ")), quantity(token)))
            case "MASS" if before in ("WEIGHING", "LIMIT"):
                reader.once(said, before.lower(), quantity(token), token)
            case "MASS":
                masses.append(quantity(token))
            case "PAIR":
                said["pair"] = True
            case "LITRES":
                said["volume"] = quantity(token)
            case "STRAIGHT":
                reader.once(said, "straight", True, token)
            case "STRING" if "volume" in said:
                said["title"] = text(token)
            case "STRING":
                steps.append(text(token))
            case "NAME":
                filling = reader.one_of(token, FILLINGS, "something to fill a container with")
                fill += [filling] if filling is not None else []
        before = token.type
    return model.Implement(
        kind,
        masses=tuple(masses),
        plates=tuple(plates),
        fill=tuple(fill),
        steps=tuple(steps),
        span=reader.span(line),
        **said,
    )


def lower_group(world: World, declared: Declared) -> model.Group:
    """The group of a declaration; each member must be known."""
    reader = Reader(world, declared.file, declared.placed)
    node = declared.placed.node
    assert isinstance(node, nodes.Group)
    if reader.knows("athlete", str(node.name)):
        reader.tell(names.GROUP_AS_ATHLETE, node.name, found=node.name)
    for member in node.members:
        if not reader.knows("athlete", str(member)) and not reader.knows("group", str(member)):
            reader.unknown("athlete", member)
    return model.Group(
        str(node.name), title(node.name, node.title), tuple(map(str, node.members)), span=reader.span(node.name)
    )


# Logs


def lower_log(
    world: World, header: Declared, sessions: Sequence[Declared], programs: Sequence[model.Program]
) -> model.Log:
    """The log of a header and the sessions that stand below it, read against the revision that it names."""
    reader = Reader(world, header.file, header.placed)
    node = header.placed.node
    assert isinstance(node, nodes.Log)
    if not reader.knows("athlete", str(node.athlete)):
        reader.unknown("athlete", node.athlete)
    program = _program_of(reader, node, programs)
    lowered = [
        session
        for declared in sessions
        if (session := _logged_session(Reader(world, declared.file, declared.placed), program)) is not None
    ]
    return model.Log(
        str(node.athlete),
        str(node.program),
        int(node.revision) if node.revision is not None else None,
        tuple(lowered),
        span=reader.span(node.athlete),
    )


def _program_of(reader: Reader, node: nodes.Log, programs: Sequence[model.Program]) -> model.Program | None:
    named = [program for program in programs if program.name == str(node.program)]
    if not named:
        reader.unknown("program", node.program, {program.name for program in programs})
        return None
    if node.revision is None:
        return max(named, key=lambda program: program.revision)
    for program in named:
        if program.revision == int(node.revision):
            return program
    revisions = or_list(str(program.revision) for program in named)
    reader.tell(
        names.NAME_UNKNOWN, node.revision, kind=f"revision of {node.program}", found=node.revision,
        near=f"The revisions that can be seen from here are {revisions}.",
    )  # fmt: skip
    return None


def _logged_session(reader: Reader, program: model.Program | None) -> model.LoggedSession | None:
    node = reader.placed.node
    assert isinstance(node, nodes.LoggedSession)
    day = reader.date(node.date)
    session: model.Session | None = None
    if program is not None:
        session = next((one for one in program.sessions if one.name == str(node.session)), None)
        if session is None and not program.damaged:
            reader.unknown("session", node.session, [one.name for one in program.sessions])
    said: dict[str, Any] = {}
    for clause in node.clauses:
        if clause.keyword.type == "RPE":
            reader.once(said, "rpe", str(clause.values[0]), clause)
        else:
            reader.once(said, "took", quantity(clause.keyword), clause, "the time it took")
    entries = [
        _logged_entry(reader, line, program, session) for line in node.lines if isinstance(line, nodes.LoggedEntry)
    ]
    if day is None:
        return None
    short = quantity(node.short) if node.short is not None else None
    return model.LoggedSession(
        day,
        str(node.session),
        short,
        entries=tuple(entry for entry in entries if entry is not None),
        note=prose(node.lines),
        span=reader.span(node.date),
        **said,
    )


def _movements_of(entries: Iterable[model.Entry]) -> dict[str, model.Movement]:
    """The movements that entries may have asked for, alternatives among them."""
    found: dict[str, model.Movement] = {}
    for entry in entries:
        for movement in (entry.movement, *(other.movement for other in entry.otherwise)):
            found[movement.name] = movement
    return found


def _logged_entry(
    reader: Reader, node: nodes.LoggedEntry, program: model.Program | None, session: model.Session | None
) -> model.LoggedEntry | None:
    movement: model.Movement | None = None
    if session is not None and program is not None:
        known = _movements_of(session.entries)
        # What another session asks for may be done along with this one: a walk after the main session.
        elsewhere = _movements_of(entry for other in program.sessions for entry in other.entries)
        movement = known.get(str(node.movement)) or elsewhere.get(str(node.movement))
        if movement is None and not program.damaged:
            reader.unknown("movement in this session", node.movement, known)
            return None
    said: dict[str, Any] = {}
    tempo: dict[str, Any] = {}
    results: list[int | Quantity] = []
    before: nodes.Clause | Token | None = None
    for item in node.items:
        if isinstance(item, nodes.Clause):
            _logged_clause(reader, item, said, tempo)
        elif item.type == "MASS":
            reader.once(said, "load", quantity(item), item)
        elif item.type == "INT":
            results.append(int(item))
        elif item.type == "CLOCK":
            results.append(_clock(item))
        elif item.type == "NAME" and str(item) in ("l", "ml") and isinstance(before, Token) and before.type == "INT":
            results.pop()
            reader.tell(logs.LOGGED_VOLUME, item, found=f"{before} {item}")
        elif item.type == "NAME":
            if movement is not None and _rung(reader, movement, item):
                reader.once(said, "rung", str(item), item, "the rung")
        elif item.type == "STRING" and not text(item).strip("_ "):
            reader.tell(problems.BLANK_LEFT, item)
        elif item.type == "STRING" and movement is not None and not _takes_bands(movement):
            reader.tell(beginnings.LOGGED_WITHOUT_BAND, item, movement=movement.name)
        elif item.type == "STRING":
            reader.once(said, "band", text(item), item, "the band")
        elif item.type in ("TIME", "LENGTH"):
            results.append(quantity(item))
        before = item
    return model.LoggedEntry(
        str(node.movement), tempo=model.Tempo(**tempo), results=tuple(results), span=reader.span(node.movement), **said
    )


def _logged_clause(reader: Reader, clause: nodes.Clause, said: dict[str, Any], tempo: dict[str, Any]) -> None:
    value = clause.values[0]
    match clause.keyword.type:
        case "RPE":
            reader.once(said, "rpe", str(value), clause)
        case "REST":
            reader.once(said, "rest", quantity(value), clause)
        case "LOWER":
            reader.once(tempo, "lower", quantity(value), clause)
        case "PAUSE" if value.type == "INT":
            reader.once(tempo, "cues", int(value), clause, "pause")
        case "PAUSE":
            reader.once(tempo, "pause", quantity(value), clause)
        case "RAISE":
            reader.once(tempo, "up", "fast" if value.type == "FAST" else quantity(value), clause, "raise")


def _clock(token: Token) -> Quantity:
    """`31:00` or `1:02:30` as seconds."""
    seconds = 0
    for figure in str(token).split(":"):
        seconds = seconds * 60 + int(figure)
    return read_quantity(f"{seconds} s")
