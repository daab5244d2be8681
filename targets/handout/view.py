"""What a handout holds: a program as plain values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import attrs

from ...compiler import clock
from ...compiler.alike import alike
from ...compiler.implements import makings, nearest
from ...compiler.load_scale import loads_of
from ...compiler.model import Amrap, Athlete, Block, Dose, Entry, Movement, Program, Return, Rung
from ...compiler.quantity import Quantity
from ...compiler.remembering import remembered
from .. import telling, words
from ..plan import PlannedSession, movements, planned_session
from ..taking import NO_LOADS, NextLoads, lifted_with, made_of, next_loads, told_weight
from .late import Late, late


@attrs.frozen(cache_hash=True)
class MovementText:
    """How to do one movement."""

    title: str
    with_what: str
    needs: str
    how: str
    cues: str
    cautions: tuple[str, ...]
    rungs: tuple[str, ...]
    next: NextLoads


@attrs.frozen
class ComingBack:
    """The way back after a break: what the athlete must know, and the shares of each week."""

    before: str
    weeks: tuple[tuple[str, str, str], ...]  # a week, its share of the volume, and of the loads
    after: tuple[str, ...]


@attrs.frozen
class Handout:
    coming_back: ComingBack | None
    aims: str
    rules: str
    categories: str
    easier: tuple[tuple[str, str], ...]
    explained: tuple[str, ...]
    heaviest: tuple[str, ...]  # of the explained what its athlete lifts at most
    sessions: tuple[PlannedSession, ...]
    late: Mapping[str, Late | None]  # by the name of the session
    movements: tuple[MovementText, ...]


@remembered(4)  # page and paper tell the same
def handout(program: Program) -> Handout:
    """The handout of a program."""
    texts = tuple(movement_texts(program))
    return Handout(
        _coming_back(program.returns) if program.returns is not None else None,
        program.aims,
        program.rules,
        _categories(program),
        telling.easier_weeks(program),
        (*_explained(program), *((words.EXPLAIN_NEXT_LOADS,) if any(text.next.loads for text in texts) else ())),
        tuple(_heaviest(program, program.athlete)) if program.athlete is not None else (),
        tuple(planned_session(program, clock.timetable(program, session)) for session in program.sessions),
        {session.name: late(program, session) for session in program.sessions},
        texts,
    )


def _coming_back(back: Return) -> ComingBack:
    normal = back.normal.title if back.normal is not None else back.to
    weeks = tuple(
        (str(number), words.of_normal(volume), words.of_normal(load))
        for number, (volume, load) in enumerate(zip(back.volume, back.loads, strict=True), start=1)
    )
    return ComingBack(
        words.back_after(back.after, len(weeks), normal),
        weeks,
        (
            f"{words.BACK_SHARES} {words.BACK_SOURCE}",
            f"{words.BACK_RULES} {words.back_after_that(len(weeks), normal)}",
        ),
    )


def _categories(program: Program) -> str:
    """What every session with a block of work must hold, and what a week must, "" where there is nothing."""
    normal = program.returns.normal if program.returns is not None else None
    sessions = (normal or program).sessions
    working = [each.title for each in sessions if any(block.kind == "work" for block in each.blocks)]
    required = [_category(each.title, each.at_least) for each in program.categories if each.required]
    weekly = [(each.title, each.at_least) for each in program.categories if each.at_least and not each.required]
    told = [words.never_without(working, required)] if working and required else []
    told += [words.in_every_week(weekly)] if weekly else []
    return " ".join(told)


def _category(title: str, at_least: int | None) -> str:
    return title if at_least is None else words.at_least_a_week(title, at_least)


def _doses(program: Program) -> Iterator[Dose]:
    for session in program.sessions:
        for entry in session.entries:
            yield entry.dose
            yield from (alternative.dose for alternative in entry.otherwise)


def _explained(program: Program) -> Iterator[str]:
    """What a reader must know to read the doses of this program, and no more."""
    doses = tuple(_doses(program))
    yield words.EXPLAIN_MINUTES
    if any(isinstance(work.target, Amrap) for dose in doses for work in dose.sets):
        yield words.EXPLAIN_AMRAP
    if any(dose.each_side for dose in doses):
        yield words.EXPLAIN_EACH_SIDE
    if any(dose.rpe for dose in doses):
        yield words.EXPLAIN_EFFORT
    if not all(_shares(program)):
        yield words.EXPLAIN_MAXIMUM
    if program.athlete is not None:
        yield from _heaviest(program, program.athlete)
    if program.fingerprint:
        yield words.EXPLAIN_SOURCE


def _heaviest(program: Program, athlete: Athlete) -> Iterator[str]:
    """The maxima of which the steps are shares, and what the athlete stops at where nobody watches."""
    done = {movement.name: movement for movement in movements(program)}
    maxima = [(done[name], maximum) for name, maximum in athlete.maxima if name in done]
    if maxima:
        yield words.MAXIMUM.format(words.joined([f"{one.title} {words.amount(most)}" for one, most in maxima]))
    cap = athlete.alone_cap if athlete.alone else None
    told = [
        f"{one.title} {told_weight(made.load, program.units)}"
        for one, most in maxima
        if cap is not None
        if (made := nearest(makings(athlete, one), most.base * cap.base)) is not None and made.load is not None
    ]
    if told:
        yield words.ALONE.format(words.joined(told))


def _shares(program: Program) -> Iterator[bool]:
    """For each share of a training maximum, whether the sheet tells what it weighs."""
    for session in program.sessions:
        for entry in session.entries:
            yield from (made_of(entry, share) is not None for share in _shares_of(entry.dose))
            yield from (False for other in entry.otherwise for _ in _shares_of(other.dose))


def _shares_of(dose: Dose) -> Iterator[Quantity]:
    yield from (lighter.share for lighter in dose.ramp)
    yield from (load for load in loads_of(dose) if load.unit == "%")


def movement_texts(program: Program) -> Iterator[MovementText]:
    """How to do each movement; of an athlete's own program with where they begin, and with what they go on."""
    athlete = program.athlete
    if athlete is None:
        yield from (_movement(movement, movement.loaded_by, None, NO_LOADS) for movement in movements(program))
        return
    begun: dict[str, str | None] = {}
    following: dict[str, NextLoads] = {}
    for block, entry in _entries(program):
        name = entry.movement.name
        begun[name] = begun.get(name) or (entry.fitted.rung if entry.fitted is not None else None)
        if name not in following or not following[name].loads:
            following[name] = alike(next_loads, program, block, entry)
    for movement in movements(program):
        name = movement.name
        yield _movement(movement, lifted_with(athlete, movement), begun.get(name), following.get(name, NO_LOADS))


def _entries(program: Program) -> Iterator[tuple[Block, Entry]]:
    for session in program.sessions:
        for block in session.blocks:
            yield from ((block, entry) for entry in block.entries)


@remembered(1024)  # most athletes do most movements alike
def _movement(movement: Movement, kinds: tuple[str, ...], begun: str | None, following: NextLoads) -> MovementText:
    return MovementText(
        movement.title,
        words.joined([words.IMPLEMENTS.get(kind, words.a_thing(kind)) for kind in kinds], "or"),
        *_how(movement),
        tuple(_rung(rung, rung.name == begun) for rung in movement.rungs),
        following,
    )


@remembered(512)  # athletes of a program share its movements
def _how(movement: Movement) -> tuple[str, str, str, tuple[str, ...]]:
    """What it needs, how it is done, its cues and what to mind."""
    return (
        words.joined([words.a_thing(need) for need in movement.needs]),
        movement.how,
        "; ".join(words.quoted(cue) for cue in movement.cues),
        tuple(words.sentence(caution) for caution in movement.cautions),
    )


def _rung(rung: Rung, begun: bool) -> str:
    told = [words.moves(rung.moves)] if rung.moves else []
    told += [words.needing(words.joined([words.a_thing(need) for need in rung.needs]))] if rung.needs else []
    told += [words.YOU_BEGIN_HERE] if begun else []
    return words.in_brackets(rung.text, told)
