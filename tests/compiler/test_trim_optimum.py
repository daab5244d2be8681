"""Short versions against an independent integer program, on 600 programs made at random.

The program here shares no code with trimming: it has a variable for each number of sets, and blocks in use, and is
solved once for each level of the goal, every level holding those before it. Times are whole numbers in it, and a limit
lies half a unit above what fits, so that no rounding of the solver can decide.
"""

import math
from fractions import Fraction
from random import Random

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array
from setwright.compiler.clock import change_time, ramp_times, rest_time, round_rest_time, session_time, set_time
from setwright.compiler.model import CutBy, Program
from setwright.compiler.trim import Infeasible, Version, trim

from ..generate import random_limit, random_program

PROGRAMS = 600
CHUNKS = 20


class IntegerProgram:
    """A session to trim: rows of a linear program in variables that are 0 or 1."""

    def __init__(self, made: Program, by: CutBy) -> None:
        self.made, self.task, self.by = made, made.sessions[0], by
        self.rows: list[tuple[dict[int, float], float, float]] = []
        self.size = 0
        self.time: dict[int, Fraction] = {}  # what a variable adds to the clock
        self.kept: list[dict[int, int]] = []  # of each entry: variable -> sets that it keeps
        self.full: list[int] = []
        used = [self.add_block(number) for number in range(len(self.task.blocks))]
        self.add_changes_between(used)
        self.add_categories()

    def variable(self, time: Fraction = Fraction(0)) -> int:
        self.time[self.size] = time
        self.size += 1
        return self.size - 1

    def row(self, terms: dict[int, float], low: float, high: float = math.inf) -> None:
        self.rows.append((terms, low, high))

    def add_block(self, number: int) -> int:
        """Add a block; return the variable that says whether anything of it is kept."""
        block = self.task.blocks[number]
        change = change_time(self.made, block)
        used = self.variable(-change if block.rounds is None else Fraction(0))
        circuit = block.rounds and {
            rounds: self.variable((rounds - 1) * round_rest_time(self.made, block) - rounds * change)
            for rounds in range(1, block.rounds + 1)
        }
        if circuit:
            self.row({used: -1, **dict.fromkeys(circuit.values(), 1)}, 0, 0)
        choices = []
        for entry in block.entries:
            full = block.rounds or len(entry.dose.sets)
            least = full if self.by == "movements" else min(entry.dose.least_sets, full)
            options = {}
            for sets in range(least, full + 1):
                ramp = ramp_times(entry.movement, entry.dose)
                if circuit:
                    one = set_time(entry.movement, entry.dose, entry.dose.sets[0].target)
                    rest = round_rest_time(self.made, block)
                    time = sets * (one + change) + sum(ramp) + len(ramp) * rest
                else:
                    work = [set_time(entry.movement, entry.dose, each.target) for each in entry.dose.sets[:sets]]
                    rests = len(ramp) + sets - 1
                    time = sum(ramp) + sum(work) + rests * rest_time(self.made, block, entry) + change
                option = self.variable(Fraction(time))
                options[option] = sets
                if circuit:
                    self.row({circuit[sets]: 1, option: -1}, 0)
            self.row(dict.fromkeys(options, 1), 1 if entry.priority == "must" else 0, 1)
            self.row({used: 1, **dict.fromkeys(options, -1)}, 0)
            self.kept.append(options)
            self.full.append(full)
            choices += options
        self.row({used: -1, **dict.fromkeys(choices, 1)}, 0)
        return used

    def add_changes_between(self, used: list[int]) -> None:
        """Blocks in use are changed between: one time less than there are, unless there is none."""
        change = change_time(self.made)
        any_used = self.variable(-change)
        for each in used:
            self.time[each] += change
            self.row({any_used: 1, each: -1}, 0)
        self.row({any_used: -1, **dict.fromkeys(used, 1)}, 0)

    def add_categories(self) -> None:
        for category in self.made.categories:
            members = {}
            at = 0
            for block in self.task.blocks:
                for entry in block.entries:
                    if block.kind in ("work", "conditioning") and category.holds(entry.movement):
                        members |= dict.fromkeys(self.kept[at], 1)
                    at += 1
            if category.required and members:
                self.row(members, 1)

    def level(self, worth) -> dict[int, float]:
        """An objective: what each number of sets of each entry is worth."""
        entries = self.task.entries
        return {
            option: worth(entries[at], sets, self.full[at])
            for at, options in enumerate(self.kept)
            for option, sets in options.items()
        }

    def whole_times(self) -> tuple[dict[int, int], int]:
        """The times as whole numbers, and how many of their unit are a second."""
        scale = math.lcm(*(time.denominator for time in self.time.values()))
        return {variable: int(time * scale) for variable, time in self.time.items()}, scale

    def limit(self, seconds: Fraction) -> None:
        times, scale = self.whole_times()
        self.row(times, -math.inf, math.floor(seconds * scale) + 0.5)

    def best(self, terms: dict[int, float]) -> int | None:
        """The largest value of an objective of whole numbers; None where nothing fits."""
        costs = np.zeros(self.size)
        costs[list(terms)] = [-value for value in terms.values()]
        places = [(row, variable) for row, (terms_of, _, _) in enumerate(self.rows) for variable in terms_of]
        values = [value for terms_of, _, _ in self.rows for value in terms_of.values()]
        matrix = csr_array((values, tuple(zip(*places, strict=True))), shape=(len(self.rows), self.size))
        found = milp(
            costs,
            integrality=np.ones(self.size),
            bounds=Bounds(0, 1),
            constraints=LinearConstraint(matrix, [row[1] for row in self.rows], [row[2] for row in self.rows]),
            options={"mip_rel_gap": 0},
        )
        assert found.status in (0, 2), found.message
        return None if found.status == 2 else -round(found.fun)

    def shortest(self) -> Fraction:
        """Seconds of the shortest version."""
        times, scale = self.whole_times()
        least = self.best({variable: -time for variable, time in times.items()})
        assert least is not None
        return Fraction(-least, scale)

    def keeps_more_earlier(self, kept: tuple[int, ...]) -> bool:
        """Whether there is a version that keeps as much of the first entries and more of the next."""
        rows = len(self.rows)
        first_more = [self.variable() for _ in kept]
        self.row(dict.fromkeys(first_more, 1), 1, 1)
        for at, (options, sets) in enumerate(zip(self.kept, kept, strict=True)):
            free = dict.fromkeys(first_more[:at], self.full[at])
            self.row({**options, first_more[at]: -1, **free}, sets)
        found = self.best({})
        del self.rows[rows:]
        return found is not None


LEVELS = (
    lambda entry, sets, full: entry.priority == "key",
    lambda entry, sets, full: entry.priority == "do",
    lambda entry, sets, full: entry.priority == "may",
    lambda entry, sets, full: sets,
    lambda entry, sets, full: full**2 - (full - sets) ** 2,
)


def level_of(worth, entries, kept, full) -> int:
    return sum(worth(*each) for each in zip(entries, kept, full, strict=True) if each[1])


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_the_integer_program_has_the_same_optimum(chunk):
    for seed in range(chunk, PROGRAMS, CHUNKS):
        check(seed)


@pytest.mark.parametrize("seed", range(PROGRAMS, PROGRAMS + 10))
def test_long_sessions_too(seed):
    check(seed, 20)


def check(seed: int, entries: int | None = None) -> None:
    random = Random(f"optimum {seed}")
    made = random_program(random, entries or random.randint(3, 14))
    task = made.sessions[0]
    by = ("sets", "movements")[seed // CHUNKS % 2]
    other = IntegerProgram(made, by)
    shortest = other.shortest()
    limit = random_limit(random, shortest, session_time(made, task))
    found = trim(made, task, limit, by)
    if limit < shortest:
        assert isinstance(found, Infeasible) and found.smallest.seconds == shortest, seed
        limit, found = shortest, found.smallest
    assert isinstance(found, Version), seed
    assert all(cut.lacking > 0 and cut.seconds_saved >= 0 for cut in found.cuts), seed
    other.limit(limit)
    for number, worth in enumerate(LEVELS):
        terms = other.level(worth)
        reached = level_of(worth, task.entries, found.kept, other.full)
        assert reached == other.best(terms), (seed, number)
        other.row(terms, reached - 0.5)
    assert not other.keeps_more_earlier(found.kept), seed
