"""All limits at which the best version changes: by hand, and against trimming to each of them."""

from fractions import Fraction
from itertools import pairwise
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from setwright.compiler.clock import full_version, session_time
from setwright.compiler.model import CutBy, Program
from setwright.compiler.trim import Infeasible, Version, limits, trim

from ..generate import block, category, dose, entry, movement, program, random_program, session
from .test_trim import BOTH, goal, lift, plan

LITTLE = Fraction(1, 1000)  # no time of a program made at random is as short


def told(made: Program, by: CutBy = "sets") -> list[tuple[int, tuple[int, ...]]]:
    return [(limit.seconds, limit.kept) for limit in limits(made, made.sessions[0], by)]


def test_from_the_shortest_version_to_the_full_one():
    made = plan(block(lift("must"), lift("may", 2)))  # a set 30 s, a rest 30 s, a change 60 s
    assert told(made) == [(30, (1, 0)), (90, (2, 0)), (120, (1, 1)), (180, (2, 1)), (240, (3, 1)), (300, (3, 2))]
    assert told(made, "movements") == [(150, (3, 0)), (300, (3, 2))]


def test_a_change_that_only_evens_the_cut_or_keeps_earlier_sets_is_a_limit_too():
    quick, slow = (entry("must", movement(), dose(2, f"{seconds} s", rest="0 s")) for seconds in (10, 11))
    # 21, then a set more: of the second, and only for a second more of the first.
    assert told(plan(block(slow, quick), change="0 s")) == [(21, (1, 1)), (31, (1, 2)), (32, (2, 1)), (42, (2, 2))]


def test_nothing_has_to_stay():
    assert told(plan(block(lift("may", 1)))) == [(0, (0,)), (30, (1,))]
    assert told(plan()) == [(0, ())]


def test_a_session_that_cannot_be_cut_has_one_limit():
    assert told(plan(block(lift("must", 2, least_sets=2)))) == [(90, (2,))]


@pytest.mark.parametrize("seed", range(60))
def test_each_version_is_the_best_from_its_limit_to_the_next(seed):
    random = Random(f"limits {seed}")
    made = random_program(random, random.randint(1, 10))
    task = made.sessions[0]
    for by in BOTH:
        found = limits(made, task, by)
        assert found[-1].kept == full_version(task)
        assert isinstance(trim(made, task, found[0].seconds - LITTLE, by), Infeasible)
        assert all(one.seconds < other.seconds for one, other in pairwise(found))
        for limit, end in zip(found, [*(limit.seconds for limit in found[1:]), found[-1].seconds + 60], strict=True):
            assert limit.seconds == session_time(made, task, limit.kept)
            for seconds in (limit.seconds, (limit.seconds + end) / 2, end - LITTLE):
                version = trim(made, task, seconds, by)
                assert isinstance(version, Version)
                assert version.kept == limit.kept, (by, seconds)


@settings(max_examples=60, deadline=None)
@given(st.integers(min_value=0), st.integers(5, 40), st.sampled_from(BOTH), st.floats(0, 1), st.floats(0, 1))
def test_a_longer_limit_never_yields_a_worse_version(seed, entries, by, one, other):
    made = random_program(Random(seed), entries)
    task = made.sessions[0]
    full = session_time(made, task)
    shorter, longer = (
        version if isinstance(version, Version) else version.smallest
        for version in (trim(made, task, full * Fraction(share), by) for share in sorted((one, other)))
    )
    assert goal(made, longer.kept) >= goal(made, shorter.kept)


def test_limits_hold_for_a_session_of_about_an_hour():
    made = random_program(Random("an hour"), 16)
    task = made.sessions[0]
    found = limits(made, task, "sets")
    assert len(found) > 20
    for limit in Random(1).sample(found, 20):
        version = trim(made, task, limit.seconds, "sets")
        assert isinstance(version, Version) and version.kept == limit.kept


def test_required_categories_hold_at_every_limit():
    legs = category("legs", "squat")
    made = program(session(block(lift("key", 1, "push"), lift("may", 2), lift("do", 1))), categories=(legs,))
    assert all(limit.kept[1] or limit.kept[2] for limit in limits(made, made.sessions[0], "sets"))
