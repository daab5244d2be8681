"""What an athlete lifts, told as a weight, and what they pick up or how they fill for it."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import floor

import attrs

from ..compiler import implements
from ..compiler.implements import serves
from ..compiler.means import stands
from ..compiler.model import Athlete, Block, Dose, Entry, Implement, Made, Movement, Program, Rule
from ..compiler.quantity import UNITS, Quantity, decimal_text
from . import words

LOAD = "load"
NEXT_LOADS = 5


def told_weight(load: Fraction, unit: str) -> str:
    """A load in kg in another unit: exact where two places are enough, else to a tenth, never more than is lifted."""
    amount = load / UNITS[unit][1]
    if 100 % amount.denominator:
        amount = Fraction(floor(amount * 10), 10)
    return words.amount(Quantity(amount, unit))


def made_of(entry: Entry, load: Quantity | None) -> Made | None:
    """How a load that the dose tells is made, where that is known."""
    made = entry.fitted.made if entry.fitted is not None else ()
    return next((how for told, how in made if told == load), None)


def load_in(program: Program, entry: Entry) -> words.LoadTold:
    """How the loads of an entry are told: as the weight that is really lifted, where that is known."""
    if entry.fitted is None or not entry.fitted.made:
        return words.at_load

    def told(load: Quantity) -> str:
        made = made_of(entry, load)
        if made is None or made.load is None:
            return words.at_load(load)
        return words.at_weight(told_weight(made.load, program.units), two=made.two)

    return told


def takes(program: Program, entry: Entry, kept: int) -> tuple[tuple[str, str], ...]:
    """What to pick up, or how to fill, for each load in its order: the load, "" for the only one, and how it is made."""
    if program.athlete is None or entry.fitted is None or not entry.fitted.made:
        return ()
    dose = entry.dose
    loads = [lighter.share for lighter in dose.ramp]
    loads += [load for work in dose.sets[:kept] if (load := work.load or dose.load) is not None]
    makings = [made_of(entry, load) for load in loads or (None,)]
    told = {
        told_weight(made.load, program.units) if made.load is not None else "": how
        for made in makings
        if made is not None and (how := making(program.athlete, made))
    }
    return tuple((load if len(told) > 1 else "", how) for load, how in told.items())


@attrs.frozen
class NextLoads:
    """The loads that follow, one step after another, each with how it is made, and why no more follow; "" if more may."""

    loads: tuple[tuple[str, str], ...] = ()
    end: str = ""


NO_LOADS = NextLoads()


def next_loads(program: Program, block: Block, entry: Entry) -> NextLoads:
    """What follows on the loads of an entry, and how it is made: loads, or bands."""
    athlete, rule = program.athlete, entry.rule
    made = [how for _, how in entry.fitted.made] if entry.fitted is not None else []
    if athlete is None or not made or not isinstance(rule, Rule) or all(axis.name != LOAD for axis in rule.axes):
        return NO_LOADS
    if made[0].band:
        bands = [making(athlete, band) for band in implements.bands(athlete, entry.movement)]
        return NextLoads(tuple((band, "") for band in bands[bands.index(making(athlete, made[0])) + 1 :]))
    steps, end = _steps(program, block, entry, athlete)
    told = tuple(
        (told_weight(how.load, program.units), making(athlete, how))
        if len(loads) == 1 and (how := loads[0]).load is not None
        else (words.joined([_in_brackets(program, athlete, how) for how in loads]), "")
        for loads in steps
    )
    return NextLoads(told, end if told else "")


def _steps(program: Program, block: Block, entry: Entry, athlete: Athlete) -> tuple[list[tuple[Made, ...]], str]:
    """The different loads of an entry, step after step, as long as they change, and why they end."""
    course, standing = stands(program, block, entry) or (None, None)
    if course is None or standing is None or not course.loads:
        return [], ""
    place = next(place for place, track in enumerate(course.tracks) if track.name == LOAD)
    track, now = course.tracks[place], standing.figures[place]
    makings = implements.makings(athlete, entry.movement)
    dose = entry.dose
    alike = all(work is dose.sets[0] or work.load == dose.sets[0].load for work in dose.sets)
    before = [how.load for _, how in entry.fitted.made] if alike and entry.fitted is not None else []
    steps: list[tuple[Made, ...]] = []
    figure, reason = track.kind.following(now, track, course)
    while figure is not None and reason is None and len(steps) < NEXT_LOADS:
        masses = [Fraction(course.lifted(figure))] if alike else _masses(track.kind.moved(dose, figure, course))
        found = (implements.nearest(makings, mass) for mass in masses)
        loads = {how.load: how for how in found if how is not None}
        if loads and list(loads) != before:
            steps.append(tuple(loads.values()))
        before = list(loads)
        figure, reason = track.kind.following(figure, track, course)
    if reason == "jump" and figure is not None:
        return steps, words.too_large(told_weight(Fraction(course.lifted(figure)), program.units))
    return steps, words.NOTHING_HEAVIER if reason == "no-heavier" else ""


def _masses(dose: Dose) -> list[Fraction]:
    """The weights of the sets of a dose, in kg and in their order."""
    loads = (work.load or dose.load for work in dose.sets)
    return [load.base for load in loads if load is not None and load.dimension == "mass"]


def _in_brackets(program: Program, athlete: Athlete, how: Made) -> str:
    weight = told_weight(how.load, program.units) if how.load is not None else ""
    return words.in_brackets(weight, [told] if (told := making(athlete, how)) else [])


def making(athlete: Athlete, made: Made) -> str:
    """How a load is made, as its athlete would do it; "" where nobody says what there is to lift."""
    implement = made.implement
    if implement is None:
        return ""
    if made.band:
        return words.take_band(made.band, two=made.two)
    if implement.volume is not None:
        return _filled(athlete, implement, made)
    assert made.load is not None
    if implement.plates:
        bare = made.load - 2 * sum(count * plate.base for count, plate in made.plates)
        alike = [mass for one in athlete.implements if one.kind == implement.kind for mass in one.masses]
        mass = next((str(mass) for mass in implement.masses if mass.base == bare), "") if len(alike) > 1 else ""
        plates = [words.plates(count, str(plate)) for count, plate in made.plates]
        return words.take_plated(mass, implement.kind, plates, two=made.two)
    mass = next((str(mass) for mass in implement.masses if mass.base == made.load), "")
    return words.take_bell(mass, implement.kind, two=made.two, pair=implement.pair)


def _filled(athlete: Athlete, implement: Implement, made: Made) -> str:
    alike = [one for one in athlete.implements if one.volume is not None and one.title == implement.title]
    name = implement.title or words.CONTAINER
    if len(alike) > 1:
        name = f"{implement.volume} {name}"
    if made.litres is None or not made.filling or implement.volume is None:
        return words.take_empty(name, two=made.two)
    if made.litres == implement.volume.base:
        return words.take_full(name, made.filling, two=made.two)
    share = floor(100 * made.litres / implement.volume.base) if implement.straight else None
    return words.take_filled(name, made.filling, decimal_text(made.litres, 1), share, two=made.two)


def lifted_with(athlete: Athlete, movement: Movement) -> tuple[str, ...]:
    """The kinds of implements by which a movement is loaded, of those that the athlete has."""
    if not (athlete.implements or athlete.things):
        return movement.loaded_by  # nobody says what there is
    kinds = {kind for one in athlete.implements for kind in (one.kind, *([f"{one.kind} pair"] if one.pair else []))}
    return tuple(kind for kind in movement.loaded_by if kind in kinds)


def cautions(
    program: Program, told: tuple[str, ...], movements: Iterable[Movement], *, brief: bool = False
) -> tuple[str, ...]:
    """The cautions of a sheet, with what is to be minded of the implements that its athlete may take for the movements."""
    if program.athlete is None:
        return told
    loaded = tuple(movement for movement in movements if movement.loaded_by)
    here = [one for one in program.athlete.implements if any(serves(one, movement) for movement in loaded)]
    more = []
    if any(one.volume is not None for one in here):
        more.append(words.CAUTION_FILLED_SHORT if brief else words.CAUTION_FILLED)
    if any(one.plates for one in here):
        more.append(words.CAUTION_PLATES_SHORT if brief else words.CAUTION_PLATES)
    return (*told[: words.CAUTION_OF_IMPLEMENTS], *more, *told[words.CAUTION_OF_IMPLEMENTS :])
