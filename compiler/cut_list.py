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
from itertools import accumulate, groupby, pairwise
from operator import itemgetter

import attrs

from .clock import Kept, SessionClock, full_sets, full_version, least_sets, session_clock
from .model import PRIORITIES, Block, Category, CutBy, Entry, Program, Session, Value
from .trim import binding_categories, fills

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
    versions = _joined(work, list(_chain(work)))
    steps = tuple(_step(work, versions[0], *both) for both in pairwise(versions))
    pace = () if session.within is None else tuple(_pace(work, versions, session.within.base))
    return CutList(session, by, steps, pace)


# The session at work

# What its last movement stays for, beside required categories; no name is spelt like this.
_WARM_UP = "a warm-up"


@attrs.frozen(eq=False, repr=False, match_args=False)
class _Place:
    """An entry and what decides about its cuts."""

    entry: Entry
    least: int
    needed_for: frozenset[str]
    warm_up: bool

    @property
    def rank(self) -> int:
        """The least priority first."""
        return -PRIORITIES.index(self.entry.priority)


@attrs.frozen(eq=False, repr=False, match_args=False)
class _Work:
    """A session and its clock. Times are whole numbers here, in a unit that is a `scale`th of a second.

    Its versions differ in few blocks: the time of each is worked out once.
    """

    clock: SessionClock
    by: CutBy
    scale: int
    change: int  # between two blocks
    places: tuple[_Place, ...]
    parts: tuple[slice, ...]  # the entries of each block
    known: dict[tuple[int, Kept], int] = attrs.field(factory=dict)

    def seconds(self, time: int) -> Fraction:
        return Fraction(time, self.scale)

    def time(self, kept: Kept, first: int = 0) -> int:
        """The time of what a version keeps from a block on, from its first set to the end of its last."""
        blocks = [(number, kept[part]) for number, part in enumerate(self.parts) if number >= first]
        done = [self._block_time(number, here) for number, here in blocks if any(here)]
        return sum(done) + max(len(done) - 1, 0) * self.change

    def _block_time(self, number: int, kept: Kept) -> int:
        if (number, kept) not in self.known:
            self.known[number, kept] = int(self.clock.blocks[number].seconds(kept) * self.scale)
        return self.known[number, kept]

    def touched(self, before: Kept, after: Kept) -> int:
        """In how many blocks two versions differ."""
        return sum(before[part] != after[part] for part in self.parts)

    def units(self) -> Iterator[tuple[Block, range]]:
        """The entries that lose sets together: each by itself, those of a circuit all at once."""
        for part, clock in zip(self.parts, self.clock.blocks, strict=True):
            if clock.block.rounds is not None:
                yield clock.block, range(part.start, part.stop)
            else:
                yield from ((clock.block, range(index, index + 1)) for index in range(part.start, part.stop))


def _work(program: Program, session: Session, by: CutBy) -> _Work:
    binding = binding_categories(program, session)
    places = tuple(_place(block, entry, binding) for block in session.blocks for entry in block.entries)
    ends = accumulate((len(block.entries) for block in session.blocks), initial=0)
    clock = session_clock(program, session)
    scale = clock.denominator
    return _Work(clock, by, scale, int(clock.change * scale), places, tuple(slice(*both) for both in pairwise(ends)))


def _place(block: Block, entry: Entry, binding: tuple[Category, ...]) -> _Place:
    warm_up = block.kind == "warm-up"
    needed_for = frozenset({_WARM_UP}) if warm_up else fills(block, entry, binding)
    return _Place(entry, least_sets(entry, full_sets(block, entry)), needed_for, warm_up)


# The chain of versions

_Order = tuple[int, ...]


def _chain(work: _Work) -> Iterator[Kept]:
    """The full version, and then each with one set, round or movement less than the one before."""
    kept: Kept | None = full_version(work.clock.session)
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
        free = place.entry.priority != "must" and all(left[name] > 1 for name in place.needed_for)
        if kept[index] and free and len(staying) > 1:
            yield (1, 0, place.rank, place.warm_up), index, _with(kept, (index,), 0)


def _cuts_of_sets(work: _Work, kept: Kept) -> Iterator[tuple[_Order, int, Kept]]:
    full = full_version(work.clock.session)
    for _, indices in work.units():
        staying = [index for index in indices if kept[index]]
        places = [work.places[index] for index in staying]
        if staying and kept[staying[0]] > max(place.least for place in places):
            sets = kept[staying[0]] - 1
            order = (0, full[staying[0]] - sets, max(place.rank for place in places), places[0].warm_up)
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


def _step(work: _Work, full: Kept, before: Kept, after: Kept) -> Step:
    time = work.time(after)
    saved, together = (work.seconds(work.time(other) - time) for other in (before, full))
    return Step(tuple(_less(work, before, after)), after, saved, together)


def _less(work: _Work, before: Kept, after: Kept) -> Iterator[Less]:
    for block, indices in work.units():
        rounds = {after[index] for index in indices if after[index] != before[index]} - {0}
        if block.rounds is not None and rounds:
            yield Less(indices[0], block, None, max(rounds))
        for index in indices:
            if before[index] != after[index] and (not after[index] or block.rounds is None):
                yield Less(index, block, work.places[index].entry, after[index])


def _pace(work: _Work, versions: list[Kept], limit: Fraction) -> Iterator[Pace]:
    """The pace of each block that holds anything."""
    for number, timed in enumerate(work.clock.timetable(versions[0]).blocks):
        if any(entry.kept for entry in timed.entries):
            at = work.parts[number].start
            until = (
                limit - work.seconds(_time_left(work, before, number)) if before[at:] != after[at:] else None
                for before, after in pairwise(versions)
            )
            last = limit - work.seconds(_time_left(work, versions[-1], number))
            yield Pace(timed.block, timed.start, tuple(until), last)


def _time_left(work: _Work, kept: Kept, number: int) -> int:
    """The time from the start of a block to the end of the session.

    Whoever stands ready at a block that the version leaves out has yet to change to what comes next.
    """
    left = work.time(kept, number)
    return left if any(kept[work.parts[number]]) or not left else left + work.change
