"""Figures of the review as texts: whole where they are large, to a tenth where they are small, loads in the program's unit."""

from __future__ import annotations

from fractions import Fraction

from ...compiler.movement_review import Done, Measure
from ...compiler.quantity import UNITS, decimal_text
from . import words as say

TENTHS_BELOW = 10  # a figure of less is told to a tenth
KILOMETRE = 1000


def figure(value: Fraction | float) -> str:
    """A figure for people: `8`, `0.3`, `1240`."""
    exact = Fraction(value)
    whole = abs(exact) >= TENTHS_BELOW or exact.denominator == 1
    return decimal_text(Fraction(round(exact) if whole else Fraction(round(exact * 10), 10)))


def load(kilograms: Fraction, unit: str) -> str:
    """A load in the program's unit: `16.5 kg`."""
    return f"{decimal_text(Fraction(round(kilograms / UNITS[unit][1] * 100), 100))} {unit}"


def rounded_load(kilograms: Fraction, unit: str) -> str:
    """An estimated or effective load, which no place after the point would make truer: `33 kg`."""
    return f"{round(kilograms / UNITS[unit][1])} {unit}"


def measure_unit(measure: Measure, unit: str) -> str:
    """The unit of a measure's figures."""
    return {"volume": unit, "carried": f"{unit}·m"}.get(measure, say.COUNT_UNITS.get(measure, ""))


def measured_in(measure: Measure, value: Fraction, unit: str) -> Fraction:
    """A figure of a measure in the unit in which it is told."""
    return value / UNITS[unit][1] if measure in ("volume", "carried") else value


def clock(seconds: Fraction) -> str:
    """A time as on a watch: `31:40`, `1:02:05`."""
    minutes, rest = divmod(round(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes}:{rest:02}"


def distance(metres: Fraction) -> str:
    """A distance: `80 m`, `2.4 km`."""
    if metres < KILOMETRE:
        return f"{figure(metres)} m"
    return f"{decimal_text(Fraction(round(metres / 10), 100))} km"


def pace(done: Done) -> str:
    """The pace of a session, "" where it tells none."""
    return f"{clock(done.pace)} / km" if done.pace is not None else ""
