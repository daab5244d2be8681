"""Why something is as it is on an athlete's sheet: facts, each with the lines of the source that caused it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

import attrs

from ..grammar.source import Span
from .model import Athlete, Implement, Movement, Value
from .quantity import Quantity

# Why a movement is not done, then where each figure of one that is done comes from.
Kind = Literal[
    "avoided", "needs-missing", "no-implement", "no-rung", "condition-unmet", "in-session", "too-heavy",
    "rung-begun", "rung-first", "rung-lower", "rungs-left-out",
    "load-begun", "load-written", "load-share", "load-lightest", "load-capped", "load-rounded", "load-unknown",
    "ramp-left-out", "band-begun", "band-first", "reps-begun", "amount-begun",
    "rung-logged", "load-logged", "band-logged", "dose-logged",
]  # fmt: skip


@attrs.frozen(eq=False, repr=False, match_args=False)
class Reason(Value):
    """One reason.

    | kind | figure | before | names | text |
    |---|---|---|---|---|
    | `avoided` | | | the movement or pattern that is avoided | why, in the coach's words |
    | `needs-missing`, `condition-unmet` | | | the things that are not there | |
    | `no-implement` | | | the kinds of implements that it is loaded by | |
    | `no-rung` | | | the things that its rungs need | |
    | `in-session` | | | | |
    | `too-heavy` | the lightest load that can be made | the load that is asked for | | |
    | `rung-begun`, `rung-first` | the rung | | | |
    | `rung-lower` | the rung | the rung that the athlete begins on, which cannot be done | | |
    | `rungs-left-out` | | | the rungs that cannot be done | |
    | `load-begun`, `load-written`, `load-lightest` | the load | | | |
    | `load-share` | the load | the training maximum | the share as it is written | |
    | `load-capped` | the load | the load that it would be | | |
    | `load-rounded` | the load that can be made | the load that it would be | | |
    | `load-unknown` | | the share that is written, where one is | | |
    | `ramp-left-out` | | the share of the lighter set | | |
    | `band-begun`, `band-first` | the band | | | |
    | `reps-begun`, `amount-begun` | the figure | | | |
    | `rung-logged`, `load-logged`, `band-logged`, `dose-logged` | | | | |

    `spans` are the lines of the program, or of a log, that caused it, the nearest first. Those of the athlete are found for
    each anew (`lines`): athletes who begin alike have the same reasons. `implement` is the one that a load is made with.
    """

    kind: Kind
    movement: Movement
    figure: Quantity | int | str | None = None
    before: Quantity | int | str | None = None
    names: tuple[str, ...] = ()
    text: str = ""
    spans: tuple[Span, ...] = attrs.field(default=(), eq=False)
    implement: Implement | None = attrs.field(default=None, eq=False)


# Reasons that stand in a line of the athlete which the model keeps no place of.
_LINES: dict[Kind, str] = {
    "needs-missing": r"\bhas\b",
    "no-implement": r"\bhas\b",
    "no-rung": r"\bhas\b",
    "condition-unmet": r"\bhas\b",
    "rungs-left-out": r"\bhas\b",
    "load-share": r"\bmax +{movement} +[\d.]+ *[a-z]+",
    "load-capped": r"\balone +at +most +[\d.]+ *%",
}


# Reasons that stand in the line in which an athlete begins the movement.
_BEGUN: frozenset[Kind] = frozenset(
    ("rung-begun", "rung-lower", "load-begun", "band-begun", "reps-begun", "amount-begun")
)


def lines(reason: Reason, athlete: Athlete) -> tuple[Span, ...]:
    """The places of the source that caused it, each as narrow as can be told."""
    return (*_of_athlete(reason, athlete), *reason.spans)


def _of_athlete(reason: Reason, athlete: Athlete) -> Iterator[Span]:
    if reason.kind in _LINES:
        from .checks.places import part  # it looks through the text: nothing that a build needs

        yield part(athlete.span, _LINES[reason.kind].format(movement=reason.movement.name))
    if reason.kind in _BEGUN or (reason.kind == "no-rung" and reason.before is not None):
        yield from [start.span for start in athlete.begins if start.movement == reason.movement.name][:1]
    if reason.kind == "avoided":
        yield from [one.span for one in athlete.avoids if one.movement in reason.names][:1]
    if reason.implement is not None:
        yield own_place(reason.implement, athlete)


def own_place(implement: Implement, athlete: Athlete) -> Span:
    """Where an athlete has an implement: athletes who have equal ones share what is made of them."""
    return next(one.span for one in athlete.implements if one == implement)
