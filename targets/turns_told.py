"""Why a movement asks for what it does next, in a sentence: what was logged last, and where its rule led."""

from __future__ import annotations

from ..compiler.judging import Shortfall
from ..compiler.logbook import Stands, Step
from ..compiler.model import Movement
from ..compiler.progression import Blocked, Course, Turn
from ..compiler.quantity import Quantity
from . import telling, words
from . import turn_words as turns
from .from_here import figure_told


def why_next(stands: Stands) -> str:
    """What was done last, and what follows from it; "" for a movement that no log tells of and that has no rule."""
    if not stands.steps:
        return turns.FIRST_TIME if stands.course is not None else ""
    step = stands.steps[-1]
    done = turns.done(telling.day(step.session.date), done_told(step))
    return f"{done} {_what_follows(stands, step)}"


def done_told(step: Step) -> str:
    """What a log says of a movement: `8 8 7 with 10 kg`, `20 seconds and 25 seconds, on the knees`."""
    done = step.done
    figures = [_measured(each) if isinstance(each, Quantity) else str(each) for each in done.results]
    counts = all(isinstance(each, int) for each in done.results)
    told = [" ".join(figures) if counts else words.joined(figures)]
    if done.load is not None:
        told.append(words.at_load(done.load))
    if done.band is not None:
        told.append(words.with_band(done.band))
    if done.rung is not None:
        told.append(telling.rung_text(step.asked.movement, done.rung))
    return ", ".join(filter(None, told))


def _measured(told: Quantity) -> str:
    return telling.duration(told.base) if told.dimension == "time" and told.base >= 60 else words.amount(told)


def _what_follows(stands: Stands, step: Step) -> str:
    if step.easier:
        return turns.EASIER
    if step.short is not None:
        fell = shortfall_told(step.short, step.asked.movement)
        if step.turn is not None and step.turn.kind == "eased" and step.turn.axis is not None:
            return f"{fell} {turns.eased(_axis(stands, step.turn.axis), _now(stands, step.turn, step.turn.axis))}"
        return f"{fell} {turns.HELD}"
    if step.turn is None or stands.course is None:
        return turns.STAYS
    return _good(stands, stands.course, step.turn)


def _good(stands: Stands, course: Course, turn: Turn) -> str:
    match turn.kind:
        case "moved" if turn.axis is not None:
            passed = [blocked_told(one, stands, course) for one in turn.blocked]
            back = [words.AXIS_NAMES[course.tracks[other].name] for other in _restarts(course, turn.axis)]
            now = _now(stands, turn, turn.axis)
            return turns.moved(_axis(stands, turn.axis), now, passed, back)
        case "counting":
            return turns.counting(course.good - turn.standing.good)
        case "waiting":
            at = next((track.at for track in course.tracks if track.at is not None), None)
            return turns.waiting(at) if at is not None else turns.HELD
    return turns.exhausted([blocked_told(one, stands, course) for one in turn.blocked])


def _restarts(course: Course, axis: str) -> tuple[int, ...]:
    return next(track.restarts for track in course.tracks if track.name == axis)


def _axis(stands: Stands, axis: str) -> str:
    """What an axis is called: the load of what is done with a band is the band."""
    return words.THE_BAND if axis == "load" and stands.band is not None else words.AXIS_NAMES[axis]


def _now(stands: Stands, turn: Turn, axis: str) -> str:
    """What an axis has come to, "" where nobody knows."""
    assert stands.course is not None
    if axis == "load" and stands.band is not None:
        return words.take_band(stands.band, two=False)
    place = next(place for place, track in enumerate(stands.course.tracks) if track.name == axis)
    figure = turn.standing.figures[place]
    return "" if figure is None else figure_told(axis, figure, stands.course, stands.entry)


def blocked_told(blocked: Blocked, stands: Stands, course: Course) -> str:
    """Why an axis cannot move, as a clause."""
    figure = "" if blocked.figure is None else figure_told(blocked.axis, blocked.figure, course, stands.entry)
    return turns.blocked(words.AXIS_NAMES[blocked.axis], blocked.reason, figure)


def shortfall_told(short: Shortfall, movement: Movement) -> str:
    """What fell short, in a sentence."""
    asked, done = (
        telling.rung_text(movement, each)
        if short.kind == "rung" and isinstance(each, str)
        else words.amount(each)
        if isinstance(each, Quantity)
        else str(each)
        for each in (short.asked, short.done)
    )
    return turns.fell_short(short.kind, asked, done)
