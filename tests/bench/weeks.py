"""The horizon against HiGHS: 52 weeks of 20 movements, run forward twice, while it trims one session of them once.

All are times of the processor, those of HiGHS of the solver alone.
"""

from collections.abc import Iterator
from fractions import Fraction
from random import Random
from statistics import median
from time import process_time

import attrs
from setwright.compiler.clock import session_time
from setwright.compiler.horizon import outlook
from setwright.compiler.model import Athlete, Program
from setwright.compiler.pipeline import compile_texts
from setwright.compiler.trim import Infeasible, trim

from ..generate import random_weeks
from ..integer_program import LEVELS, IntegerProgram
from .trimming import Line

WEEKS, MOVEMENTS, PROGRAMS, TURNS = 52, 20, 9, 5

REPS_LOAD = "reps by 1 to 12, then load restarting reps, then sets by 1 to 5"
LOAD_REPS = "load, then reps by 1 to 12, then sets by 1 to 5"
REPS_SETS = "reps by 1 to 20, then sets by 1 to 5"
HOLD_SETS = "hold by 5 s to 60 s, then sets by 1 to 4"
WRITTEN = (
    ("goblet-squat", "3 x 8", REPS_LOAD), ("split-squat", "3 x 8 each side", REPS_SETS),
    ("chair-stand", "3 x 10", REPS_SETS), ("step-up", "2 x 8 each side", REPS_SETS),
    ("push-up", "3 x amrap leaving 2, expect 9", "rung at 15 reps"), ("one-arm-row", "3 x 8 each side", REPS_LOAD),
    ("floor-press", "3 x 8", LOAD_REPS), ("overhead-press", "2 x 8", LOAD_REPS),
    ("suitcase-hinge", "3 x 8", REPS_LOAD), ("glute-bridge", "3 x 10", REPS_SETS),
    ("heel-raise", "2 x 12", REPS_SETS), ("wall-hinge", "2 x 10", REPS_SETS),
    ("plank", "3 x 20 s", HOLD_SETS), ("side-plank", "2 x 20 s each side", HOLD_SETS),
    ("dead-bug", "2 x 10", REPS_SETS), ("single-leg-stand", "2 x 20 s each side", HOLD_SETS),
    ("front-carry", "3 x 20 m", "distance by 5 m to 60 m, then sets by 1 to 5"),
    ("calf-stretch", "2 x 20 s", HOLD_SETS), ("arm-circles", "2 x 10", REPS_SETS), ("side-lunge", "2 x 8", REPS_SETS),
)  # fmt: skip
PRIORITIES = ("must", "key", "do", "may")


def written() -> tuple[Program, Athlete]:
    """A program as a coach writes it, of 52 weeks and 20 movements, and an athlete for it."""
    lines = ["use basics", "program year", "  runs 52 weeks", "  rest 60 s", "  jump 25%", "  session main, 3 a week",
             "    within 150 min", "    short 40 min by sets"]  # fmt: skip
    for place, (movement, dose, rule) in enumerate(WRITTEN):
        lines += [f"    block part-{place // 4}"] if place % 4 == 0 else []
        lines += [f"      {PRIORITIES[place % 4]} {movement} {dose}", "        after 2 good", f"        advance {rule}"]
    lines += ["athlete maren", "  has dumbbell 4 kg, 6 kg, 8 kg, 10 kg, 12 kg", "  has dumbbell pair 4 kg, 6 kg, 8 kg"]
    lines += [f"  begins {name} at 4 kg" for name in ("goblet-squat", "one-arm-row", "floor-press", "suitcase-hinge")]
    result = compile_texts({"year.coach": "\n".join(lines)})
    assert not result.has_errors, result.diagnostics
    return result.project.programs[0], result.project.athletes[0]


def at_random() -> list[Program]:
    """Programs of 52 weeks and 20 movements made at random, three sessions a week; many of their rules never end."""
    made = [random_weeks(Random(f"horizon {seed}"), MOVEMENTS) for seed in range(PROGRAMS)]
    return [
        attrs.evolve(each, weeks=WEEKS, sessions=tuple(attrs.evolve(one, per_week=3) for one in each.sessions))
        for each in made
    ]


def lines() -> Iterator[Line]:
    """Both runs of the horizon against one session of the same program, trimmed."""
    for whose, programs in (("written", [written()]), (f"{PROGRAMS} random", [(made, None) for made in at_random()])):
        done = [_compared(*each) for each in programs]
        bar = 1 if whose == "written" else None
        for number, (how, its_bar) in enumerate((("level by level", bar), ("all levels in one objective", None)), 1):
            pairs = [(each[0], each[number]) for each in done]
            ours, theirs = (median(side) * 1000 for side in zip(*pairs, strict=True))
            what = f"52 weeks of 20 movements twice, {whose} / HiGHS, {how}"
            yield what, median(one / other for one, other in pairs), its_bar, f"{ours:,.1f} ms / {theirs:,.1f} ms"


def _compared(made: Program, athlete: Athlete | None) -> tuple[float, float, float]:
    """Seconds of both runs of the horizon, and of HiGHS level by level and with all in one, the middle of five each."""
    outlook(made, athlete)
    times = []
    for _ in range(TURNS):
        start = process_time()
        outlook(made, athlete)
        ours = process_time() - start
        times.append((ours, _solved(made, at_once=False), _solved(made, at_once=True)))
    ours, by_level, at_once = (median(side) for side in zip(*times, strict=True))
    return ours, by_level, at_once


def _solved(made: Program, *, at_once: bool) -> float:
    """Seconds of HiGHS to trim the session to the middle between its shortest version and all of it."""
    session = made.sessions[0]
    least = trim(made, session, Fraction(-1), "sets")
    assert isinstance(least, Infeasible)
    asked = IntegerProgram(made, "sets")
    asked.limit((least.smallest.seconds + session_time(made, session)) / 2)
    if at_once:
        asked.solve(asked.levels_at_once())
        return asked.solving
    for level in LEVELS:
        terms = asked.level(level)
        best = asked.best(terms)
        assert best is not None
        asked.row(terms, best - 0.5)
    return asked.solving
