"""What a week of a program holds, in figures: sets of each category, pushing and pulling, days, minutes, balance work.

How it is counted is said in `week.py`.
"""

from __future__ import annotations

from fractions import Fraction

import attrs

from .clock import session_time
from .model import Category, Program, Value
from .week import (
    BALANCE,
    PULL,
    PUSH,
    days_a_week,
    of_last_week,
    says_how_often,
    sessions_with,
    strength_sessions,
    times_a_week,
    weekly_seconds,
    weekly_sets,
)


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
    """A week of a program, all of its sessions in full; on the way back to another the last."""
    program = of_last_week(program)
    sessions = program.sessions
    return Coverage(
        categories=tuple(_in_week(program, category) for category in program.categories),
        push_sets=weekly_sets(program, (PUSH,)),
        pull_sets=weekly_sets(program, (PULL,)),
        sessions=sum(map(times_a_week, sessions)),
        strength_sessions=sum(map(times_a_week, strength_sessions(program))),
        strength_days=days_a_week(strength_sessions(program)),
        balance_days=days_a_week(sessions_with(program, (BALANCE,))),
        seconds=sum((times_a_week(one) * session_time(program, one) for one in sessions), Fraction(0)),
        strength_seconds=weekly_seconds(program, "work"),
        conditioning_seconds=weekly_seconds(program, "conditioning"),
        told=all(map(says_how_often, sessions)),
    )


def _in_week(program: Program, category: Category) -> CategoryInWeek:
    held = sessions_with(program, category.counts)
    return CategoryInWeek(category, weekly_sets(program, category.counts), sum(map(times_a_week, held)))
