"""A trend that one bad day does not turn: the median of all slopes, with its interval."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from itertools import combinations
from statistics import NormalDist, median

import attrs

from .model import Value

CONFIDENCE = 0.95
FEWEST = 4  # points, below which an interval says nothing. Common practice, no source


@attrs.frozen(eq=False, repr=False, match_args=False)
class Trend(Value):
    """The slope, in units of y for one of x, and between which two it lies with 95 % confidence; the line's height at x = 0."""

    slope: float
    low: float
    high: float
    intercept: float


def trend(points: Sequence[tuple[float, float]]) -> Trend | None:
    """The Theil-Sen line of points (x, y); None for fewer than four, or where all x are the same.

    Sen PK, J Am Stat Assoc 1968;63(324):1379-1389 (from memory): the slope is the median of the slopes of all pairs, and its
    interval is taken from their order by the normal approximation of Kendall's statistic, ties counted.
    """
    slopes = sorted((b[1] - a[1]) / (b[0] - a[0]) for a, b in combinations(sorted(points), 2) if a[0] != b[0])
    if len(points) < FEWEST or not slopes:
        return None
    count = len(points)
    slope = median(slopes)
    intercept = median(y for _, y in points) - slope * median(x for x, _ in points)
    ties = [_spread(times) for axis in zip(*points, strict=True) for times in Counter(axis).values()]
    sigma = math.sqrt(max((_spread(count) - sum(ties)) / 18, 0))
    reach = NormalDist().inv_cdf(1 - (1 - CONFIDENCE) / 2) * sigma
    high = min(round((len(slopes) + reach) / 2), len(slopes) - 1)
    low = max(round((len(slopes) - reach) / 2) - 1, 0)
    return Trend(slope, slopes[low], slopes[high], intercept)


def _spread(count: int) -> int:
    return count * (count - 1) * (2 * count + 5)
