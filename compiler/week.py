"""A week of a program: how often its sessions are held, on how many days, and what of a kind they hold together.

Counted are full sessions, as often as each is held, and in them work and conditioning blocks: warm-up and cool-down do
not count, and neither do lighter sets before the work. A set on each side is one set. In a circuit the rounds are the sets.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

import attrs

from .clock import full_sets, session_clock
from .model import Block, BlockKind, Entry, Program, Session

COUNTED: tuple[BlockKind, ...] = ("work", "conditioning")  # these are eased in easier weeks, too
PUSH, PULL, BALANCE = "push", "pull", "balance"


def says_how_often(session: Session) -> bool:
    """Whether a session says how often in a week it is held."""
    return session.per_week is not None or bool(session.days)


def times_a_week(session: Session) -> int:
    """How often a session is held in a week: once where nothing is said."""
    return session.per_week or len(session.days) or 1


def days_a_week(sessions: Iterable[Session]) -> int:
    """On how many days of a week one of the sessions is held: the days said, and one more for each time without a day."""
    held = tuple(sessions)
    said = {day for session in held for day in session.days}
    return min(len(said) + sum(times_a_week(session) for session in held if not session.days), 7)


def of_last_week(program: Program) -> Program:
    """A program with the sessions of its last week alone, where weeks have sessions of their own; else itself."""
    last = max((session.week for session in program.sessions if session.week is not None), default=None)
    if last is None:
        return program
    return attrs.evolve(program, sessions=tuple(one for one in program.sessions if one.week == last))


def strength_sessions(program: Program) -> tuple[Session, ...]:
    """The sessions with a work block."""
    return tuple(one for one in program.sessions if any(block.kind == "work" and block.entries for block in one.blocks))


def sessions_with(program: Program, patterns: Iterable[str]) -> tuple[Session, ...]:
    """The sessions that hold a movement of one of the patterns."""
    wanted = tuple(patterns)
    return tuple(session for session in program.sessions if any(True for _ in _entries(session, wanted)))


def weekly_sets(program: Program, patterns: Iterable[str]) -> int:
    """The sets of a week of all movements that have one of the patterns."""
    wanted = tuple(patterns)
    return sum(
        times_a_week(session) * full_sets(block, entry)
        for session in program.sessions
        for block, entry in _entries(session, wanted)
    )


def weekly_seconds(program: Program, kind: BlockKind) -> Fraction:
    """Seconds a week of all blocks of a kind, from the first set of a block to the end of its last."""
    return sum(
        (
            times_a_week(session) * clock.seconds([full_sets(clock.block, entry) for entry in clock.block.entries])
            for session in program.sessions
            for clock in session_clock(program, session).blocks
            if clock.block.kind == kind
        ),
        Fraction(0),
    )


def _entries(session: Session, patterns: tuple[str, ...]) -> Iterator[tuple[Block, Entry]]:
    for block in session.blocks:
        for entry in block.entries if block.kind in COUNTED else ():
            if any(pattern in patterns for pattern in entry.movement.patterns):
                yield block, entry
