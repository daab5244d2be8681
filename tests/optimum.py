"""Short versions of programs made at random against HiGHS: `python -m tests.optimum 10000`.

Each program has 5 to 40 entries, circuits among them, and a limit: too short, tight, between or loose. HiGHS (through
`scipy.optimize.milp`, no gap left) has to find the same on every level of the goal, that no version keeps more of an
earlier entry, and the same shortest version where nothing fits. Exit code 1 where it finds anything else.

The times are those of `trim`, clock and reasons included, and of the solver alone, without making its matrices. They
are times of the processor, not of the wall: on a busy machine the longer side would wait more often.
"""

import sys
from fractions import Fraction
from random import Random
from statistics import median
from time import process_time

import attrs
from setwright.compiler.clock import session_time
from setwright.compiler.model import CutBy
from setwright.compiler.trim import Infeasible, Version, trim

from .generate import random_limit, random_program
from .integer_program import LEVELS, IntegerProgram, level_of

SIZES = ((5, 10), (11, 20), (21, 30), (31, 40))


@attrs.frozen
class Compared:
    """What came out for one program: how it differs, "" where it does not, and seconds."""

    seed: int
    entries: int
    fits: bool
    difference: str
    ours: float
    levels: float = 0.0  # HiGHS level by level, as exactness needs
    at_once: float = 0.0  # HiGHS with all levels in one objective
    at_once_right: bool = True
    asked_again: int = 0  # solves for which HiGHS first said less than can be had


def compared(seed: int, at_once: bool = False) -> Compared:
    """A program made at random from a seed, trimmed both ways."""
    random = Random(f"optimum {seed}")
    made = random_program(random, random.randint(5, 40))
    task = made.sessions[0]
    by: CutBy = random.choice(("sets", "movements"))
    nothing = trim(made, task, Fraction(-1), by)
    assert isinstance(nothing, Infeasible)
    limit = random_limit(random, nothing.smallest.seconds, session_time(made, task))
    start = process_time()
    found = trim(made, task, limit, by)
    ours = process_time() - start
    other = IntegerProgram(made, by)
    told = Compared(seed, len(task.entries), isinstance(found, Version), "", ours)
    if isinstance(found, Infeasible):
        if other.shortest(found.smallest.seconds) != found.smallest.seconds or limit >= found.smallest.seconds:
            return attrs.evolve(told, difference="the shortest version")
        limit, found = found.smallest.seconds, found.smallest
    if session_time(made, task, found.kept) > limit:
        return attrs.evolve(told, difference="longer than the limit")
    other.limit(limit)
    if at_once:
        kept = other.kept_in(other.solve(other.levels_at_once()))
        told = attrs.evolve(told, at_once=other.solving, at_once_right=values(other, kept) == values(other, found.kept))
    other.solving = 0.0
    for number, (worth, reached) in enumerate(zip(LEVELS, values(other, found.kept), strict=True)):
        terms = other.level(worth)
        if other.best(terms, reached) != reached:
            return attrs.evolve(told, difference=f"level {number}")
        other.row(terms, reached - 0.5)
    told = attrs.evolve(told, levels=other.solving, asked_again=other.asked_again)
    return attrs.evolve(told, difference="order of the source") if other.keeps_more_earlier(found.kept) else told


def values(other: IntegerProgram, kept: tuple[int, ...]) -> list[int]:
    """What a version reaches on each level."""
    return [level_of(worth, other.task.entries, kept, other.full) for worth in LEVELS]


def main(count: int) -> int:
    done: list[Compared] = []
    for seed in range(count):
        done.append(compared(seed, at_once=True))
        if done[-1].difference:
            say(f"seed {seed}: {done[-1].difference}")
        if len(done) % 500 == 0:
            say(f"{len(done):>6} compared, {sum(not each.difference for each in done)} the same")
    say(f"\n{sum(not each.difference for each in done)} of {count} the same")
    say(f"in {sum(not each.fits for each in done)} of them nothing fitted, and the shortest version was compared")
    again = [each.seed for each in done if each.asked_again]
    say(f"in {len(again)} HiGHS first missed the best, and found it without its presolve: seeds {again}")
    say(
        f"all levels in one objective: HiGHS misses the best, by levels, in {sum(not each.at_once_right for each in done)}\n"
    )
    say(f"{'entries':<9} {'ours':>9} {'by level':>10} {'ratio':>7} {'at once':>10} {'ratio':>7}   medians, ms")
    for low, high in (*SIZES, (5, 40)):
        part = [each for each in done if low <= each.entries <= high and not each.difference]
        times = (median(getattr(each, name) * 1000 for each in part) for name in ("ours", "levels", "at_once"))
        ratios = (median(each.ours / getattr(each, name) for each in part) for name in ("levels", "at_once"))
        (ours, levels, once), (by_level, by_once) = times, ratios
        say(f"{low:>2} to {high:<3} {ours:>9.2f} {levels:>10.2f} {by_level:>7.3f} {once:>10.2f} {by_once:>7.3f}")
    return 1 if any(each.difference for each in done) else 0


def say(line: str) -> None:
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 500))  # noqa: TID251 (a command of its own)
