"""The best shorter version of a session, exactly.

Among all versions within a limit that keep every `must` and leave no required category empty, the one that keeps most
`key` movements, then most `do`, then most `may`, then most sets; then the one that cuts most evenly (smallest sum of
the squares of the sets cut), then the one whose earlier entries keep more sets. The order of work stays. A required
category that the full session leaves empty is left out: no version could fill it.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterator
from fractions import Fraction
from itertools import accumulate
from typing import Literal

import attrs

from .best_version import Place, Search, prepare
from .clock import BlockClock, Kept, SessionClock, full_version, session_clock
from .model import Block, Category, CutBy, Entry, Priority, Program, Session, Value

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

    What holds it up: `musts`, the entries that stay in every version, and `categories`, the required ones that no must
    fills, each of which keeps an entry more.
    """

    session: Session
    limit: Fraction
    by: CutBy
    smallest: Version
    musts: tuple[Entry, ...]
    categories: tuple[Category, ...]


def trim(program: Program, session: Session, limit: Fraction, by: CutBy) -> Version | Infeasible:
    """The best version of a session within a limit in seconds, cut by sets or by whole movements."""
    task = _task(program, session, by)
    least = Fraction(task.search.least, task.scale)
    if least <= limit:
        return _version(task, limit)
    musts = tuple(entry for entry in session.entries if entry.priority == "must")
    categories = tuple(each for each in program.categories if each.name in task.search.start.wanted)
    return Infeasible(session, limit, by, _version(task, least), musts, categories)


@attrs.frozen(eq=False, repr=False, match_args=False)
class _Task:
    """A session to trim: its clock, and the search with its unit of time, a `scale`th of a second."""

    clock: SessionClock
    by: CutBy
    scale: int
    places: tuple[Place, ...]
    search: Search


def _task(program: Program, session: Session, by: CutBy) -> _Task:
    clock = session_clock(program, session)
    scale = _scale(clock)
    places = tuple(
        _place(clock, block, number, by, scale=scale, fills=_fills(program, block.block, entry.entry))
        for block in clock.blocks
        for number, entry in enumerate(block.entries)
    )
    return _Task(clock, by, scale, places, prepare(places))


def _scale(clock: SessionClock) -> int:
    """The common denominator of all times of a session."""
    times = [clock.change]
    for block in clock.blocks:
        times += [block.change, block.rest]
        for entry in block.entries:
            times += [*entry.ramp, *entry.sets, entry.rest]
    return math.lcm(*(time.denominator for time in times))


def _place(
    clock: SessionClock, block: BlockClock, number: int, by: CutBy, *, scale: int, fills: frozenset[str]
) -> Place:
    entry = block.entries[number].entry
    full = len(block.entries[number].sets)
    return Place(
        priority=entry.priority,
        closes_block=number == len(block.entries) - 1,
        circuit=block.block.rounds is not None,
        least=max(full if by == "movements" else min(entry.dose.least_sets, full), 1),
        full=full,
        fills=fills,
        times=tuple(int(block.entry_seconds(number, kept) * scale) for kept in range(full + 1)),
        block_change=int(clock.change * scale),
        change=int(block.change * scale),
        rest=int(block.rest * scale),
    )


def _fills(program: Program, block: Block, entry: Entry) -> frozenset[str]:
    """The required categories to which an entry counts: none in a warm-up or cool-down."""
    if block.kind not in ("work", "conditioning") or not entry.dose.sets:
        return frozenset()
    return frozenset(each.name for each in program.categories if each.required and each.holds(entry.movement))


def _version(task: _Task, limit: Fraction) -> Version:
    """The best version within a limit that is not below the least."""
    clock = task.clock
    kept = task.search.best(math.floor(limit * task.scale))
    full = full_version(clock.session)
    seconds, full_seconds = clock.seconds(kept), clock.seconds(full)
    return Version(clock.session, limit, task.by, kept, seconds, full_seconds, tuple(_cuts(task, limit, kept, full)))


def _cuts(task: _Task, limit: Fraction, kept: Kept, full: Kept) -> Iterator[Cut]:
    full_seconds = task.clock.seconds(full)
    for index, entry in enumerate(task.clock.session.entries):
        if kept[index] == full[index]:
            continue
        saved = full_seconds - task.clock.seconds(_with(full, index, kept[index]))
        lacking = task.clock.seconds(_step_back(task, kept, index)) - limit
        reason = _reason(task.places[index], kept[index])
        yield Cut(index, entry, kept[index], full[index], saved, lacking, reason)


def _with(kept: Kept, index: int, sets: int) -> Kept:
    return (*kept[:index], sets, *kept[index + 1 :])


def _step_back(task: _Task, kept: Kept, index: int) -> Kept:
    """The version with one cut taken back by the least that can be: in a circuit all that is kept of it goes along."""
    place = task.places[index]
    if not place.circuit:
        return _with(kept, index, kept[index] + 1 if kept[index] else place.least)
    first, past = _block_of(task.clock, index)
    rounds = max(kept[first:past])
    rounds = rounds + 1 if kept[index] else max(rounds, place.least)
    circuit = (rounds if sets or number == index else 0 for number, sets in enumerate(kept[first:past], first))
    return (*kept[:first], *circuit, *kept[past:])


def _block_of(clock: SessionClock, index: int) -> tuple[int, int]:
    """The first entry of the block in which an entry stands, and the first after it."""
    past = list(accumulate(len(block.entries) for block in clock.blocks))
    number = bisect_right(past, index)
    return past[number] - len(clock.blocks[number].entries), past[number]


def _reason(place: Place, kept: int) -> Reason:
    if kept:
        return "rounds" if place.circuit else "fewer-sets"
    return _DROPPED[place.priority]
