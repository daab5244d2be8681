"""Short versions against HiGHS (`scipy.optimize.milp`, no gap left), on programs made at random.

HiGHS finds the best version on every level of the goal when it solves level by level, each holding those before it. All
levels at once, weighted in one objective, need one solve; that ratio is told beside. Neither settles which of two equals
stands earlier, as ours does. The times of HiGHS are those of the solver alone; ours are those of all of `trim`, with the
clock of the session and the reasons of the cuts, and of `limits`. All are times of the processor, not of the wall: on a
busy machine the longer side would wait more often.
"""

from collections.abc import Iterator
from fractions import Fraction
from random import Random
from statistics import median
from time import process_time

from setwright.compiler.clock import session_time
from setwright.compiler.model import Program
from setwright.compiler.trim import limits

from ..generate import random_program
from ..integer_program import LEVELS, IntegerProgram
from ..optimum import compared

PROGRAMS = 150
SESSIONS = 7
Line = tuple[str, float, float | None, str]  # what, the figure, its bar if it has one, and the times behind it


def lines() -> Iterator[Line]:
    """A version of one limit, and a table of all limits."""
    done = [compared(seed, at_once=True) for seed in range(PROGRAMS)]
    assert not any(each.difference for each in done)
    for what, name, bar in (("level by level", "levels", 0.1), ("all levels at once", "at_once", None)):
        pairs = [(each.ours, getattr(each, name)) for each in done]
        yield _line(f"a short version, 5 to 40 entries / HiGHS, {what}", pairs, bar, "programs")
    tables = [_table(made) for made in _hours()]
    for number, (what, bar) in enumerate((("level by level", 0.02), ("all levels at once", None))):
        pairs = [(ours, theirs[number]) for ours, *theirs in tables]
        yield _line(f"all limits of an hour / HiGHS for each minute, {what}", pairs, bar, "sessions")


def _line(what: str, pairs: list[tuple[float, float]], bar: float | None, of: str) -> Line:
    ours, theirs = (median(side) * 1000 for side in zip(*pairs, strict=True))
    return (
        what,
        median(one / other for one, other in pairs),
        bar,
        f"{ours:,.1f} ms / {theirs:,.1f} ms, {len(pairs)} {of}",
    )


def _hours() -> Iterator[Program]:
    """Programs whose session takes about an hour."""
    found = 0
    for seed in range(10_000):
        random = Random(f"hour {seed}")
        made = random_program(random, random.randint(10, 20))
        if abs(session_time(made, made.sessions[0]) - 3600) <= 180:
            yield made
            found += 1
        if found == SESSIONS:
            return


def _table(made: Program) -> tuple[float, float, float]:
    """Seconds for all limits at once, and for HiGHS in each minute of the hour, level by level and all in one."""
    start = process_time()
    limits(made, made.sessions[0], "sets")
    ours = process_time() - start
    by_level = at_once = 0.0
    for minute in range(1, 61):
        other = IntegerProgram(made, "sets")
        other.limit(Fraction(60 * minute))
        other.solve(other.levels_at_once())
        at_once += other.solving
        other.solving = 0.0
        for level in LEVELS:
            terms = other.level(level)
            best = other.best(terms)
            if best is None:
                break
            other.row(terms, best - 0.5)
        by_level += other.solving
    return ours, by_level, at_once
