"""The loads that an athlete can make of what there is to lift, and how each is made.

A bell is a load as it is. Of a pair the load of one is told: a movement that asks for a pair takes both, any other takes
one of them. Plates go on both ends of a handle or bar alike, on all four of a pair. A container is filled to a line at every
tenth of a litre: it weighs what it weighs empty, and the filling's volume times its bulk density.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from functools import cached_property, lru_cache
from math import lcm, prod
from typing import Any, TypeAlias, overload

from .model import Athlete, Implement, Made, Movement
from .quantity import Quantity
from .remembering import remembered

# Bulk density in kg a litre. Rules of thumb: a real fill varies by 10 to 20 % with moisture and shaking.
DENSITIES: dict[str, Fraction] = {
    "water": Fraction("0.998"),  # at 20 C: 998.2071 kg/m3, standard table
    "sand": Fraction("1.555"),  # dry, 97 lb/ft3: Engineering ToolBox, dirt and mud
    "gravel": Fraction("1.680"),  # dry: Engineering ToolBox, dirt and mud
    "soil": Fraction("1.220"),  # loose and dry: Engineering ToolBox, dirt and mud
    "loam": Fraction("1.280"),  # Engineering ToolBox, dirt and mud
    "beans": Fraction("0.801"),  # navy beans, 50 lb/ft3: SI Metric bulk list
    "rice": Fraction("0.753"),  # hulled: SI Metric bulk list, from memory
    "salt": Fraction("1.201"),  # fine: SI Metric bulk list, from memory
}

MOST_LITRES = 200  # that a container is filled to
MOST_PLATES = 40  # of one kind that are counted, and for a pair of handles too
MOST_LOADS = 20_000  # of one handle or bar: nobody tells more apart, and no check should wait for them
LINES = 10  # to a litre: as fine as a line can be drawn on a can; and tenths of a kilogram, as fine as it can be told

# How a load is made: what kind of handling, how many plates, which implement; then the plates, or the filling and its line.
_Way: TypeAlias = tuple[int, int, int, Any]
_BELL, _PAIR, _PLATES, _CONTAINER = range(4)
_Kind: TypeAlias = tuple[Fraction, int, Quantity]  # of plates: what one weighs, how many each end can get, as written


class Makings(Sequence[Made]):
    """The loads that can be made, rising, each once and made in the simplest way; told in full when it is asked for."""

    def __init__(self, implements: tuple[Implement, ...], loaded_by: tuple[str, ...]) -> None:
        self._implements, self._loaded_by = implements, loaded_by
        self._kinds: dict[int, list[_Kind]] = {}
        self.loads, self._ways = _ways(implements, loaded_by)

    def __len__(self) -> int:
        return len(self.loads)

    @overload
    def __getitem__(self, at: int) -> Made: ...

    @overload
    def __getitem__(self, at: slice) -> tuple[Made, ...]: ...

    def __getitem__(self, at: int | slice) -> Made | tuple[Made, ...]:
        if isinstance(at, slice):
            return tuple(map(self._made, self.loads[at], self._ways[at]))
        return self._made(self.loads[at], self._ways[at])

    def __iter__(self) -> Iterator[Made]:
        return map(self._made, self.loads, self._ways)

    @cached_property
    def first(self) -> Fraction | None:
        """The load to begin with where nobody says another: the lightest, of a container that of a quarter of what it holds.

        That less in a can is not worth lifting is common practice, no source.
        """
        for load, (kind, _, place, how) in zip(self.loads, self._ways, strict=True):
            full = self._implements[place].volume if kind == _CONTAINER else None
            if full is None or how[1] * 4 >= full.base:
                return load
        return self.loads[-1] if self.loads else None

    def _made(self, load: Fraction, way: _Way) -> Made:
        kind, _, place, how = way
        implement = self._implements[place]
        two = implement.kind not in self._loaded_by
        if kind == _PLATES:
            if place not in self._kinds:
                self._kinds[place] = _kinds(implement, two)
            return Made(load, implement, two, plates=_plates_of(self._kinds[place], how))
        if kind == _CONTAINER:
            filling, litres = how
            return Made(load, implement, two, filling=filling, litres=litres)
        return Made(load, implement, two)


def makings(athlete: Athlete, movement: Movement) -> Makings:
    """Every load that an athlete can make for a movement, rising, each once, with how it is made; bands have none.

    Of several ways to make the same load it is the one with the fewest things to handle: a bell before a pair, then the
    handle or bar with the fewest plates (the heavier ones first), last a container.
    """
    return _makings(athlete.implements, movement.loaded_by)


def makeable_loads(athlete: Athlete, movement: Movement) -> tuple[Fraction, ...]:
    """Every load in kg that an athlete can make for a movement, rising, each once; bands have none."""
    return makings(athlete, movement).loads


def nearest(made: Makings, target: Fraction) -> Made | None:
    """The heaviest load that is not above a target in kg; None where every one is."""
    place = bisect_right(made.loads, target)
    return made[place - 1] if place else None


def bands(athlete: Athlete, movement: Movement) -> tuple[Made, ...]:
    """The bands that an athlete has for a movement that is loaded by them, the weakest first."""
    return tuple(
        Made(None, implement, band=step)
        for implement in athlete.implements
        if _serves(implement, movement.loaded_by)
        for step in implement.steps
    )


def serves(implement: Implement, movement: Movement) -> bool:
    """Whether a movement is done with it. One of a pair serves where one is enough; one alone is no pair.

    A band may stand in `needs`, as a thing, and not in `loaded by`.
    """
    return implement.kind in movement.needs or _serves(implement, movement.loaded_by)


def fine(athlete: Athlete, movement: Movement) -> bool:
    """Whether loads can be made so finely that the next is no step: with containers, or plates in kg and lb."""
    return any(
        implement.volume is not None or len({mass.unit == "lb" for _, mass in implement.plates}) > 1
        for implement in athlete.implements
        if _serves(implement, movement.loaded_by)
    )


def height(made: Made) -> Fraction | None:
    """The share of its height to which a container with straight sides is filled; None for any other."""
    implement = made.implement
    if made.litres is None or implement is None or implement.volume is None or not implement.straight:
        return None
    return made.litres / implement.volume.base


def left_out(implement: Implement) -> tuple[Quantity, ...]:
    """The lightest kinds of plates, as far as they are not counted because they make too many loads."""
    kinds = _kinds(implement, implement.pair)
    if prod(most + 1 for _, most, _ in kinds) <= MOST_LOADS:
        return ()
    return tuple(plate for _, _, plate in kinds[_ends(kinds, _grains([implement]))[1] :])


def _serves(implement: Implement, loaded_by: Sequence[str]) -> bool:
    return implement.kind in loaded_by or (implement.pair and f"{implement.kind} pair" in loaded_by)


@remembered(64)  # the same athlete is asked again and again, and implements take long to hash
def _makings(implements: tuple[Implement, ...], loaded_by: tuple[str, ...]) -> Makings:
    kinds = {kind.removesuffix(" pair") for kind in loaded_by}
    return _makings_alike(tuple(one for one in implements if one.kind in kinds), loaded_by)


# Athletes of a crew mostly share what there is to lift: what can be made of equal implements is the same object for all.
@lru_cache(maxsize=64)
def _makings_alike(implements: tuple[Implement, ...], loaded_by: tuple[str, ...]) -> Makings:
    return Makings(implements, loaded_by)


def _ways(
    implements: tuple[Implement, ...], loaded_by: tuple[str, ...]
) -> tuple[tuple[Fraction, ...], tuple[_Way, ...]]:
    """All loads, rising, and beside each how it is made."""
    serving = [(place, one) for place, one in enumerate(implements) if _serves(one, loaded_by)]
    grains = _grains(one for _, one in serving)
    ways: dict[int, _Way] = {}
    for place, implement in serving:
        for load, way in _ways_of(implement, place, implement.kind not in loaded_by, grains):
            known = ways.get(load)
            if known is None or way[:3] < known[:3]:
                ways[load] = way
    rising = sorted(ways)
    return tuple(_kilograms(load, grains) for load in rising), tuple(ways[load] for load in rising)


@lru_cache(maxsize=65536)  # fractions take long to make, and those of cans and bells come again and again
def _kilograms(load: int, grains: int) -> Fraction:
    return Fraction(load, grains)


def _grains(implements: Iterable[Implement]) -> int:
    """How many grains a kilogram has, so that every mass and every tenth of a kilogram is a whole number of them."""
    masses = (mass for one in implements for mass in (*one.masses, *(plate for _, plate in one.plates)))
    return lcm(LINES, *(mass.base.denominator for mass in masses))


def _ways_of(implement: Implement, place: int, two: bool, grains: int) -> Iterator[tuple[int, _Way]]:
    """The loads of one implement in grains, each with how it is made."""
    if implement.volume is not None:
        for load, how in _filled(implement).items():
            yield load * (grains // LINES), (_CONTAINER, 0, place, how)
        return
    masses = [int(mass.base * grains) for mass in implement.masses]
    if not implement.plates:
        yield from ((load, (_PAIR if two else _BELL, 0, place, 0)) for load in masses)
        return
    ends, _ = _ends(_kinds(implement, two), grains)
    for bare in masses or [0]:
        for load, (count, code) in ends.items():
            yield bare + 2 * load, (_PLATES, count, place, code)


def _kinds(implement: Implement, two: bool) -> list[_Kind]:
    """The kinds of plates of an implement, the heaviest first."""
    ends = 4 if two else 2
    kinds: dict[Fraction, tuple[int, Quantity]] = {}
    for count, plate in implement.plates:
        before, written = kinds.get(plate.base, (0, plate))
        kinds[plate.base] = (before + min(count, MOST_PLATES) // ends, written)
    return [(mass, *kinds[mass]) for mass in sorted(kinds, reverse=True)]


def _ends(kinds: Sequence[_Kind], grains: int) -> tuple[dict[int, tuple[int, int]], int]:
    """What one end can get, in grains: for each sum the fewest plates and, as one number, how many of each kind.

    The sums grow by one kind after another, each with all counts. What is kept for a sum is the least of one number: the
    count of plates in its high bits, less the digits that say how many of each kind, the heaviest kind in the highest.
    Beside it stands how many kinds were counted before the sums became too many.
    """
    bits = sum(pairs.bit_length() for _, pairs, _ in kinds)
    best, shift, counted = {0: 0}, bits, 0
    for mass, pairs, _ in kinds:
        shift -= pairs.bit_length()
        step, one = int(mass * grains), (1 << bits) - (1 << shift)
        grown, layer = dict(best), best
        for _ in range(pairs):
            layer = {load + step: cost + one for load, cost in layer.items()}
            for load, cost in layer.items():
                known = grown.get(load)
                if known is None or cost < known:
                    grown[load] = cost
        if len(grown) > MOST_LOADS:
            break
        best, counted = grown, counted + 1
    low = (1 << bits) - 1
    return {load: ((cost + low) >> bits, -cost & low) for load, cost in best.items()}, counted


def _plates_of(kinds: Sequence[_Kind], code: int) -> tuple[tuple[int, Quantity], ...]:
    """The plates of one end, from the number that says how many of each kind."""
    told = []
    for _, most, plate in reversed(kinds):
        count = code & ((1 << most.bit_length()) - 1)
        code >>= most.bit_length()
        if count:
            told.append((count, plate))
    return tuple(reversed(told))


def _filled(implement: Implement) -> dict[int, tuple[str, Fraction]]:
    """The loads of a container in tenths of a kilogram: the filling, the first that serves, and the litres to its line.

    A container is never filled to more than its `limit`; where none is said, to no more than it weighs full of water: what
    was made to carry water bears its volume of it (common practice, no source).
    """
    assert implement.volume is not None
    empty = implement.weighing.base if implement.weighing is not None else Fraction(0)
    full = min(implement.volume.base, Fraction(MOST_LITRES))
    limit = implement.limit.base if implement.limit is not None else None
    room = max((full * DENSITIES["water"] if limit is None else limit - empty), Fraction(0))
    most = None if limit is None else int(limit * LINES)
    found: dict[int, tuple[str, Fraction]] = {}
    for filling in implement.fill:
        density = DENSITIES[filling]
        last = int(min(full, room / density) * LINES)
        litres = [Fraction(line, LINES) for line in range(1, last + 1)]
        if full * LINES != last and full * density <= room:
            litres.append(full)  # to the brim, which is no line
        # In whole parts of a tenth of a kilogram, because fractions are slow.
        parts = lcm(empty.denominator, density.denominator * full.denominator) * LINES
        base, one = int(empty * LINES * parts), int(density * LINES * parts)
        for line in litres:
            load = (2 * (base + one * line.numerator // line.denominator) + parts) // (2 * parts)
            if load and (most is None or load <= most):
                found.setdefault(load, (filling, line))
    return found
