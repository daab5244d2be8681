"""Movements: what a sheet needs so that it can be followed alone, and ladders that lead upwards."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from ...grammar.diagnostic import Check, Diagnostic
from ..model import Movement
from .examples import in_movement, whole
from .places import begun, header, part

_COMPLETE = """
    movement crate-lift
      pattern hinge
      cue "Close to the body"
      caution "Ask for help with a wet crate."
      how
        | Squat down beside the crate, take its handles, and stand up tall.
"""
ALONE = "A sheet must be clear to somebody who trains alone, at any age, with nobody near to ask."

WITHOUT_PATTERN = Check(
    code="movement-without-pattern",
    severity="warning",
    title="A movement that belongs to no category",
    message="Nothing says what kind of movement `{movement}` is, so no category can count it.",
    help="Add a line such as `pattern hinge`, or `pattern carry and trunk`.",
    explain="Categories count movements by their pattern: squat, lunge, hinge, push, pull, carry, trunk, balance, mobility, "
    "locomotion, or others of your own.",
    wrong=whole(_COMPLETE.replace("      pattern hinge\n", "")),
    right=whole(_COMPLETE),
)


def find_without_pattern(movement: Movement) -> Iterator[Diagnostic]:
    if not movement.patterns and not begun(movement.span, "pattern"):
        yield WITHOUT_PATTERN.at(header(movement.span), movement=movement.name)


WITHOUT_CUE = Check(
    code="movement-without-cue",
    severity="advice",
    title="A movement without a cue",
    message="`{movement}` has no `cue`: nothing short to say to oneself while doing it.",
    help='Add a line such as `cue "Close to the body"`.',
    explain="A cue is a few words that keep a repetition right; some athletes count them. " + ALONE,
    wrong=whole(_COMPLETE.replace('      cue "Close to the body"\n', "")),
    right=whole(_COMPLETE),
)


def find_without_cue(movement: Movement) -> Iterator[Diagnostic]:
    if not movement.cues and not begun(movement.span, "cue"):
        yield WITHOUT_CUE.at(header(movement.span), movement=movement.name)


WITHOUT_CAUTION = Check(
    code="movement-without-caution",
    severity="advice",
    title="A movement without a caution",
    message="`{movement}` has no `caution`: nothing tells what can go wrong with it.",
    help='Add a line such as `caution "Stop when the lower back takes over."`.',
    explain="A caution names what can hurt, slip or tip, and what to do then. " + ALONE,
    wrong=whole(_COMPLETE.replace('      caution "Ask for help with a wet crate."\n', "")),
    right=whole(_COMPLETE),
)


def find_without_caution(movement: Movement) -> Iterator[Diagnostic]:
    if not movement.cautions and not begun(movement.span, "caution"):
        yield WITHOUT_CAUTION.at(header(movement.span), movement=movement.name)


WITHOUT_HOW = Check(
    code="movement-without-how",
    severity="advice",
    title="A movement without a description",
    message="`{movement}` has no `how`: nothing tells how it is done.",
    help="Add `how` with lines of text below it, each beginning with `|`.",
    explain="The description says how to begin, what to do, and how to come back. " + ALONE,
    wrong=whole(_COMPLETE.split("      how\n", maxsplit=1)[0]),
    right=whole(_COMPLETE),
)


def find_without_how(movement: Movement) -> Iterator[Diagnostic]:
    if not movement.how.strip() and not begun(movement.span, "how"):
        yield WITHOUT_HOW.at(header(movement.span), movement=movement.name)


RUNGS_ALONE = Check(
    code="rungs-alone",
    severity="warning",
    title="A ladder of one rung",
    message="`{movement}` has a single rung, so there is nothing to climb to.",
    help="Add a harder or an easier rung, or take `rungs` out and say it in the title.",
    explain="Rungs are the variants of a movement, the easiest first. `advance rung` climbs from one to the next.",
    wrong=in_movement(
        """
        pattern hinge
        rungs
          low "from the floor"
        """
    ),
    right=in_movement(
        """
        pattern hinge
        rungs
          high "from the step"
          low "from the floor"
        """
    ),
)


def find_rungs_alone(movement: Movement) -> Iterator[Diagnostic]:
    if len(movement.rungs) == 1:
        yield RUNGS_ALONE.at(part(movement.span, r"\brungs\b"), movement=movement.name)


RUNGS_FALLING = Check(
    code="rungs-not-rising",
    severity="warning",
    title="A ladder that does not get harder",
    message="Rung `{after}` moves {less} of the body mass, no more than `{before}` before it, which moves {more}.",
    help="Put the easier rung first, or mend the share.",
    explain="Rungs stand in order, the easiest first. Where shares of the body mass are known, they must rise.",
    wrong=in_movement(
        """
        pattern push
        rungs
          knees "on the knees" moves 49%
          bench "hands on a bench" moves 41%
        """
    ),
    right=in_movement(
        """
        pattern push
        rungs
          bench "hands on a bench" moves 41%
          knees "on the knees" moves 49%
        """
    ),
)


def find_rungs_falling(movement: Movement) -> Iterator[Diagnostic]:
    known = [rung for rung in movement.rungs if rung.moves is not None]
    for before, after in pairwise(known):
        assert before.moves is not None and after.moves is not None
        if after.moves.base <= before.moves.base:
            yield RUNGS_FALLING.at(
                part(movement.span, rf"(?<= ){after.name} .*%"),
                after=after.name,
                less=after.moves,
                before=before.name,
                more=before.moves,
            )


SHARE_OUT_OF_RANGE = Check(
    code="share-out-of-range",
    severity="error",
    title="A share of the body mass that cannot be",
    message="Rung `{rung}` cannot move {share} of the body mass: it is more than 0% and at most 100%.",
    help="Write the share as it was measured, such as `moves 49%`.",
    explain="`moves` is the part of the body's own mass that the hands or the feet have to move in this variant.",
    wrong=in_movement(
        """
        pattern push
        rungs
          knees "on the knees" moves 49%
          toes "on the toes" moves 640%
        """
    ),
    right=in_movement(
        """
        pattern push
        rungs
          knees "on the knees" moves 49%
          toes "on the toes" moves 64%
        """
    ),
)


def find_share_out_of_range(movement: Movement) -> Iterator[Diagnostic]:
    for rung in movement.rungs:
        if rung.moves is not None and not 0 < rung.moves.amount <= 100:
            where = part(movement.span, rf"\bmoves +{str(rung.moves)[:-1]} *%")
            yield SHARE_OUT_OF_RANGE.at(where, rung=rung.name, share=rung.moves)


REP_TIME_OUT_OF_RANGE = Check(
    code="rep-time-out-of-range",
    severity="error",
    title="A repetition time that cannot be meant",
    message="A repetition of `{movement}` cannot take {time}: it is more than 0 s and at most {most} s.",
    help="Write the seconds of one repetition, such as `rep 3 s`.",
    explain="The clock counts every repetition with this time, unless the dose gives a tempo.",
    wrong=in_movement(
        """
        pattern hinge
        rep 3 min
        """
    ),
    right=in_movement(
        """
        pattern hinge
        rep 3 s
        """
    ),
)


def find_rep_time_out_of_range(movement: Movement) -> Iterator[Diagnostic]:
    most = 120
    if movement.rep is not None and not 0 < movement.rep.base <= most:
        where = part(movement.span, r"\brep +[\d.]+ *[a-z]+")
        yield REP_TIME_OUT_OF_RANGE.at(where, movement=movement.name, time=movement.rep, most=most)


HELD_WITH_REP_TIME = Check(
    code="held-with-rep-time",
    severity="warning",
    title="A held position with a repetition time",
    message="`{movement}` is held, so it has no repetitions that could take {time}.",
    help="Take `rep {time}` out, or take `held` out if it is a movement with repetitions.",
    explain="A movement with `held` is a position kept for a time, and its doses are times.",
    wrong=in_movement(
        """
        pattern trunk
        held
        rep 3 s
        """
    ),
    right=in_movement(
        """
        pattern trunk
        held
        """
    ),
)


def find_held_with_rep_time(movement: Movement) -> Iterator[Diagnostic]:
    if movement.held and movement.rep is not None:
        where = part(movement.span, r"\brep +[\d.]+ *[a-z]+")
        yield HELD_WITH_REP_TIME.at(where, movement=movement.name, time=movement.rep)


SPEED_OUT_OF_RANGE = Check(
    code="speed-out-of-range",
    severity="error",
    title="A speed at which nobody moves",
    message="`covers {length} in {time}` is a speed at which nobody moves: it is between 1 cm and 12 m a second.",
    help="Write a distance and the time it takes, such as `covers 10 m in 12 s`.",
    explain="The clock turns a distance into minutes with this speed.",
    wrong=in_movement(
        """
        pattern carry
        covers 10 km in 12 s
        """
    ),
    right=in_movement(
        """
        pattern carry
        covers 10 m in 12 s
        """
    ),
)


def find_speed_out_of_range(movement: Movement) -> Iterator[Diagnostic]:
    if movement.covers is None:
        return
    length, time = movement.covers
    if not time.base or not 1 <= 100 * length.base / time.base <= 1200:
        where = part(movement.span, r"\bcovers +.*\S")
        yield SPEED_OUT_OF_RANGE.at(where, length=length, time=time)
