"""What is known of the next steps of an athlete: those that can never be taken, why, and what figures go back to."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ..compiler.implements import bands
from ..compiler.means import stands
from ..compiler.model import Athlete, Axis, Block, Distance, Entry, Program, Rule
from ..compiler.progression import Blocked, Course, ended
from ..compiler.quantity import UNITS, Figure, Quantity
from . import telling, words
from .taking import LOAD, told_weight
from .telling import ANYBODY, FromHere


def from_here(program: Program, block: Block, entry: Entry) -> FromHere:
    """What can be said of the next steps of an entry, for the athlete to whom it was fitted."""
    known, rule, athlete = stands(program, block, entry), entry.rule, program.athlete
    if known is None or athlete is None or not isinstance(rule, Rule):
        return ANYBODY
    course, standing = known
    ends = {one.axis: one for one in ended(course, standing)}
    if _strongest_band(athlete, entry) and not any(LOAD in axis.restarting for axis in rule.axes):
        ends[LOAD] = Blocked(LOAD, "no-heavier")
    why = _why(athlete, rule, entry, course, ends[LOAD]) if LOAD in ends else ""
    back = {name for axis in rule.axes if axis.name not in ends for name in axis.restarting}
    going = [axis for axis in rule.axes if axis.name not in ends]
    stops = bool(ends) and not (going and _goes_on(going[-1], entry, course))
    return FromHere(frozenset(ends), stops, why, dict(_back(back, course, entry)))


def _goes_on(axis: Axis, entry: Entry, course: Course) -> bool:
    """Whether an axis never comes to an end."""
    track = next(track for track in course.tracks if track.name == axis.name)
    return track.bound is None and track.kind.endless(entry.dose)


def _strongest_band(athlete: Athlete, entry: Entry) -> bool:
    made = [how for _, how in entry.fitted.made if how.band] if entry.fitted is not None else []
    if not made or not isinstance(entry.rule, Rule) or all(axis.name != LOAD for axis in entry.rule.axes):
        return False
    steps = [band.band for band in bands(athlete, entry.movement)]
    return made[0].band == steps[-1]


def _why(athlete: Athlete, rule: Rule, entry: Entry, course: Course, blocked: Blocked) -> str:
    """Why the load never moves, in few words; "" where the bound says it."""
    axis = next(axis for axis in rule.axes if axis.name == LOAD)
    match blocked.reason:
        case "jump" if blocked.figure is not None:
            return words.too_large(figure_told(LOAD, blocked.figure, course, entry))
        case "no-heavier":
            banded = entry.fitted is not None and any(how.band for _, how in entry.fitted.made)
            return words.NOTHING_STRONGER if banded else words.NOTHING_HEAVIER
        case "bound" if athlete.alone and athlete.alone_cap is not None and axis.bound in (None, athlete.alone_cap):
            return words.NO_MORE_ALONE
    return ""


def _back(names: set[str], course: Course, entry: Entry) -> Iterator[tuple[str, str]]:
    """What axes go back to, as far as it is known and can be told."""
    for track in course.tracks[: course.axes]:
        if track.name in names and track.start is not None and track.name in words.BACK_TO:
            told = figure_told(track.name, track.start, course, entry)
            yield track.name, words.back_to(track.name, told, largest=_unlike(track.name, course, entry))


def _unlike(axis: str, course: Course, entry: Entry) -> bool:
    """Whether the sets differ in an axis, so that its figure is that of one of them."""
    return (axis == "reps" and course.spread > 0) or (
        axis == LOAD and len({work.load or entry.dose.load for work in entry.dose.sets}) > 1
    )


def figure_told(axis: str, figure: Figure, course: Course, entry: Entry) -> str:
    """What an axis comes to, read aloud: `8 repetitions`, `12 kg`, `20 seconds`."""
    if axis == "rung":
        rungs = entry.movement.rungs
        return words.quoted(rungs[min(int(figure), len(rungs) - 1)].text)
    if axis == LOAD:
        if course.unit == "%":
            return words.amount(Quantity(Fraction(figure) * 100, "%"))
        return told_weight(Fraction(course.lifted(figure)), course.unit)
    if axis in words.COUNT_WORDS:
        return words.step_of(axis, int(figure)) if figure != 1 else str(figure)
    if axis == "distance":
        unit = next((work.target.length.unit for work in entry.dose.sets if isinstance(work.target, Distance)), "m")
        told = Fraction(figure) / UNITS[unit][1]
        return words.amount(
            Quantity(told, unit) if not 100 % told.denominator else Quantity(Fraction(round(figure)), "m")
        )
    return telling.duration(Fraction(figure))
