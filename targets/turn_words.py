"""Words for what a logged session leads to. They join the catalogue of `words.py`."""
# ruff: noqa: D103  a phrase that is a function says itself what it is

from __future__ import annotations

from typing import Final

from ..compiler.judging import Short
from ..compiler.progression import Reason
from . import words

FIRST_TIME: Final = "The first time: this is where you begin."
HELD: Final = "So it stays as it is until it goes well."
STAYS: Final = "It stays as it is."
EASIER: Final = "That was in an easier week, which counts for nothing."
GOOD: Final = "Every set reached its target"


def next_session(athlete: str, program: str, revision: int, session: str) -> str:
    return f"{session} for {athlete} ({program}, revision {revision}): what comes next"


def last_logged(sessions: int, day: str) -> str:
    if not sessions:
        return "Nothing is logged yet: this is where to begin."
    return f"{words.counted(sessions, 'session', 'sessions')} logged, the last on {day}."


def done(day: str, what: str) -> str:
    return f"On {day}: {what}." if what else f"On {day} it was done."


def moved(axis: str, now: str, passed: list[str], back: list[str]) -> str:
    """`Every set reached its target, so it moves on: load 12 kg; repetitions as at the beginning.`"""
    why = f" ({'; '.join(passed)})" if passed else ""
    told = f"{GOOD}{why}, so it moves on: {_come_to(axis, now) if now else f'{axis} goes up'}"
    return f"{told}; {words.joined(back)} as at the beginning." if back else f"{told}."


def counting(more: int) -> str:
    return f"{GOOD}. {words.counted(more, 'good session', 'good sessions')} more, and it moves on."


def waiting(at: int) -> str:
    return f"Well done. When every set reaches {at} repetitions, the next form comes."


def exhausted(why: list[str]) -> str:
    told = f" ({'; '.join(why)})" if why else ""
    return f"{GOOD}, and nothing is left that could move on{told}. It stays as it is: ask the coach what comes next."


def eased(axis: str, now: str) -> str:
    return f"That was once too often, so it goes back a step: {_come_to(axis, now)}."


def _come_to(axis: str, now: str) -> str:
    """`load 12 kg`, `13 repetitions`, `the red band`."""
    return now if now.endswith(axis) else f"{axis} {now}".strip()


def blocked(axis: str, reason: Reason, figure: str) -> str:
    match reason:
        case "bound":
            return f"{axis} at the end"
        case "jump":
            return (
                f"the step to {figure} would be too large" if figure else f"the next {axis} would be too large a step"
            )
        case "no-heavier":
            return "nothing heavier can be made"
        case "top":
            return "the hardest form is reached"
        case "repetitions":
            return f"{axis} waits for more repetitions"


def fell_short(kind: Short, asked: str, done: str) -> str:
    match kind:
        case "load":
            return f"Asked for were {asked}, lifted {done}."
        case "band":
            return f"Asked for was {words.take_band(asked, two=False)}, done with {words.take_band(done, two=False)}."
        case "rung":
            return f"Asked for was {words.quoted(asked)}, done {words.quoted(done)}."
        case "sets":
            return f"Of {words.sets(int(asked))} it was {done}."
        case "best":
            return f"The best so far is {asked} in all; this was {done}."
        case "rest":
            return f"The rest was {done}, not {asked}."
        case "result":
            return f"A set of {done} fell short of {asked}."
    return f"Asked for were {asked}, done {done}."
