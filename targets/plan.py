"""The plan of a session as a reader sees it: blocks with their minute, entries with all that is told about them."""

from __future__ import annotations

from fractions import Fraction

import attrs

from ..compiler import clock
from ..compiler.alike import alike
from ..compiler.clock import TimedBlock, Timetable
from ..compiler.model import Alternative, Block, Entry, Movement, Program
from . import telling, words
from .from_here import from_here
from .taking import load_in, takes


@attrs.frozen(cache_hash=True)
class PlannedEntry:
    """One row of a session; every text is "" where there is nothing to tell."""

    priority: str
    sign: str
    title: str
    in_place_of: str
    form: str
    takes: tuple[tuple[str, str], ...]  # a load, "" for the only one, and how it is made
    dose: str
    in_full: str
    before: str
    rest: str
    tempo: str
    condition: str
    also: str
    note: str
    next_step: str
    instead: tuple[str, ...]


@attrs.frozen(cache_hash=True)
class PlannedBlock:
    minute: int
    title: str
    kind: str
    circuit: str
    note: str
    entries: tuple[PlannedEntry, ...]


@attrs.frozen
class PlannedSession:
    name: str
    title: str
    often: str
    minutes: int
    limit: str
    note: str
    blocks: tuple[PlannedBlock, ...]


def movements(program: Program) -> tuple[Movement, ...]:
    """Every movement that stands in the program, alternatives too, each once, in the order of work."""
    found: dict[str, list[Movement]] = {}  # by name: to compare whole movements takes long
    for session in program.sessions:
        for entry in session.entries:
            for movement in (entry.movement, *(alternative.movement for alternative in entry.otherwise)):
                same = found.setdefault(movement.name, [])
                if not any(movement is other or movement == other for other in same):
                    same.append(movement)
    return tuple(movement for same in found.values() for movement in same)


def planned_session(program: Program, timetable: Timetable) -> PlannedSession:
    """A session, or the version of it that the timetable is of; blocks of which nothing is kept are not on the sheet."""
    session = timetable.session
    kept = [timed for timed in timetable.blocks if any(entry.kept for entry in timed.entries)]
    return PlannedSession(
        session.name,
        session.title,
        telling.frequency(session),
        telling.whole_minutes(timetable.seconds),
        words.amount(session.within) if session.within else "",
        session.note,
        tuple(_block(program, timed) for timed in kept),
    )


def _block(program: Program, timed: TimedBlock) -> PlannedBlock:
    block = timed.block
    return PlannedBlock(
        int(timed.start // 60),
        block.title,
        words.BLOCK_KINDS[block.kind],
        _circuit(program, timed) if block.rounds is not None else "",
        block.note,
        tuple(_entry(program, block, entry.entry, entry.kept) for entry in timed.entries if entry.kept),
    )


def _circuit(program: Program, timed: TimedBlock) -> str:
    """How the rounds run; the change is told only where there is another movement to change to."""
    rounds = max(entry.kept for entry in timed.entries)
    stations = sum(1 for entry in timed.entries if entry.kept)
    change = clock.change_time(program, timed.block) if stations > 1 else Fraction(0)
    rest = clock.round_rest_time(program, timed.block) if rounds > 1 else Fraction(0)
    full = timed.block.rounds or rounds
    return words.circuit(rounds, full, *(telling.duration(time) if time else "" for time in (rest, change)))


def _entry(program: Program, block: Block, entry: Entry, kept: int) -> PlannedEntry:
    rest = clock.rest_time(program, block, entry)
    return alike(_planned, program, block, entry, kept, rest)


def _planned(program: Program, block: Block, entry: Entry, kept: int, between: Fraction) -> PlannedEntry:
    circuit = block.rounds is not None
    full = clock.full_sets(block, entry)
    rests = (len(entry.dose.ramp) + kept > 1) and not circuit
    rest = between if rests else Fraction(0)
    at_load = load_in(program, entry)
    return PlannedEntry(
        entry.priority,
        words.PRIORITY_SIGNS[entry.priority],
        entry.movement.title,
        instead_of(entry),
        form(entry),
        takes(program, entry, kept),
        telling.dose(entry.dose, kept, circuit, at_load),
        words.in_full(full) if kept < full and not circuit else "",
        telling.ramp(entry.dose, at_load),
        words.rest_between_sets(telling.duration(rest)) if rest else "",
        telling.tempo(entry.dose.tempo),
        telling.condition(entry.condition),
        words.also_log(entry.dose.logs) if entry.dose.logs else "",
        entry.note,
        telling.next_step(entry, circuit, from_here(program, block, entry)),
        tuple(_instead(alternative, entry, kept, circuit) for alternative in entry.otherwise),
    )


def instead_of(entry: Entry) -> str:
    """The movement that the program has here, where its athlete does another."""
    replaced = entry.fitted.instead_of if entry.fitted is not None else None
    return f"{words.IN_PLACE_OF} {replaced.title}" if replaced is not None else ""


def form(entry: Entry) -> str:
    """The words of the rung that an athlete begins on."""
    rung = entry.fitted.rung if entry.fitted is not None else None
    return telling.rung_text(entry.movement, rung) if rung is not None else ""


def _instead(alternative: Alternative, entry: Entry, kept: int, circuit: bool) -> str:
    """Another movement with its own dose; a version that cuts the entry cuts the other as far."""
    sets = (
        min(kept, len(alternative.dose.sets))
        if kept < len(entry.dose.sets) and not circuit
        else len(alternative.dose.sets)
    )
    parts = [
        telling.condition(alternative.condition),
        telling.dose(alternative.dose, sets, circuit),
        telling.tempo(alternative.dose.tempo),
    ]
    return words.other_movement(alternative.movement.title, " ".join(filter(None, parts)))
