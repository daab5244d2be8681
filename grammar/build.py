"""Syntax tree out of the parser's reductions: one method a rule, named as in the grammar, that only builds."""

from __future__ import annotations

from typing import Any

from lark import Token

from . import nodes
from .nodes import Clause, Section, Setting

Children = list[Any]


def _end(children: Children) -> int:
    """Where the last child that is there ends."""
    for child in reversed(children):
        if child is not None:
            return int(child.end_pos)
    raise AssertionError("a rule without children")


class Build:
    """The callbacks that the parser runs while it reduces; each gets the children of its rule, commas dropped."""

    def setting(self, c: Children) -> Setting:
        return Setting(c[0].start_pos, c[-1].end_pos, c[0], tuple(c[1:]))

    def clause(self, c: Children) -> Clause:
        return Clause(c[0].start_pos, c[-1].end_pos, c[0], tuple(c[1:]))

    def section(self, c: Children) -> Section:
        return Section(c[0].start_pos, c[-1].end_pos, c[0], tuple(c[1:]))

    def allow(self, c: Children) -> nodes.Allow:
        return nodes.Allow(c[0].start_pos, c[-1].end_pos, c[0], c[1], c[3])

    def use(self, c: Children) -> nodes.Use:
        return nodes.Use(c[0].start_pos, c[-1].end_pos, c[0], c[1])

    def rung(self, c: Children) -> nodes.Rung:
        return nodes.Rung(c[0].start_pos, c[-1].end_pos, c[0], c[1], tuple(c[2:]))

    def movement(self, c: Children) -> nodes.Movement:
        return nodes.Movement(c[0].start_pos, _end(c), c[0], c[1], c[2], tuple(c[3:]))

    def program(self, c: Children) -> nodes.Program:
        return nodes.Program(c[0].start_pos, _end(c), c[0], c[1], c[2], tuple(c[3:]))

    def athlete(self, c: Children) -> nodes.Athlete:
        return nodes.Athlete(c[0].start_pos, _end(c), c[0], c[1], c[2], tuple(c[3:]))

    def category(self, c: Children) -> nodes.Category:
        return nodes.Category(c[0].start_pos, _end(c), c[0], c[1], c[2], tuple(c[3:]))

    def easier(self, c: Children) -> nodes.Easier:
        weeks = tuple(child for child in c[1:] if isinstance(child, Token) and child.type == "INT")
        changes = tuple(child for child in c if isinstance(child, nodes.Easing))
        return nodes.Easier(c[0].start_pos, c[-1].end_pos, c[0], weeks, changes)

    def easing(self, c: Children) -> nodes.Easing:
        return nodes.Easing(c[0].start_pos, c[-1].end_pos, c[0], c[2] if len(c) > 3 else None, c[-1])

    def returning(self, c: Children) -> nodes.Returning:
        return nodes.Returning(c[0].start_pos, c[-1].end_pos, c[0], c[2], c[4], tuple(c[6:]))

    def group(self, c: Children) -> nodes.Group:
        return nodes.Group(c[0].start_pos, _end(c), c[0], c[1], c[2], tuple(c[3:]))

    def session(self, c: Children) -> nodes.Session:
        frequency = c[3] if len(c) > 3 and isinstance(c[3], Clause) else None
        return nodes.Session(
            c[0].start_pos, _end(c), c[0], c[1], c[2], frequency, tuple(c[3 if frequency is None else 4 :])
        )

    def block(self, c: Children) -> nodes.Block:
        clauses, lines = _clauses(c, 3)
        return nodes.Block(c[0].start_pos, _end(c), c[0], c[1], c[2], clauses, lines)

    def entry(self, c: Children) -> nodes.Entry:
        return nodes.Entry(c[0].start_pos, c[-1].end_pos, c[0], c[1], c[2], tuple(c[3:]))

    def else_entry(self, c: Children) -> nodes.Else:
        return nodes.Else(c[0].start_pos, c[-1].end_pos, c[0], c[1], c[2], tuple(c[3:]))

    def dose(self, c: Children) -> nodes.Dose:
        word = c[0] if isinstance(c[0], Token) else None
        return nodes.Dose(c[0].start_pos, c[-1].end_pos, word, tuple(c if word is None else c[1:]))

    def work(self, c: Children) -> nodes.Work:
        count = c[0] if c[0].type == "SETS_X" else None
        rest = c if count is None else c[1:]
        return nodes.Work(c[0].start_pos, c[-1].end_pos, count, rest[0], tuple(rest[1:]))

    def advance(self, c: Children) -> nodes.Advance:
        axes = tuple(child for child in c if isinstance(child, nodes.Axis))
        return nodes.Advance(c[0].start_pos, c[-1].end_pos, c[0], axes)

    def advance_none(self, c: Children) -> nodes.AdvanceNone:
        return nodes.AdvanceNone(c[0].start_pos, c[-1].end_pos, c[0], c[-1])

    def axis_name(self, c: Children) -> Token:
        return c[0] if len(c) == 1 else Token.new_borrow_pos("NAME", "total reps", _joined(c))

    def axis(self, c: Children) -> nodes.Axis:
        parts: dict[str, Token] = {}
        restarting: list[Token] = []
        word = ""
        for child in c[1:]:
            if child.type in ("BY", "TO", "AT", "RESTARTING", "AND", "REPS"):
                word = "RESTARTING" if child.type == "AND" else child.type
            elif word == "RESTARTING":
                restarting.append(child)
            else:
                parts[word] = child
        return nodes.Axis(
            c[0].start_pos,
            c[-1].end_pos,
            c[0],
            parts.get("BY"),
            parts.get("TO"),
            parts.get("AT"),
            tuple(restarting),
        )

    def log(self, c: Children) -> nodes.Log:
        return nodes.Log(c[0].start_pos, c[-1].end_pos, c[0], c[1], c[3], c[5] if len(c) > 4 else None)

    def logged_session(self, c: Children) -> nodes.LoggedSession:
        short = c[3] if len(c) > 3 and isinstance(c[2], Token) and c[2].type == "SHORT" else None
        clauses, lines = _clauses(c, 2 if short is None else 4)
        return nodes.LoggedSession(c[0].start_pos, c[-1].end_pos, c[0], c[1], short, clauses, lines)

    def logged_entry(self, c: Children) -> nodes.LoggedEntry:
        return nodes.LoggedEntry(c[0].start_pos, c[-1].end_pos, c[0], tuple(c[1:]))


def _clauses(children: Children, first: int) -> tuple[tuple[Clause, ...], tuple[Any, ...]]:
    """The clauses of a header, and the lines below it."""
    last = first
    while last < len(children) and isinstance(children[last], Clause):
        last += 1
    return tuple(children[first:last]), tuple(children[last:])


def _joined(tokens: list[Token]) -> Token:
    """A token that spans several."""
    first, last = tokens[0], tokens[-1]
    return Token(
        first.type, "", first.start_pos, first.line, first.column, last.end_line, last.end_column, last.end_pos
    )
