"""The search for the best version of a session: which sets of each entry to keep within a limit, exactly.

A version is a way through states, one move an entry: a move keeps some sets, takes time and gives something up. What
the rest of a version may be depends on the little that a state says of the part before. Of all ways to a state, and of
all from it, a front is kept: those for which no other takes as little time and gives up as little.

What is given up is a number whose digits are the levels of the goal, in their order. The last digits are the sets cut of
each entry, earlier entries first: no two versions give up the same, and the number tells the version. A run of the
search can look at the first digits alone. The first goes backward, for movements; the second forward, for movements and
sets; the last backward again, for everything. Each drops the ways with which, by the run before it, no version can be
had that is the best of a limit. That saves time and changes no result. The same runs answer for one limit or for all.

Times are whole numbers, in a unit of the caller. A way is one whole number too, its time with what it gives up in the
bits below, because numbers are added and sorted faster than pairs.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Iterator
from itertools import accumulate
from operator import or_
from typing import NamedTuple, TypeAlias

import attrs

from .clock import Kept
from .model import Priority

# Ways in rising order: from one to the next the time rises and what is given up falls.
Front: TypeAlias = list[int]
# A state is a number: the categories that still lack their movement, as bits, and below them how far the work is.
State: TypeAlias = int
Fronts: TypeAlias = dict[State, Front]
# A state before an entry, a state after it, and the number of a group of moves that lead from one to the other.
Edge: TypeAlias = tuple[State, State, int]

# How far the work is, in the bits below the categories. In a circuit of n rounds SOMETHING + n.
NOTHING, SOMETHING, OF_THIS_BLOCK = 0, 1, 2
WORK_BITS = 16
WORK = (1 << WORK_BITS) - 1


class Place(NamedTuple):
    """One entry as the search sees it; `times` holds its time without changes for every number of kept sets."""

    priority: Priority
    least: int  # the fewest sets, where any are kept
    full: int
    fills: frozenset[str]  # categories that have to keep a movement
    times: tuple[int, ...]

    @property
    def stays(self) -> bool:
        return self.priority == "must" and self.full > 0


class Part(NamedTuple):
    """One block as the search sees it."""

    places: tuple[Place, ...]
    circuit: bool
    change: int  # between its movements, in a circuit once a round
    rest: int  # between rounds


class Layer(NamedTuple):
    """One entry: all that leads from the states before it to those after it."""

    edges: list[Edge]
    groups: list[Front]  # the moves of each group: the time and what is given up of every number of kept sets
    before: dict[State, int]  # the states before it, with the time of the shortest way to each


class Digit(NamedTuple):
    """Where what is given up tells the sets cut of an entry."""

    full: int
    below: int  # bits
    mask: int


@attrs.frozen(eq=False, repr=False, match_args=False)
class Level:
    """How many digits of what is given up a run looks at: the bits that it sees, and those below, which it does not."""

    seen: int
    hidden: int
    mask: int = attrs.field(init=False)

    def __attrs_post_init__(self) -> None:
        object.__setattr__(self, "mask", (1 << self.seen) - 1)

    def front(self, ways: list[int]) -> Front:
        """Those of the ways for which no other takes as little time and gives up as little."""
        ways.sort()
        mask = self.mask
        least = mask + 1
        front = []
        for way in ways:
            lost = way & mask
            if lost < least:
                least = lost
                front.append(way)
        return front

    def spread(self, fronts: Fronts, edges: Iterable[Edge], groups: list[Front]) -> Fronts:
        """The fronts one entry on, over edges from, to and by which group of moves."""
        ways: Fronts = {}
        joined = set()
        for source, goal, group in edges:
            front = fronts.get(source)
            if front:
                moves = groups[group]
                longer = [way + move for move in moves for way in front]
                if goal in ways:
                    ways[goal] += longer
                    joined.add(goal)
                else:
                    ways[goal] = longer
                    if len(moves) > 1:
                        joined.add(goal)
        for state in joined:
            ways[state] = self.front(ways[state])
        return ways


# For each amount that a best version gives up: the first time at which that is too much.
Until: TypeAlias = dict[int, int]


@attrs.frozen(eq=False, repr=False, match_args=False)
class Search:
    """All versions of a session, ready for any limit."""

    digits: tuple[Digit, ...]  # of each entry
    levels: tuple[Level, Level, Level]  # movements; movements and sets; everything
    layers: tuple[Layer, ...]
    ends: dict[State, int]  # the states after the last entry, with the time of the shortest way to each

    @property
    def start(self) -> State:
        return next(iter(self.layers[0].before if self.layers else self.ends))

    @property
    def least(self) -> int:
        """The time of the shortest version."""
        return min(self.ends.values())

    def best(self, limit: int) -> Kept:
        """The kept sets of the best version within a limit, which must not be below the least time."""
        if limit < self.least:
            raise ValueError("no version fits the limit")
        return self._version(self._everything(limit)[-1])

    def every(self) -> tuple[tuple[int, Kept], ...]:
        """Every version that is the best of any limit, with its time: from the shortest to the full one."""
        seen = self.levels[-1].seen
        return tuple((way >> seen, self._version(way)) for way in self._everything(None))

    def _everything(self, limit: int | None) -> Front:
        """The ways through all of the session that are the best of a limit: of this one, or of any."""
        coarse, level = self.levels[1:]
        ways_to = self._sets(limit)
        until = self._until(coarse.front([way for front in ways_to[-1].values() for way in front]), coarse, limit)
        fronts: Fronts = {state: [0] for state in ways_to[-1]}
        for layer, before in zip(reversed(self.layers), reversed(ways_to[:-1]), strict=True):
            found = level.spread(fronts, _backward(layer), layer.groups)
            fronts = _useful(found, before, level, coarse, until)
        return fronts[self.start]

    def _sets(self, limit: int | None) -> list[Fronts]:
        """Ways to each state, by movements and sets, with which a best version can be had."""
        coarse, level = self.levels[:2]
        ways_on = self._movements(limit)
        until = self._until(ways_on[0][self.start], coarse, limit)
        fronts: list[Fronts] = [{self.start: [0]}]
        for layer, after in zip(self.layers, ways_on[1:], strict=True):
            moves = [[move >> level.hidden for move in group] for group in layer.groups]
            found = level.spread(fronts[-1], layer.edges, moves)
            fronts.append(_useful(found, after, level, coarse, until))
        return fronts

    def _movements(self, limit: int | None) -> list[Fronts]:
        """Ways on from each state, by movements alone, that can be in time and do not give up too much."""
        level = self.levels[0]
        most = level.mask if limit is None else self._fitting(limit)
        fronts: list[Fronts] = [{state: [0] for state in self.ends}]
        for layer in reversed(self.layers):
            # The moves of a group differ in sets: the first is the shortest.
            moves = [[group[0] >> level.hidden] for group in layer.groups]
            found = level.spread(fronts[-1], _backward(layer), moves)
            if limit is not None:
                for state, front in found.items():
                    del front[bisect_left(front, limit + 1 - layer.before[state] << level.seen) :]
                    while front and front[0] & level.mask > most:
                        del front[0]
            fronts.append(found)
        return fronts[::-1]

    def _fitting(self, limit: int) -> int:
        """How much the best version of a limit gives up at most, by movements.

        It is no worse than the shortest that keeps every movement, or else every `do` and `key`, or else every `key`.
        """
        level, everything = self.levels[0], self.levels[-1]
        digit = level.seen // 3
        for most in (0, (1 << digit) - 1, (1 << 2 * digit) - 1):
            times = {self.start: 0}
            for layer in self.layers:
                shortest = enumerate(group[0] for group in layer.groups)
                allowed = {
                    group: move >> everything.seen
                    for group, move in shortest
                    if move >> level.hidden & level.mask <= most
                }
                times = _shortest(layer.edges, times, allowed)
            if min(times.values(), default=limit + 1) <= limit:
                return most
        return level.mask

    def _until(self, best: Front, level: Level, limit: int | None) -> Until:
        times = [way >> level.seen for way in best]
        given_up = [way & level.mask for way in best]
        if limit is not None:
            return {given_up[bisect_right(times, limit) - 1]: limit + 1}
        longest = sum(max(map(max, layer.groups)) >> self.levels[-1].seen for layer in self.layers)
        return dict(zip(given_up, [*times[1:], longest + 1], strict=True))

    def _version(self, way: int) -> Kept:
        """The version that a way is: its last digits say."""
        return tuple([full - (way >> below & mask) for full, below, mask in self.digits])


def _useful(fronts: Fronts, others: Fronts, level: Level, coarse: Level, until: Until) -> Fronts:
    """The ways of a level with which, by the coarser ways of the other direction, a best version can be had."""
    found = {
        state: _joined(front, others[state], level, coarse, until) for state, front in fronts.items() if state in others
    }
    return {state: front for state, front in found.items() if front}


def _joined(front: Front, others: Front, level: Level, coarse: Level, until: Until) -> Front:
    """The ways that can be joined to one of the others, in time, to what a best version gives up."""
    mask, seen, more = level.mask, level.seen, coarse.hidden - level.hidden
    other_mask, other_seen = coarse.mask, coarse.seen
    found = []
    if len(until) == 1:
        [(total, end)] = until.items()
        for way in front:
            # The longest of the others that is in time gives up least.
            at = bisect_left(others, end - (way >> seen) << other_seen)
            if at and (others[at - 1] & other_mask) + ((way & mask) >> more) == total:
                found.append(way)
        return found
    shortest = {other & other_mask: other >> other_seen for other in others}
    latest: dict[int, int] = {}  # for what a way gives up: the time at which it is too long
    for way in front:
        lost = (way & mask) >> more
        if lost not in latest:
            latest[lost] = _latest(lost, shortest, until)
        if way >> seen < latest[lost]:
            found.append(way)
    return found


def _latest(lost: int, shortest: dict[int, int], until: Until) -> int:
    """The time at which a way that gives up so much is too long for every best version."""
    if len(shortest) < len(until):
        ends = [until[lost + other] - time for other, time in shortest.items() if lost + other in until]
    else:
        ends = [end - shortest[total - lost] for total, end in until.items() if total - lost in shortest]
    return max(ends, default=0)


def _backward(layer: Layer) -> Iterator[Edge]:
    return ((after, before, group) for before, after, group in layer.edges)


def prepare(parts: tuple[Part, ...], change: int) -> Search:
    """The search through all versions of a session that has these blocks, with a change between two of them."""
    places = tuple(place for part in parts for place in part.places)
    full = [place.full for place in places]
    below = _from_the_end([sets.bit_length() for sets in full], int.__add__)
    digits = tuple(Digit(sets, at, (1 << sets.bit_length()) - 1) for sets, at in zip(full, below, strict=True))
    # The bits that are enough for all entries together.
    movements, cut, squares = map(int.bit_length, (len(full), sum(full), sum(sets**2 for sets in full)))
    ties = sum(map(int.bit_length, full))
    levels = (
        Level(3 * movements, cut + squares + ties),
        Level(3 * movements + cut, squares + ties),
        Level(3 * movements + cut + squares + ties, 0),
    )
    gone = {word: 1 << levels[0].hidden + at * movements for at, word in enumerate(("may", "do", "key"))}
    given_up = []
    for place, own in zip(places, below, strict=True):
        given_up.append(
            [(sets << squares + ties) + (sets**2 << ties) + (sets << own) for sets in range(place.full + 1)]
        )
        given_up[-1][-1] += gone.get(place.priority, 0)
        given_up[-1].reverse()
    layers, ends = _layers(parts, change, given_up, levels[-1].seen)
    return Search(digits, levels, layers, ends)


def _layers(
    parts: tuple[Part, ...], change: int, given_up: list[list[int]], seen: int
) -> tuple[tuple[Layer, ...], dict[State, int]]:
    """The layers, and the states after the last."""
    places = tuple(place for part in parts for place in part.places)
    wanted = sorted(categories_open(places))
    fills = [sum(1 << number for number, name in enumerate(wanted) if name in place.fills) for place in places]
    states = {(1 << len(wanted)) - 1 << WORK_BITS | NOTHING: 0}
    layers: list[Layer] = []
    rest = zip(given_up, fills, _from_the_end(fills, or_), strict=True)
    for part in parts:
        for number, (lost, filled, filled_later) in zip(range(len(part.places)), rest, strict=False):
            layers.append(_layer(_Here(part, number, change, lost, seen), states, filled, filled_later))
            moves = {group: moves[0] >> seen for group, moves in enumerate(layers[-1].groups)}
            states = _shortest(layers[-1].edges, states, moves)
    return tuple(layers), states


def _layer(here: _Here, states: dict[State, int], filled: int, filled_later: int) -> Layer:
    groups: list[Front] = []
    # From how far the work is: to how far, the categories that may still be wanted, and a group.
    ways_on: dict[int, list[tuple[int, int, int]]] = {}
    for work in {state & WORK for state in states}:
        ways_on[work] = []
        for after, keeps, moves in here.moves(work):
            ways_on[work].append((after, ~filled if keeps else -1, len(groups)))
            groups.append(moves)
    edges = [
        (state, (state >> WORK_BITS & left) << WORK_BITS | after, group)
        for state in states
        for after, left, group in ways_on[state & WORK]
        if not state >> WORK_BITS & left & ~filled_later
    ]
    return Layer(edges, groups, states)


def _shortest(edges: list[Edge], times: dict[State, int], moves: dict[int, int]) -> dict[State, int]:
    """The states after an entry, with the time of the shortest way to each, by the times of the groups that may be used."""
    found: dict[State, int] = {}
    for before, after, group in edges:
        if group in moves and before in times:
            time = times[before] + moves[group]
            if after not in found or time < found[after]:
                found[after] = time
    return found


class _Here(NamedTuple):
    """An entry in its block, and what each number of kept sets gives up."""

    part: Part
    number: int
    block_change: int
    given_up: list[int]
    seen: int

    @property
    def closes(self) -> bool:
        return self.number == len(self.part.places) - 1

    def moves(self, work: int) -> Iterator[tuple[int, bool, Front]]:
        """What can be kept from where the work is: to where it leads, whether anything is kept, and the moves."""
        place = self.part.places[self.number]
        if not place.stays:
            yield SOMETHING if self.closes and work else work, False, [self.given_up[0]]
        if not place.full:
            return
        if not self.part.circuit:
            around = (0, self.block_change, self.part.change)[work]
            # Where both changes are the same it is all one whether something of this block is kept.
            after = SOMETHING if self.closes or self.part.change == self.block_change else OF_THIS_BLOCK
            yield after, True, [self._move(sets, around) for sets in range(place.least, place.full + 1)]
        elif work > SOMETHING:
            rounds = work - SOMETHING
            if place.least <= rounds:
                yield SOMETHING if self.closes else work, True, [self._move(rounds, rounds * self.part.change)]
        else:
            opened = self.block_change if work else 0
            for rounds in range(place.least, place.full + 1):
                after = SOMETHING if self.closes else SOMETHING + rounds
                yield after, True, [self._move(rounds, opened + (rounds - 1) * self.part.rest)]

    def _move(self, sets: int, around: int) -> int:
        return (self.part.places[self.number].times[sets] + around << self.seen) + self.given_up[sets]


def _from_the_end(values: list[int], joined: Callable[[int, int], int]) -> list[int]:
    """For each value all that come after it, joined."""
    return list(accumulate(reversed(values), joined, initial=0))[-2::-1] if values else []


def categories_open(places: tuple[Place, ...]) -> frozenset[str]:
    """The categories that entries fill, but none that has one which stays in any case."""
    stay = frozenset[str]().union(*(place.fills for place in places if place.stays))
    return frozenset[str]().union(*(place.fills for place in places)) - stay
