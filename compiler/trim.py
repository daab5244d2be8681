"""The best shorter version of a session, exactly.

Among all versions within a limit that keep every `must` and leave no required category empty, the one that keeps most
`key` movements, then most `do`, then most `may`, then most sets; then the one that cuts most evenly (smallest sum of
the squares of the sets cut), then the one whose earlier entries keep more sets. The order of work stays. A required
category that the full session leaves empty is left out: no version could fill it.

A category asked for `at least 2 a week` holds over the sessions of the week together. It binds the first sessions of the
program that hold it, until the times a week that they are held add up to what is asked: these keep a movement of it in
every version, as if it were required, and later sessions are free. So however the sessions of a week are shortened, the
week never has less.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import islice
from typing import Literal

import attrs

from .best_version import Part, Place, categories_open, prepare
from .clock import Kept, WholeClock, least_sets, session_clock, whole_clock
from .model import Block, Category, CutBy, Entry, Priority, Program, Session, Short, Value
from .remembering import remembered
from .week import COUNTED, sessions_with, times_a_week

# Why something goes: a movement by its priority (`priority` is a key, which goes only where cutting `do` and `may` does
# not help), or sets of a movement, or rounds of a circuit.
Reason = Literal["optional", "ordinary", "priority", "fewer-sets", "rounds"]
_DROPPED: dict[Priority, Reason] = {"may": "optional", "do": "ordinary", "key": "priority"}


@attrs.frozen(eq=False, repr=False, match_args=False)
class Cut(Value):
    """One entry that a version cuts: its place in the session, counted from 0, its kept sets, and its sets in full.

    `seconds_saved` is what this cut alone takes off the full session. The sum over the cuts of a version need not be
    what the version saves: the change between two blocks, for one, is saved only when all of a block goes, and the rest
    between two rounds only when the whole round goes.
    `lacking` is by how many seconds the version would go over its limit if this cut were taken back by the least that
    can be: one set or round more, or the movement with the fewest sets it may have.
    """

    index: int
    entry: Entry
    kept: int
    full: int
    seconds_saved: Fraction
    lacking: Fraction
    reason: Reason


@attrs.frozen(eq=False, repr=False, match_args=False)
class Version(Value):
    """A version of a session within a limit: kept sets of each entry in source order, and its cuts in that order.

    Times in seconds; `full_seconds` is the clock of the whole session.
    """

    session: Session
    limit: Fraction
    by: CutBy
    kept: Kept
    seconds: Fraction
    full_seconds: Fraction
    cuts: tuple[Cut, ...]

    @property
    def seconds_saved(self) -> Fraction:
        """What all cuts together take off the full session."""
        return self.full_seconds - self.seconds


@attrs.frozen(eq=False, repr=False, match_args=False)
class Infeasible(Value):
    """No version fits the limit. `smallest` is the best of those that need least time: its seconds are the least limit.

    What holds it up: `musts`, the entries that stay in every version, and `categories`, those that bind the session and
    that no must fills, each of which keeps an entry more.
    """

    session: Session
    limit: Fraction
    by: CutBy
    smallest: Version
    musts: tuple[Entry, ...]
    categories: tuple[Category, ...]


@attrs.frozen(eq=False, repr=False, match_args=False)
class Limit(Value):
    """From how many seconds on which version of a session is the best: kept sets of each entry in source order."""

    seconds: Fraction
    kept: Kept


def trim(program: Program, session: Session, limit: Fraction, by: CutBy) -> Version | Infeasible:
    """The best version of a session within a limit in seconds, cut by sets or by whole movements."""
    task = _task(program, session, by)
    if task.seconds(_time(task, _by_block(task, task.full))) <= limit:
        return _version(task, limit, task.full)
    smallest, best = _within(task.parts, task.change, math.floor(limit * task.scale))
    least = task.seconds(smallest)
    if least <= limit:
        return _version(task, limit, best)
    musts = tuple(entry for entry in session.entries if entry.priority == "must")
    still_open = categories_open(task.places)
    categories = tuple(each for each in program.categories if each.name in still_open)
    return Infeasible(session, limit, by, _version(task, least, best), musts, categories)


@remembered(16)  # a check of an athlete asks for what the sheets ask for again
def shortened(program: Program, session: Session, short: Short) -> Version | Infeasible:
    """The shorter version of a session that the program asks for."""
    return trim(program, session, short.limit.base, short.by)


@lru_cache(maxsize=256)  # in a crew many have sessions of the same times
def _within(parts: tuple[Part, ...], change: int, limit: int) -> tuple[int, Kept]:
    """The least time that a version needs, and the best version within a limit, or within that time where it is more."""
    search = prepare(parts, change)
    return search.least, search.best(max(limit, search.least))


def limits(program: Program, session: Session, by: CutBy) -> tuple[Limit, ...]:
    """All limits at which the best version of a session changes, from the shortest version to the full one.

    The version of each is the best up to the next limit, as `trim` would find it, but all are found at once.
    """
    task = _task(program, session, by)
    found = prepare(task.parts, task.change).every()
    return tuple(Limit(task.seconds(time), kept) for time, kept in found)


@attrs.frozen(eq=False, repr=False, match_args=False)
class _Task:
    """A session to trim: its blocks in whole numbers, in a unit of time that is a `scale`th of a second."""

    session: Session
    by: CutBy
    scale: int
    change: int  # between two blocks
    parts: tuple[Part, ...]

    @property
    def places(self) -> tuple[Place, ...]:
        return tuple(place for part in self.parts for place in part.places)

    @property
    def full(self) -> Kept:
        return tuple(place.full for place in self.places)

    def seconds(self, time: int) -> Fraction:
        return Fraction(time, self.scale)


def _task(program: Program, session: Session, by: CutBy) -> _Task:
    whole = whole_clock(session_clock(program, session))
    return _Task(session, by, whole.scale, whole.change, timed_parts(program, session, whole, by))


def binding_categories(program: Program, session: Session) -> tuple[Category, ...]:
    """The categories of which every version of a session that holds them keeps a movement."""
    return tuple(
        category
        for category in program.categories
        if category.required
        or session.name in {bound.name for bound in _bound_sessions(program, category, session.week)}
    )


def _bound_sessions(program: Program, category: Category, week: int | None) -> Iterator[Session]:
    """The sessions that keep a movement of a category for a week."""
    reached = 0
    for session in sessions_with(program, category.counts) if category.at_least else ():
        if session.week != week:
            continue
        if reached < (category.at_least or 0):
            yield session
        reached += times_a_week(session)


@remembered(8)
def timed_parts(program: Program, session: Session, whole: WholeClock, by: CutBy) -> tuple[Part, ...]:
    """The blocks of a session with their times in whole numbers."""
    binding = binding_categories(program, session)

    def place(block: Block, entry: Entry, times: tuple[int, ...]) -> Place:
        full = len(times) - 1
        least = max(full if by == "movements" else least_sets(entry, full), 1)
        return Place(entry.priority, least, full, fills(block, entry, binding), times)

    return tuple(
        Part(
            tuple(place(block, entry, times) for entry, times in zip(block.entries, timed.entries, strict=True)),
            timed.circuit,
            timed.change,
            timed.rest,
        )
        for block, timed in zip(session.blocks, whole.blocks, strict=True)
    )


def fills(block: Block, entry: Entry, binding: tuple[Category, ...]) -> frozenset[str]:
    """To which of the categories that bind a session an entry counts: to none in a warm-up or cool-down."""
    if block.kind not in COUNTED or not entry.dose.sets:
        return frozenset()
    return frozenset(category.name for category in binding if category.holds(entry.movement))


def _time(task: _Task, blocks: Sequence[Kept]) -> int:
    """The time of a version, given by block."""
    done = [block_time(part, kept) for part, kept in zip(task.parts, blocks, strict=True) if any(kept)]
    return sum(done) + max(len(done) - 1, 0) * task.change


def block_time(part: Part, kept: Kept) -> int:
    """The time of a block of a version, as `BlockClock.seconds` has it, in the unit of the part."""
    work = sum(place.times[sets] for place, sets in zip(part.places, kept, strict=True))
    if not part.circuit:
        return work + max(sum(map(bool, kept)) - 1, 0) * part.change
    rounds = max(kept, default=0)
    return work + (sum(kept) - rounds) * part.change + max(rounds - 1, 0) * part.rest


def _longer(task: _Task, blocks: Sequence[Kept], number: int, instead: Kept) -> int:
    """By how much longer a version is with another one of a block in it."""
    part, kept = task.parts[number], blocks[number]
    others = any(any(other) for at, other in enumerate(blocks) if at != number)
    changes = (any(instead) - any(kept)) * task.change if others else 0
    return block_time(part, instead) - block_time(part, kept) + changes


def _version(task: _Task, limit: Fraction, kept: Kept) -> Version:
    """A version, which is the best within a limit."""
    blocks, full = _by_block(task, kept), _by_block(task, task.full)
    seconds, full_seconds = task.seconds(_time(task, blocks)), task.seconds(_time(task, full))
    cuts = _cuts(task, blocks, full, seconds - limit)
    return Version(task.session, limit, task.by, kept, seconds, full_seconds, tuple(cuts))


def _by_block(task: _Task, kept: Kept) -> list[Kept]:
    numbers = iter(kept)
    return [tuple(islice(numbers, len(part.places))) for part in task.parts]


def _cuts(task: _Task, blocks: Sequence[Kept], full: Sequence[Kept], over: Fraction) -> Iterator[Cut]:
    """The cuts of a version that is over its limit by so many seconds, which are none or fewer."""
    entries = enumerate(task.session.entries)
    for number, (part, kept, whole) in enumerate(zip(task.parts, blocks, full, strict=True)):
        # The block comes first: an entry that `zip` has taken and not used would be lost.
        for at, (index, entry) in zip(range(len(kept)), entries, strict=False):
            if kept[at] == whole[at]:
                continue
            saved = -_longer(task, full, number, _with(whole, at, kept[at]))
            back = _longer(task, blocks, number, _step_back(part, kept, at))
            reason = _reason(part, entry.priority, kept[at])
            yield Cut(index, entry, kept[at], whole[at], task.seconds(saved), task.seconds(back) + over, reason)


def _with(kept: Kept, at: int, sets: int) -> Kept:
    return (*kept[:at], sets, *kept[at + 1 :])


def _step_back(part: Part, kept: Kept, at: int) -> Kept:
    """A block with one cut taken back by the least that can be: in a circuit all that is kept of it goes along."""
    least = part.places[at].least
    if not part.circuit:
        return _with(kept, at, kept[at] + 1 if kept[at] else least)
    rounds = max(kept) + 1 if kept[at] else max(*kept, least)
    return tuple(rounds if sets or number == at else 0 for number, sets in enumerate(kept))


def _reason(part: Part, priority: Priority, kept: int) -> Reason:
    if kept:
        return "rounds" if part.circuit else "fewer-sets"
    return _DROPPED[priority]
