"""An independent way to the best version of a session: a linear program in whole numbers, for HiGHS.

It shares no code with trimming: it has a variable for each number of sets, and blocks in use, and is solved once for
each level of the goal, every level holding those before it. Times are whole numbers in it, and a limit lies half a unit
above what fits, so that no rounding of the solver can decide.
"""

import math
from fractions import Fraction
from time import process_time

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, OptimizeResult, milp
from scipy.sparse import csr_array
from setwright.compiler.clock import change_time, ramp_times, rest_time, round_rest_time, set_time
from setwright.compiler.model import CutBy, Program

LEVELS = (
    lambda entry, sets, full: entry.priority == "key",
    lambda entry, sets, full: entry.priority == "do",
    lambda entry, sets, full: entry.priority == "may",
    lambda entry, sets, full: sets,
    lambda entry, sets, full: full**2 - (full - sets) ** 2,
)


class IntegerProgram:
    """A session to trim: rows of a linear program in variables that are 0 or 1."""

    def __init__(self, made: Program, by: CutBy) -> None:
        self.made, self.task, self.by = made, made.sessions[0], by
        self.values: list[float] = []
        self.places: tuple[list[int], list[int]] = ([], [])  # rows and variables of the values
        self.bounds: list[tuple[float, float]] = []  # of the rows
        self.size = 0
        self.solving = 0.0  # seconds in the solver
        self.asked_again = 0
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
        self.values += terms.values()
        self.places[0].extend([len(self.bounds)] * len(terms))
        self.places[1].extend(terms)
        self.bounds.append((low, high))

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
            if (category.required or category.at_least) and members:
                self.row(members, 1)

    def level(self, worth) -> dict[int, float]:
        """An objective: what each number of sets of each entry is worth."""
        entries = self.task.entries
        return {
            option: worth(entries[at], sets, self.full[at])
            for at, options in enumerate(self.kept)
            for option, sets in options.items()
        }

    def levels_at_once(self) -> dict[int, float]:
        """All levels in one objective: each is worth more than all that the levels below it can be together.

        It needs one solve, with weights up to about 10^7, and does not see which of two equals stands earlier.
        """
        worth = dict.fromkeys((option for options in self.kept for option in options), 0.0)
        weight = 1
        for level in reversed(LEVELS):
            terms = self.level(level)
            for option, value in terms.items():
                worth[option] += weight * value
            weight += weight * sum(max(terms[option] for option in options) for options in self.kept if options)
        return worth

    def whole_times(self) -> tuple[dict[int, int], int]:
        """The times as whole numbers, and how many of their unit are a second."""
        scale = math.lcm(*(time.denominator for time in self.time.values()))
        return {variable: int(time * scale) for variable, time in self.time.items()}, scale

    def limit(self, seconds: Fraction) -> None:
        times, scale = self.whole_times()
        self.row(times, -math.inf, math.floor(seconds * scale) + 0.5)

    def best(self, terms: dict[int, float], known: float = -math.inf) -> int | None:
        """The largest value of an objective of whole numbers; None where nothing fits.

        Where a value is known that can be reached, and HiGHS says that none as large can, it is asked again without its
        presolve: that has called a version the best which a later solve of its own beat.
        """
        found = self.solve(terms)
        if found.x is None or -round(found.fun) < known:
            if known == -math.inf:
                return None
            self.asked_again += 1
            found = self.solve(terms, presolve=False)
        return None if found.x is None else -round(found.fun)

    def solve(self, terms: dict[int, float], presolve: bool = True) -> OptimizeResult:
        """What HiGHS finds for an objective, with no gap left; the seconds it took are added to `solving`."""
        costs = np.zeros(self.size)
        costs[list(terms)] = [-value for value in terms.values()]
        matrix = csr_array((self.values, self.places), shape=(len(self.bounds), self.size))
        rows = LinearConstraint(matrix, *np.array(self.bounds).T)
        start = process_time()
        found = milp(
            costs,
            integrality=np.ones(self.size),
            bounds=Bounds(0, 1),
            constraints=rows,
            options={"mip_rel_gap": 0, "presolve": presolve},
        )
        self.solving += process_time() - start
        assert found.status in (0, 2), found.message
        return found

    def kept_in(self, found: OptimizeResult) -> tuple[int, ...]:
        """The kept sets of each entry in a solution; nothing where HiGHS found none."""
        chosen = np.zeros(self.size) if found.x is None else found.x
        return tuple(sum(sets for option, sets in options.items() if chosen[option] > 0.5) for options in self.kept)

    def shortest(self, known: Fraction) -> Fraction:
        """Seconds of the shortest version, where one of so many is known."""
        times, scale = self.whole_times()
        least = self.best({variable: -time for variable, time in times.items()}, int(-known * scale))
        assert least is not None
        return Fraction(-least, scale)

    def keeps_more_earlier(self, kept: tuple[int, ...]) -> bool:
        """Whether there is a version that keeps as much of the first entries and more of the next. To be asked last."""
        first_more = [self.variable() for _ in kept]
        self.row(dict.fromkeys(first_more, 1), 1, 1)
        for at, (options, sets) in enumerate(zip(self.kept, kept, strict=True)):
            free = dict.fromkeys(first_more[:at], self.full[at])
            self.row({**options, first_more[at]: -1, **free}, sets)
        return self.best({}) is not None


def level_of(worth, entries, kept, full) -> int:
    return sum(worth(*each) for each in zip(entries, kept, full, strict=True) if each[1])
