"""What the review tells of a movement: sentences, a picture, and a table of figures."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

import attrs

from ...compiler.breaks import LAYOFF
from ...compiler.movement_review import TRENDING, Done, MovementReview, Proposal
from ...compiler.quantity import Quantity
from .. import telling, words
from ..turns_told import blocked_told, shortfall_told
from . import figures
from . import words as say
from .charts import Drawing

SINGLE = 12  # of the latest sessions, that have a row of their own
ALL_SINGLE = 30  # sessions, up to which each has one
OLDER_ROWS = 12  # for all older ones
LEAST_GROUP = 6  # sessions of such a row


@attrs.frozen
class Table:
    """Columns by name, and rows of as many cells; the first cell of a row is its day, and `mark` says first, best or last."""

    columns: tuple[str, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]
    grouped: bool


@attrs.frozen
class MovementView:
    """A movement on the page. `told` are sentences for the coach, `yours` those for the athlete."""

    key: str
    title: str
    told: tuple[str, ...]
    yours: tuple[str, ...]
    state: str  # progress in a sentence, for the coach
    proposals: tuple[str, ...]
    pressing: bool
    returning: bool
    drawing: Drawing
    chart_title: str
    chart_told: str
    table: Table


def movement_view(one: MovementReview, key: str, title: str, unit: str, body: Quantity | None) -> MovementView:
    """A movement as it is told on the page; loads in the program's unit."""
    state, short = _state(one), _last_shortfall(one)
    about = [*_effective(one, unit, body), *_maximum(one, unit)]
    return MovementView(
        key,
        title,
        (state, *short, _trend(one, unit), *about),
        (_state_for_athlete(one), _trend_for_athlete(one, unit), *_effective(one, unit, body)),
        " ".join((state, *short)),
        tuple(_proposal(proposal, unit) for proposal in one.proposals),
        one.progress in ("stall", "ended"),
        one.progress == "returning",
        _drawing(one, unit),
        say.chart_title(title, one.measure),
        _described(one, unit),
        _table(one, unit),
    )


# Sentences


def _state(one: MovementReview) -> str:
    match one.progress:
        case "stall":
            return say.stopped(one.since)
        case "ended":
            return say.at_end(_blocked(one))
        case "returning":
            return say.coming_back(one.since)
        case "progress":
            return say.goes_on(one.since)
        case "begun":
            return say.JUST_BEGUN
        case "stays":
            return say.STAYS_AS_IT_IS


def _state_for_athlete(one: MovementReview) -> str:
    return {
        "stall": say.YOUR_STALL,
        "ended": say.YOUR_END,
        "returning": say.YOUR_RETURN,
        "progress": say.YOUR_PROGRESS,
        "begun": say.YOUR_BEGINNING,
        "stays": say.YOUR_SAME,
    }[one.progress]


def _blocked(one: MovementReview) -> list[str]:
    """Why each axis of a rule at its end cannot move."""
    course = one.stands.course
    turn = next((step.turn for step in reversed(one.stands.steps) if step.turn is not None), None)
    if turn is None or course is None:
        return []
    return list(dict.fromkeys(blocked_told(why, one.stands, course) for why in turn.blocked))


def _last_shortfall(one: MovementReview) -> Iterator[str]:
    """What fell short last, of a movement that does not go on."""
    short = next((step for step in reversed(one.stands.steps) if step.short is not None and not step.easier), None)
    if one.progress not in ("stall", "returning") or short is None or short.short is None:
        return
    told = shortfall_told(short.short, one.stands.entry.movement)
    yield say.fell_short(telling.day(short.session.date), told)


def _proposal(proposal: Proposal, unit: str) -> str:
    if proposal.load is not None:
        return say.propose_load(figures.load(proposal.load, unit))
    if proposal.rung is not None:
        text = proposal.rung.text
        return say.propose_easier(text) if proposal.kind == "easier-rung" else say.propose_harder(text)
    return say.propose_axis(proposal.axis) if proposal.axis else say.PROPOSE_TALK


def _trend_figures(one: MovementReview, unit: str) -> tuple[float, float, float, int]:
    """Slope and interval in the unit told, and +1 for more, -1 for less, 0 for neither."""
    assert one.trend is not None
    scale = float(figures.measured_in(one.measure, Fraction(1), unit))
    slope, low, high = (value * scale for value in (one.trend.slope, one.trend.low, one.trend.high))
    return slope, low, high, 1 if low > 0 else -1 if high < 0 else 0


def _trend(one: MovementReview, unit: str) -> str:
    if one.trend is None:
        return say.TOO_FEW
    slope, low, high, sign = _trend_figures(one, unit)
    near, far = sorted((abs(low), abs(high)))
    in_unit = figures.measure_unit(one.measure, unit)
    if sign:
        about = say.with_unit(figures.figure(abs(slope)), in_unit)
        told = say.trend_clear(one.measure, about, figures.figure(near), figures.figure(far), more=sign > 0)
    elif low == high:
        told = say.trend_level(one.measure)
    else:
        less, more = (say.with_unit(figures.figure(abs(end)), in_unit) if end else "" for end in (low, high))
        told = say.trend_unclear(one.measure, less, more)
    return say.trend_told(told, TRENDING if len(one.done) > TRENDING else 0)


def _trend_for_athlete(one: MovementReview, unit: str) -> str:
    if one.trend is None:
        return say.TOO_FEW
    slope, _, _, sign = _trend_figures(one, unit)
    return say.trend_you(one.measure, figures.figure(abs(slope)), figures.measure_unit(one.measure, unit), sign)


def _effective(one: MovementReview, unit: str, body: Quantity | None) -> Iterator[str]:
    """For the rung done last: the part of the body's mass that it moves, with where that was read."""
    last = one.done[-1]
    if last.rung is None or last.rung.moves is None or last.moved is None or body is None:
        return
    told = figures.rounded_load(last.moved, unit), figures.rounded_load(body.base, unit)
    yield say.effective_told(last.rung.text, str(last.rung.moves), *told, last.rung.source or say.NO_SOURCE)


def _maximum(one: MovementReview, unit: str) -> Iterator[str]:
    told = [done for done in one.done if done.estimate is not None]
    if not told:
        return
    best = max(told, key=lambda done: done.estimate.epley if done.estimate is not None else 0)
    assert best.estimate is not None
    epley, brzycki = (figures.rounded_load(load, unit) for load in (best.estimate.epley, best.estimate.brzycki))
    yield say.maximum_told(epley, brzycki, telling.day(best.day))


def _best_place(one: MovementReview) -> int:
    return next(place for place, done in enumerate(one.done) if done is one.best)


# The picture


def _told(one: MovementReview, done: Done, unit: str) -> str:
    value = done.figure(one.measure)
    if value is None:
        return say.NONE
    told = figures.figure(figures.measured_in(one.measure, value, unit))
    return say.with_unit(told, figures.measure_unit(one.measure, unit))


def _drawing(one: MovementReview, unit: str) -> Drawing:
    values = [done.figure(one.measure) for done in one.done]
    shown = tuple(None if value is None else float(figures.measured_in(one.measure, value, unit)) for value in values)
    breaks = tuple(
        place for place in range(1, len(one.done)) if (one.done[place].day - one.done[place - 1].day).days > LAYOFF
    )
    return Drawing(
        shown,
        _best_place(one),
        breaks,
        _trend_line(one, unit, shown),
        say.SESSION_AXIS,
        say.unit_title(one.measure, figures.measure_unit(one.measure, unit)),
    )


def _trend_line(one: MovementReview, unit: str, shown: Sequence[float | None]) -> tuple[int, float, float] | None:
    if one.trend is None:
        return None
    first = max(len(shown) - TRENDING, 0)
    scale = float(figures.measured_in(one.measure, Fraction(1), unit))
    start, slope = one.trend.intercept * scale, one.trend.slope * scale
    return first, round(start, 3), round(start + slope * (len(shown) - first - 1), 3)


def _described(one: MovementReview, unit: str) -> str:
    first, best, last = (_told(one, done, unit) for done in (one.done[0], one.best, one.done[-1]))
    return say.chart_told(len(one.done), first, best, telling.day(one.best.day), last)


# The table

Cell = Callable[[Done], str]
Number = Callable[[Done], Fraction | None]


def _table(one: MovementReview, unit: str) -> Table:
    """Each of the latest sessions, first and best in a row of their own; older ones some to a row, with the middle figure."""
    done, last = one.done, len(one.done) - 1
    marks: dict[int, list[str]] = {}
    for place, mark in ((0, say.FIRST), (_best_place(one), say.BEST), (last, say.LAST)):
        marks.setdefault(place, []).append(mark)
    single = set(marks) | set(range(0 if len(done) <= ALL_SINGLE else len(done) - SINGLE, len(done)))
    group = max(LEAST_GROUP, -(-(len(done) - len(single)) // OLDER_ROWS))
    columns = [column for column in _columns(one, unit) if any(column[2](row) is not None for row in done)]
    rows: list[tuple[str, tuple[str, ...]]] = []
    waiting: list[Done] = []
    for place, row in enumerate(done):
        if waiting and (place in single or len(waiting) == group):
            rows.append(_grouped(waiting, columns))
            waiting = []
        if place in single:
            cells = tuple(_cell(told, number(row)) for _, told, number in columns)
            rows.append(
                (say.marked(marks.get(place, [])), (telling.day(row.day), _with(row, unit), _sets(row), *cells))
            )
        else:
            waiting.append(row)
    titles = (say.DATE, say.STATE, say.SETS, *(title for title, _, _ in columns))
    return Table(titles, tuple(rows), len(single) < len(done))


Column = tuple[str, Callable[[Fraction], str], Number]


def _columns(one: MovementReview, unit: str) -> Iterator[Column]:
    def of_load(value: Fraction) -> str:
        return say.with_unit(figures.figure(figures.measured_in("volume", value, unit)), unit)

    yield say.REPETITIONS, figures.figure, lambda row: Fraction(row.repetitions) if row.repetitions else None
    yield say.VOLUME, of_load, lambda row: row.volume
    yield say.CARRIED, lambda value: f"{of_load(value)}·m", lambda row: row.carried
    yield say.TENSION, lambda value: f"{figures.figure(value)} s", lambda row: row.tension or None
    yield say.MOVED, lambda value: figures.rounded_load(value, unit), lambda row: row.moved
    yield say.DISTANCE, figures.distance, lambda row: row.distance
    if one.stands.entry.dose.logs:
        yield say.TIME, figures.clock, lambda row: row.time
        yield say.PACE, lambda value: f"{figures.clock(value)} / km", lambda row: row.pace
    yield say.MAXIMUM, lambda value: figures.rounded_load(value, unit), _epley


def _epley(row: Done) -> Fraction | None:
    return row.estimate.epley if row.estimate is not None else None


def _cell(told: Callable[[Fraction], str], value: Fraction | None) -> str:
    return say.NONE if value is None else told(value)


def _grouped(rows: Sequence[Done], columns: Sequence[Column]) -> tuple[str, tuple[str, ...]]:
    middles = []
    for _, told, number in columns:
        values = [value for row in rows if (value := number(row)) is not None]
        middles.append(_cell(told, _middle(values) if values else None))
    days = say.from_to(telling.day(rows[0].day), telling.day(rows[-1].day))
    return "", (days, say.sessions_from_to(len(rows)), "", *middles)


def _middle(values: Sequence[Fraction]) -> Fraction:
    """The median; ordered by floats, as fractions compare slowly."""
    ordered, half = sorted(values, key=float), len(values) // 2
    return ordered[half] if len(values) % 2 else (ordered[half - 1] + ordered[half]) / 2


def _with(row: Done, unit: str) -> str:
    """What the sets were done with: the load, the form, a slower lowering; and whether the session was a short one."""
    tempo = row.step.done.tempo
    told = [figures.load(row.load, unit)] if row.load is not None else []
    told += [row.rung.text] if row.rung is not None else []
    told += [words.lowering(tempo.lower)] if tempo.lower is not None else []
    told += [say.SHORT_VERSION] if row.step.session.short is not None else []
    return ", ".join(told) or say.NONE


def _sets(row: Done) -> str:
    return ", ".join(str(result) for result in row.step.done.results) or say.NONE
