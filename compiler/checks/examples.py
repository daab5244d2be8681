"""Whole small sources around the few lines that an example is about. All are set at the Tern Holm field station.

They are put together only when somebody looks at them, so that no start waits for them.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from textwrap import dedent, indent

from ...grammar.diagnostic import Example

_SESSION = """
session main
  block legs
    must chair-stand 3 x 10
      advance reps by 1 to 15
"""
_WEEK = """
session main, 3 a week
  block legs
    must chair-stand 4 x 15
      advance reps by 1 to 20
    must plank 4 x 45 s
      advance hold by 5 s to 60 s
"""
_MOVEMENT = """
cue "Close to the body"
caution "Ask for help with a wet crate."
how
  | Squat down beside the crate, take its handles, and stand up tall.
"""


def files(example: Example) -> dict[str, str | bytes]:
    """The sources of an example by their names."""
    made = example() if callable(example) else example
    return {"program.coach": made} if isinstance(made, str) else made


def whole(text: str) -> Callable[[], str]:
    """A source as it stands."""
    return partial(_clean, text)


def with_basics(text: str) -> Callable[[], str]:
    """A source that uses the shipped library."""
    return lambda: "use basics\n\n" + _clean(text)


def in_program(text: str, session: str = _SESSION) -> Callable[[], str]:
    """A program of these lines, then a sound session."""
    return partial(_program, text, session)


def in_weeks(text: str, session: str = _WEEK) -> Callable[[], str]:
    """A program of these lines that runs some weeks, then a session that fills them."""
    return lambda: _program("runs 12 weeks\n" + _clean(text), session)


def in_session(text: str) -> Callable[[], str]:
    """A program of one session that holds these lines."""
    return partial(_session, text)


def in_block(text: str) -> Callable[[], str]:
    """A program of one session of one block that holds these lines."""
    return lambda: _session("block legs\n" + indent(_clean(text), "  "))


def in_movement(text: str) -> Callable[[], str]:
    """A movement of these lines that is otherwise complete."""
    return lambda: "movement crate-lift\n" + indent(_clean(text) + _clean(_MOVEMENT), "  ")


def in_athlete(text: str) -> Callable[[], str]:
    """An athlete of these lines, with the shipped library at hand."""
    return lambda: "use basics\n\nathlete maren\n" + indent(_clean(text), "  ")


def in_log(text: str, program: str = "") -> Callable[[], str]:
    """A log of these sessions, with the athlete and the program that it is about."""
    head = "\nathlete maren\n  starts 2026-06-15\n  has chair\n\nlog maren on store-room\n\n"
    return lambda: _program(program, _SESSION) + head + _clean(text)


def _clean(text: str) -> str:
    return dedent(text).strip() + "\n" if text.strip() else ""


def _program(text: str, session: str) -> str:
    return "use basics\n\nprogram store-room\n" + indent(_clean(text) + _clean(session), "  ")


def _session(text: str) -> str:
    return _program("", "session main\n" + indent(_clean(text), "  "))
