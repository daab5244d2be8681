"""What a week of a program holds, as rows for the coach: a title and a figure in words."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from ..compiler.week_coverage import CategoryInWeek, Coverage
from . import words


def week_rows(coverage: Coverage) -> tuple[tuple[str, str], ...]:
    """The rows of the table, minutes rounded up; the titles of categories are the coach's own."""
    return (
        (words.IN_ALL, words.weekly_sessions(coverage.sessions, _minutes(coverage.seconds))),
        (words.STRENGTH_WORK, words.strength_work(coverage.strength_days, _minutes(coverage.strength_seconds))),
        (words.CONDITIONING_WORK, words.minutes(_minutes(coverage.conditioning_seconds))),
        (words.BALANCE_WORK, words.on_days(coverage.balance_days)),
        (words.PUSHING, words.sets(coverage.push_sets)),
        (words.PULLING, words.sets(coverage.pull_sets)),
        *(_category(one) for one in coverage.categories),
    )


def _category(one: CategoryInWeek) -> tuple[str, str]:
    return one.category.title, words.sets_in_sessions(one.sets, one.sessions)


def _minutes(seconds: Fraction) -> int:
    return ceil(seconds / 60)
