"""What a week of a program holds: sets of each category, pushing and pulling, days, minutes, balance work.

Counted are full sessions, as often as each is held, and in them work and conditioning blocks: warm-up and cool-down do
not count, and neither do lighter sets before the work. A set on each side is one set. In a circuit the rounds are the sets.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

import attrs

from .clock import full_sets, timetable
from .model import Block, BlockKind, Category, Entry, Program, Session, Value

COUNTED: tuple[BlockKind, ...] = ("work", "conditioning")
PUSH, PULL, BALANCE = "push", "pull", "balance"


@attrs.frozen(eq=False, repr=False, match_args=False)
class CategoryInWeek(Value):
    """A category, its sets in a week, and how many sessions of the week hold a movement of it."""

    category: Category
    sets: int
    sessions: int


@attrs.frozen(eq=False, repr=False, match_args=False)
class Coverage(Value):
    """A week of a program in figures; times in seconds, from the planned clock.

    The blocks do not add up to the whole: the changes between them, warm-up and cool-down belong to neither kind of work.
    """

    categories: tuple[CategoryInWeek, ...]
    push_sets: int
    pull_sets: int
    sessions: int
    strength_sessions: int  # those with a work block
    strength_days: int
    balance_days: int
    seconds: Fraction
    strength_seconds: Fraction  # of work blocks, their rests included
    conditioning_seconds: Fraction
    told: bool  # whether every session says how often it is held; one that does not counts once


def week_coverage(program: Program) -> Coverage:
    """A week of a program, all of its sessions in full."""
    sessions = program.sessions
    return Coverage(
        categories=tuple(_in_week(program, category) for category in program.categories),
        push_sets=weekly_sets(program, (PUSH,)),
        pull_sets=weekly_sets(program, (PULL,)),
        sessions=sum(map(times_a_week, sessions)),
        strength_sessions=sum(map(times_a_week, strength_sessions(program))),
        strength_days=days_a_week(strength_sessions(program)),
        balance_days=days_a_week(sessions_with(program, (BALANCE,))),
        seconds=sum((times_a_week(one) * timetable(program, one).seconds for one in sessions), Fraction(0)),
        strength_seconds=weekly_seconds(program, "work"),
        conditioning_seconds=weekly_seconds(program, "conditioning"),
        told=all(map(says_how_often, sessions)),
    )


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
            times_a_week(session) * timed.seconds
            for session in program.sessions
            for timed in timetable(program, session).blocks
            if timed.block.kind == kind
        ),
        Fraction(0),
    )


def _in_week(program: Program, category: Category) -> CategoryInWeek:
    held = sessions_with(program, category.counts)
    return CategoryInWeek(category, weekly_sets(program, category.counts), sum(map(times_a_week, held)))


def _entries(session: Session, patterns: tuple[str, ...]) -> Iterator[tuple[Block, Entry]]:
    for block in session.blocks:
        for entry in block.entries if block.kind in COUNTED else ():
            if any(pattern in patterns for pattern in entry.movement.patterns):
                yield block, entry
