"""The cut list: an example worked by hand, each rule of the order, and what must hold of any list."""

from fractions import Fraction
from itertools import pairwise
from random import Random

import attrs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from setwright.compiler.clock import Kept, change_time, full_sets, full_version, session_time
from setwright.compiler.cut_list import LEAST_SAVED, MOST_STEPS, CutList, cut_list
from setwright.compiler.model import CutBy, Entry, Program, Session, Short
from setwright.compiler.quantity import Quantity

from ..generate import NOWHERE, block, category, dose, entry, movement, program, random_program, session

# Unless a test says otherwise a set takes 30 s, a rest 30 s and a change 60 s: an entry of n sets takes n x 60 - 30 s.


def lift(priority="do", sets=3, pattern="squat", name="lift", **more) -> Entry:
    return entry(priority, movement(name, pattern), dose(sets, "30 s", **more))


def seconds(number: Fraction | int) -> Quantity:
    return Quantity(Fraction(number), "s")


def listed(*blocks, by: CutBy = "sets", within: int | None = None, categories=()) -> CutList:
    made = session(*blocks)
    limit = None if within is None else seconds(within)
    made = attrs.evolve(made, shorts=(Short(seconds(60), by, span=NOWHERE),), within=limit)
    return cut_list(program(made, categories=categories, rest="30 s", change="60 s"), made)


def versions(found: CutList) -> list[Kept]:
    return [step.kept for step in found.steps]


def saved(found: CutList) -> list[int]:
    return [int(step.saved) for step in found.steps]


def test_an_example_worked_by_hand():
    # 150 + 60 + 90 + 60 + 30 = 390 s of 600 s.
    found = listed(block(lift("must")), block(lift("do", 2), lift("may", 1)), within=600)
    assert versions(found) == [(3, 1, 1), (2, 1, 1), (1, 1, 1), (1, 1, 0), (1, 0, 0)]
    # A set and its rest, three times; the optional lift and the change to it; the last of a block and the change to it.
    assert saved(found) == [60, 60, 60, 90, 90]
    assert [int(step.together) for step in found.steps] == [60, 120, 180, 270, 360]
    first, second = found.pace
    # What is left takes 390, 330, 270, 210 and 120 s, and 30 s in the end.
    assert (first.start, first.until, first.last) == (0, (210, 270, 330, 390, 480), 570)
    # From the second block on, cuts of the first count no more: 180, 120 and 30 s, and nothing in the end.
    assert (second.start, second.until, second.last) == (210, (420, None, None, 480, 570), 600)


def test_what_is_less_is_told():
    found = listed(block(lift("must")), block(lift("must", 1), lift("do", 1), rounds=2, rest="20 s"))
    told = [[(less.entry and less.entry.priority, less.kept) for less in step.less] for step in found.steps]
    assert told == [[(None, 1)], [("must", 2)], [("must", 1)], [("do", 0)]]


# The order


def test_sets_go_evenly_and_before_movements():
    found = listed(block(lift("do"), lift("do")))
    assert versions(found) == [(3, 2), (2, 2), (2, 1), (1, 1), (1, 0)]  # of equal ones the later first


def test_by_movements_no_set_goes_alone():
    found = listed(block(lift("must"), lift("do"), lift("may", 2), lift("key", 2)), by="movements")
    assert versions(found) == [(3, 3, 0, 2), (3, 0, 0, 2), (3, 0, 0, 0)]


def test_words_decide_and_then_what_saves_most():
    found = listed(block(lift("must", 2), lift("key", 2), lift("do", 2), lift("may", 2)))
    assert versions(found)[:4] == [(2, 2, 2, 1), (2, 2, 1, 1), (2, 1, 1, 1), (1, 1, 1, 1)]
    long = entry("do", movement(), dose(1, "60 s"))
    assert versions(listed(block(lift("must", 1), long, lift("do", 1))))[0] == (1, 0, 1)


def test_no_short_version_means_by_sets():
    made = session(block(lift("must"), lift("do")))
    assert cut_list(program(made), made).by == "sets"


def test_never_below_the_fewest_sets_worth_doing():
    found = listed(block(lift("must", 4, least_sets=3), lift("do", 3, least_sets=2)))
    assert versions(found) == [(4, 2), (3, 2), (3, 0)]


def test_a_circuit_goes_by_rounds_and_by_entries():
    # The entry that is worth doing in three rounds only holds the rounds up, until it goes.
    circuit = block(lift("must", 1), lift("do", 1, least_sets=3), rounds=3, rest="20 s", change="15 s")
    found = listed(circuit)
    assert versions(found) == [(3, 0), (2, 0), (1, 0)]
    assert saved(found) == [3 * 45, 50, 50]


def test_rounds_count_as_the_highest_word_of_the_circuit():
    found = listed(block(lift("may", 1), lift("must", 1), rounds=2, rest="90 s"), block(lift("key", 2)))
    assert versions(found)[:2] == [(2, 2, 1), (1, 1, 1)]


def test_the_last_movement_of_a_required_category_stays():
    legs = category("legs", "squat")
    found = listed(block(lift("do", 1), lift("may", 1), lift("key", 1, "push")), categories=(legs,))
    assert versions(found) == [(1, 0, 1), (1, 0, 0)]
    found = listed(block(lift("do", 1), lift("may", 1), lift("must", 1)), categories=(legs,))
    assert versions(found) == [(1, 0, 1), (0, 0, 1)]


def test_a_category_of_the_week_stays_in_the_sessions_that_it_binds():
    legs = category("legs", "squat", required=False, at_least=2)
    parts = block(lift("must", 1, "push"), lift("do", 1))
    first, second = (attrs.evolve(session(parts), name=name, per_week=2) for name in ("first", "second"))
    made = program(first, second, categories=(legs,))
    assert [len(cut_list(made, each).steps) for each in made.sessions] == [0, 1]


def test_a_warm_up_goes_last_of_its_word_and_never_whole():
    found = listed(
        block(lift("do", 1), lift("do", 1), kind="warm-up"), block(lift("must", 1), lift("do", 1), lift("key", 1))
    )
    assert versions(found) == [(1, 1, 1, 0, 1), (1, 0, 1, 0, 1), (1, 0, 1, 0, 0)]


def test_a_warm_up_fills_no_category():
    found = listed(
        block(lift("must", 1), kind="warm-up"), block(lift("do", 1), lift("do", 1)), categories=(category("squat"),)
    )
    assert versions(found) == [(1, 1, 0)]


def test_a_session_keeps_something():
    assert versions(listed(block(lift("do", 1)))) == []
    assert versions(listed(block(lift("may", 1)), block(lift("may", 1)))) == [(1, 0)]


@pytest.mark.parametrize("entries", [(), (lift("must", 1), lift("must", 2, least_sets=2))])
def test_where_nothing_can_be_cut_the_list_is_empty(entries: tuple[Entry, ...]):
    found = listed(block(*entries), within=600)
    assert found.steps == ()
    assert [(each.until, each.last) for each in found.pace] == [((), 600 - 180)] * bool(entries)


def test_a_cut_that_saves_nothing_is_none():
    nothing = entry("may", movement(), dose(1, "0 s"))
    assert versions(listed(block(lift("must", 1), nothing, change="0 s"))) == []


# Pace


def test_no_limit_no_pace():
    assert listed(block(lift("must"), lift("do"))).pace == ()


def test_whoever_stands_at_a_block_that_goes_has_yet_to_change_to_the_next():
    found = listed(block(lift("must", 1)), block(lift("do", 1)), block(lift("must", 1)), within=600)
    assert versions(found) == [(1, 0, 1)]
    assert [each.until for each in found.pace] == [(390,), (480,), (None,)]
    assert [each.last for each in found.pace] == [480, 510, 570]


# A list on paper is short


def test_a_long_list_is_joined():
    found = listed(*(block(lift("do", 4), lift("key", 4)) for _ in range(4)), within=3600)
    assert len(found.steps) == MOST_STEPS
    assert sum(found.steps[-1].kept) == 1
    assert sum(step.saved for step in found.steps) == found.steps[-1].together


def test_steps_that_save_little_are_joined():
    quick = entry("may", movement(), dose(3, "5 s", rest="5 s"))  # a set less is 10 s
    found = listed(block(lift("must", 1), quick))
    assert versions(found) == [(1, 0)] and saved(found) == [85]


# Whatever the program


def made_at_random(seed: int, by: CutBy) -> tuple[Program, Session, CutList]:
    random = Random(seed)
    made = random_program(random, random.randint(1, 20))
    task = made.sessions[0]
    limit = session_time(made, task) * Fraction(random.randint(50, 150), 100)
    task = attrs.evolve(task, within=seconds(limit), shorts=(Short(seconds(60), by, span=NOWHERE),))
    made = attrs.evolve(made, sessions=(task,))
    return made, task, cut_list(made, task)


def allowed(made: Program, task: Session, by: CutBy, kept: Kept) -> bool:
    """Whether a version breaks nothing that was promised."""
    at = 0
    for part in task.blocks:
        here = kept[at : at + len(part.entries)]
        for each, sets in zip(part.entries, here, strict=True):
            full = full_sets(part, each)
            least = full if by == "movements" else min(each.dose.least_sets, full)
            if not (least <= sets <= full or (sets == 0 and each.priority != "must")):
                return False
        if part.rounds is not None and len(set(here) - {0}) > 1:
            return False
        at += len(part.entries)
    whole = full_version(task)
    return any(kept) and held(made, task, kept) == held(made, task, whole)


def held(made: Program, task: Session, kept: Kept) -> set[str]:
    """The categories that bind the only session, and the warm-up, of which a version keeps a movement."""
    found = set()
    parts = [part for part in task.blocks for _ in part.entries]
    for part, each, sets in zip(parts, task.entries, kept, strict=True):
        if sets and part.kind == "warm-up":
            found.add("(warm-up)")
        elif sets and part.kind != "cool-down":
            binding = (kind for kind in made.categories if kind.required or kind.at_least)
            found |= {kind.name for kind in binding if kind.holds(each.movement)}
    return found


@settings(max_examples=100, deadline=None)
@given(seed=st.integers(min_value=0), by=st.sampled_from(("sets", "movements")))
def test_every_version_keeps_what_was_promised_and_lies_within_the_one_before(seed: int, by: CutBy):
    made, task, found = made_at_random(seed, by)
    chain = [full_version(task), *versions(found)]
    for before, after in pairwise(chain):
        assert all(less <= more for more, less in zip(before, after, strict=True)) and before != after
        assert allowed(made, task, by, after)
    assert len(found.steps) <= MOST_STEPS


@settings(max_examples=100, deadline=None)
@given(seed=st.integers(min_value=0), by=st.sampled_from(("sets", "movements")))
def test_the_last_version_cannot_be_cut_further(seed: int, by: CutBy):
    made, task, found = made_at_random(seed, by)
    last = [full_version(task), *versions(found)][-1]
    time = session_time(made, task, last)
    at = 0
    for part in task.blocks:
        indices = range(at, at + len(part.entries))
        at += len(part.entries)
        singles = [(index,) for index in indices]
        for cut in [*singles, tuple(indices)]:
            for sets in range(max((last[index] for index in cut), default=0)):
                less = tuple(min(now, sets) if index in cut else now for index, now in enumerate(last))
                if len(cut) > 1 and sets == 0:
                    continue  # all of a circuit goes one by one
                assert not allowed(made, task, by, less) or session_time(made, task, less) >= time


@settings(max_examples=100, deadline=None)
@given(seed=st.integers(min_value=0), by=st.sampled_from(("sets", "movements")))
def test_seconds_add_up_to_what_the_clock_says(seed: int, by: CutBy):
    made, task, found = made_at_random(seed, by)
    total = Fraction(0)
    for step in found.steps:
        total += step.saved
        assert step.saved > 0
        assert step.together == total == session_time(made, task) - session_time(made, task, step.kept)
    assert len(found.steps) < 2 or min(step.saved for step in found.steps) >= LEAST_SAVED


@settings(max_examples=100, deadline=None)
@given(seed=st.integers(min_value=0), by=st.sampled_from(("sets", "movements")))
def test_a_block_begun_at_the_minute_of_a_cut_ends_at_the_limit_without_it(seed: int, by: CutBy):
    made, task, found = made_at_random(seed, by)
    chain = [full_version(task), *versions(found)]
    holding = [number for number, part in enumerate(task.blocks) if any(full_sets(part, e) for e in part.entries)]
    assert [each.block for each in found.pace] == [task.blocks[number] for number in holding]
    for number, pace in zip(holding, found.pace, strict=True):
        at = sum(len(part.entries) for part in task.blocks[:number])
        rest = attrs.evolve(task, blocks=task.blocks[number:])

        def left(kept: Kept, at: int = at, rest: Session = rest) -> Fraction:
            time = session_time(made, rest, kept[at:])
            gone = not any(kept[at : at + len(rest.blocks[0].entries)])
            return time + change_time(made) if gone and time else time

        assert task.within is not None
        for until, (before, after) in zip(pace.until, pairwise(chain), strict=True):
            assert (until is None) == (before[at:] == after[at:])
            assert until is None or until + left(before) == task.within.base
        assert pace.last + left(chain[-1]) == task.within.base
        minutes = [until for until in (*pace.until, pace.last) if until is not None]
        assert minutes == sorted(minutes)
