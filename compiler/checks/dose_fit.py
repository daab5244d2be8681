"""Doses that do not suit their movement or their block."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from ...grammar.diagnostic import Check, Diagnostic
from ...grammar.source import Span
from ..model import Distance, Program, Timed
from .dose import MOST_SETS
from .examples import in_block, in_session
from .places import on_line
from .walk import Dosed, doses

HELD_WITHOUT_TIME = Check(
    code="held-without-time",
    severity="error",
    title="A held position dosed in repetitions or metres",
    message="`{movement}` is held, so its dose is a time, not {dosed}.",
    help="Write how long it is held, such as `2 x 30 s`.",
    explain="A movement with `held` is a position kept for a time. If it is one with repetitions, take `held` from the movement.",
    wrong=in_block(
        """
        must plank 2 x 10
          advance sets by 1 to 4
        """
    ),
    right=in_block(
        """
        must plank 2 x 30 s
          advance sets by 1 to 4
        """
    ),
)


def find_held_without_time(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        unfit = next((target for target in here.targets if not isinstance(target, Timed)), None)
        if here.movement.held and unfit is not None:
            dosed = "a distance" if isinstance(unfit, Distance) else "repetitions"
            yield HELD_WITHOUT_TIME.at(_first_words(here), movement=here.movement.name, dosed=dosed)


LOAD_WITHOUT_IMPLEMENT = Check(
    code="load-without-implement",
    severity="error",
    title="A load on a movement that is not loaded",
    message="`{movement}` is done without a load, so there is nothing that could be {load}.",
    help="Take `at {load}` out, use the loaded form of the movement, or give the movement a line `loaded by ...`.",
    explain="Only a movement with `loaded by` is done with an implement. Many movements of the library have a loaded form of "
    "their own name: `split-squat` and `dumbbell-split-squat`.",
    wrong=in_block(
        """
        must split-squat 3 x 8 each side at 12 kg
          advance reps by 1 to 12
        """
    ),
    right=in_block(
        """
        must dumbbell-split-squat 3 x 8 each side at 12 kg
          advance reps by 1 to 12
        """
    ),
)


def find_load_without_implement(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        loads = [here.dose.load, *(work.load for work in here.dose.sets)]
        load = next((load for load in loads if load is not None), None)
        if load is not None and not here.movement.loaded_by:
            where = on_line(here.dose.span, r"at +[\d.]+ *(?:%|kg|g|lb)")
            yield LOAD_WITHOUT_IMPLEMENT.at(where, movement=here.movement.name, load=load)


RAMP_WITHOUT_IMPLEMENT = Check(
    code="ramp-without-implement",
    severity="error",
    title="Ramp sets on a movement that is not loaded",
    message="`{movement}` is done without a load, so there is nothing to ramp up.",
    help="Take the ramp out, or use the loaded form of the movement.",
    explain="Ramp sets are lighter sets before the work, in shares of the athlete's training maximum. "
    "A movement without `loaded by` has none.",
    wrong=in_block(
        """
        must split-squat 3 x 8, ramp 40% x 5
          advance reps by 1 to 12
        """
    ),
    right=in_block(
        """
        must back-squat 3 x 8, ramp 40% x 5
          advance reps by 1 to 12
        """
    ),
)


def find_ramp_without_implement(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        if here.dose.ramp and not here.movement.loaded_by:
            yield RAMP_WITHOUT_IMPLEMENT.at(on_line(here.dose.span, r"ramp[^,\n]*"), movement=here.movement.name)


RAMP_NOT_RISING = Check(
    code="ramp-not-rising",
    severity="warning",
    title="Ramp sets that do not get heavier",
    message="The ramp of `{movement}` goes from {before} to {after}, which is no heavier.",
    help="Write the lightest set first, such as `ramp 40% x 5, 60% x 3`.",
    explain="Ramp sets lead up to the work, each heavier than the one before.",
    wrong=in_block(
        """
        must back-squat 3 x 5, ramp 60% x 3, 40% x 5
          advance reps by 1 to 8
        """
    ),
    right=in_block(
        """
        must back-squat 3 x 5, ramp 40% x 5, 60% x 3
          advance reps by 1 to 8
        """
    ),
)


def find_ramp_not_rising(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        shares = [ramp.share for ramp in here.dose.ramp]
        for before, after in pairwise(shares):
            if after.base <= before.base:
                where = on_line(here.dose.span, r"ramp +(?:[\d.]+ *% *x *\d+(?: *, *)?)+")
                yield RAMP_NOT_RISING.at(where, movement=here.movement.name, before=before, after=after)
                break


CIRCUIT_WITH_SETS = Check(
    code="circuit-with-sets",
    severity="error",
    title="Sets inside a circuit",
    message="`{movement}` has {count} sets, but its block goes round {rounds} times and does one set each time.",
    help="Write the dose of one round, such as `8` or `30 s`, or take `rounds` from the block.",
    explain="In a block with `rounds`, every movement is done once in each round: the rounds are its sets.",
    wrong=in_session(
        """
        block upper, rounds 3
          must push-up 2 x 8
            advance rung at 12 reps
          must one-arm-row 8 each side
            advance reps by 1 to 12
        """
    ),
    right=in_session(
        """
        block upper, rounds 3
          must push-up 8
            advance rung at 12 reps
          must one-arm-row 8 each side
            advance reps by 1 to 12
        """
    ),
)


def find_circuit_with_sets(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        count = len(here.dose.sets)
        if here.block.rounds is not None and 1 < count <= MOST_SETS:
            yield CIRCUIT_WITH_SETS.at(
                _first_words(here), movement=here.movement.name, count=count, rounds=here.block.rounds
            )


REST_IN_CIRCUIT = Check(
    code="rest-in-circuit",
    severity="warning",
    title="A rest of its own inside a circuit",
    message="The rest of `{movement}` is never taken: in a circuit the rest follows the round.",
    help="Write the rest on the block: `block {block}, rounds {rounds}, rest {rest}`.",
    explain="In a block with `rounds`, the change between stations and the rest after each round are those of the block.",
    wrong=in_session(
        """
        block upper, rounds 3
          must push-up 8, rest 30 s
            advance rung at 12 reps
          must one-arm-row 8 each side
            advance reps by 1 to 12
        """
    ),
    right=in_session(
        """
        block upper, rounds 3, rest 30 s
          must push-up 8
            advance rung at 12 reps
          must one-arm-row 8 each side
            advance reps by 1 to 12
        """
    ),
)


def find_rest_in_circuit(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        if here.block.rounds is not None and here.dose.rest is not None:
            yield REST_IN_CIRCUIT.at(
                on_line(here.dose.span, r"rest +[\d.]+ *[a-z]+"),
                movement=here.movement.name,
                block=here.block.name,
                rounds=here.block.rounds,
                rest=here.dose.rest,
            )


def _first_words(here: Dosed) -> Span:
    """What a set asks for, in the coach's words: `2 x 10`."""
    return on_line(here.dose.span, r"(?:\d+ *[x×] *)?(?:\d+-\d+|\d[\d.]*(?: *(?:s|min|h|m|km|mi|cm|ft|yd)\b)?|amrap)")
