"""Fitting: a program as it is for one athlete, with a reason for every choice.

For each entry the movement or its first `else` that the athlete can do and equip is chosen, then the rung, the load and
how that load is made. The fitted program is a program again: clock, trimming, horizon and every target work on it unchanged.
Loads that are shares of the training maximum stay shares, so that their rules go on exactly; what is lifted for each stands
in the `fitted` of the entry. No load is above what is prescribed, capped, or can be made: of what is too heavy for that the
turn goes to the next `else`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import cycle

import attrs

from .at_hand import AtHand
from .comeback import Week, comeback, lifted_back, weeks_of
from .fingerprint import digest
from .model import (
    DAYS,
    Alternative,
    Athlete,
    Block,
    Entry,
    Fitted,
    Movement,
    Program,
    Session,
    Value,
)
from .reasons import Reason
from .remembering import remembered
from .starting import Started, started
from .week import COUNTED


@attrs.frozen(eq=False, repr=False, match_args=False)
class Choice(Value):
    """What became of an entry: `written` as the program has it, `chosen` as the athlete gets it; None where nothing suits."""

    session: Session
    block: Block
    written: Entry
    chosen: Entry | None
    reasons: tuple[Reason, ...]


@attrs.frozen(eq=False, repr=False, match_args=False)
class Fitting(Value):
    """A program fitted to an athlete: `program` holds only what the athlete does, and has its `athlete`.

    The athlete of the fitted program begins where that is possible: on a rung that can be done.
    """

    written: Program
    athlete: Athlete
    program: Program
    choices: tuple[Choice, ...]


def fit(program: Program, athlete: Athlete) -> Fitting:
    """The program as it is for the athlete, and why; one that leads back to another from what they did in that."""
    if program.returns is not None and program.returns.normal is not None:
        return led_back(program, fit(program.returns.normal, athlete))
    hands = AtHand(athlete)
    choices: list[Choice] = []
    sessions = tuple(_session(program, session, hands, choices) for session in program.sessions)
    fitted = attrs.evolve(
        program,
        sessions=tuple(session for session in sessions if session.blocks),
        athlete=_begun(athlete, choices),
        fingerprint=_fingerprint(program, athlete),
    )
    return Fitting(program, athlete, fitted, tuple(choices))


def led_back(program: Program, normal: Fitting) -> Fitting:
    """The way back of an athlete to their own program: as it was fitted to them, or as it was on their last day of it."""
    assert program.returns is not None
    hands = AtHand(normal.athlete)
    weeks = weeks_of(program.returns)
    now: dict[tuple[int, int], Entry] = {}

    def change(entry: Entry, block: Block, week: Week) -> Entry:
        key = (id(entry), week.number)  # the entries of the normal program live as long as this runs
        if key not in now:
            now[key] = lifted_back(normal.program, entry, block, week, hands)
        return now[key]

    def choice(session: Session, block: Block, written: Entry, before: Choice) -> Choice:
        week = weeks[(session.week or 1) - 1]
        chosen = before.chosen
        if chosen is None or block.kind not in COUNTED:
            return Choice(session, block, written, chosen, before.reasons)
        return Choice(session, block, written, change(chosen, block, week), before.reasons)

    places = (
        (session, block, entry) for session in program.sessions for block in session.blocks for entry in block.entries
    )
    choices = tuple(choice(*place, before) for place, before in zip(places, cycle(normal.choices)))
    led = attrs.evolve(comeback(program, normal.program, change), fingerprint=_fingerprint(program, normal.athlete))
    return Fitting(program, normal.athlete, led, choices)


def _fingerprint(program: Program, athlete: Athlete) -> str:
    """Stands for what the sheets of an athlete tell: the program, and the words about the athlete, where they are known."""
    return digest(program.fingerprint, athlete.fingerprint)[:12] if athlete.fingerprint else program.fingerprint


def serving(athlete: Athlete, patterns: Iterable[str], movements: Iterable[Movement]) -> tuple[Movement, ...]:
    """Of the movements those with one of the patterns that the athlete can do and equip, in their order."""
    hands, wanted = AtHand(athlete), frozenset(patterns)
    return tuple(one for one in movements if not wanted.isdisjoint(one.patterns) and hands.hindrance(one) is None)


def _session(program: Program, session: Session, hands: AtHand, choices: list[Choice]) -> Session:
    """The session for the athlete, on their own days where it says only how often, and that is as many."""
    taken = {
        entry.movement.name
        for block in session.blocks
        if block.kind in COUNTED
        for entry in block.entries
        if _obstacle(entry, hands) is None
    }
    blocks = []
    for block in session.blocks:
        here = [_choice(program, session, block, entry, hands=hands, taken=taken) for entry in block.entries]
        choices += here
        entries = tuple(choice.chosen for choice in here if choice.chosen is not None)
        if entries:
            blocks.append(attrs.evolve(block, entries=entries))
    days = hands.athlete.days
    own = not session.days and session.per_week == len(days)
    return attrs.evolve(
        session, blocks=tuple(blocks), days=tuple(day for day in DAYS if day in days) if own else session.days
    )


def _choice(
    program: Program, session: Session, block: Block, entry: Entry, *, hands: AtHand, taken: set[str]
) -> Choice:
    """The first of an entry and its alternatives that the athlete can do; `taken` are the movements that are logged already."""
    reasons: list[Reason] = []
    for candidate in (entry, *(_as_entry(entry, other) for other in entry.otherwise)):
        why = _obstacle(candidate, hands)
        if why is None and candidate is not entry and block.kind in COUNTED and candidate.movement.name in taken:
            why = Reason("in-session", candidate.movement, spans=(candidate.span,))
        begun = why or started(program, block, candidate, hands)
        if isinstance(begun, Reason):
            reasons.append(begun)
            continue
        if block.kind in COUNTED:
            taken.add(candidate.movement.name)
        chosen = _chosen(program, block, entry, candidate, begun=begun, hands=hands)
        return Choice(session, block, entry, chosen, (*reasons, *begun.reasons))
    if block.kind in COUNTED and entry.movement.name in taken:
        taken.discard(entry.movement.name)
    return Choice(session, block, entry, None, tuple(reasons))


def _obstacle(entry: Entry, hands: AtHand) -> Reason | None:
    """Why an athlete cannot do an entry at all; None where they can."""
    if hands.lacks(entry.condition):
        return Reason("condition-unmet", entry.movement, names=(entry.condition or "",), spans=(entry.span,))
    return hands.hindrance(entry.movement)


@remembered(512)  # athletes of a program share its entries
def _as_entry(entry: Entry, other: Alternative) -> Entry:
    """An alternative as an entry of its own; the note to the athlete speaks of the movement that it stood below."""
    return attrs.evolve(
        entry,
        movement=other.movement,
        dose=other.dose,
        rule=other.rule,
        otherwise=(),
        condition=other.condition,
        note="",
        span=other.span,
    )


def _chosen(
    program: Program, block: Block, written: Entry, candidate: Entry, *, begun: Started, hands: AtHand
) -> Entry:
    """The entry as the athlete gets it; where they may not be able to do it, with what they can do instead."""
    condition = candidate.condition if candidate.condition == "able" or not hands.said else None
    otherwise = candidate.otherwise if condition is not None else ()
    instead_of = None if candidate.movement is written.movement else written.movement
    if not otherwise:
        return _simply(candidate, begun, condition, instead_of)
    return attrs.evolve(
        candidate,
        movement=begun.movement,
        dose=begun.dose,
        rule=begun.rule,
        condition=condition,
        otherwise=tuple(_alternatives(program, block, written, otherwise, hands)),
        fitted=Fitted(begun.rung, begun.made, instead_of),
    )


@remembered(4096)  # many athletes begin it alike, and all that is worked out from an entry is known again
def _simply(entry: Entry, begun: Started, condition: str | None, instead_of: Movement | None) -> Entry:
    """An entry as an athlete gets it, with nothing else that they could do in its place."""
    return attrs.evolve(
        entry,
        movement=begun.movement,
        dose=begun.dose,
        rule=begun.rule,
        condition=condition,
        otherwise=(),
        fitted=Fitted(begun.rung, begun.made, instead_of),
    )


def _alternatives(
    program: Program, block: Block, entry: Entry, otherwise: Sequence[Alternative], hands: AtHand
) -> Iterable[Alternative]:
    """Those of the alternatives that the athlete can do, with their own figures."""
    for other in otherwise:
        candidate = _as_entry(entry, other)
        if _obstacle(candidate, hands) is None:
            begun = started(program, block, candidate, hands)
            if isinstance(begun, Started):
                yield attrs.evolve(other, movement=begun.movement, dose=begun.dose, rule=begun.rule)


def _begun(athlete: Athlete, choices: Iterable[Choice]) -> Athlete:
    """The athlete, beginning on the rungs that were chosen."""
    rungs = {
        choice.chosen.movement.name: choice.chosen.fitted.rung
        for choice in choices
        if choice.chosen is not None and choice.chosen.fitted is not None and choice.chosen.fitted.rung is not None
    }
    begins = tuple(
        attrs.evolve(start, rung=rungs[start.movement])
        if start.rung is not None and rungs.get(start.movement, start.rung) != start.rung
        else start
        for start in athlete.begins
    )
    return attrs.evolve(athlete, begins=begins)
