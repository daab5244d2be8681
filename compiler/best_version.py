"""The search for the best version of a session: which sets of each entry to keep within a limit, exactly.

A version is a way through states, one step an entry: a step keeps some sets, takes time and gives something up. What
the rest of a version may be depends on the little that a `State` says of the part before. Of all ways to a state, and
of all from it, a front is kept: those for which no other way takes as little time and gives up as little.

What is given up is a number whose digits are the levels of the goal, so that the search can look at the first digits
alone. It runs backward for movements, forward for movements and sets, and backward again for everything; each run drops
the ways with which, by the run before it, the best can no longer be had. That saves time and changes no result.

Times are whole numbers, in a unit of the caller.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable
from typing import NamedTuple, TypeAlias

import attrs

from .model import Priority

# Ways, each as its time and what it gives up: from one to the next the first rises and the second falls.
Front: TypeAlias = list[tuple[int, int]]


class State(NamedTuple):
    """What the rest of a version has to know of the part before it."""

    started: bool  # something is kept already
    here: int  # of this block: 0 nothing kept; in a circuit the rounds; else 1
    wanted: frozenset[str]  # required categories that still have no movement


Fronts: TypeAlias = dict[State, Front]


class Step(NamedTuple):
    """One number of kept sets for an entry, from a state to the next."""

    before: State
    after: State
    kept: int
    time: int
    given_up: int


@attrs.frozen(eq=False, repr=False, match_args=False)
class Place:
    """One entry as the search sees it; `times` holds its time without changes for every number of kept sets."""

    priority: Priority
    closes_block: bool
    circuit: bool
    least: int  # the fewest sets, where any are kept
    full: int
    fills: frozenset[str]  # required categories
    times: tuple[int, ...]
    block_change: int  # the change to this entry from another block
    change: int  # the change to it within its block, in a circuit once a round
    rest: int  # between rounds

    @property
    def stays(self) -> bool:
        return self.priority == "must" and self.full > 0

    def steps(self, state: State, base: int) -> list[Step]:
        """What can be kept of the entry after a state."""
        wanted = state.wanted - self.fills
        steps = []
        for kept in self._numbers(state.here):
            here = 0 if self.closes_block else kept if self.circuit else 1
            time = self.times[kept] + self._time_around(state, kept)
            steps.append(Step(state, State(True, here, wanted), kept, time, self._given_up(kept, base)))
        if not self.stays:
            after = state._replace(here=0) if self.closes_block else state
            steps.append(Step(state, after, 0, 0, self._given_up(0, base)))
        return steps

    def _numbers(self, here: int) -> range:
        """The numbers of sets that can be kept: in a circuit that has begun, its rounds."""
        if self.circuit and here:
            return range(here, here + 1) if here >= self.least else range(0)
        return range(self.least, self.full + 1)

    def _time_around(self, state: State, kept: int) -> int:
        """The changes to the entry, and the rests of a circuit that begins with it."""
        if state.here:
            return self.change * (kept if self.circuit else 1)
        rests = self.rest * (kept - 1) if self.circuit else 0
        return rests + (self.block_change if state.started else 0)

    def _given_up(self, kept: int, base: int) -> int:
        """A `key`, a `do`, a `may`, sets cut, their square, as digits in a base."""
        cut = self.full - kept
        movement = 0 if kept else {"key": base**4, "do": base**3, "may": base**2, "must": 0}[self.priority]
        return movement + cut * base + cut**2


@attrs.frozen(eq=False, repr=False, match_args=False)
class Search:
    """All versions of a session, ready for any limit."""

    base: int
    start: State
    steps: tuple[tuple[Step, ...], ...]  # of each entry
    movements: tuple[Fronts, ...]  # before each entry and after the last: the ways on, movements alone

    @property
    def least(self) -> int:
        """The time of the shortest version."""
        return self.movements[0][self.start][0][0]

    def best(self, limit: int) -> tuple[int, ...]:
        """The kept sets of the best version within a limit, which must not be below the least time."""
        fronts = self._everything(limit)
        state, time = self.start, limit
        left = fronts[0][state][-1][1]
        kept = []
        for steps, after in zip(self.steps, fronts[1:], strict=True):
            # Of the steps with which the best can be had, the one that keeps most: earlier entries keep more sets.
            step = max(
                (
                    step
                    for step in steps
                    if step.before == state
                    and _least_given_up(after, step.after, time - step.time) == left - step.given_up
                ),
                key=lambda step: step.kept,
            )
            kept.append(step.kept)
            state, time, left = step.after, time - step.time, left - step.given_up
        return tuple(kept)

    def _sets(self, limit: int) -> list[Fronts]:
        """Ways to each state, by movements and sets, with which the most movements can be kept."""
        least = _least_given_up(self.movements[0], self.start, limit)
        if least is None:
            raise ValueError("no version fits the limit")
        fronts: list[Fronts] = [{self.start: [(0, 0)]}]
        for steps, ways_on in zip(self.steps, self.movements[1:], strict=True):
            moves = ((step.before, step.after, step.time, step.given_up // self.base) for step in steps)
            fronts.append(_promising(_spread(fronts[-1], moves), ways_on, limit, least, self.base))
        return fronts

    def _everything(self, limit: int) -> list[Fronts]:
        """Ways on from each state, by everything, with which the most movements and sets can be kept."""
        ways_to = self._sets(limit)
        least = min(front[-1][1] for front in ways_to[-1].values())
        fronts: list[Fronts] = [{state: [(0, 0)] for state in ways_to[-1]}]
        for steps, ways in zip(reversed(self.steps), reversed(ways_to[:-1]), strict=True):
            moves = ((step.after, step.before, step.time, step.given_up) for step in steps)
            fronts.append(_promising(_spread(fronts[-1], moves), ways, limit, least, self.base))
        return fronts[::-1]


def prepare(places: tuple[Place, ...]) -> Search:
    """The search through all versions of a session that has these entries."""
    # Larger than any digit of what is given up can become.
    base = 1 + len(places) + sum(place.full**2 for place in places)
    start = State(False, 0, categories_open(places))
    steps: list[tuple[Step, ...]] = []
    states = {start}
    for place in places:
        steps.append(tuple(step for state in states for step in place.steps(state, base)))
        states = {step.after for step in steps[-1]}
    return Search(base, start, tuple(steps), _movements(steps, states, base))


def _movements(steps: list[tuple[Step, ...]], ends: set[State], base: int) -> tuple[Fronts, ...]:
    """Ways on from each state, by movements alone, within any time."""
    fronts: list[Fronts] = [{state: [(0, 0)] for state in ends if not state.wanted}]
    for each in reversed(steps):
        # Of steps that differ in sets alone the shortest is enough.
        shortest: dict[tuple[State, State, int], int] = {}
        for step in each:
            key = (step.after, step.before, step.given_up // base**2)
            shortest[key] = min(step.time, shortest.get(key, step.time))
        fronts.append(_spread(fronts[-1], ((*key[:2], time, key[2]) for key, time in shortest.items())))
    return tuple(reversed(fronts))


def categories_open(places: tuple[Place, ...]) -> frozenset[str]:
    """The required categories that entries fill, but none that stays in any case."""
    stay = frozenset[str]().union(*(place.fills for place in places if place.stays))
    return frozenset[str]().union(*(place.fills for place in places)) - stay


def _spread(fronts: Fronts, moves: Iterable[tuple[State, State, int, int]]) -> Fronts:
    """The fronts one entry on: of all ways that lead on by a move, those for which no other is as good."""
    ways: Fronts = {}
    for source, goal, more_time, more_lost in moves:
        if source in fronts:
            longer = [(time + more_time, lost + more_lost) for time, lost in fronts[source]]
            ways.setdefault(goal, []).extend(longer)
    return {state: _undominated(found) for state, found in ways.items()}


def _undominated(ways: Front) -> Front:
    ways.sort()
    front: Front = []
    for way in ways:
        if not front or way[1] < front[-1][1]:
            front.append(way)
    return front


def _promising(fronts: Fronts, others: Fronts, limit: int, least: int, base: int) -> Fronts:
    """The ways that can be joined to one of the other direction within the limit and giving up no more than the least.

    The others tell what they give up in one digit less.
    """
    found = {
        state: _joinable(front, others[state], limit, least, base) for state, front in fronts.items() if state in others
    }
    return {state: front for state, front in found.items() if front}


def _joinable(front: Front, others: Front, limit: int, least: int, base: int) -> Front:
    found: Front = []
    last = len(others) - 1  # the longest of the others that fits behind the way: longer ways leave less room
    for time, lost in front:
        while last >= 0 and time + others[last][0] > limit:
            last -= 1
        if last < 0:
            break
        if lost // base + others[last][1] <= least:
            found.append((time, lost))
    return found


def _least_given_up(fronts: Fronts, state: State, time: int) -> int | None:
    """The least that a way within a time gives up; None where there is no way."""
    front = fronts.get(state, [])
    at = bisect_left(front, (time + 1,))
    return front[at - 1][1] if at else None
