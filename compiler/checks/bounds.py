"""Steps and bounds of an axis: their units, and whether a first step can be taken at all."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

import attrs

from ...grammar.diagnostic import Check, Diagnostic, Label, or_list
from ..axes import AXES
from ..load_scale import Scale
from ..model import Axis, Program
from ..quantity import Figure, Quantity, dimension_of, figure_of, share_of
from .examples import in_block
from .places import on_line
from .walk import axes, rules

TO = r"\bto +(?:[a-z][a-z0-9-]*|[\d.]+ *(?:%|[a-z]+\b)?)"  # a bound as it is written

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
        unfit = None if axis.step is None else AXES[axis.name].step_unfit(axis.step)
        if unfit is not None:
            where = on_line(axis.span, r"\bby +[\d.]+ *(?:%|[a-z]+\b)?")
            yield STEP_UNIT.at(where, axis=axis.name, step=axis.step, measure=unfit[0], example=unfit[1])


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
        kind = AXES[axis.name]
        if axis.bound is None or kind.ladder:
            continue
        share = kind.bound_share(here.entry.dose)
        if not kind.suits(axis.bound, share=share):
            yield BOUND_UNIT.at(
                on_line(axis.span, TO),
                axis=axis.name,
                bound=axis.bound,
                measure=kind.called + (" or a share of the training maximum" if share else ""),
                example=f"`{axis.name} to {kind.bound_example}`",
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
        kind = AXES[axis.name]
        if axis.step is not None and not kind.ladder and figure_of(axis.step) == 0:
            where = on_line(axis.span, r"\bby +0[\d.]* *(?:%|[a-z]+\b)?")
            yield STEP_ZERO.at(where, axis=axis.name, step=axis.step, example=kind.example)


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
            shrinks = AXES[way.axis.name].shrinks
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
        return figure_of(step)  # of a load told as a share of the training maximum a step in % is points of it
    if step.unit != "%":
        return None
    return share_of(way.start, step.base, AXES[way.axis.name].grain(Scale(bound.unit)))


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
        if AXES[axis.name].ladder and axis.bound is not None and rungs and axis.bound not in rungs:
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
            kind = AXES[before.name]
            endless = before.bound is None and kind.endless(here.entry.dose)
            if endless and kind.unfit(here.block, here.entry) is None:
                yield AXIS_NEVER_REACHED.at(
                    after.span,
                    axis=after.name,
                    before=before.name,
                    step=before.step or kind.example,
                    bound=kind.bound_example,
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
    start: Figure
    room: Figure
    known: bool = True


def _ways(program: Program) -> Iterator[_Way]:
    for here, axis in axes(program):
        kind = AXES[axis.name]
        if axis.bound is None or isinstance(axis.bound, str) or kind.unfit(here.block, here.entry) is not None:
            continue
        start = kind.told(program, here.block, here.entry) if here.entry.dose.sets else None
        if start is None:
            nothing = Quantity(Fraction(0), axis.bound.unit) if isinstance(axis.bound, Quantity) else 0
            if not kind.shrinks:
                yield _Way(axis, str(nothing), 0, figure_of(axis.bound), known=False)
        elif dimension_of(start) == dimension_of(axis.bound):
            room = figure_of(axis.bound) - figure_of(start)
            yield _Way(axis, str(start), figure_of(start), -room if kind.shrinks else room)
