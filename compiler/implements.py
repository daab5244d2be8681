"""The loads that an athlete can make of what there is to lift.

A bell is a load as it is; of a pair the load of one is told. Plates go on both ends of a handle or bar alike. A container
is filled to a line of whole litres: it weighs what it weighs empty, and the filling's volume times its bulk density.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from .model import Athlete, Implement, Movement

# Bulk density in kg a litre. Rules of thumb: a real fill varies by 10 to 20 % with moisture and shaking.
DENSITIES: dict[str, Fraction] = {
    "water": Fraction("0.998"),  # at 20 C: 998.2071 kg/m3, standard table
    "sand": Fraction("1.555"),  # dry, 97 lb/ft3: Engineering ToolBox, dirt and mud
    "gravel": Fraction("1.680"),  # dry: Engineering ToolBox, dirt and mud
    "soil": Fraction("1.220"),  # loose and dry: Engineering ToolBox, dirt and mud
    "beans": Fraction("0.801"),  # navy beans, 50 lb/ft3: SI Metric bulk list
    "rice": Fraction("0.753"),  # hulled: SI Metric bulk list, from memory
    "salt": Fraction("1.201"),  # fine: SI Metric bulk list, from memory
}

_GRAIN = 10  # a filled container is told to a tenth of a kilogram: its density is no better known


def makeable_loads(athlete: Athlete, movement: Movement) -> tuple[Fraction, ...]:
    """Every load in kg that an athlete can make for a movement, rising, each once; bands have none."""
    found: set[Fraction] = set()
    for implement in athlete.implements:
        kind = f"{implement.kind} pair" if implement.pair else implement.kind
        # One bell of a pair serves where one is enough; a movement that asks for a pair is not served by one.
        if kind in movement.loaded_by or implement.kind in movement.loaded_by:
            found.update(_loads(implement))
    return tuple(sorted(found))


def _loads(implement: Implement) -> Iterator[Fraction]:
    if implement.volume is not None:
        yield from _filled(implement)
    elif implement.plates:
        loads = {mass.base for mass in implement.masses} or {Fraction(0)}
        for count, plate in implement.plates:
            loads = {load + 2 * pairs * plate.base for load in loads for pairs in range(count // 2 + 1)}
        yield from loads
    else:
        yield from (mass.base for mass in implement.masses)


def _filled(implement: Implement) -> Iterator[Fraction]:
    assert implement.volume is not None
    empty = implement.weighing.base if implement.weighing is not None else Fraction(0)
    for filling in implement.fill:
        for litres in range(1, int(implement.volume.base) + 1):
            yield Fraction(round((empty + litres * DENSITIES[filling]) * _GRAIN), _GRAIN)
