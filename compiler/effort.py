"""Effort: the load of a session by how hard it felt, and of a week how much of it there is and how alike its days are."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

import attrs

from .model import Value


def session_load(rpe: Fraction, minutes: Fraction) -> Fraction:
    """Effort times minutes, in arbitrary units: Foster C et al., J Strength Cond Res 2001;15(1):109-115 (read in an abstract
    of 1998, where effort and duration are integrated, and as a product in a secondary source).
    """
    return rpe * minutes


@attrs.frozen(eq=False, repr=False, match_args=False)
class WeekOfEffort(Value):
    """The sum of a week's session loads; monotony and strain are None where every day is the same."""

    load: Fraction
    monotony: float | None
    strain: float | None


def week_of_effort(days: Sequence[Fraction]) -> WeekOfEffort:
    """Seven days, those without training 0: monotony is the daily mean over the standard deviation, strain the sum of the week
    times monotony. Foster C, Med Sci Sports Exerc 1998;30(7):1164-1168 (formula read in the abstract; the week of seven days
    in a secondary source). The abstract does not say which standard deviation: here it is that of a sample, n - 1.
    """
    if len(days) != 7:
        raise ValueError("a week has seven days")
    whole = sum(days, Fraction(0))
    mean = whole / 7
    spread = math.sqrt(sum((day - mean) ** 2 for day in days) / 6)
    if not spread:
        return WeekOfEffort(whole, None, None)
    monotony = float(mean) / spread
    return WeekOfEffort(whole, monotony, float(whole) * monotony)
