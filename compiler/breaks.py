"""Breaks: weeks in which nothing was logged."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from itertools import pairwise

import attrs

from .model import LoggedSession, Value

LAYOFF = 14  # days without a session that are told as a break. Common practice, no source


@attrs.frozen(eq=False, repr=False, match_args=False)
class Break(Value):
    """Days without a session: the last day before and the first one after."""

    last: date
    next: date

    @property
    def days(self) -> int:
        """The days between the two sessions."""
        return (self.next - self.last).days - 1


def breaks_in(sessions: Sequence[LoggedSession]) -> Iterator[Break]:
    """The breaks between sessions in the order of their dates."""
    for before, after in pairwise(sessions):
        pause = Break(before.date, after.date)
        if pause.days >= LAYOFF:
            yield pause
