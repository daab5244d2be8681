"""Short versions: each rule of the goal by hand, then against trying everything, then against an integer program."""

import itertools
from collections.abc import Iterator
from fractions import Fraction
from random import Random
from statistics import median
from time import process_time

import pytest
from setwright.compiler.clock import Kept, full_version, session_time
from setwright.compiler.model import CutBy, Entry, Program, Session
from setwright.compiler.trim import Infeasible, Version, trim

from ..generate import block, category, dose, entry, movement, program, random_limit, random_program, session

BOTH: tuple[CutBy, ...] = ("sets", "movements")

# By hand. Unless a test says otherwise a set takes 30 s, a rest 30 s and a change 60 s: an entry of n sets takes
# n x 60 - 30 s, three sets 150 s.


def lift(priority="do", sets=3, pattern="squat", **more) -> Entry:
    return entry(priority, movement("lift", pattern), dose(sets, "30 s", **more))


def plan(*blocks, categories=(), rest="30 s", change="60 s") -> Program:
    return program(session(*blocks), categories=categories, rest=rest, change=change)


def short(made: Program, seconds: int, by: CutBy = "sets") -> Version:
    version = trim(made, made.sessions[0], Fraction(seconds), by)
    assert isinstance(version, Version)
    return version


def test_nothing_is_cut_where_the_whole_session_fits():
    made = plan(block(lift(), lift()))  # 150 + 60 + 150
    version = short(made, 360)
    assert version.kept == (3, 3) and version.cuts == () and version.seconds == 360
    assert version.seconds_saved == 0


def test_a_second_too_much_cuts_a_set():
    version = short(plan(block(lift(), lift())), 359)
    assert version.kept == (3, 2) and version.seconds == 300


def test_keys_go_last():
    made = plan(block(lift("may"), lift("do"), lift("key"), lift("must")))  # one set each: 4 x 30 + 3 x 60 = 300
    assert short(made, 300).kept == (1, 1, 1, 1)
    assert short(made, 299).kept == (0, 2, 1, 1)  # what the optional lift leaves, 89 s, is room for a set of 60 s
    assert short(made, 210).kept == (0, 1, 1, 1)
    assert short(made, 209).kept == (0, 0, 2, 1)  # 90 + 60 + 30
    assert short(made, 120).kept == (0, 0, 1, 1)
    assert short(made, 119).kept == (0, 0, 0, 2)


def test_one_key_is_worth_more_than_any_number_of_others():
    long_key = entry("key", movement(), dose(1, "300 s"))
    made = plan(block(lift("must", 1), long_key, *[lift("do", 1)] * 4))  # 30 + 60 + 300 is as long as 30 + 4 x 90
    assert short(made, 390).kept == (1, 1, 0, 0, 0, 0)
    assert short(made, 389).kept == (1, 0, 1, 1, 1, 0)


def test_a_do_is_worth_more_than_any_number_of_mays():
    made = plan(block(lift("must", 1), entry("do", movement(), dose(1, "210 s")), *[lift("may", 1)] * 3))
    assert short(made, 300).kept == (1, 1, 0, 0, 0)
    assert short(made, 299).kept == (1, 0, 1, 1, 0)


def test_movements_come_before_sets():
    made = plan(block(lift("do", 5), lift("may", 1)))
    assert short(made, 270).kept == (3, 1)  # 150 + 60 + 30; five sets alone would take 270


def test_sets_come_before_evenness():
    # The first lift's sets are short: all of them with one of the second are more than an even cut.
    quick = entry("do", movement(), dose(5, "10 s", rest="10 s"))
    made = plan(block(quick, lift("do", 3)))  # 90 + 60 + 30 is 180
    assert short(made, 180).kept == (5, 1)


def test_the_most_even_cut():
    made = plan(block(lift(sets=4), lift(sets=4), lift(sets=4)))  # 12 sets: 210 x 3 + 120 = 750; each set less is 60
    assert short(made, 750 - 180).kept == (3, 3, 3)
    assert short(made, 750 - 240).kept == (3, 3, 2)


def test_earlier_entries_keep_more():
    made = plan(block(lift(sets=3), lift(sets=3), lift(sets=3)))
    assert short(made, 570 - 60).kept == (3, 3, 2)
    assert short(made, 570 - 120).kept == (3, 2, 2)


def test_a_movement_keeps_the_fewest_sets_worth_doing_or_none():
    made = plan(block(lift("must", 3, least_sets=2), lift("do", 3, least_sets=2)))  # 2 + 2 sets: 90 + 60 + 90
    assert short(made, 240).kept == (2, 2)
    assert short(made, 239).kept == (3, 0)
    assert short(made, 90).kept == (2, 0)


def test_fewest_sets_above_the_sets_of_an_entry_mean_all_of_them():
    assert short(plan(block(lift("do", 2, least_sets=4))), 90).kept == (2,)


def test_by_movements_an_entry_is_done_in_full_or_not_at_all():
    made = plan(block(lift("must"), lift("do"), lift("may", 1)))  # 150 + 60 + 150 + 60 + 30
    assert short(made, 449, "movements").kept == (3, 3, 0)
    assert short(made, 359, "movements").kept == (3, 0, 1)
    assert short(made, 150, "movements").kept == (3, 0, 0)


def test_musts_stay_and_the_error_says_what_would_fit():
    made = plan(block(lift("must", least_sets=2), lift("do"), lift("must")))
    found = trim(made, made.sessions[0], Fraction(100), "sets")
    assert isinstance(found, Infeasible)
    assert found.smallest.seconds == 90 + 60 + 30 and found.smallest.kept == (2, 0, 1)
    assert found.smallest.limit == 180
    assert found.musts == (made.sessions[0].entries[0], made.sessions[0].entries[2]) and found.categories == ()
    assert short(made, 180).kept == (2, 0, 1)


def test_a_required_category_keeps_a_movement():
    legs = category("legs", "squat")
    made = plan(block(lift("key", 3, "push"), lift("may", 3, "squat")), categories=(legs,))
    assert short(made, 119).kept == (0, 2)
    assert short(made, 120).kept == (1, 1)
    found = trim(made, made.sessions[0], Fraction(29), "sets")
    assert isinstance(found, Infeasible) and found.smallest.kept == (0, 1) and found.categories == (legs,)


def test_a_category_that_is_not_required_keeps_nothing():
    made = plan(block(lift("key", 3, "push"), lift("may")), categories=(category("legs", "squat", required=False),))
    assert short(made, 119).kept == (2, 0)


def test_a_must_fills_its_category():
    made = plan(block(lift("must"), lift("key", 3, "push"), lift("may")), categories=(category("legs", "squat"),))
    assert short(made, 120).kept == (1, 1, 0)


def test_one_movement_can_fill_two_categories():
    both = entry("may", movement("thruster", "squat", "push"), dose(1, "30 s"))
    categories = (category("squat"), category("push"))
    made = plan(block(lift("do", 1, "squat"), lift("do", 1, "push"), both), categories=categories)
    assert short(made, 119).kept == (0, 0, 1)
    assert short(made, 120).kept == (1, 1, 0)


@pytest.mark.parametrize("kind", ["warm-up", "cool-down"])
def test_warming_up_and_cooling_down_fill_no_category(kind):
    made = plan(block(lift("may", 1), kind=kind), block(lift("may", 1)), categories=(category("squat"),))
    assert short(made, 30).kept == (0, 1)


def test_conditioning_fills_a_category():
    made = plan(
        block(lift("do", 1), kind="conditioning"), block(lift("may", 1, "push")), categories=(category("squat"),)
    )
    assert short(made, 30).kept == (1, 0)


def test_a_category_that_the_full_session_leaves_empty_is_no_hindrance():
    made = plan(block(lift("do", 1, "push")), block(lift("do", 1), kind="warm-up"), categories=(category("squat"),))
    assert short(made, 30).kept == (1, 0)


def test_a_block_of_which_nothing_is_kept_costs_no_change():
    made = plan(block(lift("must", 1)), block(lift("may", 1)), block(lift("must", 1)))
    assert short(made, 120).kept == (1, 0, 1)
    assert short(made, 119 + 91).kept == (1, 1, 1)


def test_a_block_can_have_its_own_change():
    made = plan(block(lift("do", 1), lift("do", 1), change="10 s"), block(lift("do", 1)))
    assert short(made, 30 + 10 + 30 + 60 + 30).kept == (1, 1, 1)
    assert short(made, 159).kept == (1, 1, 0)


# A round of two stations takes 30 + 15 + 30 s, three rounds with 20 s of rest between them 265 s.


def circuit(*entries: Entry, rounds=3):
    return block(*entries, rounds=rounds, rest="20 s", change="15 s")


def test_a_circuit_is_cut_by_rounds():
    made = plan(circuit(lift("must", 1), lift("must", 1)))
    assert session_time(made, made.sessions[0]) == 265
    assert short(made, 265).kept == (3, 3)
    assert short(made, 264).kept == (2, 2) and short(made, 264).seconds == 170
    assert short(made, 169).kept == (1, 1)


def test_a_circuit_is_cut_by_entries():
    made = plan(circuit(lift("must", 1), lift("may", 1)))
    assert short(made, 75).kept == (1, 1)
    assert short(made, 74).kept == (1, 0)
    assert short(made, 264, "movements").kept == (3, 0)  # 3 x 30 + 2 x 20
    assert short(made, 130, "movements").kept == (3, 0)
    assert isinstance(trim(made, made.sessions[0], Fraction(129), "movements"), Infeasible)


def test_the_largest_fewest_rounds_of_the_kept_entries_holds():
    made = plan(circuit(lift("must", 1), lift("do", 1, least_sets=2)))
    assert short(made, 170).kept == (2, 2)
    assert short(made, 169).kept == (3, 0)
    made = plan(circuit(lift("do", 1, least_sets=2), lift("must", 1)))
    assert short(made, 170).kept == (2, 2)
    assert short(made, 169).kept == (0, 3)


def test_each_cut_has_its_reason_and_what_it_saves():
    made = plan(
        block(lift("must"), lift("key", 1), lift("do", 1), lift("may", 1)),
        circuit(lift("must", 1), lift("must", 1)),
    )
    version = short(made, 30 + 60 + 75)
    assert version.kept == (1, 0, 0, 0, 1, 1)
    assert [(cut.index, cut.kept, cut.full, cut.reason) for cut in version.cuts] == [
        (0, 1, 3, "fewer-sets"),
        (1, 0, 1, "priority"),
        (2, 0, 1, "ordinary"),
        (3, 0, 1, "optional"),
        (4, 1, 3, "rounds"),
        (5, 1, 3, "rounds"),
    ]
    # Two sets and two rests; a set and the change to it; a station and the change to it in two rounds.
    assert [cut.seconds_saved for cut in version.cuts] == [120, 90, 90, 90, 90, 90]
    assert version.seconds_saved == 120 + 3 * 90 + 2 * (75 + 20)
    # One more set with its rest; the movement and its change; one more round.
    assert [cut.lacking for cut in version.cuts] == [60, 90, 90, 90, 95, 95]


def test_times_are_exact():
    slow = entry("do", movement(rep="3.3 s"), dose(3, "7", rest="10.01 s"))  # 3 x 23.1 + 2 x 10.01 = 89.32
    made = plan(block(slow))
    version = trim(made, made.sessions[0], Fraction("89.32"), "sets")
    assert isinstance(version, Version) and version.kept == (3,)
    version = trim(made, made.sessions[0], Fraction("89.319"), "sets")
    assert isinstance(version, Version) and version.kept == (2,) and version.seconds == Fraction("56.21")


@pytest.mark.parametrize("rounds", [None, 3])
def test_an_entry_without_sets_is_no_work(rounds):
    nothing = entry("must", movement("lift", "squat"), dose(0, "30 s"))
    made = plan(
        block(nothing, lift("may", 1, "push"), nothing, rounds=rounds, change="0 s"), categories=(category("squat"),)
    )
    assert short(made, 29).kept == (0, 0, 0) and short(made, 30).kept[1] == 1


def test_an_empty_session_has_an_empty_version():
    assert short(plan(), 0).kept == ()
    assert short(plan(block()), 0).kept == ()


def test_twenty_entries_take_no_time():
    random = Random(20)
    taken = []
    for _ in range(15):
        made = random_program(random, 20)
        limit = session_time(made, made.sessions[0]) * 2 / 3
        start = process_time()
        trim(made, made.sessions[0], limit, "sets")
        taken.append(process_time() - start)
    assert median(taken) < 0.05  # mostly about 0.006 s


# Against trying every version.


def sets_of(task: Session, by: CutBy) -> Iterator[Kept]:
    """Every version that the priorities and the fewest sets allow."""
    parts = []
    for part in task.blocks:
        numbers = []
        for each in part.entries:
            full = part.rounds or len(each.dose.sets)
            least = full if by == "movements" else min(each.dose.least_sets, full)
            numbers.append(([] if each.priority == "must" else [0]) + list(range(least, full + 1)))
        kept = itertools.product(*numbers)
        parts.append([each for each in kept if part.rounds is None or len(set(each) - {0}) < 2])
    return (tuple(itertools.chain(*kept)) for kept in itertools.product(*parts))


def fills(made: Program, kept: Kept) -> set[str]:
    blocks = [part for part in made.sessions[0].blocks for _ in part.entries]
    return {
        each.name
        for each in made.categories
        for part, done, sets in zip(blocks, made.sessions[0].entries, kept, strict=True)
        if (each.required or each.at_least)
        and sets
        and part.kind in ("work", "conditioning")
        and each.holds(done.movement)
    }


def goal(made: Program, kept: Kept) -> tuple[int, int, int, int, int, Kept]:
    """What a version is worth, larger being better."""
    entries = made.sessions[0].entries
    full = full_version(made.sessions[0])
    count = {
        word: sum(1 for e, sets in zip(entries, kept, strict=True) if sets and e.priority == word)
        for word in ("key", "do", "may")
    }
    uneven = sum((whole - sets) ** 2 for whole, sets in zip(full, kept, strict=True))
    return count["key"], count["do"], count["may"], sum(kept), -uneven, kept


@pytest.mark.parametrize("seed", range(150))
def test_trying_everything_finds_nothing_better(seed):
    random = Random(seed)
    made = random_program(random, random.randint(1, 5))
    task = made.sessions[0]
    for by in BOTH:
        needed = fills(made, full_version(task))
        versions = [kept for kept in sets_of(task, by) if fills(made, kept) == needed]
        times = {kept: session_time(made, task, kept) for kept in versions}
        shortest = min(times.values())
        limit = random_limit(random, shortest, session_time(made, task))
        found = trim(made, task, limit, by)
        if limit < shortest:
            assert isinstance(found, Infeasible) and found.smallest.seconds == shortest
            limit, found = shortest, found.smallest
        assert isinstance(found, Version)
        assert found.kept == max((kept for kept in versions if times[kept] <= limit), key=lambda kept: goal(made, kept))
        assert found.seconds == times[found.kept]
        assert all(cut.lacking > 0 and cut.seconds_saved >= 0 for cut in found.cuts)
        full = full_version(task)
        alone = {cut.index: (*full[: cut.index], cut.kept, *full[cut.index + 1 :]) for cut in found.cuts}
        for cut in found.cuts:
            assert cut.seconds_saved == found.full_seconds - session_time(made, task, alone[cut.index])
