"""Exact quantities: a figure as written, its unit, and its value in the base unit of its dimension.

Factors are exact by definition (international yard and pound agreement of 1959; NIST SP 811, Appendix B): they are kept as
fractions of whole numbers and never pass through a float.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import Literal, TypeAlias

import attrs

Dimension = Literal["time", "mass", "length", "volume", "share"]
Figure: TypeAlias = int | Fraction

_ONE = Fraction(1)
# Unit -> (dimension, exact size in s, kg, m, l or 1).
UNITS: dict[str, tuple[Dimension, Fraction]] = {
    "s": ("time", _ONE),
    "min": ("time", Fraction(60)),
    "h": ("time", Fraction(3600)),
    "kg": ("mass", _ONE),
    "g": ("mass", Fraction(1, 1000)),
    "lb": ("mass", Fraction(45359237, 100000000)),
    "m": ("length", _ONE),
    "km": ("length", Fraction(1000)),
    "cm": ("length", Fraction(1, 100)),
    "mi": ("length", Fraction(1609344, 1000)),
    "ft": ("length", Fraction(3048, 10000)),
    "yd": ("length", Fraction(9144, 10000)),
    "l": ("volume", _ONE),
    "ml": ("volume", Fraction(1, 1000)),
    "%": ("share", Fraction(1, 100)),
}

_WRITTEN = re.compile(r"(\d+(?:\.\d+)?) *([a-z%]+)")


@attrs.frozen
class Quantity:
    """An amount in the unit in which the coach wrote it: `Quantity(Fraction(25), "lb")`."""

    amount: Fraction
    unit: str

    @property
    def dimension(self) -> Dimension:
        return UNITS[self.unit][0]

    @property
    def base(self) -> Fraction:
        """The exact value in s, kg, m, l, or as a share of 1."""
        size = UNITS[self.unit][1]
        return self.amount if size is _ONE else self.amount * size

    def to(self, unit: str) -> Quantity:
        """The same quantity in another unit of its dimension, exactly."""
        dimension, size = UNITS[unit]
        if dimension != self.dimension:
            raise ValueError(f"{self.unit} cannot be told in {unit}")
        return Quantity(self.base / size, unit)

    def __neg__(self) -> Quantity:
        return Quantity(-self.amount, self.unit)

    def __str__(self) -> str:
        return f"{decimal_text(self.amount)}{'' if self.unit == '%' else ' '}{self.unit}"


@lru_cache(maxsize=4096)
def read_quantity(text: str) -> Quantity:
    """The quantity written as `60 s`, `1.25kg`, `70%`; exact. Raises ValueError on any other text."""
    match = _WRITTEN.fullmatch(text)
    if match is None or match[2] not in UNITS:
        raise ValueError(f"not a quantity: {text!r}")
    return Quantity(Fraction(match[1]), match[2])


def figure_of(told: int | Quantity) -> Figure:
    """A count as it is, a quantity in the base unit of its dimension."""
    return told.base if isinstance(told, Quantity) else told


def dimension_of(told: int | Quantity) -> Dimension | None:
    """What a figure is told in: a dimension, or None for a whole number."""
    return told.dimension if isinstance(told, Quantity) else None


def share_of(figure: Figure, share: Figure, grain: Figure) -> Figure:
    """A share of a figure in whole grains, rounded down so that a step is no more than it says; but at least one grain."""
    return max(Fraction(figure) * share // grain, 1) * grain


def decimal_text(value: Fraction, places: int = 3) -> str:
    """A figure for people: exact where a decimal of that many places can be, else rounded half to even."""
    if value.denominator == 1:
        return str(value.numerator)
    rounded = Decimal(round(value * 10**places)).scaleb(-places)
    return format(rounded.normalize(), "f")
