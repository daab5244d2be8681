"""Rules of progression: whether a movement has one, and whether its axes can move at all."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator

from ...grammar.diagnostic import Check, Diagnostic, Label
from ..axes import AXES
from ..model import Amrap, Axis, Distance, Program, Rule, Timed
from .examples import in_block, in_session
from .places import header, on_line, own, words
from .walk import Place, chances, places, rules

ADVANCE_MISSING = Check(
    code="advance-missing",
    severity="error",
    title="A working movement that never gets harder",
    message="Nothing says how `{movement}` goes on after a good session.",
    help="Add a line below it, such as `advance {example}`, or say on purpose that it stays: "
    '`advance none because "..."`.',
    explain="In a work block every movement tells how it progresses. Warm-up, cool-down and conditioning are free of it.",
    wrong=in_block("must chair-stand 3 x 10"),
    right=in_block(
        """
        must chair-stand 3 x 10
          advance reps by 1 to 15
        """
    ),
)


def find_advance_missing(program: Program) -> Iterator[Diagnostic]:
    for here in () if program.damaged else places(program):
        told = own(here.entry.span, r"\badvance(?![\w-])")
        if here.block.kind == "work" and here.entry.rule is None and not told:
            name = here.entry.movement.name
            yield ADVANCE_MISSING.at(header(here.entry.span), movement=name, example=_example(here))


def _example(here: Place) -> str:
    """A rule that would suit an entry."""
    target = here.entry.dose.sets[0].target if here.entry.dose.sets else None
    if here.entry.movement.loaded_by:
        return "load"
    match target:
        case Timed() if here.entry.movement.held:
            return "hold by 5 s"
        case Timed():
            return "time by 10%"
        case Distance():
            return "distance by 10%"
        case Amrap() if here.entry.movement.rungs:
            return "rung at 15 reps"
        case Amrap():
            return "total reps by 1"
    return f"reps by 1 to {target.high + 5 if target else 12}"


AFTER_WITHOUT_ADVANCE = Check(
    code="after-without-advance",
    severity="error",
    title="`after` without anything to advance",
    message="`after` tells when to advance `{movement}`, but no `advance` tells how.",
    help="Add a line such as `advance {example}`, or take the `after` lines out.",
    explain="`after 2 good` and `after 2 missed` belong to a rule of progression.",
    wrong=in_session(
        """
        block ready, warm-up
          do chair-stand 1 x 10
            after 2 good
        """
    ),
    right=in_session(
        """
        block ready, warm-up
          do chair-stand 1 x 10
            after 2 good
            advance reps by 1 to 15
        """
    ),
)


def find_after_without_advance(program: Program) -> Iterator[Diagnostic]:
    for here in () if program.damaged else chances(program):
        where = own(here.entry.span, r"\bafter +\d+ +\w+")
        missing = here.block.kind == "work" and not here.instead  # that is told as `advance-missing`
        if (
            here.entry.rule is None
            and where is not None
            and not missing
            and not own(here.entry.span, r"\badvance(?![\w-])")
        ):
            yield AFTER_WITHOUT_ADVANCE.at(where, movement=here.entry.movement.name, example=_example(here))


AXIS_TWICE = Check(
    code="advance-axis-twice",
    severity="error",
    title="An axis stands twice in a rule",
    message="`{axis}` stands twice in this rule.",
    help="Keep one of them: an axis moves from its start to its bound, and has only one of each.",
    explain="A rule is an ordered list of axes; after a good session the first that can still move takes one step.",
    wrong=in_block(
        """
        must chair-stand 3 x 10
          advance reps by 1 to 15, then sets by 1 to 5, then reps by 1 to 20
        """
    ),
    right=in_block(
        """
        must chair-stand 3 x 10
          advance reps by 1 to 20, then sets by 1 to 5
        """
    ),
)


def find_axis_twice(program: Program) -> Iterator[Diagnostic]:
    for _, rule in rules(program):
        first: dict[str, Axis] = {}
        for axis in rule.axes:
            before = first.setdefault(axis.name, axis)
            if before is not axis:
                yield AXIS_TWICE.at(axis.span, axis=axis.name, labels=[Label(before.span, "here already")])


NEEDS_LOAD = Check(
    code="advance-needs-load",
    severity="error",
    title="Load on a movement that is not loaded",
    message="`{movement}` is done without a load, so its load cannot advance.",
    help="Advance something else, such as `reps by 1 to 12`, or use a loaded form of the movement.",
    explain="Only a movement with `loaded by` is done with an implement.",
    wrong=in_block(
        """
        must chair-stand 3 x 10
          advance load, then reps by 1 to 15
        """
    ),
    right=in_block(
        """
        must goblet-squat 3 x 10
          advance load, then reps by 1 to 15
        """
    ),
)


def find_needs_load(program: Program) -> Iterator[Diagnostic]:
    for here, rule in rules(program):
        for axis in rule.axes:
            if axis.name == "load" and not here.entry.movement.loaded_by:
                yield NEEDS_LOAD.at(axis.span, movement=here.entry.movement.name)


AXIS_UNFIT = Check(
    code="advance-axis-unfit",
    severity="error",
    title="An axis that the dose does not have",
    message="`{axis}` cannot advance here: {reason}.",
    help="{instead}",
    explain="An axis moves a figure of the dose. Repetitions move where the dose counts repetitions, `hold` where a position "
    "is held, `distance` where metres are counted, `rung` where the movement has rungs, and so on.",
    wrong=in_block(
        """
        must plank 2 x 30 s
          advance reps by 1 to 12
        """
    ),
    right=in_block(
        """
        must plank 2 x 30 s
          advance hold by 5 s to 60 s
        """
    ),
)


def find_axis_unfit(program: Program) -> Iterator[Diagnostic]:
    for here, rule in rules(program):
        for axis in rule.axes:
            unfit = AXES[axis.name].unfit(here.block, here.entry)
            if unfit is not None:
                yield AXIS_UNFIT.at(axis.span, axis=axis.name, reason=unfit[0], instead=unfit[1])


STEP_MISSING = Check(
    code="step-missing",
    severity="error",
    title="An axis without its step",
    message="Nothing says by how much `{axis}` advances.",
    help="Write `{axis} by {example}`.",
    explain="Repetitions, sets and cues advance by 1 where nothing is said, load by the next that the athlete can make, and a "
    "rung by the next rung. Times and distances have no such step of their own.",
    wrong=in_block(
        """
        must plank 2 x 30 s
          advance hold to 60 s
        """
    ),
    right=in_block(
        """
        must plank 2 x 30 s
          advance hold by 5 s to 60 s
        """
    ),
)


def find_step_missing(program: Program) -> Iterator[Diagnostic]:
    for here, rule in rules(program):
        for axis in rule.axes:
            kind = AXES[axis.name]
            if axis.step is None and not kind.alone and kind.unfit(here.block, here.entry) is None:
                yield STEP_MISSING.at(axis.span, axis=axis.name, example=kind.usual or kind.example)


RESTARTING_UNKNOWN = Check(
    code="restarting-unknown-axis",
    severity="error",
    title="An axis goes back to its start that never left it",
    message="`restarting {axis}` needs `{axis}` as an axis of this rule, and it is not there.",
    help="Advance it before, such as `{axis} ..., then {mover} restarting {axis}`, or take `restarting {axis}` out.",
    explain="`restarting` sends other axes of the same rule back to where they began when this one takes a step.",
    wrong=in_block(
        """
        must goblet-squat 3 x 8
          advance load restarting reps
        """
    ),
    right=in_block(
        """
        must goblet-squat 3 x 8
          advance reps by 1 to 12, then load restarting reps
        """
    ),
)


def find_restarting_unknown(program: Program) -> Iterator[Diagnostic]:
    for _, rule in rules(program):
        for axis in rule.axes:
            for name in axis.restarting:
                if name not in {other.name for other in rule.axes} and _complete(rule):
                    where = on_line(axis.span, rf"restarting +(?:[a-z ]+ +and +)*{name}\b")
                    yield RESTARTING_UNKNOWN.at(where, axis=name, mover=axis.name)


def _complete(rule: Rule) -> bool:
    """Whether every axis of a rule could be read."""
    return words(rule.span).count(", then") + 1 == len(rule.axes)


RESTARTING_ITSELF = Check(
    code="restarting-itself",
    severity="error",
    title="An axis restarts itself",
    message="`{axis}` cannot take a step and go back to its start at once.",
    help="Name another axis of the rule after `restarting`, or take it out.",
    explain="`restarting` names the other axes that go back to their start when this one takes a step.",
    wrong=in_block(
        """
        must goblet-squat 3 x 8
          advance reps by 1 to 12, then load restarting load
        """
    ),
    right=in_block(
        """
        must goblet-squat 3 x 8
          advance reps by 1 to 12, then load restarting reps
        """
    ),
)


def find_restarting_itself(program: Program) -> Iterator[Diagnostic]:
    for _, rule in rules(program):
        for axis in rule.axes:
            if axis.name in axis.restarting:
                yield RESTARTING_ITSELF.at(axis.span, axis=axis.name)


AFTER_OUT_OF_RANGE = Check(
    code="after-out-of-range",
    severity="error",
    title="A number of sessions in a row that cannot be meant",
    message="`after {count} {kind}` cannot be meant: it is 1 to {most} sessions in a row.",
    help="Write `after 2 {kind}`.",
    explain="`after 2 good` asks for two good sessions in a row before a step, `after 2 missed` eases after two that fell short.",
    wrong=in_block(
        """
        must chair-stand 3 x 10
          after 0 good
          advance reps by 1 to 15
        """
    ),
    right=in_block(
        """
        must chair-stand 3 x 10
          after 2 good
          advance reps by 1 to 15
        """
    ),
)


def find_after_out_of_range(program: Program) -> Iterator[Diagnostic]:
    most = 12
    for here, rule in rules(program):
        for kind, count in (("good", rule.good), ("missed", rule.missed)):
            if count is not None and not 1 <= count <= most:
                where = own(here.entry.span, rf"after +\d+ +{kind}") or header(here.entry.span)
                yield AFTER_OUT_OF_RANGE.at(where, count=count, kind=kind, most=most)
