"""What the pages of a review hold: notes to read first, what to look at, the weeks, every movement; and the crew in order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

import attrs

from ...compiler.crew_review import Need, Ranked
from ...compiler.guidelines import MOVING_MINUTES
from ...compiler.model import LoggedSession
from ...compiler.movement_review import MovementReview
from ...compiler.review import Review, WeekReview
from .. import telling
from ..sheet import file_stem
from . import figures
from . import words as say
from .movements import MovementView, movement_view


@attrs.frozen
class Note:
    day: str
    session: str
    text: str


@attrs.frozen
class Look:
    """A movement to look at: where it is on the page, why, and what is proposed."""

    key: str
    title: str
    why: str
    proposals: tuple[str, ...]


@attrs.frozen
class Page:
    """The review of an athlete, for the coach and for the athlete."""

    alarms: tuple[Note, ...]
    named: tuple[Note, ...]
    looks: tuple[Look, ...]
    breaks: tuple[str, ...]
    in_all: tuple[str, ...]
    columns: tuple[str, ...]
    your_columns: int  # how many of them the athlete's page has
    weeks: tuple[tuple[str, ...], ...]
    outside: tuple[str, ...]
    your_outside: tuple[str, ...]
    movements: tuple[MovementView, ...]

    def weeks_up_to(self, columns: int) -> tuple[tuple[str, ...], ...]:
        """The rows of the weeks with the first columns alone."""
        return tuple(row[:columns] for row in self.weeks)


def page(review: Review) -> Page:
    """The page of a review; words and figures, without pictures."""
    program = review.logbook.fitting.program
    sessions = {session.name: session.title for session in program.sessions}
    views = tuple(_movements(review))
    met = [_meets(week) for week in _logged(review)]
    advice = say.advice_told(*MOVING_MINUTES)
    outside = (_outside(review, sum(met)), advice) if any(week.moving for week in review.weeks) else ()
    columns, rows = _week_table(review, bool(outside))
    return Page(
        tuple(_note(session, sessions) for session in review.alarms),
        tuple(_note(session, sessions) for session in review.named),
        tuple(Look(view.key, view.title, view.state, view.proposals) for view in views if view.pressing),
        tuple(_breaks(review, views)),
        tuple(_in_all(review)),
        columns,
        len(columns) - 2,
        rows,
        (*outside, say.GRADED if review.graded else say.UNGRADED) if outside else (),
        (*outside, say.GRADED if review.graded else say.UNGRADED_YOU) if outside else (),
        views,
    )


def _breaks(review: Review, views: Sequence[MovementView]) -> Iterator[str]:
    """Each break, and after the last what has not advanced since."""
    for one in review.breaks:
        yield say.break_told(one.days, telling.day(one.last), telling.day(one.next))
    back = [view.title for view in views if view.returning]
    if back:
        yield say.back_told(back)


def _note(session: LoggedSession, titles: dict[str, str]) -> Note:
    return Note(telling.day(session.date), titles.get(session.session, session.session), session.note)


def _movements(review: Review) -> Iterator[MovementView]:
    """The movements in the order of the program; one that stands in several sessions says in which."""
    fitting = review.logbook.fitting
    often = Counter(one.stands.entry.movement.name for one in review.movements)
    for number, one in enumerate(review.movements, start=1):
        title = _title(one, often[one.stands.entry.movement.name] > 1)
        yield movement_view(one, f"movement-{number}", title, fitting.program.units, fitting.athlete.body)


def _title(one: MovementReview, several: bool) -> str:
    title = one.stands.entry.movement.title
    return f"{title} ({one.stands.session.title})" if several else title


def _in_all(review: Review) -> Iterator[str]:
    weeks = [week.strength for week in _logged(review) if week.over] or [week.strength for week in _logged(review)]
    full, short, planned = (sum(getattr(week, name) for week in weeks) for name in ("full", "short", "planned"))
    if planned:
        yield say.full_and_short(full, short, planned)
    if review.pace is not None:
        yield say.pace_told(round((review.pace - 1) * 100))


# Weeks


def _logged(review: Review) -> tuple[WeekReview, ...]:
    """The weeks up to that of the last session: of later ones no log has come."""
    last = review.logbook.sessions[-1].date
    return tuple(week for week in review.weeks if week.first <= last)


def _week_table(review: Review, outside: bool) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """The columns and the rows of the weeks; the last two columns are for the coach alone."""
    others = any(week.others.planned or week.others.done for week in review.weeks)
    columns = (
        say.WEEK,
        say.BEGAN,
        say.TRAINING,
        say.SHORT,
        *((say.OTHER,) if others else ()),
        say.MINUTES,
        *((say.MOVING,) if outside else ()),
        say.EFFORT,
        say.MONOTONY,
        say.STRAIN,
    )
    logged = _logged(review)
    return columns, (
        *(tuple(_week(week, others, outside)) for week in logged),
        *(
            (str(week.number), telling.day(week.first), say.NO_LOG, *[say.NONE] * (len(columns) - 3))
            for week in review.weeks[len(logged) :]
        ),
    )


def _week(week: WeekReview, others: bool, outside: bool) -> Iterator[str]:
    effort = week.effort
    yield str(week.number) if week.over else f"{week.number}, {say.SO_FAR}"
    yield telling.day(week.first)
    yield say.of(week.strength.done, week.strength.planned)
    yield str(week.strength.short or say.NONE)
    if others:
        yield say.of(week.others.done, week.others.planned)
    yield str(round(week.minutes)) if week.minutes else say.NONE
    if outside:
        yield _moving(week)
    yield figures.figure(effort.load) if effort is not None else say.NONE
    yield f"{effort.monotony:.2f}" if effort is not None and effort.monotony is not None else say.NONE
    yield figures.figure(effort.strain) if effort is not None and effort.strain is not None else say.NONE


def _moving(week: WeekReview) -> str:
    """Minutes of a week against the least advised, and what of them counts where that is another figure."""
    minutes, counts = round(week.moving), round(week.counts)
    told = f"{minutes} ({counts} {say.COUNTING})" if counts != minutes else str(minutes)
    return say.of_advised(told, MOVING_MINUTES[0])


def _meets(week: WeekReview) -> bool:
    return week.over and week.counts >= MOVING_MINUTES[0]


def _outside(review: Review, met: int) -> str:
    minutes = sum((week.moving for week in review.weeks), Fraction(0))
    metres = sum((week.distance for week in review.weeks), Fraction(0))
    pace = f"{figures.clock(minutes * 60 / metres * 1000)} / km" if metres and minutes else ""
    over = sum(week.over for week in _logged(review))
    return say.outside_told(round(minutes), met, over, figures.distance(metres) if metres else "", pace)


# The crew


@attrs.frozen
class CrewRow:
    """An athlete in the order of need: the reasons, and where the pages are."""

    title: str
    program: str
    whys: tuple[str, ...]
    review: str
    progress: str


@attrs.frozen
class CrewPage:
    rows: tuple[CrewRow, ...]
    order: str
    without: tuple[str, ...]


def crew_page(ranked: Sequence[Ranked], without: Sequence[str]) -> CrewPage:
    """The crew in the order in which they need the coach; `without` are the names of those who have no log."""
    newest = telling.day(max(one.review.newest for one in ranked))
    return CrewPage(tuple(_crew_row(one) for one in ranked), say.CREW_ORDER.format(day=newest), tuple(without))


def _crew_row(one: Ranked) -> CrewRow:
    program = one.review.logbook.fitting.program
    assert program.athlete is not None
    stem = f"{program.athlete.name}/{file_stem(program)}"
    whys = tuple(need_told(need) for need in one.needs)
    return CrewRow(program.athlete.title, program.title, whys, f"{stem}-review.html", f"{stem}-progress.html")


def need_told(need: Need) -> str:
    """Why somebody needs the coach, in a sentence."""
    day = telling.day(need.day) if need.day is not None else ""
    match need.kind:
        case "alarm":
            return say.need_alarm(need.number, day)
        case "silent":
            return say.need_silent(need.number, day)
        case "returning":
            return say.need_returning(need.number, day)
        case "missed":
            return say.need_missed(need.number, need.of)
        case "stall":
            return say.need_stall(list(need.titles))
        case "over-time":
            return say.need_over_time(need.number)
        case "ended":
            return say.need_ended(list(need.titles))
