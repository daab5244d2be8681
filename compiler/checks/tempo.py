"""Tempo: lowering, pausing and raising, and where there is nothing of the kind."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ...grammar.diagnostic import Check, Diagnostic
from ..model import Amrap, Program, Reps, Tempo
from ..quantity import Quantity
from .examples import in_block
from .places import on_line
from .walk import doses

LONGEST_PART = 60  # seconds of lowering, pausing or raising

TEMPO_ON_HOLD = Check(
    code="tempo-on-hold",
    severity="error",
    title="A tempo where no repetitions are counted",
    message="`{clause}` speaks of a repetition, but the dose of `{movement}` counts none.",
    help="Take `{clause}` out, or write the dose in repetitions.",
    explain="Lowering, pausing and raising are parts of a repetition. A hold, a time or a distance has no such parts.",
    wrong=in_block(
        """
        must plank 2 x 30 s, lower 3 s
          advance hold by 5 s to 60 s
        """
    ),
    right=in_block(
        """
        must plank 2 x 30 s
          advance hold by 5 s to 60 s
        """
    ),
)


def find_tempo_on_hold(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        counted = any(isinstance(target, Reps | Amrap) for target in here.targets)
        if here.dose.tempo != Tempo() and here.targets and (here.movement.held or not counted):
            where = on_line(here.dose.span, r"\b(?:lower|pause|raise|tempo) +[^,]*[^, ]")
            yield TEMPO_ON_HOLD.at(where, clause=where.text, movement=here.movement.name)


PAUSE_TWICE = Check(
    code="pause-twice",
    severity="error",
    title="A pause told in seconds and in cues",
    message="The pause of `{movement}` is told twice: {pause} and {cues} cues.",
    help="Keep one: `pause {pause}` is counted in seconds, `pause {cues} cues` in words said in the mind.",
    explain="One cue counts as a second, so the two would contradict each other.",
    wrong=in_block(
        """
        must goblet-squat 3 x 8, pause 2 s, pause 3 cues
          advance reps by 1 to 12
        """
    ),
    right=in_block(
        """
        must goblet-squat 3 x 8, pause 3 cues
          advance reps by 1 to 12
        """
    ),
)


def find_pause_twice(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        tempo = here.dose.tempo
        if tempo.pause is not None and tempo.cues is not None:
            where = on_line(here.dose.span, r"\bpause +\d+ +cues")
            yield PAUSE_TWICE.at(where, movement=here.movement.name, pause=tempo.pause, cues=tempo.cues)


TEMPO_OUT_OF_RANGE = Check(
    code="tempo-out-of-range",
    severity="error",
    title="A part of a repetition that lasts longer than anyone can bear",
    message="A repetition of `{movement}` would {part} for {time}: {most} s is the most.",
    help="Write the seconds of one repetition, such as `lower 3 s`, or dose the movement in time.",
    explain="The figures of a tempo are seconds within one repetition.",
    wrong=in_block(
        """
        must goblet-squat 3 x 8, lower 3 min
          advance reps by 1 to 12
        """
    ),
    right=in_block(
        """
        must goblet-squat 3 x 8, lower 3 s
          advance reps by 1 to 12
        """
    ),
)


def find_tempo_out_of_range(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        tempo = here.dose.tempo
        counted = None if tempo.cues is None else Quantity(Fraction(tempo.cues), "s")
        for part, word, time in (
            ("lower", "lower", tempo.lower),
            ("pause", "pause", tempo.pause or counted),
            ("raise", "raise", tempo.up),
            ("rest at the top", "tempo", tempo.top),
        ):
            if isinstance(time, Quantity) and time.base > LONGEST_PART:
                where = on_line(here.dose.span, rf"\b(?:{word}|tempo) +[^,]*[^, ]")
                yield TEMPO_OUT_OF_RANGE.at(where, movement=here.movement.name, part=part, time=time, most=LONGEST_PART)


TEMPO_ZERO = Check(
    code="tempo-zero",
    severity="error",
    title="A repetition that takes no time",
    message="With this tempo a repetition of `{movement}` takes no time at all.",
    help="Write the seconds of lowering and raising, such as `tempo 3-1-1-0`; `x` is as fast as possible.",
    explain="The four figures are lowering, the pause at the bottom, raising, and the pause at the top. Not all can be 0.",
    wrong=in_block(
        """
        must goblet-squat 3 x 8, tempo 0-0-0-0
          advance reps by 1 to 12
        """
    ),
    right=in_block(
        """
        must goblet-squat 3 x 8, tempo 3-0-x-0
          advance reps by 1 to 12
        """
    ),
)


def find_tempo_zero(program: Program) -> Iterator[Diagnostic]:
    for here in doses(program):
        tempo = here.dose.tempo
        up, lower = tempo.up, tempo.lower
        still = all(part is not None and part != "fast" and part.base == 0 for part in (lower, up))
        if still and not any(part and part.base for part in (tempo.pause, tempo.top)) and not tempo.cues:
            yield TEMPO_ZERO.at(
                on_line(here.dose.span, r"\b(?:tempo|lower|raise) +[^,]*[^, ]"), movement=here.movement.name
            )
