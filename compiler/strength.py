"""Estimates of a one-repetition maximum from a set that went nearly as far as it could.

Both formulas are published for repetitions to failure, and hold to about 10 repetitions (validity limit: read in secondary
reprints, and in the abstract of Reynolds, Gordon and Robergs, J Strength Cond Res 2006;20(3):584-592). They differ: neither
is told without its name.
"""

from __future__ import annotations

from fractions import Fraction

import attrs

from .model import Value

MOST_REPETITIONS = 10


@attrs.frozen(eq=False, repr=False, match_args=False)
class Estimate(Value):
    """An estimated one-repetition maximum, in the unit of the load, by both formulas."""

    epley: Fraction
    brzycki: Fraction


def epley(load: Fraction, repetitions: int) -> Fraction:
    """load x (1 + repetitions / 30): Epley B, Poundage chart, Boyd Epley Workout, Lincoln NE 1985 (coefficient read in a
    secondary source, where it also circulates as 0.0333 and 0.033). One repetition is the maximum itself.
    """
    return load if repetitions == 1 else load * (1 + Fraction(repetitions, 30))


def brzycki(load: Fraction, repetitions: int) -> Fraction:
    """load x 36 / (37 - repetitions): Brzycki M, J Phys Educ Rec Dance 1993;64(1):88-90, with its 1.0278 - 0.0278 r written
    as fractions (read in a secondary source).
    """
    return load * Fraction(36, 37 - repetitions)


def estimate(load: Fraction, repetitions: int) -> Estimate | None:
    """The estimates of a set; None for none and for more than 10 repetitions, where the formulas do not hold."""
    if not 1 <= repetitions <= MOST_REPETITIONS or load <= 0:
        return None
    return Estimate(epley(load, repetitions), brzycki(load, repetitions))
