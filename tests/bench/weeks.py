"""The horizon against a solver: 52 weeks of 20 movements, twice, while HiGHS trims one session of them once."""

from collections.abc import Callable
from fractions import Fraction
from random import Random

import attrs
from setwright.compiler.clock import session_time
from setwright.compiler.horizon import outlook
from setwright.compiler.model import Program
from setwright.compiler.trim import Infeasible, trim

from tests.generate import random_weeks
from tests.integer_program import LEVELS, IntegerProgram

WEEKS, MOVEMENTS, PROGRAMS = 52, 20, 9


def programs() -> list[Program]:
    """Programs of 52 weeks and 20 movements, made at random, three sessions a week."""
    made = [random_weeks(Random(f"horizon {seed}"), MOVEMENTS) for seed in range(PROGRAMS)]
    return [
        attrs.evolve(each, weeks=WEEKS, sessions=tuple(attrs.evolve(one, per_week=3) for one in each.sessions))
        for each in made
    ]


def run_forward(made: Program) -> Callable[[], object]:
    """Both runs of the horizon."""
    return lambda: outlook(made)


def solve(made: Program, at_once: bool) -> Callable[[], float]:
    """The session trimmed to the middle between its shortest version and all of it, by HiGHS; the solver's seconds."""
    session = made.sessions[0]
    least = trim(made, session, Fraction(-1), "sets")
    assert isinstance(least, Infeasible)
    limit = (least.smallest.seconds + session_time(made, session)) / 2

    def solved() -> float:
        asked = IntegerProgram(made, "sets")
        asked.limit(limit)
        if at_once:
            asked.solve(asked.levels_at_once())
            return asked.solving
        for worth in LEVELS:
            terms = asked.level(worth)
            best = asked.best(terms)
            assert best is not None
            asked.row(terms, best - 0.5)
        return asked.solving

    return solved
