"""Who of a crew needs the coach first, and why.

Days are counted to the newest that anybody of the crew logged, never to today: a log that comes by a slow mail is no silence.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from fractions import Fraction
from typing import Literal

import attrs

from .model import Value
from .movement_review import RETURNING
from .review import Review

SILENT = 10  # days without a session, from which on a coach asks. Common practice, no source
LATEST = 4  # weeks up to the last session, and after a break, in which missed sessions are counted. Common practice, no source
MISSED = 4  # of that many planned sessions one missed is told. Common practice, no source
OVER_TIME = Fraction(11, 10)  # times the planned minutes. Common practice, no source

NeedKind = Literal["alarm", "silent", "returning", "missed", "stall", "over-time", "ended"]
ORDER: tuple[NeedKind, ...] = ("alarm", "silent", "returning", "missed", "stall", "over-time", "ended")


@attrs.frozen(eq=False, repr=False, match_args=False)
class Need(Value):
    """A reason why an athlete needs the coach.

    `number` are notes, days without a session (of `returning` those of the break), sessions missed of `of`, or movements; of
    `over-time` the share above the plan in per cent. `day` is that of the newest note, of the last session, or of the first
    after a break. `titles` are movements.
    """

    kind: NeedKind
    number: int
    of: int = 0
    day: date | None = None
    titles: tuple[str, ...] = ()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Ranked(Value):
    """An athlete's review with all reasons, the most pressing first; none where nothing presses."""

    review: Review
    needs: tuple[Need, ...]


def ranked(reviews: Iterable[Review]) -> tuple[Ranked, ...]:
    """Who needs the coach first: by the most pressing reason, then by how much of it, then by how many there are."""
    told = [Ranked(one, tuple(needs(one))) for one in reviews]
    return tuple(sorted(told, key=_pressing))


def _pressing(one: Ranked) -> tuple[int, int, int, int]:
    if not one.needs:
        return len(ORDER), 0, 0, 0
    first = one.needs[0]
    newest = -first.day.toordinal() if first.kind == "alarm" and first.day is not None else 0
    return ORDER.index(first.kind), newest, -first.number, -len(one.needs)


def needs(review: Review) -> Iterator[Need]:
    """Why an athlete needs the coach, in the order of `ORDER`."""
    if review.alarms:
        yield Need("alarm", len(review.alarms), day=review.alarms[-1].date)
    last = review.logbook.sessions[-1].date if review.logbook.sessions else None
    silent = (review.newest - last).days if last is not None else 0
    if silent >= SILENT:
        yield Need("silent", silent, day=last)
    back = review.breaks[-1] if review.breaks else None
    if back is not None and (review.newest - back.next).days <= RETURNING:
        yield Need("returning", back.days, day=back.next)
    logged = [week for week in review.weeks if week.over and last is not None and week.first <= last]
    weeks = [week for week in logged if back is None or week.first > back.next][-LATEST:]
    planned = sum(week.strength.planned for week in weeks)
    missed = sum(max(week.strength.planned - week.strength.done, 0) for week in weeks)
    if planned and missed * MISSED >= planned:
        yield Need("missed", missed, of=planned)
    stalls, ended = (_titles(review, kind) for kind in ("stall", "ended"))
    if stalls:
        yield Need("stall", len(stalls), titles=stalls)
    if review.pace is not None and review.pace >= OVER_TIME:
        yield Need("over-time", round((review.pace - 1) * 100))
    if ended:
        yield Need("ended", len(ended), titles=ended)


def _titles(review: Review, progress: str) -> tuple[str, ...]:
    return tuple(one.stands.entry.movement.title for one in review.movements if one.progress == progress)
