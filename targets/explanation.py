"""Every figure of a movement on an athlete's sheet, told from its causes, each with the line of the source that it comes from."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import groupby

import attrs

from ..compiler import clock
from ..compiler.checks.places import part
from ..compiler.fitting import Choice, Fitting
from ..compiler.logbook import Stands
from ..compiler.model import Block, Entry, Movement, Program, Return, Rule, Session
from ..compiler.quantity import Quantity
from ..compiler.reasons import Kind, Reason, lines, own_place
from ..compiler.week import COUNTED
from ..grammar.source import Span
from . import telling, turn_words, words
from .from_here import from_here
from .reasons_told import clause, hindrances
from .taking import load_in, takes
from .turns_told import done_told, why_next

LAST_LOGGED = 5  # sessions that are told of
_FORM: tuple[Kind, ...] = ("rung-begun", "rung-first", "rung-lower", "rung-logged", "rungs-left-out")
_COUNT: tuple[Kind, ...] = ("reps-begun", "amount-begun", "dose-logged")
_LOAD: tuple[Kind, ...] = (
    "load-begun", "load-written", "load-share", "load-lightest", "load-capped", "load-rounded", "load-unknown",
    "load-logged",
)  # fmt: skip
_BAND: tuple[Kind, ...] = ("band-begun", "band-first", "band-logged")


@attrs.frozen
class Cause:
    """A sentence, and the lines of the source that it comes from: each by its place and its text."""

    told: str
    lines: tuple[tuple[str, str], ...] = ()


@attrs.frozen
class Figure:
    """Something that is printed: what it is, what stands there, and why."""

    name: str
    told: str
    causes: tuple[Cause, ...]


@attrs.frozen
class Explanation:
    title: str
    place: str
    figures: tuple[Figure, ...]


def concerned(fitting: Fitting, name: str) -> tuple[Choice, ...]:
    """The choices that a movement is part of: as it is written, as it is done, or as an alternative."""
    return tuple(choice for choice in fitting.choices if name in {movement.name for movement in _movements(choice)})


def movement_names(fitting: Fitting) -> list[str]:
    """Every movement that can be asked for."""
    return sorted({movement.name for choice in fitting.choices for movement in _movements(choice)})


def _movements(choice: Choice) -> Iterator[Movement]:
    yield choice.written.movement
    yield from (other.movement for other in choice.written.otherwise)


def explain(fitting: Fitting, choice: Choice, name: str, stands: Stands | None = None) -> Explanation:
    """All that the sheet says of an entry that a movement is part of; `stands` tells what the log led to."""
    program, who = fitting.program, fitting.athlete
    title = (choice.chosen or choice.written).movement.title
    place = words.explain_place(program.title, program.revision, choice.session.title, choice.block.title)
    return Explanation(words.explain_title(title, who.title), place, tuple(_figures(fitting, choice, name, stands)))


def _figures(fitting: Fitting, choice: Choice, name: str, stands: Stands | None) -> Iterator[Figure]:
    chosen = choice.chosen
    yield Figure(
        words.WHY_MOVEMENT, chosen.movement.title if chosen else words.WHY_NONE, tuple(_movement(fitting, choice, name))
    )
    if chosen is None:
        return
    program, block, dose = fitting.program, choice.block, chosen.dose
    circuit, at_load = block.rounds is not None, load_in(program, chosen)
    sets = clock.full_sets(block, chosen)
    written = _cause(words.AS_PROGRAM, [dose.span])
    if rung := chosen.fitted.rung if chosen.fitted is not None else None:
        yield Figure(words.WHY_FORM, telling.rung_text(chosen.movement, rung), _causes(fitting, choice, _FORM))
    if dose.ramp:
        left_out = _causes(fitting, choice, ("ramp-left-out",))
        sets_told = [f"{lighter.reps} {at_load(lighter.share)}" for lighter in dose.ramp]
        yield Figure(words.WHY_LIGHTER, words.joined(sets_told), (written, *left_out))
    back = program.returns if chosen.rule is None and block.kind in COUNTED else None
    shares = _shares(back, choice.session) if back is not None else None
    less = (
        (_cause(words.share_of_volume(str(shares[0])), [back.span]),) if back is not None and shares is not None else ()
    )
    lighter = (
        (_cause(words.share_of_load(str(shares[1])), [back.span]),) if back is not None and shares is not None else ()
    )
    rounds = (_cause(words.in_rounds(sets), [block.span]),) if circuit else ()
    yield Figure(
        words.WHY_DOSE,
        telling.dose(dose, sets, circuit, at_load),
        (written, *rounds, *_causes(fitting, choice, _COUNT), *less),
    )
    if loads := _causes(fitting, choice, _LOAD):
        yield Figure(words.WHY_LOAD, _load(chosen, at_load), (*loads, *lighter))
    yield from _take(fitting, choice, chosen, sets)
    yield from _rest(fitting, block, chosen, sets)
    if tempo := telling.tempo(dose.tempo):
        yield Figure(words.WHY_TEMPO, tempo, (written,))
    yield _minutes(fitting, block, chosen, sets)
    yield _next(program, block, chosen, back)
    if stands is not None and stands.steps:
        yield Figure(words.WHY_LOG, why_next(stands), tuple(_logged(stands)))


def _logged(stands: Stands) -> Iterator[Cause]:
    """The last sessions, the newest first, each with its line in the log."""
    for step in stands.steps[: -LAST_LOGGED - 1 : -1]:
        yield _cause(turn_words.done(telling.day(step.session.date), done_told(step)), [step.done.span])


def _movement(fitting: Fitting, choice: Choice, name: str) -> Iterator[Cause]:
    """Why it is this movement: what stands against those before it, and that those after it are not needed."""
    who = fitting.athlete.title
    against = hindrances(choice)
    if not against:
        yield _cause(words.AS_PROGRAM, [choice.written.span])
    for reason in against:
        yield _cause(words.about(reason.movement.title, clause(reason, who)), lines(reason, fitting.athlete))
    if choice.chosen is None:
        yield _cause(words.NO_ELSE, [choice.written.span])
    elif against:
        yield _cause(words.FIRST_ELSE, [choice.chosen.span])
    elif choice.chosen.condition == "able":
        others = [other.span for other in choice.chosen.otherwise]
        yield _cause(words.ABLE_OR_BELOW if others else words.ONLY_IF_ABLE, [choice.chosen.span, *others])
    asked = next((other for other in choice.written.otherwise if other.movement.name == name), None)
    names = [movement.name for movement in _movements(choice)]
    if asked is not None and choice.chosen is not None and names.index(choice.chosen.movement.name) < names.index(name):
        yield _cause(words.not_needed(asked.movement.title), [asked.span])


def _load(entry: Entry, at_load: words.LoadTold) -> str:
    loads = (work.load or entry.dose.load for work in entry.dose.sets)
    told = dict.fromkeys(at_load(load).removeprefix(words.WITH) for load in loads if load is not None)
    return words.joined(list(told)) or words.WHY_NONE


def _take(fitting: Fitting, choice: Choice, entry: Entry, sets: int) -> Iterator[Figure]:
    told = [f"{load}: {how}" if load else how for load, how in takes(fitting.program, entry, sets)]
    made = [how for _, how in entry.fitted.made] if entry.fitted is not None else []
    spans = [own_place(how.implement, fitting.athlete) for how in made if how.implement is not None]
    if told:
        cause = _cause(words.OF_WHAT_THERE_IS, spans)
        yield Figure(words.WHY_TAKE, "; ".join(told), (*_causes(fitting, choice, _BAND), cause))


def _rest(fitting: Fitting, block: Block, entry: Entry, sets: int) -> Iterator[Figure]:
    circuit = block.rounds is not None
    if len(entry.dose.ramp) * (not circuit) + sets < 2:
        return
    program = fitting.program
    seconds = clock.round_rest_time(program, block) if circuit else clock.rest_time(program, block, entry)
    if entry.dose.rest is not None and not circuit:
        cause = _cause(words.ENTRY_SAYS, [entry.dose.span])
    elif block.rest is not None:
        cause = _cause(words.BLOCK_SAYS, [block.span])
    elif program.rest is not None:
        said = program.returns.normal if program.returns is not None else None
        cause = _cause(words.PROGRAM_SAYS, [part((said or program).span, r"^ +rest\b[^\n]*")])
    else:
        cause = Cause(words.sentence(words.NOTHING_SAYS))
    yield Figure(words.WHY_REST, telling.duration(seconds), (cause,))


def _minutes(fitting: Fitting, block: Block, entry: Entry, sets: int) -> Figure:
    """The time of the entry, from its sets and rests; in a circuit of its sets alone."""
    timed = clock.entry_clock(block, entry, clock.round_rest_time(fitting.program, block))
    circuit = block.rounds is not None
    seconds = timed.circuit_seconds(sets) if circuit else timed.seconds(sets)
    times = [(len(list(alike)), time) for time, alike in groupby((*timed.ramp, *timed.sets[:sets]))]
    told = [words.times_of(number, telling.duration(time)) for number, time in times]
    between = len(timed.ramp) if circuit else len(timed.ramp) + sets - 1
    rests = words.rests_of(between, telling.duration(timed.rest)) if between and timed.rest else ""
    movement = entry.movement
    spans = [part(movement.span, r"^ +(rep|covers)\b[^\n]*")] if movement.rep or movement.covers else []
    return Figure(
        words.WHY_MINUTES, telling.duration(Fraction(seconds)), (_cause(words.minutes_made_of(told, rests), spans),)
    )


def _shares(back: Return, session: Session) -> tuple[Quantity, Quantity]:
    """The shares of the volume and of the loads in the week of a session on the way back."""
    week = (session.week or 1) - 1
    return back.volume[week], back.loads[week]


def _next(program: Program, block: Block, entry: Entry, back: Return | None) -> Figure:
    if back is not None:
        return Figure(words.WHY_NEXT, words.WHY_NONE, (_cause(words.NOTHING_MOVES_BACK, [back.span]),))
    if entry.rule is None:
        return Figure(words.WHY_NEXT, words.WHY_NONE, (_cause(words.NO_RULE, [entry.span]),))
    spans = [entry.rule.span]
    if isinstance(entry.rule, Rule):
        said = (("good", entry.rule.good > 1), ("missed", entry.rule.missed is not None))
        spans += [part(entry.span, rf"^[ \t]+after +\d+ +{word}\b[^\n]*") for word, is_said in said if is_said]
    told = telling.next_step(entry, block.rounds is not None, from_here(program, block, entry))
    return Figure(words.WHY_NEXT, told, (_cause(words.AS_PROGRAM, spans),))


def _causes(fitting: Fitting, choice: Choice, kinds: Iterable[Kind]) -> tuple[Cause, ...]:
    here: list[Reason] = [reason for reason in choice.reasons if reason.kind in kinds]
    return tuple(_cause(clause(reason, fitting.athlete.title), lines(reason, fitting.athlete)) for reason in here)


def _cause(told: str, spans: Iterable[Span]) -> Cause:
    """A clause as a sentence, with each line of the source once."""
    return Cause(
        words.sentence(told), tuple({f"{span.source.name}:{span.line}": _line(span) for span in spans}.items())
    )


def _line(span: Span) -> str:
    """The line on which a span begins, in few blanks and without a comment."""
    return " ".join(re.sub(r'("[^"]*")|#.*', r"\1", span.source.line(span.line)).split())
