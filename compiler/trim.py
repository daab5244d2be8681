"""The best shorter version of a session, exactly.

Among all versions within a limit that keep every `must` and leave no required category empty, the one that keeps most
`key` movements, then most `do`, then most `may`, then most sets; then the one that cuts most evenly (smallest sum of
the squares of the sets cut), then the one whose earlier entries keep more sets. The order of work stays. A required
category that the full session leaves empty is left out: no version could fill it.

A version is built one entry after another. What the rest of it may be depends on the little that a `State` says of the
part before, so the best ends of a session are worked out from its last entry to its first: of the ends that can follow
a state, all those are kept for which no other takes as little time and is worth as much. Times are whole numbers here:
seconds times the common denominator of all times of the session.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterator
from fractions import Fraction
from typing import Literal, NamedTuple, TypeAlias

import attrs

from .clock import Kept, SessionClock, full_version, session_clock
from .model import Block, Category, CutBy, Entry, Priority, Program, Session

# Why something goes: a movement by its priority (`priority` is a key, which goes only where cutting `do` and `may` does
# not help), or sets of a movement, or rounds of a circuit.
Reason = Literal["optional", "ordinary", "priority", "fewer-sets", "rounds"]
_DROPPED: dict[Priority, Reason] = {"may": "optional", "do": "ordinary", "key": "priority"}


@attrs.frozen
class Cut:
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


@attrs.frozen
class Version:
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


@attrs.frozen
class Infeasible:
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
    if task.least <= limit:
        return _version(task, limit)
    smallest = _version(task, task.least)
    musts = tuple(entry for entry in session.entries if entry.priority == "must")
    return Infeasible(session, limit, by, smallest, musts, task.open_categories)


class State(NamedTuple):
    """What the rest of a session has to know of the part before it."""

    started: bool  # something is kept already
    here: int  # of this block: 0 nothing kept; in a circuit the rounds; else 1
    wanted: frozenset[str]  # required categories that still have no movement


class Choice(NamedTuple):
    """One number of kept sets for an entry: time and worth that it adds, and the state after it."""

    kept: int
    time: int
    worth: int
    state: State


# Ways to end a session, each its time and worth; both rise, and no way is worth less than one that takes less time.
Ends: TypeAlias = list[tuple[int, int]]


@attrs.frozen
class _Place:
    """One entry as the search sees it: times as whole numbers, by kept sets."""

    priority: Priority
    opens_block: bool
    rounds: bool
    least: int
    full: int
    fills: frozenset[str]
    times: tuple[int, ...]
    worths: tuple[int, ...]
    change_before_block: int
    change: int
    rest: int

    def choices(self, state: State) -> Iterator[Choice]:
        """What can be kept of the entry, the most first."""
        if self.opens_block:
            state = state._replace(here=0)
        for kept in self._sets(state.here):
            time = self.times[kept] + self._time_before(state, kept)
            after = State(True, kept if self.rounds else 1, state.wanted - self.fills)
            yield Choice(kept, time, self.worths[kept], after)
        if self.priority != "must" or not self.full:
            yield Choice(0, 0, self.worths[0], state)

    def _sets(self, here: int) -> range:
        """The numbers of sets that the entry may keep; in a circuit the rounds of those kept before it."""
        if self.rounds and here:
            return range(here, here - 1 if here >= self.least else here, -1)
        return range(self.full, self.least - 1, -1)

    def _time_before(self, state: State, kept: int) -> int:
        """The changes to this entry, and the rests of a circuit with the first entry kept of it."""
        if state.here:
            return self.change * (kept if self.rounds else 1)
        change = self.change_before_block if state.started else 0
        return change + (self.rest * (kept - 1) if self.rounds else 0)


@attrs.frozen
class _Task:
    """A session to trim, with all choices of each entry by the state before it."""

    clock: SessionClock
    by: CutBy
    scale: int
    places: tuple[_Place, ...]
    open_categories: tuple[Category, ...]
    choices: tuple[dict[State, tuple[Choice, ...]], ...]
    reached: tuple[dict[State, int], ...]  # the least time to each state before each entry, and after the last

    @property
    def least(self) -> Fraction:
        """Seconds of the shortest version that there can be."""
        return Fraction(min(time for state, time in self.reached[-1].items() if not state.wanted), self.scale)

    @property
    def start(self) -> State:
        return next(iter(self.reached[0]))


def _task(program: Program, session: Session, by: CutBy) -> _Task:
    clock = session_clock(program, session)
    kinds = [(block, entry) for block in session.blocks for entry in block.entries]
    filled = [_fills(program, block, entry) for block, entry in kinds]
    stays = frozenset[str]().union(*(names for names, (_, entry) in zip(filled, kinds, strict=True) if _stays(entry)))
    wanted = frozenset[str]().union(*filled) - stays
    scale = _scale(clock)
    places = tuple(_places(clock, filled, wanted, scale, by))
    choices, reached = _all_choices(places, State(False, 0, wanted))
    missing = tuple(category for category in program.categories if category.name in wanted)
    return _Task(clock, by, scale, places, missing, choices, reached)


def _stays(entry: Entry) -> bool:
    return entry.priority == "must" and bool(entry.dose.sets)


def _fills(program: Program, block: Block, entry: Entry) -> frozenset[str]:
    """The required categories to which an entry counts: none in a warm-up or cool-down."""
    if block.kind not in ("work", "conditioning") or not entry.dose.sets:
        return frozenset()
    return frozenset(each.name for each in program.categories if each.required and each.holds(entry.movement))


def _scale(clock: SessionClock) -> int:
    """The common denominator of all times of a session."""
    times = [clock.change]
    for block in clock.blocks:
        times += [block.change, block.rest]
        for entry in block.entries:
            times += [*entry.ramp, *entry.sets, entry.rest]
    return math.lcm(*(time.denominator for time in times))


def _places(
    clock: SessionClock, filled: list[frozenset[str]], wanted: frozenset[str], scale: int, by: CutBy
) -> Iterator[_Place]:
    full = full_version(clock.session)
    base = 1 + sum(sets**2 for sets in full) + len(full)
    index = 0
    for block in clock.blocks:
        for number, part in enumerate(block.entries):
            sets, priority = full[index], part.entry.priority
            yield _Place(
                priority=priority,
                opens_block=number == 0,
                rounds=block.block.rounds is not None,
                least=max(sets if by == "movements" else min(part.entry.dose.least_sets, sets), 1),
                full=sets,
                fills=filled[index] & wanted,
                times=tuple(int(block.entry_seconds(number, kept) * scale) for kept in range(sets + 1)),
                worths=tuple(_worth(priority, kept, sets, base) for kept in range(sets + 1)),
                change_before_block=int(clock.change * scale),
                change=int(block.change * scale),
                rest=int(block.rest * scale),
            )
            index += 1


def _worth(priority: Priority, kept: int, full: int, base: int) -> int:
    """What keeping so many sets counts: the levels of the goal as digits of one number, so that worths can be added."""
    movement = {"key": base**4, "do": base**3, "may": base**2, "must": 0}[priority] if kept else 0
    return movement + base * kept - (full - kept) ** 2


def _all_choices(
    places: tuple[_Place, ...], start: State
) -> tuple[tuple[dict[State, tuple[Choice, ...]], ...], tuple[dict[State, int], ...]]:
    """Every choice from every state that can be reached, and the least time in which each state is reached."""
    choices: list[dict[State, tuple[Choice, ...]]] = []
    reached: list[dict[State, int]] = [{start: 0}]
    for place in places:
        choices.append({state: tuple(place.choices(state)) for state in reached[-1]})
        after: dict[State, int] = {}
        for state, options in choices[-1].items():
            for choice in options:
                time = reached[-1][state] + choice.time
                after[choice.state] = min(time, after.get(choice.state, time))
        reached.append(after)
    return tuple(choices), tuple(reached)


def _version(task: _Task, limit: Fraction) -> Version:
    """The best version within a limit that is not below the least."""
    clock = task.clock
    kept = _best(task, math.floor(limit * task.scale))
    full = full_version(clock.session)
    seconds, full_seconds = clock.seconds(kept), clock.seconds(full)
    cuts = tuple(
        Cut(
            index,
            clock.session.entries[index],
            kept[index],
            full[index],
            full_seconds - clock.seconds(_with(full, index, kept[index])),
            clock.seconds(_step_back(task, kept, index)) - limit,
            _reason(task.places[index], kept[index]),
        )
        for index in range(len(full))
        if kept[index] < full[index]
    )
    return Version(clock.session, limit, task.by, kept, seconds, full_seconds, cuts)


def _best(task: _Task, limit: int) -> Kept:
    """The kept sets of the best version: from the first entry on the most with which its worth can still be had."""
    ends = _all_ends(task, limit)
    state = task.start
    time, worth = limit, ends[0][state][-1][1]
    kept: list[int] = []
    for index, choices in enumerate(task.choices):
        choice = next(
            choice
            for choice in choices[state]
            if _worth_within(ends[index + 1][choice.state], time - choice.time) == worth - choice.worth
        )
        kept.append(choice.kept)
        state, time, worth = choice.state, time - choice.time, worth - choice.worth
    return tuple(kept)


def _all_ends(task: _Task, limit: int) -> list[dict[State, Ends]]:
    """The ends worth having from every state before every entry, and after the last."""
    ends: list[dict[State, Ends]] = [{state: [] if state.wanted else [(0, 0)] for state in task.reached[-1]}]
    for choices, reached in zip(reversed(task.choices), reversed(task.reached[:-1]), strict=True):
        after = ends[-1]
        ends.append({state: _undominated(options, after, limit - reached[state]) for state, options in choices.items()})
    return ends[::-1]


def _undominated(choices: tuple[Choice, ...], after: dict[State, Ends], limit: int) -> Ends:
    """The ends that start with one of the choices and for which no other takes as little time and is worth as much."""
    ends = [
        (time + choice.time, worth + choice.worth)
        for choice in choices
        for time, worth in after[choice.state]
        if time + choice.time <= limit
    ]
    ends.sort(key=lambda end: (end[0], -end[1]))
    best: Ends = []
    for end in ends:
        if not best or end[1] > best[-1][1]:
            best.append(end)
    return best


def _worth_within(ends: Ends, time: int) -> int | None:
    """The most that an end within a time is worth; None where none is."""
    at = bisect_right(ends, time, key=lambda end: end[0])
    return ends[at - 1][1] if at else None


def _with(kept: Kept, index: int, sets: int) -> Kept:
    return (*kept[:index], sets, *kept[index + 1 :])


def _step_back(task: _Task, kept: Kept, index: int) -> Kept:
    """The version with one cut taken back by the least that can be: in a circuit all that is kept of it goes along."""
    place = task.places[index]
    if not place.rounds:
        return _with(kept, index, kept[index] + 1 if kept[index] else place.least)
    first = max(number for number in range(index + 1) if task.places[number].opens_block)
    past = next((n for n in range(index + 1, len(kept)) if task.places[n].opens_block), len(kept))
    rounds = max(kept[first:past])
    rounds = rounds + 1 if kept[index] else max(rounds, place.least)
    circuit = (rounds if sets or first + number == index else 0 for number, sets in enumerate(kept[first:past]))
    return (*kept[:first], *circuit, *kept[past:])


def _reason(place: _Place, kept: int) -> Reason:
    if kept:
        return "rounds" if place.rounds else "fewer-sets"
    return _DROPPED[place.priority]
