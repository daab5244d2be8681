"""Easier weeks: every axis by hand, then what holds of all programs."""

from fractions import Fraction
from random import Random

import attrs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from setwright.compiler.clock import session_time
from setwright.compiler.easier import changes_in, eased_dose, eased_session, easier_weeks
from setwright.compiler.model import Amrap, Dose, Easier, Program, RampSet, Reps, WorkSet
from setwright.compiler.quantity import Quantity, read_quantity

from ..generate import NOWHERE, block, dose, entry, movement, program, random_program, session

LIFT = movement("lift", "squat")
HELD = attrs.evolve(LIFT, held=True)


def change(text: str | int) -> int | Quantity:
    """`-1`, `-10%`, `-5 kg`."""
    if isinstance(text, int):
        return text
    amount = read_quantity(text.removeprefix("-"))
    return Quantity(-amount.amount, amount.unit)


def easier(made: Program, *weeks: int, **changes: str | int) -> Program:
    told = Easier(weeks, tuple((axis, change(text)) for axis, text in changes.items()), span=NOWHERE)
    return attrs.evolve(made, weeks=12, easier=(*made.easier, told))


def eased(amount: Dose, lift=LIFT, **changes: str | int) -> Dose:
    return eased_dose(amount, {axis: change(text) for axis, text in changes.items()}, lift)


# Which weeks


def test_the_easier_weeks_stand_in_their_order():
    made = easier(easier(program(session()), 8, sets=-1), 4, 12, load="-10%")
    assert easier_weeks(made) == (4, 8, 12)
    assert changes_in(made, 8) == {"sets": -1}
    assert changes_in(made, 12) == {"load": Quantity(Fraction(-10), "%")}


def test_an_ordinary_week_is_the_session_itself():
    made = easier(program(session(block(entry("do", LIFT, dose(3, "6"))))), 4, sets=-1)
    assert eased_session(made, made.sessions[0], 3) is made.sessions[0]
    assert eased_session(made, made.sessions[0], 4) is not made.sessions[0]


# Each axis by hand


@pytest.mark.parametrize(
    ("sets", "least", "by", "left"),
    [(3, 1, -1, 2), (5, 1, -2, 3), (1, 1, -1, 1), (2, 1, -4, 1), (3, 3, -1, 3), (4, 3, -2, 3), (2, 3, -1, 2)],
)
def test_sets_go_as_far_as_the_fewest_worth_doing(sets, least, by, left):
    assert len(eased(dose(sets, "6", least_sets=least), sets=by).sets) == left


def test_of_unlike_sets_the_last_go_first():
    wave = Dose(tuple(WorkSet(Reps(5, 5), read_quantity(share)) for share in ("65%", "75%", "85%")), (), span=NOWHERE)
    assert [str(work.load) for work in eased(wave, sets=-1).sets] == ["65%", "75%"]


@pytest.mark.parametrize(
    ("target", "by", "left"), [("6", -2, (4, 4)), ("6-10", -2, (4, 8)), ("2", -5, (1, 1)), ("2-8", -5, (1, 3))]
)
def test_repetitions_fall_at_both_ends_of_a_range_and_stay_at_one(target, by, left):
    assert eased(dose(1, target), reps=by).sets[0].target == Reps(*left)


def test_a_set_of_as_many_as_possible_is_left_earlier():
    assert eased(dose(1, "amrap 9"), reps=-2).sets[0].target == Amrap(leaving=2, expect=7)
    left = Dose((WorkSet(Amrap(leaving=2)),), (), span=NOWHERE)
    assert eased(left, reps=-1).sets[0].target == Amrap(leaving=3)


@pytest.mark.parametrize(
    ("load", "by", "left"),
    [
        ("12 kg", "-10%", "10.8 kg"),
        ("80%", "-10%", "72%"),
        ("12 kg", "-2 kg", "10 kg"),
        ("25 lb", "-5 lb", "20 lb"),
        ("80%", "-2 kg", "80%"),
        ("12 kg", "-12 kg", "12 kg"),
    ],
)
def test_loads_fall_by_a_share_of_themselves_or_a_weight(load, by, left):
    lighter = eased(dose(3, "6", load=read_quantity(load)), load=by)
    assert lighter.load == read_quantity(left)
    own = Dose((WorkSet(Reps(5, 5), read_quantity(load)),), (), span=NOWHERE)
    assert eased(own, load=by).sets[0].load == read_quantity(left)


def test_lighter_sets_before_the_work_fall_with_it():
    ramped = dose(3, "6", ramp=(5,), load=read_quantity("80%"))  # at 50%
    assert eased(ramped, load="-10%").ramp == (RampSet(read_quantity("45%"), 5),)


def test_a_pound_taken_off_kilograms_is_exact():
    lighter = eased(dose(3, "6", load=read_quantity("10 kg")), load="-5 lb").load
    assert lighter.unit == "kg" and lighter.amount == 10 - 5 * Fraction(45359237, 100000000)


def test_a_hold_and_a_time_are_two_axes():
    timed = dose(2, "40 s")
    assert eased(timed, HELD, hold="-10 s").sets[0].target.time == read_quantity("30 s")
    assert eased(timed, HELD, time="-10 s") == timed
    assert eased(timed, LIFT, time="-25%").sets[0].target.time == read_quantity("30 s")
    assert eased(timed, LIFT, hold="-10 s") == timed
    assert eased(dose(1, "30 min"), LIFT, time="-90 s").sets[0].target.time == read_quantity("28.5 min")


def test_distances_fall():
    assert eased(dose(4, "20 m"), distance="-5 m").sets[0].target.length == read_quantity("15 m")
    assert eased(dose(4, "20 m"), distance="-20 m") == dose(4, "20 m")


def test_a_dose_without_the_axis_stays_as_it_is():
    assert eased(dose(3, "6"), load="-10%", hold="-5 s", time="-5 s", distance="-5 m") == dose(3, "6")


# Blocks and sessions


def week_4(*blocks, **changes):
    made = easier(program(session(*blocks)), 4, **changes)
    return eased_session(made, made.sessions[0], 4)


def test_a_circuit_loses_rounds():
    lift = entry("do", LIFT, dose(1, "6"))
    assert week_4(block(lift, lift, rounds=3), sets=-1).blocks[0].rounds == 2
    assert week_4(block(lift, rounds=1), sets=-1).blocks[0].rounds == 1
    held_up = entry("do", LIFT, dose(1, "6", least_sets=3))
    assert week_4(block(lift, held_up, rounds=4), sets=-2).blocks[0].rounds == 3
    assert week_4(block(lift, rounds=3), reps=-1).blocks[0].rounds == 3


def test_warm_up_and_cool_down_stay():
    lift = entry("do", LIFT, dose(3, "6"))
    kinds = ("warm-up", "work", "conditioning", "cool-down")
    lighter = week_4(*(block(lift, kind=kind) for kind in kinds), sets=-1)
    assert [len(part.entries[0].dose.sets) for part in lighter.blocks] == [3, 2, 2, 3]


CHANGES = st.dictionaries(st.sampled_from(("sets", "reps")), st.integers(-9, -1)) | st.dictionaries(
    st.sampled_from(("load", "hold", "time", "distance")), st.sampled_from(("-1%", "-50%", "-99%"))
)


@settings(deadline=None)
@given(st.randoms(use_true_random=False), st.integers(1, 12), CHANGES)
def test_an_easier_week_never_takes_longer_and_keeps_the_fewest_sets(random: Random, entries: int, changes):
    made = easier(random_program(random, entries), 4, **changes)
    whole = made.sessions[0]
    lighter = eased_session(made, whole, 4)
    assert session_time(made, lighter) <= session_time(made, whole)
    assert [part.movement for part in lighter.entries] == [part.movement for part in whole.entries]
    for before, after in zip(whole.blocks, lighter.blocks, strict=True):
        for full, less in zip(before.entries, after.entries, strict=True):
            sets, left = (
                (len(full.dose.sets), len(less.dose.sets)) if before.rounds is None else (before.rounds, after.rounds)
            )
            assert min(sets, full.dose.least_sets) <= left <= sets
