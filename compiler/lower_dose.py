"""Doses and rules of progression, from the syntax tree to the model."""

from __future__ import annotations

from typing import Any

import attrs
from lark import Token

from ..grammar import nodes
from . import model
from .axes import AXES
from .checks import names
from .lower import Reader, name_tokens, quantity, text
from .quantity import Quantity, read_quantity
from .vocabulary import LOGGED


def lower_dose(reader: Reader, node: nodes.Dose) -> tuple[model.Dose, str | None]:
    """The dose, and the condition under which its entry is done (`able`, or the name of a thing)."""
    sets: list[model.WorkSet] = []
    said: dict[str, Any] = {}
    tempo: dict[str, Any] = {}
    ramp: list[model.RampSet] = []
    amrap: dict[str, int] = {}
    for position, part in enumerate(node.parts):
        if isinstance(part, nodes.Work):
            if position > 0 and node.sets is None:
                reader.tell(names.SETS_LOOSE, part, found=part.done)
                continue
            count = int(str(part.count).rstrip("x× ")) if part.count is not None else 1
            many = len(node.parts) > 1 and node.sets is not None
            sets += [_work(reader, part, said, amrap, own_load=many)] * min(count, 10_000) if count else []
            if not count:
                said["no_sets"] = part
        elif part.keyword.type in ("RAMP", "RAMP_SET"):
            figures = part.values[0] if part.keyword.type == "RAMP" else part.keyword
            share, reps = str(figures).split("x")
            ramp.append(model.RampSet(read_quantity(share.strip()), int(reps)))
        else:
            _clause(reader, part, said, tempo, amrap)
    said.pop("no_sets", None)
    condition = said.pop("condition", None)
    if amrap:
        sets = [_with_amrap(workset, amrap) for workset in sets]
    return (
        model.Dose(tuple(sets), tuple(ramp), tempo=model.Tempo(**tempo), span=reader.span(node), **said),
        condition,
    )


def _work(
    reader: Reader, node: nodes.Work, said: dict[str, Any], amrap: dict[str, int], *, own_load: bool
) -> model.WorkSet:
    """One set as written; a load beside it is its own in a list of sets, else that of the whole dose."""
    target = _target(node.done)
    load: Quantity | None = None
    for modifier in node.modifiers:
        if own_load and modifier.keyword.type == "AT" and modifier.values[0].type in ("MASS", "PERCENT"):
            load = quantity(modifier.values[0])
        elif modifier.keyword.type == "LEAVING" and isinstance(target, model.Amrap):
            target = attrs.evolve(target, leaving=int(modifier.values[0]))
        else:
            _clause(reader, modifier, said, {}, amrap)
    return model.WorkSet(target, load)


def _target(done: Token) -> model.Target:
    match done.type:
        case "INT":
            return model.Reps(int(done), int(done))
        case "RANGE":
            low, high = str(done).split("-")
            return model.Reps(int(low), int(high))
        case "AMRAP":
            return model.Amrap()
        case "TIME":
            return model.Timed(quantity(done))
        case _:
            return model.Distance(quantity(done))


def _with_amrap(workset: model.WorkSet, amrap: dict[str, int]) -> model.WorkSet:
    if not isinstance(workset.target, model.Amrap):
        return workset
    return attrs.evolve(workset, target=attrs.evolve(workset.target, **amrap))


def _clause(
    reader: Reader, clause: nodes.Clause, said: dict[str, Any], tempo: dict[str, Any], amrap: dict[str, int]
) -> None:
    values = clause.values
    match clause.keyword.type:
        case "EACH":
            reader.once(said, "each_side", True, clause, "each side")
        case "LEAVING":
            reader.once(amrap, "leaving", int(values[0]), clause)
        case "EXPECT":
            reader.once(amrap, "expect", int(values[0]), clause)
        case "AT" if values[0].type == "LEAST":
            reader.once(said, "least_sets", int(values[1]), clause, "at least")
        case "AT" if values[0].type == "RPE":
            reader.once(said, "rpe", str(values[1]), clause, "at rpe")
        case "AT":
            reader.once(said, "load", quantity(values[0]), clause, "at")
        case "REST":
            reader.once(said, "rest", quantity(values[0]), clause)
        case "LOWER":
            reader.once(tempo, "lower", quantity(values[0]), clause)
        case "PAUSE" if values[0].type == "INT":
            reader.once(tempo, "cues", int(values[0]), clause, "pause")
        case "PAUSE":
            reader.once(tempo, "pause", quantity(values[0]), clause)
        case "RAISE":
            reader.once(tempo, "up", "fast" if values[0].type == "FAST" else quantity(values[0]), clause, "raise")
        case "TEMPO":
            for key, figure in zip(("lower", "pause", "up", "top"), str(values[0]).split("-"), strict=True):
                fast = "fast" if key == "up" else read_quantity("1 s")
                reader.once(tempo, key, fast if figure == "x" else read_quantity(f"{figure} s"), clause, "tempo")
        case "IF" if values[0].type == "ABLE":
            reader.once(said, "condition", "able", clause, "if")
        case "IF":
            reader.once(said, "condition", reader.things(values[1:])[0], clause, "if")
        case "LOG":
            logged = tuple(reader.one_of(name, LOGGED, "something to log") or "" for name in name_tokens(values))
            reader.once(said, "logs", logged, clause, "log")


# Progression


def lower_rule(reader: Reader, node: nodes.Entry | nodes.Else) -> model.Rule | model.NoProgress | None:
    """What the lines `advance` and `after` of an entry, or of an `else`, say together."""
    said: dict[str, Any] = {}
    pace: dict[str, Any] = {}
    for line in node.lines:
        if isinstance(line, nodes.AdvanceNone):
            reader.once(said, "rule", model.NoProgress(text(line.because), span=reader.span(line)), line, "advance")
        elif isinstance(line, nodes.Advance):
            axes = tuple(axis for part in line.axes if (axis := _axis(reader, part)) is not None)
            reader.once(said, "rule", model.Rule(axes, span=reader.span(line)) if axes else None, line, "advance")
        elif isinstance(line, nodes.Setting):
            count, kind = int(line.values[0]), line.values[1].type
            if kind == "GOOD":
                reader.once(pace, "good", count, line, "after ... good")
            else:
                reader.once(pace, "missed", count, line, "after ... missed")
                eased = reader.one_of(line.values[3], AXES, "an axis of progression")
                if eased:
                    pace["ease"] = (eased, figure(line.values[4]))
    rule: model.Rule | model.NoProgress | None = said.get("rule")
    return attrs.evolve(rule, **pace) if isinstance(rule, model.Rule) and pace else rule


def _axis(reader: Reader, node: nodes.Axis) -> model.Axis | None:
    name = reader.one_of(node.name, AXES, "an axis of progression")
    restarting = [reader.one_of(token, AXES, "an axis of progression") for token in node.restarting]
    if name is None or None in restarting:
        return None
    return model.Axis(
        name,
        figure(node.step) if node.step is not None else None,
        figure(node.bound) if node.bound is not None else None,
        int(node.at) if node.at is not None else None,
        tuple(filter(None, restarting)),
        span=reader.span(node),
    )


def figure(token: Token) -> Any:
    """A count, a quantity, or the name of a rung."""
    if token.type == "INT":
        return int(token)
    return str(token) if token.type == "NAME" else quantity(token)
