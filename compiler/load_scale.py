"""What the loads of a dose are told in: a weight, or a share of the training maximum, and what one is in the other."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

import attrs

from .model import Dose, Value
from .quantity import UNITS, Quantity

if TYPE_CHECKING:
    from .course import Means

MOST_SHARE = Quantity(Fraction(120), "%")  # of the training maximum, that a dose may tell


@attrs.frozen(eq=False, repr=False, match_args=False)
class Scale(Value):
    """What the figures of a load are told in.

    `unit` is that of the figures, `maximum` the weight of which shares are told, where anybody knows it, `shares` whether the
    dose tells its loads as shares, and `cap` the largest load as a share of the maximum, where there is one.
    """

    unit: str
    maximum: Fraction | None = None
    shares: bool = False
    cap: Quantity | None = None

    @property
    def most(self) -> Fraction | None:
        """The largest load there may be: the cap, and no share above that which a dose may tell."""
        ends = (self.cap, MOST_SHARE if self.shares else None)
        return min(
            (figure for end in ends if end is not None and (figure := self.figure(end)) is not None), default=None
        )

    @property
    def grain(self) -> Fraction:
        """A tenth of the unit."""
        return UNITS[self.unit][1] / 10

    def figure(self, told: Quantity) -> Fraction | None:
        """A load, or a part of one, as a figure; None where nobody knows what it would be."""
        if (told.unit == "%") == (self.unit == "%"):
            return told.base
        return None if told.unit != "%" or self.maximum is None else told.base * self.maximum

    def figures(self, dose: Dose) -> list[Fraction]:
        """The loads of a dose, as far as they are known."""
        return [figure for load in loads_of(dose) if (figure := self.figure(load)) is not None]


def scale_of(units: str, dose: Dose, means: Means) -> Scale:
    """Shares stay shares, unless the maximum is known: the athlete's own, or the one that their first weight tells."""
    loads = loads_of(dose)
    told = loads[0].unit if loads else units
    maximum, begins = means.maximum, means.begins
    if told != "%":
        return Scale(told, maximum, cap=means.cap)
    top = max(load.base for load in loads if load.unit == "%")
    if maximum is None and begins is not None and begins.load is not None and top:
        maximum = begins.load.base / top
    return Scale("%" if maximum is None else units, maximum, shares=True, cap=means.cap)


def loads_of(dose: Dose) -> tuple[Quantity, ...]:
    """The loads that a dose tells, for all sets or for one."""
    return tuple(load for load in (dose.load, *(work.load for work in dose.sets)) if load is not None)


def makeable(loads: Sequence[Fraction], wanted: Fraction, otherwise: Fraction) -> Fraction:
    """The heaviest load that can be made and is not heavier than wanted; something else where there is none."""
    place = bisect_right(loads, wanted)
    return loads[place - 1] if place else otherwise
