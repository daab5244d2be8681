"""Progression: from where somebody stands in a movement and how a session went, to where they stand next, and why.

A rule of progression is an ordered list of axes. After a good session the first axis that can still move takes one
step; the others stay, but for those that it sends back to their start. `after 2 good` asks for two good sessions in a
row, `after 2 missed, ease load 10%` takes a step back. When no axis can move the rule is exhausted.

A `Course` is all that stays the same: the axes with their starts, steps and bounds, the loads that can be made. A
`Standing` is all that changes. `after` goes from one standing to the next; nothing here has a state of its own. How a
course comes from an entry, and a dose from a standing, is in `course.py`, how the next figure of an axis comes about in
its class in `axes/`.

Figures are whole numbers of repetitions, sets and cues, the place of a rung on its ladder from 0, and else fractions in
s, m, kg, or as a share of the training maximum. A figure is None where nobody knows it yet: a load that was never said, a
distance that only a log tells. An axis without a figure counts as one that can move: nothing is called exhausted that is
only unknown.
"""

from __future__ import annotations

from bisect import bisect_right
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

import attrs

from .guidelines import LARGEST_STEP
from .model import Value
from .quantity import Figure, share_of

if TYPE_CHECKING:
    from .axes.kind import AxisKind

Kind = Literal["moved", "counting", "waiting", "exhausted", "held", "eased"]
# Why an axis could not move: its bound; the jump to the next load is too large; no heavier load can be made; the ladder
# has no higher rung; the repetitions at which a rung is climbed are not reached.
Reason = Literal["bound", "jump", "no-heavier", "top", "repetitions"]


@attrs.frozen(eq=False, repr=False, match_args=False)
class Track(Value):
    """One axis of a course: its start, step and bound as figures; `share` tells a step that is a share of the figure.

    A step that is a share is rounded down to the `grain`, and is at least one grain. `step` is None for the next load or
    rung, and for one that nobody can tell. `least` is where easing ends, and an axis that shrinks without a bound.
    """

    kind: AxisKind
    start: Figure | None
    step: Figure | None = None
    share: bool = False
    grain: Figure = 1
    least: Figure = 1
    bound: Figure | None = None
    at: int | None = None  # repetitions that every set must reach
    restarts: tuple[int, ...] = ()  # other tracks, by place

    @property
    def name(self) -> str:
        """The name of the axis."""
        return self.kind.name

    def size(self, figure: Figure) -> Figure:
        """How large the step from a figure is."""
        assert self.step is not None
        return share_of(figure, self.step, self.grain) if self.share else self.step


@attrs.frozen(eq=False, repr=False, match_args=False)
class Course(Value):
    """What stays the same while somebody progresses in a movement.

    `tracks` are the axes of the rule in order, and last the eased axis where the rule does not name it. `loads` are all
    that can be made, rising, or None where nobody knows. `expected` are the repetitions an `amrap` set begins with, `asked`
    those of the smallest set of a fixed number (a range at its top), and `spread` by how many the largest has more.
    `least_step` is the share by which the next load must be heavier, where the rule says no step.
    `maximum` is that of which loads are a share, in kg, where anybody knows it; with `shares` the figure of a load is the
    exact share, and what is lifted the next load that can be made and is not heavier.
    """

    tracks: tuple[Track, ...]
    axes: int  # how many of the tracks belong to the rule
    good: int = 1
    missed: int | None = None
    ease: tuple[int, Figure, bool] | None = None  # the track, by how much, and whether that is a share
    loads: tuple[Fraction, ...] | None = None
    jump: Fraction = LARGEST_STEP
    least_step: Fraction = Fraction(0)
    rungs: int = 0
    expected: int | None = None
    asked: int | None = None
    spread: int = 0
    sets: int = 1
    rounds: int | None = None
    unit: str = "kg"
    maximum: Fraction | None = None
    shares: bool = False

    def lifted(self, figure: Figure) -> Figure:
        """The load that is lifted: for an exact share the next that can be made and is not heavier, where one is."""
        place = bisect_right(self.loads, figure) if self.shares and self.loads else 0
        return self.loads[place - 1] if self.loads and place else figure

    @property
    def start(self) -> Standing:
        """Where it begins."""
        return Standing(tuple(track.start for track in self.tracks), self.expected)


@attrs.frozen(eq=False, repr=False, match_args=False)
class Standing(Value):
    """Where somebody stands: a figure for each track, and how many sessions in a row were good, or were missed.

    `expected` are the repetitions of the best `amrap` set so far, or those expected before the first.
    """

    figures: tuple[Figure | None, ...]
    expected: int | None = None
    good: int = 0
    missed: int = 0


@attrs.frozen(eq=False, repr=False, match_args=False)
class Blocked(Value):
    """An axis that could not move, and why; `figure` is the one that it would have come to, where there is one."""

    axis: str
    reason: Reason
    figure: Figure | None = None


@attrs.frozen(eq=False, repr=False, match_args=False)
class Turn(Value):
    """What a session leads to: where the athlete stands next, and why.

    `moved`: `axis` took a step, the axes of `blocked` before it could not. `counting`: the session was good, one more
    is asked for. `waiting`: an axis waits for repetitions. `exhausted`: no axis can move. `held`: the session fell short.
    `eased`: `axis` went back.
    """

    standing: Standing
    kind: Kind
    axis: str | None = None
    blocked: tuple[Blocked, ...] = ()


def after(course: Course, standing: Standing, good: bool, repetitions: int | None = None) -> Turn:
    """Where somebody stands after a session that was good, or fell short.

    `repetitions` are those of the set that had fewest; for sets that count none, or were done as asked, it can be left
    out. An `amrap` set is then taken to have brought one more than the best before, unless its rule is exhausted.
    """
    if not good:
        return _missed(course, standing)
    expected = standing.expected
    if expected is not None:
        expected = expected + 1 if repetitions is None else max(expected, repetitions)
    count = min(standing.good + 1, course.good)
    if count < course.good:
        return Turn(Standing(standing.figures, expected, count), "counting")
    figures = standing.figures
    blocked: list[Blocked] = []
    for place in range(course.axes):
        track, figure = course.tracks[place], figures[place]
        following, reason = track.kind.following(figure, track, course)
        if track.at is not None and reason != "top" and _repetitions(course, figures, expected, repetitions) < track.at:
            following, reason = None, "repetitions"
        if reason is None:
            return Turn(_moved(course, standing, place, following, expected), "moved", track.name, tuple(blocked))
        blocked.append(Blocked(track.name, reason, following))
    if any(one.reason == "repetitions" for one in blocked):
        return Turn(Standing(figures, expected, count), "waiting", None, tuple(blocked))
    best = standing.expected if repetitions is None else expected
    return Turn(Standing(figures, best, count), "exhausted", None, tuple(blocked))


def ended(course: Course, standing: Standing) -> tuple[Blocked, ...]:
    """The axes of the rule that can never move again by good sessions, and why.

    One that is at its end moves again where another that can still move sends it back.
    """
    blocked: dict[int, Blocked] = {}
    for place, track in enumerate(course.tracks[: course.axes]):
        following, reason = track.kind.following(standing.figures[place], track, course)
        if reason is not None:
            blocked[place] = Blocked(track.name, reason, following)
    moving = [place for place in range(course.axes) if place not in blocked]
    while moving:
        for place in course.tracks[moving.pop()].restarts:
            if blocked.pop(place, None) is not None:
                moving.append(place)
    return tuple(blocked.values())


def _missed(course: Course, standing: Standing) -> Turn:
    count = standing.missed + 1
    if course.missed is None or count < course.missed or course.ease is None:
        return Turn(Standing(standing.figures, standing.expected, 0, count), "held")
    place, less, share = course.ease
    track, figure = course.tracks[place], standing.figures[place]
    eased = None
    if figure is not None:
        eased = track.kind.back(figure, share_of(figure, less, track.grain) if share else less, track, course)
    if figure is not None and eased == figure:
        return Turn(Standing(standing.figures, standing.expected), "held")
    expected = course.expected if track.kind.afresh else standing.expected
    return Turn(Standing(_with(standing.figures, place, eased), expected), "eased", track.name)


def _moved(course: Course, standing: Standing, place: int, figure: Figure | None, expected: int | None) -> Standing:
    track = course.tracks[place]
    figures = _with(standing.figures, place, figure)
    for other in track.restarts:
        figures = _with(figures, other, course.tracks[other].start)
    return Standing(figures, course.expected if track.kind.afresh else expected)


def _with(figures: tuple[Figure | None, ...], place: int, figure: Figure | None) -> tuple[Figure | None, ...]:
    return (*figures[:place], figure, *figures[place + 1 :])


def _repetitions(
    course: Course, figures: tuple[Figure | None, ...], expected: int | None, repetitions: int | None
) -> Figure:
    """The repetitions that every set reached: as told, else as asked for."""
    if repetitions is not None:
        return repetitions
    if expected is not None:
        return expected if course.asked is None else min(expected, course.asked)
    now = {track.name: figure for track, figure in zip(course.tracks, figures, strict=True) if figure is not None}
    if "total reps" in now:
        return now["total reps"] // now.get("sets", course.sets)
    if "reps" in now:
        return now["reps"] - course.spread
    return course.asked or 0
