"""Whole small sources around the few lines that an example is about. All are set at the Tern Holm field station."""

from __future__ import annotations

from textwrap import dedent, indent

SESSION = """
session main
  block legs
    must chair-stand 3 x 10
      advance reps by 1 to 15
"""


def whole(text: str) -> str:
    """A source as it stands."""
    return dedent(text).strip() + "\n"


def with_basics(text: str) -> str:
    """A source that uses the shipped library."""
    return "use basics\n\n" + whole(text)


def in_program(text: str, session: str = SESSION) -> str:
    """A program of these lines, then a sound session."""
    return "use basics\n\nprogram store-room\n" + indent(whole(text) + (whole(session) if session else ""), "  ")


def in_session(text: str) -> str:
    """A program of one session that holds these lines."""
    return in_program("", "session main\n" + indent(whole(text), "  ")).replace("\n  \n", "\n")


def in_block(text: str) -> str:
    """A program of one session of one block that holds these lines."""
    return in_session("block legs\n" + indent(whole(text), "  "))


def in_movement(text: str) -> str:
    """A movement of these lines that is otherwise complete."""
    rest = """
    cue "Close to the body"
    caution "Ask for help with a wet crate."
    how
      | Squat down beside the crate, take its handles, and stand up tall.
    """
    return "movement crate-lift\n" + indent(whole(text) + whole(rest), "  ")


def in_athlete(text: str) -> str:
    """An athlete of these lines, with the shipped library at hand."""
    return with_basics("athlete maren\n" + indent(whole(text), "  "))


def in_log(text: str, athlete: str = "starts 2026-06-15") -> str:
    """A log of these sessions, with the athlete and the program that it is about."""
    head = f"""
    athlete maren
      {athlete}

    log maren on store-room

    """
    return in_program("") + "\n" + dedent(head).lstrip("\n") + whole(text)
