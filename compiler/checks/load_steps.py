"""By how much a load may rise at once: steps that are never taken, and those beyond what is advised."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import attrs

from ...grammar.diagnostic import Check, Diagnostic, Label
from ..guidelines import LARGEST_STEP
from ..load_scale import loads_of
from ..model import Axis, Program, Rule
from ..quantity import Quantity, decimal_text, figure_of
from .examples import in_program
from .places import on_line, part
from .walk import Place, rules

_RULE = """
session main
  block legs
    must goblet-squat 3 x 8 at 12 kg
      advance {}
"""
_BY = r"\bby +[\d.]+ *(?:%|[a-z]+\b)?"
_SOURCE = (
    "A load grows by 2 to 10% when one or two repetitions more than asked for were done, on two sessions in a row: American "
    "College of Sports Medicine, Progression Models in Resistance Training for Healthy Adults, Med Sci Sports Exerc "
    "2009;41(3):687-708 (the step read in a summary, the two sessions in its evidence table). "
)

STEP_OVER_JUMP = Check(
    code="load-step-over-jump",
    severity="warning",
    title="A step of the load that is larger than the largest jump",
    message="`load by {step}`{start} is a step of {share}, but {jump}: it is never taken.",
    help="Write a smaller step, or a larger `jump` with repetitions that grow before the load.",
    explain="A step that is larger than `jump` is not taken: the turn goes to the next axis. A step in kilograms is told only "
    "where the dose says its load. An athlete's own `jump` goes before that of the program; where it is meant for that, say so "
    "with `allow`.",
    wrong=in_program("", _RULE.format("reps by 1 to 12, then load by 2 kg restarting reps")),
    right=in_program("jump 20%", _RULE.format("reps by 1 to 12, then load by 2 kg restarting reps")),
)


def find_step_over_jump(program: Program) -> Iterator[Diagnostic]:
    jump = LARGEST_STEP if program.jump is None else program.jump.base
    for rise in _rises(program):
        if rise.share is not None and rise.share > jump > 0:
            nothing = f"a jump is at most {_percent(LARGEST_STEP)} where nothing is said"
            told = nothing if program.jump is None else f"`jump {program.jump}`"
            yield STEP_OVER_JUMP.at(
                on_line(rise.axis.span, _BY),
                step=rise.axis.step,
                start=rise.start,
                share=_percent(rise.share),
                jump=told,
            )


STEP_LARGE = Check(
    code="load-step-large",
    severity="advice",
    title="A step of the load of more than 10%",
    message="`load by {step}`{start} is a step of {share}; 2 to 10% are advised.",
    help="Write a smaller step, or let repetitions grow before the load.",
    explain=_SOURCE
    + "A step in kilograms is told only where the dose says its load, and where no other axis stands before it: "
    "with coarse weights the smallest step may be larger, 1 kg on 5 kg is 20%, and repetitions grow first.",
    wrong=in_program("jump 20%", _RULE.format("load by 2 kg, then reps by 1 to 12")),
    right=in_program("jump 20%", _RULE.format("reps by 1 to 12, then load by 2 kg restarting reps")),
)


def find_load_step_large(program: Program) -> Iterator[Diagnostic]:
    for rise in _rises(program):
        if rise.share is None or program.jump is None or not LARGEST_STEP < rise.share <= program.jump.base:
            continue
        if rise.first or not rise.start:
            yield STEP_LARGE.at(
                on_line(rise.axis.span, _BY), step=rise.axis.step, start=rise.start, share=_percent(rise.share)
            )


JUMP_LARGE = Check(
    code="jump-large",
    severity="advice",
    title="Loads that may rise by more than 10% at once, with nothing before them",
    message="`jump {jump}` lets the load of {movement} rise by as much at once; 2 to 10% are advised.",
    help="Let something grow before it, such as `advance reps by 1 to 12, then load restarting reps`, or write `jump 10%`.",
    explain=_SOURCE
    + "With coarse weights the smallest step may be larger: 1 kg on 5 kg is 20%. Then let repetitions grow first; "
    "a rule in which another axis stands before the load is not told.",
    wrong=in_program("jump 20%", _RULE.format("load, then reps by 1 to 12")),
    right=in_program("jump 20%", _RULE.format("reps by 1 to 12, then load restarting reps")),
)


def find_jump_large(program: Program) -> Iterator[Diagnostic]:
    if program.jump is None or not LARGEST_STEP < program.jump.base <= 1:
        return
    free = [rise for rise in _rises(program) if rise.first and rise.share is None]
    if free:
        more = f" and of {len(free) - 1} more" if len(free) > 1 else ""
        yield JUMP_LARGE.at(
            part(program.span, r"\bjump +[\d.]+ *%"),
            jump=program.jump,
            movement=f"`{free[0].here.entry.movement.name}`{more}",
            labels=[Label(free[0].axis.span, "the load comes first here")],
        )


@attrs.frozen(eq=False, repr=False, match_args=False)
class _Rise:
    """A load that advances: whether first in its rule, and its step as a share of the load where the program says both.

    `start` is the load that the share is of, in words; nothing where the step itself is a share.
    """

    here: Place
    axis: Axis
    first: bool
    share: Fraction | None = None
    start: str = ""


def _rises(program: Program) -> Iterator[_Rise]:
    for here, rule in rules(program):
        for axis in rule.axes if here.entry.movement.loaded_by else ():
            if axis.name == "load":
                yield _rise(here, rule, axis)


def _rise(here: Place, rule: Rule, axis: Axis) -> _Rise:
    step, first = axis.step, rule.axes[0] is axis
    if not isinstance(step, Quantity):
        return _Rise(here, axis, first)
    loads = loads_of(here.entry.dose)
    if loads and all(one.dimension == step.dimension and one.base for one in loads):  # shares by points of the maximum
        heaviest = max(loads, key=figure_of)
        return _Rise(here, axis, first, step.base / heaviest.base, f" from {heaviest}")
    return _Rise(here, axis, first, step.base if step.unit == "%" else None)


def _percent(share: Fraction) -> str:
    return f"{decimal_text(share * 100, 1)}%"
