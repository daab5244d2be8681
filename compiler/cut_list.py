"""The cut list: what an athlete who runs late leaves out, one thing after another, and when each is needed.

A cut list goes from the full session, step by step, to a version that cannot be cut further. Each version is a part of
the one before it, so that cuts once made stay right however late it gets. It is cut as the session's first `short` says,
else by sets:

* by movements: whole movements go, `may` before `do` before `key`, never a `must`;
* by sets: first single sets, and in a circuit rounds, as evenly as can be and never below `at least N sets`; then
  movements.

Where several could be next: first the word of the least priority, then work before a warm-up, then what saves most, then
what stands later in the session. For a circuit's round counts the highest word in it.

What always stays: every `must`, the last movement of a category that binds the session (required, or kept for the week,
as `trim.py` has it), a movement of the warm-up (whoever is late is tempted to start cold; common practice, no source),
and one movement of the session. A cool-down goes by its words.

A list on paper has to be short: where it would have more than `MOST_STEPS` steps, or one that saves less than
`LEAST_SAVED`, neighbouring steps become one. Every step still leads to one of the versions.

The cuts are not the best version within a limit, as `trim` finds it: versions within rising limits are not parts of each
other, and nobody changes to another plan halfway through a session.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import lru_cache
from itertools import accumulate, groupby, pairwise
from operator import itemgetter
from typing import NamedTuple

import attrs

from .best_version import Part, Place
from .clock import Kept, least_sets, session_clock, whole_clock
from .model import PRIORITIES, Block, CutBy, Entry, Program, Session, Value
from .trim import block_time, timed_parts

MOST_STEPS = 12
LEAST_SAVED = Fraction(30)  # seconds


@attrs.frozen(eq=False, repr=False, match_args=False)
class Less(Value):
    """What stays of an entry, 0 sets where it is left out; without an entry it is the rounds of a circuit.

    `index` is the place of the entry in the session, or of the circuit's first, counted from 0.
    """

    index: int
    block: Block
    entry: Entry | None
    kept: int


@attrs.frozen(eq=False, repr=False, match_args=False)
class Step(Value):
    """One cut: what is less than in the version before, the version it leads to, and the seconds that are saved.

    `saved` is on top of the steps before, `together` with them.
    """

    less: tuple[Less, ...]
    kept: Kept
    saved: Fraction
    together: Fraction


@attrs.frozen(eq=False, repr=False, match_args=False)
class Pace(Value):
    """A block on the clock, in seconds after the session began.

    `start` is when it is planned to begin. `until` has, for each step, the latest start at which the steps before it
    bring the session inside its limit; None where the step lies in earlier blocks. `last` is the latest start at which
    all steps together do.
    """

    block: Block
    start: Fraction
    until: tuple[Fraction | None, ...]
    last: Fraction


@attrs.frozen(eq=False, repr=False, match_args=False)
class CutList(Value):
    """The cuts of a session in their order, and the pace of its blocks where the session has a limit."""

    session: Session
    by: CutBy
    steps: tuple[Step, ...]
    pace: tuple[Pace, ...]


def cut_list(program: Program, session: Session) -> CutList:
    """The cut list of a session."""
    by: CutBy = session.shorts[0].by if session.shorts else "sets"
    work = _work(program, session, by)
    found = _found(work)
    steps = tuple(_steps(session, found))
    pace = () if session.within is None else _pace(work, session, found, session.within.base)
    return CutList(session, by, steps, pace)


# The session at work

# What its last movement stays for, beside required categories; no name is spelt like this.
_WARM_UP = "a warm-up"


class _Place(NamedTuple):
    """What decides about the cuts of an entry."""

    rank: int  # the least priority first
    least: int
    full: int
    needed_for: frozenset[str]
    warm_up: bool

    @property
    def stays(self) -> bool:
        return self.rank == 0


class _Work(NamedTuple):
    """A session and its clock. Times are whole numbers here, in a unit that is a `scale`th of a second."""

    by: CutBy
    scale: int
    change: int  # between two blocks
    places: tuple[_Place, ...]
    blocks: tuple[Part, ...]

    def seconds(self, time: int) -> Fraction:
        return Fraction(time, self.scale)

    @property
    def each(self) -> Iterator[tuple[Part, slice]]:
        """Each block with where its entries are."""
        ends = accumulate((len(one.places) for one in self.blocks), initial=0)
        return zip(self.blocks, (slice(*both) for both in pairwise(ends)), strict=True)

    def time(self, kept: Kept) -> int:
        """The time of what a version keeps, from its first set to the end of its last."""
        times = [block_time(block, here) for block, part in self.each if any(here := kept[part])]
        return sum(times) + max(len(times) - 1, 0) * self.change

    def left(self, kept: Kept) -> tuple[int, ...]:
        """For each block the time from when it is to begin to the end of the session, 0 where nothing is left.

        Whoever stands ready at a block that the version leaves out has yet to change to what comes next.
        """
        told: list[int] = []
        left, something = 0, False
        for block, part in reversed(tuple(self.each)):
            if any(here := kept[part]):
                left += block_time(block, here) + (self.change if something else 0)
                something = True
                told.append(left)
            else:
                told.append(left + self.change if left else 0)
        return tuple(reversed(told))

    def touched(self, before: Kept, after: Kept) -> int:
        """In how many blocks two versions differ."""
        return sum(before[part] != after[part] for _, part in self.each)

    def units(self) -> Iterator[tuple[int, range]]:
        """The entries that lose sets together, with their block: each by itself, those of a circuit all at once."""
        for number, (block, part) in enumerate(self.each):
            if block.circuit:
                yield number, range(part.start, part.stop)
            else:
                yield from ((number, range(index, index + 1)) for index in range(part.start, part.stop))


def _work(program: Program, session: Session, by: CutBy) -> _Work:
    whole = whole_clock(session_clock(program, session))
    blocks = timed_parts(program, session, whole, "sets")
    places = tuple(
        _place(block, entry, place)
        for block, part in zip(session.blocks, blocks, strict=True)
        for entry, place in zip(block.entries, part.places, strict=True)
    )
    return _Work(by, whole.scale, whole.change, places, blocks)


def _place(block: Block, entry: Entry, timed: Place) -> _Place:
    warm_up = block.kind == "warm-up"
    needed_for = frozenset({_WARM_UP}) if warm_up else timed.fills
    least = least_sets(entry, timed.full)
    return _Place(-PRIORITIES.index(entry.priority), least, timed.full, needed_for, warm_up)


# The chain of versions

_Order = tuple[int, ...]
_Until = tuple[Fraction | None, ...]


class _Lost(NamedTuple):
    """What a step takes: of which entry, in which block (the rounds of a circuit as a whole), and what is kept."""

    entry: int
    block: int
    rounds: bool
    kept: int


class _Found(NamedTuple):
    """The full version and each that a step leads to, and of each step what it takes and saves, alone and together.

    `times` are those of the versions, `left` what is left of each from the beginning of each block on.
    """

    versions: tuple[Kept, ...]
    steps: tuple[tuple[tuple[_Lost, ...], Fraction, Fraction], ...]
    times: tuple[int, ...]
    left: tuple[tuple[int, ...], ...]


@lru_cache(maxsize=256)  # in a crew many have sessions of the same times
def _found(work: _Work) -> _Found:
    versions = tuple(_joined(work, list(_chain(work))))
    times = tuple(map(work.time, versions))
    steps = tuple(
        (tuple(_lost(work, before, after)), work.seconds(long - short), work.seconds(times[0] - short))
        for (before, after), (long, short) in zip(pairwise(versions), pairwise(times), strict=True)
    )
    return _Found(versions, steps, times, tuple(map(work.left, versions)))


def _lost(work: _Work, before: Kept, after: Kept) -> Iterator[_Lost]:
    for number, indices in work.units():
        circuit = work.blocks[number].circuit
        rounds = {after[index] for index in indices if after[index] != before[index]} - {0}
        if circuit and rounds:
            yield _Lost(indices[0], number, True, max(rounds))
        for index in indices:
            if before[index] != after[index] and (not after[index] or not circuit):
                yield _Lost(index, number, False, after[index])


def _chain(work: _Work) -> Iterator[Kept]:
    """The full version, and then each with one set, round or movement less than the one before."""
    kept: Kept | None = tuple(place.full for place in work.places)
    while kept is not None:
        yield kept
        kept = _next(work, kept)


def _next(work: _Work, kept: Kept) -> Kept | None:
    """The version after the next cut; None where no cut that is allowed saves anything."""
    now = work.time(kept)
    for _, equal in groupby(sorted(_cuts(work, kept)), key=itemgetter(0)):
        saved = [(now - work.time(less), index, less) for _, index, less in equal]
        if max(saved)[0] > 0:
            return max(saved)[-1]
    return None


def _cuts(work: _Work, kept: Kept) -> Iterator[tuple[_Order, int, Kept]]:
    """Every cut that may be next: its place in the order, where it stands, and the version it leads to."""
    if work.by == "sets":
        yield from _cuts_of_sets(work, kept)
    staying = [place for place, sets in zip(work.places, kept, strict=True) if sets]
    left = Counter(name for place in staying for name in place.needed_for)
    for index, place in enumerate(work.places):
        free = not place.stays and all(left[name] > 1 for name in place.needed_for)
        if kept[index] and free and len(staying) > 1:
            yield (1, 0, place.rank, place.warm_up), index, _with(kept, (index,), 0)


def _cuts_of_sets(work: _Work, kept: Kept) -> Iterator[tuple[_Order, int, Kept]]:
    for _, indices in work.units():
        staying = [index for index in indices if kept[index]]
        places = [work.places[index] for index in staying]
        if staying and kept[staying[0]] > max(place.least for place in places):
            sets = kept[staying[0]] - 1
            order = (0, places[0].full - sets, max(place.rank for place in places), places[0].warm_up)
            yield order, staying[-1], _with(kept, staying, sets)


def _with(kept: Kept, indices: Iterable[int], sets: int) -> Kept:
    less = list(kept)
    for index in indices:
        less[index] = sets
    return tuple(less)


def _joined(work: _Work, versions: list[Kept]) -> list[Kept]:
    """The versions without some of those between, so that the list of the steps from each to the next is short."""
    saved = [work.time(before) - work.time(after) for before, after in pairwise(versions)]
    least = int(LEAST_SAVED * work.scale)
    while len(saved) > 1 and (len(saved) > MOST_STEPS or min(saved) < least):
        costs = [
            (min(saved[at : at + 2]) >= least, work.touched(versions[at], versions[at + 2]), sum(saved[at : at + 2]))
            for at in range(len(saved) - 1)
        ]
        at = costs.index(min(costs))
        versions = versions[: at + 1] + versions[at + 2 :]
        saved = [*saved[:at], sum(saved[at : at + 2]), *saved[at + 2 :]]
    return versions


# What is told of it


def _steps(session: Session, found: _Found) -> Iterator[Step]:
    entries = session.entries
    for (lost, saved, together), kept in zip(found.steps, found.versions[1:], strict=True):
        less = (
            Less(one.entry, session.blocks[one.block], None if one.rounds else entries[one.entry], one.kept)
            for one in lost
        )
        yield Step(tuple(less), kept, saved, together)


def _pace(work: _Work, session: Session, found: _Found, limit: Fraction) -> tuple[Pace, ...]:
    """The pace of each block that holds anything."""
    return tuple(
        Pace(session.blocks[number], start, until, last) for number, start, until, last in _minutes(work, found, limit)
    )


@lru_cache(maxsize=256)
def _minutes(work: _Work, found: _Found, limit: Fraction) -> tuple[tuple[int, Fraction, _Until, Fraction], ...]:
    """The figures of each pace, with the number of its block."""
    versions = found.versions

    def until(number: int, at: int, step: int) -> Fraction | None:
        """The latest start of a block with the steps before one, None where that cuts nothing from the block on."""
        if versions[step][at:] == versions[step + 1][at:]:
            return None
        return limit - work.seconds(found.left[step][number])

    return tuple(
        (
            number,
            work.seconds(found.times[0] - found.left[0][number]),
            tuple(until(number, part.start, step) for step in range(len(versions) - 1)),
            limit - work.seconds(found.left[-1][number]),
        )
        for number, (_, part) in enumerate(work.each)
        if any(versions[0][part])
    )
