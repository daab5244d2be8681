"""Units against their exact definitions, and against another library's arithmetic.

The definitions are those of NIST SP 811, Appendix B, and NIST Handbook 44, Appendix C; those tables were not read
themselves. Beside each figure stands where the number was read.
"""

from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from setwright.compiler.quantity import UNITS, Quantity, read_quantity

EXACT = [
    ("1 lb", "kg", "0.45359237"),  # read in fdsd.co.uk, MetricConversion (secondary), and printed by pint 0.25.3
    ("1 ft", "m", "0.3048"),  # read in fdsd.co.uk
    ("1 yd", "m", "0.9144"),  # read in fdsd.co.uk
    ("1 mi", "m", "1609.344"),  # read in fdsd.co.uk: 1760 yards
    ("1760 yd", "mi", "1"),  # the same
    ("5 lb", "kg", "2.26796185"),  # computed: 5 x 0.45359237
    ("8 lb", "kg", "3.62873896"),  # computed: 8 x 0.45359237
    ("14 lb", "kg", "6.35029318"),  # computed: 14 x 0.45359237
    ("60 mi", "m", "96560.64"),  # computed: a mile an hour is 26.8224 m a minute, and not the 26.8 often printed
    ("1 min", "s", "60"),  # definition
    ("1 h", "s", "3600"),  # definition
    ("1 cm", "m", "0.01"),  # definition
    ("1 km", "m", "1000"),  # definition
    ("1 g", "kg", "0.001"),  # definition
    ("1 ml", "l", "0.001"),  # definition
]


@pytest.mark.parametrize(("written", "unit", "value"), EXACT)
def test_units_are_exact(written, unit, value):
    assert read_quantity(written).to(unit) == Quantity(Fraction(value), unit)


def test_a_kilogram_in_pounds():
    # Computed: 2.2046226218487757, the nearest double.
    assert float(read_quantity("1 kg").to("lb").amount) == 2.2046226218487757


def test_a_mile_an_hour():
    # Computed: 26.8224 m/min.
    assert read_quantity("1 mi").base / 60 == Fraction("26.8224")


PINT_NAMES = {"min": "minute", "h": "hour", "l": "liter", "ml": "milliliter", "ft": "foot", "%": "percent"}
PINT_BASES = {"time": "second", "mass": "kilogram", "length": "meter", "volume": "liter", "share": "dimensionless"}


@pytest.mark.parametrize("unit", UNITS)
def test_pint_agrees(unit):
    dimension, size = UNITS[unit]
    units = pint.UnitRegistry(non_int_type=Decimal)
    theirs = units.Quantity(Decimal(1), PINT_NAMES.get(unit, unit)).to(PINT_BASES[dimension])
    # Decimal divides where the definition multiplies: 28 digits, so exact to a hair.
    assert abs(Fraction(theirs.magnitude) - size) <= size / 10**26


def test_back_and_forth_is_the_same():
    assert read_quantity("2.4 km").to("mi").to("km") == read_quantity("2.4 km")
