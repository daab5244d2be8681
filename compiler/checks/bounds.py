"""Steps and bounds of an axis: their units, and whether a first step can be taken at all."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

import attrs

from ...grammar.diagnostic import Check, Diagnostic, Label, or_list
from ..clock import rest_time
from ..course import top_of_range
from ..model import Amrap, Axis, Distance, Dose, Program, Reps, Target, Timed
from ..progression import SHRINKING, Figure, share_of
from ..quantity import UNITS, Quantity
from .examples import in_block
from .places import on_line
from .progress import COUNTED, why_unfit
from .walk import Place, axes, rules

TO = r"\bto +(?:[a-z][a-z0-9-]*|[\d.]+ *(?:%|[a-z]+\b)?)"  # a bound as it is written

# What the step and the bound of an axis are told in: a dimension, or None for a whole number.
MEASURES = {
    "load": "mass",
    "lower": "time",
    "pause": "time",
    "hold": "time",
    "distance": "length",
    "time": "time",
    "pace": "time",
    "rest": "time",
    **dict.fromkeys(COUNTED),
}
EXAMPLES = {None: "1", "mass": "2 kg", "time": "5 s", "length": "5 m"}
BOUNDS = {None: "12", "mass": "20 kg", "time": "60 s", "length": "40 m"}
NAMES = {None: "a whole number", "mass": "a weight", "time": "a time", "length": "a distance"}

STEP_UNIT = Check(
    code="step-unit-mismatch",
    severity="error",
    title="A step in a unit that the axis does not have",
    message="`{axis}` cannot advance by {step}: its step is {measure}.",
    help="Write {example}.",
    explain="Repetitions, sets and cues advance by whole numbers, load by a weight or a share, the parts of a tempo, holds, "
    "times and rests by a time or a share, distance by metres or a share. A rung takes no step: it is always the next one.",
    wrong=in_block(
        """
        must plank 2 x 30 s
          advance hold by 5 to 60 s
        """
    ),
    right=in_block(
        """
        must plank 2 x 30 s
          advance hold by 5 s to 60 s
        """
    ),
)


def find_step_unit(program: Program) -> Iterator[Diagnostic]:
    for _, axis in axes(program):
        if axis.step is None:
            continue
        where = on_line(axis.span, r"\bby +[\d.]+ *(?:%|[a-z]+\b)?")
        if axis.name == "rung":
            yield STEP_UNIT.at(
                where, axis="rung", step=axis.step, measure="always the next rung", example="`rung` alone"
            )
            continue
        measure = MEASURES.get(axis.name)
        if not suits(axis.step, measure, share=measure is not None):
            shares = "" if measure is None else " or a share"
            example = f"`{axis.name} by {EXAMPLES[measure]}`" + ("" if measure is None else f" or `{axis.name} by 5%`")
            yield STEP_UNIT.at(where, axis=axis.name, step=axis.step, measure=NAMES[measure] + shares, example=example)


BOUND_UNIT = Check(
    code="bound-unit-mismatch",
    severity="error",
    title="A bound in a unit that the axis does not have",
    message="`{axis}` cannot go to {bound}: its bound is {measure}.",
    help="Write {example}.",
    explain="A bound is told in what the axis moves: `reps to 12`, `load to 40 kg`, `hold to 60 s`, `distance to 40 m`. "
    "Where the load of the dose is a share of the training maximum, so is its bound.",
    wrong=in_block(
        """
        must goblet-squat 3 x 8
          advance load to 30 s, then reps by 1 to 12
        """
    ),
    right=in_block(
        """
        must goblet-squat 3 x 8
          advance load to 30 kg, then reps by 1 to 12
        """
    ),
)


def find_bound_unit(program: Program) -> Iterator[Diagnostic]:
    for here, axis in axes(program):
        if axis.bound is None or axis.name == "rung":
            continue
        measure = MEASURES.get(axis.name)
        share = axis.name == "load" and any(load.unit == "%" for load in dose_loads(here.entry.dose))
        if not suits(axis.bound, measure, share=share):
            yield BOUND_UNIT.at(
                on_line(axis.span, TO),
                axis=axis.name,
                bound=axis.bound,
                measure=NAMES[measure] + (" or a share of the training maximum" if share else ""),
                example=f"`{axis.name} to {BOUNDS[measure]}`",
            )


STEP_ZERO = Check(
    code="step-zero",
    severity="error",
    title="A step that goes nowhere",
    message="`{axis}` would advance by {step}, which is no step.",
    help="Write how much is added after a good session, such as `{axis} by {example}`.",
    explain="A step of zero leaves the dose as it is for ever. A movement that stays on purpose says `advance none because`.",
    wrong=in_block(
        """
        must chair-stand 3 x 10
          advance reps by 0 to 15
        """
    ),
    right=in_block(
        """
        must chair-stand 3 x 10
          advance reps by 1 to 15
        """
    ),
)


def find_step_zero(program: Program) -> Iterator[Diagnostic]:
    for _, axis in axes(program):
        if axis.step is not None and axis.name != "rung" and size(axis.step) == 0:
            where = on_line(axis.span, r"\bby +0[\d.]* *(?:%|[a-z]+\b)?")
            yield STEP_ZERO.at(
                where, axis=axis.name, step=axis.step, example=EXAMPLES.get(MEASURES.get(axis.name), "1")
            )


BOUND_PASSED = Check(
    code="bound-below-start",
    severity="error",
    title="A bound that is reached before the first session",
    message="`{axis}` goes to {bound}, but the dose starts {start}: it can never take a step.",
    help="Write a bound {side} {figure}{other}.",
    explain="An axis moves from the figure of the dose to its bound. Rest and pace shrink, so their bound lies below the start; "
    "all others grow. An `amrap` starts at what it is planned with (`expect`), unlike sets at the heaviest, and a pause of "
    "which nothing is said at 0 s.",
    wrong=in_block(
        """
        must chair-stand 3 x 10
          advance reps by 1 to 8, then rung
        """
    ),
    right=in_block(
        """
        must chair-stand 3 x 10
          advance reps by 1 to 18, then rung
        """
    ),
)


def find_bound_passed(program: Program) -> Iterator[Diagnostic]:
    for way in _ways(program):
        if way.room <= 0:
            shrinks = way.axis.name in SHRINKING
            lower = ", or start higher" if shrinks else ", or start lower" if way.known and way.start else ""
            yield BOUND_PASSED.at(
                on_line(way.axis.span, TO),
                axis=way.axis.name,
                bound=way.axis.bound,
                start=f"at {way.told}" if way.known else f"above {way.told}",
                side="below" if shrinks else "above",
                figure=way.told,
                other=lower,
            )


STEP_PAST_BOUND = Check(
    code="step-past-bound",
    severity="error",
    title="A first step that is larger than the room to the bound",
    message="`{axis}` starts at {start} and goes by {step} to {bound}: even the first step goes past the bound.",
    help="Write a smaller step, or a bound further away.",
    explain="A step is taken only when it stays within the bound. When the first does not, the axis never moves. Of a load "
    "told as a share of the training maximum a step in % is points: from 70% by 5% to 75%. Any other share is one of the "
    "figure.",
    wrong=in_block(
        """
        must chair-stand 3 x 10
          advance reps by 5 to 12, then rung
        """
    ),
    right=in_block(
        """
        must chair-stand 3 x 10
          advance reps by 2 to 12, then rung
        """
    ),
)


def find_step_past_bound(program: Program) -> Iterator[Diagnostic]:
    for way in _ways(program):
        step = way.axis.step
        if step is None or way.room <= 0 or not way.known:
            continue
        taken = _taken(step, way)
        if taken is not None and taken > way.room:
            yield STEP_PAST_BOUND.at(way.axis.span, axis=way.axis.name, start=way.told, step=step, bound=way.axis.bound)


def _taken(step: int | Quantity, way: _Way) -> Figure | None:
    """How far a step goes from the start; None where a weight is added to a share of a maximum that nobody knows here."""
    bound = way.axis.bound
    if not isinstance(step, Quantity) or not isinstance(bound, Quantity) or step.dimension == bound.dimension:
        return size(step)  # of a load told as a share of the training maximum a step in % is points of it
    if step.unit != "%":
        return None
    return share_of(way.start, step.base, UNITS[bound.unit][1] / 10 if bound.dimension == "mass" else 1)


RUNG_BOUND_UNKNOWN = Check(
    code="rung-bound-unknown",
    severity="error",
    title="A bound that is no rung of the movement",
    message="`rung` cannot go to `{bound}`: `{movement}` has no such rung.",
    help="Its rungs are {rungs}.",
    explain="The bound of `rung` is the name of the last rung to be climbed to. Without one, the ladder is climbed to its top.",
    wrong=in_block(
        """
        must push-up 3 x 8
          advance rung to ceiling
        """
    ),
    right=in_block(
        """
        must push-up 3 x 8
          advance rung to knees
        """
    ),
)


def find_rung_bound_unknown(program: Program) -> Iterator[Diagnostic]:
    for here, axis in axes(program):
        rungs = [rung.name for rung in here.entry.movement.rungs]
        if axis.name == "rung" and axis.bound is not None and rungs and axis.bound not in rungs:
            yield RUNG_BOUND_UNKNOWN.at(
                on_line(axis.span, TO),
                bound=axis.bound,
                movement=here.entry.movement.name,
                rungs=or_list(rungs).replace(" or ", " and "),
            )


AXIS_NEVER_REACHED = Check(
    code="axis-never-reached",
    severity="warning",
    title="An axis that never gets its turn",
    message="`{axis}` never gets its turn: `{before}` before it has no bound, so it can always take another step.",
    help="Give `{before}` a bound, such as `{before} by {step} to {bound}`.",
    explain="After a good session the first axis of the rule that can still move takes a step. One without a bound can always "
    "move, unless it is load, which ends with what the athlete can make, a rung, which ends at the top of the ladder, or "
    "repetitions of a range, which end at its top.",
    wrong=in_block(
        """
        must goblet-squat 3 x 8
          advance reps by 1, then load restarting reps
        """
    ),
    right=in_block(
        """
        must goblet-squat 3 x 8
          advance reps by 1 to 12, then load restarting reps
        """
    ),
)


def find_axis_never_reached(program: Program) -> Iterator[Diagnostic]:
    for here, rule in rules(program):
        for before, after in pairwise(rule.axes):
            endless = before.bound is None and before.name not in {"load", "rung", "rest", "pace"}
            ranged = before.name == "reps" and top_of_range(here.entry.dose) is not None
            if endless and not ranged and why_unfit(before.name, here) is None:
                measure = MEASURES.get(before.name)
                yield AXIS_NEVER_REACHED.at(
                    after.span,
                    axis=after.name,
                    before=before.name,
                    step=before.step or EXAMPLES[measure],
                    bound=BOUNDS[measure],
                    labels=[Label(before.span, "no bound here")],
                )
                break


@attrs.frozen(eq=False, repr=False, match_args=False)
class _Way:
    """An axis with a bound: its start as told and as a figure, and the room between the two.

    Where the program does not say the start, it is above nothing, and more is not known.
    """

    axis: Axis
    told: str
    start: Fraction
    room: Fraction
    known: bool = True


def _ways(program: Program) -> Iterator[_Way]:
    for here, axis in axes(program):
        start = _start(program, here, axis.name)
        if axis.bound is None or isinstance(axis.bound, str) or why_unfit(axis.name, here) is not None:
            continue
        if start is None:
            nothing = Quantity(Fraction(0), axis.bound.unit) if isinstance(axis.bound, Quantity) else 0
            if axis.name not in SHRINKING:
                yield _Way(axis, str(nothing), Fraction(0), size(axis.bound), known=False)
        elif measure_of(start) == measure_of(axis.bound):
            room = size(axis.bound) - size(start)
            yield _Way(axis, str(start), size(start), -room if axis.name in SHRINKING else room)


def _start(program: Program, here: Place, axis: str) -> int | Quantity | None:
    """The figure from which an axis starts, where the program says it."""
    dose = here.entry.dose
    if not dose.sets or why_unfit(axis, here) is not None:
        return None
    reps = [work.target.low for work in dose.sets if isinstance(work.target, Reps)]
    every = [_planned(work.target) for work in dose.sets]
    loads = dose_loads(dose)
    times = [work.target.time for work in dose.sets if isinstance(work.target, Timed)]
    lengths = [work.target.length for work in dose.sets if isinstance(work.target, Distance)]
    silent = Quantity(Fraction(0), "s") if dose.tempo.cues is None else None
    starts: dict[str, int | Quantity | None] = {
        "reps": max(reps, default=None),
        "total reps": None if None in every else sum(count or 0 for count in every) * (here.block.rounds or 1),
        "sets": len(dose.sets),
        "load": max(loads, key=size) if len({load.dimension for load in loads}) == 1 else None,
        "lower": dose.tempo.lower,
        "pause": dose.tempo.pause or silent,
        "cues": dose.tempo.cues,
        "hold": max(times, key=size, default=None),
        "time": max(times, key=size, default=None),
        "distance": max(lengths, key=size, default=None),
        "rest": Quantity(rest_time(program, here.block, here.entry), "s"),
    }
    return starts.get(axis)


def _planned(target: Target) -> int | None:
    """The repetitions that a set is planned with, where the coach says any."""
    match target:
        case Reps(low=low):
            return low
        case Amrap(expect=expected):
            return expected
    return None


def dose_loads(dose: Dose) -> tuple[Quantity, ...]:
    """The loads that a dose names, for all sets or for one."""
    return tuple(load for load in (dose.load, *(work.load for work in dose.sets)) if load is not None)


def measure_of(value: int | Quantity) -> str | None:
    """What a value is told in: a dimension, or None for a whole number."""
    return value.dimension if isinstance(value, Quantity) else None


def suits(value: int | Quantity | str, measure: str | None, *, share: bool) -> bool:
    """Whether a value is told in a measure, or as a share where that can be."""
    if isinstance(value, Quantity):
        return value.dimension == measure or (share and value.unit == "%")
    return measure is None and isinstance(value, int)


def size(value: int | Quantity) -> Fraction:
    """A count as it is, a quantity in the base unit of its dimension."""
    return value.base if isinstance(value, Quantity) else Fraction(value)
