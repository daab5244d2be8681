"""Doses: whether their figures can be done, and whether they suit the movement."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ...grammar.diagnostic import Check, Diagnostic
from ..load_scale import MOST_SHARE
from ..model import Amrap, Distance, Program, Reps, Timed
from ..quantity import Quantity
from .examples import in_block
from .places import on_line
from .walk import doses

MOST_SETS = 20
MOST_REPS = 500
MOST_LEFT = 10
LONGEST = Quantity(Fraction(6), "h")
FARTHEST = Quantity(Fraction(100), "km")

REP_RANGE_BACKWARDS = Check(
    code="rep-range-backwards",
    severity="error",
    title="A rep range runs backwards",
    message="The rep range {high}-{low} runs from more to fewer.",
    help="Write `{low}-{high}`.",
    explain="A rep range names the fewest repetitions first. A session is good when every set reaches the top of the range.",
    wrong=in_block(
        """
        must chair-stand 3 x 10-6
          advance sets by 1 to 5
        """
    ),
    right=in_block(
        """
        must chair-stand 3 x 6-10
          advance sets by 1 to 5
        """
    ),
)


def find_rep_range_backwards(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        for target in dict.fromkeys(here.targets):
            if isinstance(target, Reps) and target.low > target.high:
                written = rf"\b{target.low}-{target.high}\b"
                yield REP_RANGE_BACKWARDS.at(on_line(here.dose.span, written), high=target.low, low=target.high)


SETS_OUT_OF_RANGE = Check(
    code="sets-out-of-range",
    severity="error",
    title="A number of sets that nobody does",
    message="`{movement}` has {count} sets; a dose has 1 to {most}.",
    help="Write how many sets are done, such as `3 x 8`.",
    explain="No sets at all is no dose, and more than 20 is almost always a figure too many. For many short bouts, use a "
    "block with `rounds`.",
    wrong=in_block(
        """
        must chair-stand 30 x 10
          advance reps by 1 to 15
        """
    ),
    right=in_block(
        """
        must chair-stand 3 x 10
          advance reps by 1 to 15
        """
    ),
)


def find_sets_out_of_range(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        count = len(here.dose.sets)
        if not 1 <= count <= MOST_SETS:
            yield SETS_OUT_OF_RANGE.at(
                on_line(here.dose.span, r"\d+ *[x×]"), count=count, movement=here.movement.name, most=MOST_SETS
            )


REPS_OUT_OF_RANGE = Check(
    code="reps-out-of-range",
    severity="error",
    title="A number of repetitions that nobody does",
    message="A set of `{movement}` has {count} repetitions; a set has 1 to {most}.",
    help="Write how many repetitions a set has, or dose the movement in time, such as `1 x 3 min`.",
    explain="No repetitions at all is no set, and more than 500 in one set is almost always a figure too many.",
    wrong=in_block(
        """
        must chair-stand 3 x 1000
          advance sets by 1 to 5
        """
    ),
    right=in_block(
        """
        must chair-stand 3 x 10
          advance sets by 1 to 5
        """
    ),
)


def find_reps_out_of_range(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        counts = [count for target in here.targets for count in _counted(target)]
        for count in dict.fromkeys([*counts, *(ramp.reps for ramp in here.dose.ramp)]):
            if not 1 <= count <= MOST_REPS:
                yield REPS_OUT_OF_RANGE.at(
                    on_line(here.dose.span, rf"\b{count}\b(?! *[x×%])"),
                    count=count,
                    movement=here.movement.name,
                    most=MOST_REPS,
                )


def _counted(target: object) -> tuple[int, ...]:
    if isinstance(target, Reps):
        return target.low, target.high
    return (target.expect,) if isinstance(target, Amrap) and target.expect is not None else ()


DOSE_OUT_OF_RANGE = Check(
    code="dose-out-of-range",
    severity="error",
    title="A set of no length, or of more than a day's work",
    message="A set of `{movement}` is {amount} long; it is more than 0 and at most {most}.",
    help="Write how long or how far a set is, such as `2 x 30 s` or `4 x 20 m`.",
    explain="A time or a distance of zero leaves nothing to do, and more than 6 hours or 100 km is almost always a wrong unit.",
    wrong=in_block(
        """
        must walk 1 x 0 min
          advance time by 1 min to 45 min
        """
    ),
    right=in_block(
        """
        must walk 1 x 30 min
          advance time by 1 min to 45 min
        """
    ),
)


def find_dose_out_of_range(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        for target in dict.fromkeys(here.targets):
            if isinstance(target, Timed):
                amount, most = target.time, LONGEST
            elif isinstance(target, Distance):
                amount, most = target.length, FARTHEST
            else:
                continue
            if not 0 < amount.base <= most.base:
                written = str(amount).split(" ", maxsplit=1)[0].replace(".", r"\.")
                where = on_line(here.dose.span, rf"\b{written}[.0]* *{amount.unit}\b")
                yield DOSE_OUT_OF_RANGE.at(where, amount=amount, movement=here.movement.name, most=most)


LEAST_SETS_OUT_OF_RANGE = Check(
    code="least-sets-out-of-range",
    severity="error",
    title="`at least` asks for more sets than there are, or for none",
    message="`at least {least} sets` does not suit a dose of {count}.",
    help="Write 1 to {count}; without the clause it is 1.",
    explain="`at least` is the smallest number of sets that is worth doing: a short version cuts down to it and no further. "
    "In a circuit the sets are the rounds. To let a short version drop the movement, give it a lower priority instead.",
    wrong=in_block(
        """
        must chair-stand 3 x 10, at least 4 sets
          advance reps by 1 to 15
        """
    ),
    right=in_block(
        """
        must chair-stand 3 x 10, at least 2 sets
          advance reps by 1 to 15
        """
    ),
)


def find_least_sets_out_of_range(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        count = len(here.dose.sets) if here.block.rounds is None else here.block.rounds
        if count and not 1 <= here.dose.least_sets <= count:
            yield LEAST_SETS_OUT_OF_RANGE.at(
                on_line(here.dose.span, r"at +least +\d+ +sets"), least=here.dose.least_sets, count=count
            )


LEAVING_WITHOUT_AMRAP = Check(
    code="leaving-without-amrap",
    severity="error",
    title="`leaving` or `expect` on a set whose repetitions are already given",
    message="`{clause}` speaks of an `amrap` set, but the sets of `{movement}` have a fixed target.",
    help="Write `amrap {clause}` in place of the figure, or take `{clause}` out{instead}.",
    explain="`leaving 2` tells how many repetitions to keep in reserve, and `expect 9` what to plan with, where the athlete "
    "does as many as possible. With a fixed number both say nothing. For effort at a fixed number, write `at rpe 8`.",
    wrong=in_block(
        """
        must chair-stand 3 x 10 leaving 2
          advance reps by 1 to 15
        """
    ),
    right=in_block(
        """
        must chair-stand 3 x 10 at rpe 8
          advance reps by 1 to 15
        """
    ),
)


def find_leaving_without_amrap(program: Program) -> Iterator[Diagnostic]:
    # The model has no room for what an `amrap` alone can have, so the words are read again.
    for here in doses(program):
        if here.targets and not any(isinstance(target, Amrap) for target in here.targets):
            for clause in ("leaving", "expect"):
                if clause not in here.dose.span.text:
                    continue
                where = on_line(here.dose.span, rf"\b{clause} +\d+")
                if where.text.startswith(clause):
                    yield LEAVING_WITHOUT_AMRAP.at(
                        where,
                        clause=where.text,
                        movement=here.movement.name,
                        instead="; effort is told by `at rpe 8`" if clause == "leaving" else "",
                    )


LEAVING_OUT_OF_RANGE = Check(
    code="leaving-out-of-range",
    severity="error",
    title="More repetitions in reserve than anyone can judge",
    message="`leaving {count}` is more than anyone can judge: it is 0 to {most}.",
    help="Write `leaving 2`, or give a fixed number of repetitions.",
    explain="Repetitions in reserve are a feeling for how many more would have gone. Far from the limit nobody can tell.",
    wrong=in_block(
        """
        must push-up 3 x amrap leaving 20, expect 9
          advance rung at 15 reps
        """
    ),
    right=in_block(
        """
        must push-up 3 x amrap leaving 2, expect 9
          advance rung at 15 reps
        """
    ),
)


def find_leaving_out_of_range(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        for count in {t.leaving for t in here.targets if isinstance(t, Amrap) and t.leaving is not None}:
            if count > MOST_LEFT:
                yield LEAVING_OUT_OF_RANGE.at(
                    on_line(here.dose.span, rf"leaving +{count}\b"), count=count, most=MOST_LEFT
                )


AMRAP_WITHOUT_EXPECT = Check(
    code="amrap-without-expect",
    severity="advice",
    title="An `amrap` set without a figure to plan with",
    message="Nothing says how many repetitions to expect of `{movement}`, so its minutes are planned with 10.",
    help="Add what most of the athletes reach, such as `expect 9`.",
    explain="The clock needs a number of repetitions. `expect` gives one until the athlete's log tells better.",
    wrong=in_block(
        """
        must push-up 3 x amrap leaving 2
          advance rung at 15 reps
        """
    ),
    right=in_block(
        """
        must push-up 3 x amrap leaving 2, expect 9
          advance rung at 15 reps
        """
    ),
)


def find_amrap_without_expect(program: Program) -> Iterator[Diagnostic]:
    for here in () if program.damaged else doses(program):
        if any(isinstance(target, Amrap) and target.expect is None for target in here.targets):
            yield AMRAP_WITHOUT_EXPECT.at(on_line(here.dose.span, r"\bamrap\b"), movement=here.movement.name)


PERCENT_OUT_OF_RANGE = Check(
    code="percent-out-of-range",
    severity="error",
    title="A share of the training maximum that cannot be meant",
    message="{share} of the training maximum cannot be meant: a load is 1% to {most} of it.",
    help="Write a share such as `at 70%`, or the load itself, such as `at 40 kg`.",
    explain="Shares are those of the athlete's training maximum in this movement. A little over 100% is possible where the "
    "training maximum was set below the true one (common practice, no source).",
    wrong=in_block(
        """
        must back-squat 3 x 5 at 700%
          advance reps by 1 to 8
        """
    ),
    right=in_block(
        """
        must back-squat 3 x 5 at 70%
          advance reps by 1 to 8
        """
    ),
)


def find_percent_out_of_range(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        loads = [here.dose.load, *(work.load for work in here.dose.sets), *(ramp.share for ramp in here.dose.ramp)]
        for share in dict.fromkeys(load for load in loads if load is not None and load.unit == "%"):
            if not 1 <= share.amount <= MOST_SHARE.amount:
                where = on_line(here.dose.span, rf"\b{str(share)[:-1]}\b[\d.]* *%")
                yield PERCENT_OUT_OF_RANGE.at(where, share=share, most=MOST_SHARE)


LOAD_ZERO = Check(
    code="load-zero",
    severity="error",
    title="A load of nothing",
    message="`at {load}` is no load.",
    help="Take it out, or write the load, such as `at 12 kg`.",
    explain="A movement that is begun without a load needs no `at`.",
    wrong=in_block(
        """
        must goblet-squat 3 x 8 at 0 kg
          advance reps by 1 to 12
        """
    ),
    right=in_block(
        """
        must goblet-squat 3 x 8 at 8 kg
          advance reps by 1 to 12
        """
    ),
)


def find_load_zero(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        loads = [here.dose.load, *(work.load for work in here.dose.sets)]
        zero = next((load for load in loads if load is not None and load.unit != "%" and load.base == 0), None)
        if zero is not None and here.movement.loaded_by:
            yield LOAD_ZERO.at(on_line(here.dose.span, r"at +0[\d.]* *(?:kg|g|lb)"), load=zero)


RPE_OUT_OF_RANGE = Check(
    code="rpe-out-of-range",
    severity="error",
    title="An RPE outside its scale",
    message="RPE {rpe} is outside the scale, which goes from 0 to 10.",
    help="Write a figure from 0 (rest) to 10 (nothing left), such as `rpe 7`.",
    explain="RPE, the rating of perceived exertion, is told here on the scale from 0 to 10. Halves are fine: `rpe 7.5`.",
    wrong=in_block(
        """
        must goblet-squat 3 x 8 at rpe 14
          advance reps by 1 to 12
        """
    ),
    right=in_block(
        """
        must goblet-squat 3 x 8 at rpe 7
          advance reps by 1 to 12
        """
    ),
)


def find_rpe_out_of_range(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        if here.dose.rpe is not None and float(here.dose.rpe) > 10:
            yield RPE_OUT_OF_RANGE.at(on_line(here.dose.span, r"rpe +[\d.]+"), rpe=here.dose.rpe)
