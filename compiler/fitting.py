"""Fitting: a program as it is for one athlete, with a reason for every choice.

For each entry the movement or its first `else` that the athlete can do and equip is chosen, then the rung, the load and
how that load is made. The fitted program is a program again: clock, trimming, horizon and every target work on it unchanged.
Loads that are shares of the training maximum stay shares, so that their rules go on exactly; what is lifted for each stands
in the `fitted` of the entry.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import attrs

from ..grammar.source import Span
from .model import Athlete, Block, Entry, Movement, Program, Session, Value
from .quantity import Quantity

# Why a movement cannot be done, then where each figure comes from.
Kind = Literal[
    "avoided", "needs-missing", "no-implement", "no-rung", "condition-unmet",
    "chosen", "rung-begun", "rung-first", "rung-lower", "rungs-left-out",
    "load-begun", "load-written", "load-share", "load-lightest", "load-capped", "load-rounded", "load-unknown",
    "reps-begun", "amount-begun", "days",
]  # fmt: skip


@attrs.frozen(eq=False, repr=False, match_args=False)
class Reason(Value):
    """Why something is as it is on the sheet: facts, to be told in words by whoever prints them.

    `figure` is what came of it, `before` what it was, `names` the things, rungs or loads that it is about, `text` the
    coach's own words. `spans` are the lines of the source that caused it, the nearest first.
    """

    kind: Kind
    movement: Movement | None = None
    figure: Quantity | int | str | None = None
    before: Quantity | int | str | None = None
    names: tuple[str, ...] = ()
    text: str = ""
    spans: tuple[Span, ...] = attrs.field(default=(), eq=False)


@attrs.frozen(eq=False, repr=False, match_args=False)
class Choice(Value):
    """What became of an entry: `written` as the program has it, `chosen` as the athlete gets it; None where nothing suits."""

    session: Session
    block: Block
    written: Entry
    chosen: Entry | None
    reasons: tuple[Reason, ...]


@attrs.frozen(eq=False, repr=False, match_args=False)
class Fitting(Value):
    """A program fitted to an athlete: `program` holds only what the athlete does, and has its `athlete`."""

    written: Program
    athlete: Athlete
    program: Program
    choices: tuple[Choice, ...]


def fit(program: Program, athlete: Athlete) -> Fitting:
    """The program as it is for the athlete, and why."""
    raise NotImplementedError


def serving(athlete: Athlete, patterns: Sequence[str], movements: Sequence[Movement]) -> tuple[Movement, ...]:
    """Of the movements those with one of the patterns that the athlete can do and equip, in their order."""
    raise NotImplementedError
