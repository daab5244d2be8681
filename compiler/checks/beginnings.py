"""Where an athlete begins, against the rules of the program: beginnings beyond the end of an axis."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator

from ...grammar.diagnostic import Check, Diagnostic, Label
from ..model import Axis, Project, Start
from ..progression import SHRINKING
from ..quantity import Quantity
from .bounds import TO, size, suits
from .examples import with_basics
from .places import on_line
from .walk import Place, axes, in_training

_PROGRAM = """
program store-room
  session main
    block legs
      must goblet-squat 3 x 8
        advance load to 16 kg, then reps by 1 to 12

athlete maren "Maren"
  has kettlebell 12 kg, 20 kg
"""

BEGINS_PAST_BOUND = Check(
    code="begins-past-bound",
    severity="warning",
    title="An athlete begins beyond the bound of a rule",
    message="{athlete} begins `{movement}` {begun}, but its `{axis}` goes only to {bound}.",
    help="Write a bound further away, or let {athlete} begin lower.",
    explain="An axis moves from where an athlete begins to its bound. Beyond the bound it never takes a step: the turn goes to "
    "the next axis of the rule. To begin at the bound is no slip: whoever is that strong goes on with the next axis. The rules "
    "are those of the program that the athlete logs, or of the only one there is.",
    wrong=with_basics(_PROGRAM + "  begins goblet-squat at 20 kg\n"),
    right=with_basics(_PROGRAM + "  begins goblet-squat at 12 kg\n"),
)


def find_begins_past_bound(project: Project) -> Iterator[Diagnostic]:
    for program, athletes in in_training(project):
        starts = [(athlete, start) for athlete in athletes for start in athlete.begins]
        ruled = [(here, axis) for here, axis in axes(program) if axis.bound is not None] if starts else []
        for athlete, start in starts:
            past = [(axis, begun) for here, axis in ruled if (begun := _past(here, axis, start))]
            for axis, begun in past[:1]:
                yield BEGINS_PAST_BOUND.at(
                    start.span,
                    athlete=athlete.title,
                    movement=start.movement,
                    begun=begun,
                    axis=axis.name,
                    bound=axis.bound,
                    labels=[Label(on_line(axis.span, TO), "the bound")],
                )


def _past(here: Place, axis: Axis, start: Start) -> str:
    """A beginning beyond the bound of an axis, in words; nothing where it is not beyond it."""
    bound = axis.bound
    if here.entry.movement.name != start.movement or bound is None or axis.name in SHRINKING:
        return ""
    if axis.name == "rung":
        climbed = {rung.name: step for step, rung in enumerate(here.entry.movement.rungs)}
        past = bound in climbed and climbed.get(start.rung or "", -1) > climbed[str(bound)]
        return f"on `{start.rung}`" if past else ""
    for figure, told in _figures(axis, start):
        measure = figure.dimension if isinstance(figure, Quantity) else None
        if not isinstance(bound, str) and suits(bound, measure, share=False) and size(figure) > size(bound):
            return told
    return ""


def _figures(axis: Axis, start: Start) -> Iterator[tuple[int | Quantity, str]]:
    """The figures of a beginning that an axis moves, in words too."""
    if axis.name == "load" and start.load is not None:
        yield start.load, f"at {start.load}"
    if axis.name == "reps" and start.reps is not None:
        yield start.reps, f"with {start.reps} repetitions"
    if axis.name in {"hold", "time", "distance"} and start.amount is not None:
        yield start.amount, f"with {start.amount}"
