"""The clock against published arithmetic, and its own constants against what was read."""

from fractions import Fraction

import pytest
from setwright.compiler import clock
from setwright.compiler.model import Amrap, Distance, Reps, Tempo, Timed
from setwright.compiler.quantity import read_quantity

from ..generate import block, dose, entry, movement, program, session, target, tempo

# Tempos as four figures: lowering, pause, raising, pause (Wilk et al., J Hum Kinet 2018: regular 2/0/2/0, medium
# 5/0/3/0, slow 6/0/4/0, read in the abstract, PMC6006544; authors and year from memory). That their sum is the duration
# of a repetition: Schoenfeld, Ogborn and Krieger, Sports Med 2015;45(4):577-585, read in the abstract.
TEMPOS = [
    (10, ("2 s", "0 s", "2 s", "0 s"), 40),  # computed: 10 x 4
    (8, ("5 s", "0 s", "3 s", "0 s"), 64),  # computed: 8 x 8
    (8, ("6 s", "0 s", "4 s", "0 s"), 80),  # computed: 8 x 10
    (10, ("3 s", "1 s", "1 s", "0 s"), 50),  # computed: 10 x 5
]


@pytest.mark.parametrize(("reps", "parts", "seconds"), TEMPOS)
def test_a_set_takes_its_repetitions_times_the_sum_of_its_tempo(reps, parts, seconds):
    assert clock.set_time(movement(), dose(1, str(reps), tempo=tempo(*parts)), Reps(reps, reps)) == seconds


def test_rests_are_one_fewer_than_sets():
    # Computed: 3 sets x 40 s + 2 rests x 90 s = 300 s.
    lift = entry("must", movement(), dose(3, "10", tempo=tempo("2 s", "0 s", "2 s", "0 s"), rest="90 s"))
    alone = block(lift)
    made = program(session(alone))
    assert clock.block_clock(made, alone).seconds([3]) == 300
    assert clock.session_time(made, made.sessions[0]) == 300


def test_a_repetition_lies_within_the_moderate_velocity():
    # ACSM position stand, Med Sci Sports Exerc 2009;41(3):687-708: moderate velocity, 1-2 s concentric, 1-2 s
    # eccentric; read in a summary (docplayer 4662303).
    assert 1 + 1 <= clock.REPETITION <= 2 + 2
    assert clock.repetition_time(movement(), Tempo()) == Fraction(1 + 2, 2) * 2


def test_a_session_of_nine_movements_takes_an_hour_at_most():
    # Common practice, no source: nine movements with 23 work sets of 5 to 10 repetitions and rests of about a minute
    # take 45 to 60 minutes. That is the whole session, with ten minutes of warming up and a few of cooling down, and
    # with the usual share of movements done on each side. Nothing of the clock is set by the program here.
    sets = (3, 3, 3, 3, 3, 2, 2, 2, 2)
    reps = (5, 6, 6, 8, 8, 8, 10, 10, 10)
    sided = (0, 2, 5, 7)
    lifts = [
        entry("do", movement(), dose(number, str(count), each_side=at in sided))
        for at, (number, count) in enumerate(zip(sets, reps, strict=True))
    ]
    ready, down = (entry("do", movement(), dose(1, time)) for time in ("10 min", "3 min"))
    made = program(session(block(ready, kind="warm-up"), block(*lifts), block(down, kind="cool-down")))
    assert sum(sets) == 23
    assert 45 * 60 <= clock.session_time(made, made.sessions[0]) <= 60 * 60


# The rest is arithmetic of our own definitions.


@pytest.mark.parametrize(
    ("given", "own", "seconds"),
    [
        (tempo(), None, "3"),
        (tempo(), "2.5 s", "2.5"),
        (tempo(lower="3 s"), None, "4.5"),  # raising: half of 3 s
        (tempo(lower="3 s"), "4 s", "5"),
        (tempo(pause="2 s"), None, "5"),
        (tempo(up="1 s"), None, "2.5"),
        (tempo(up="fast"), None, "2.5"),
        (tempo("3 s", "1 s", "fast", "0 s"), None, "5"),
        (tempo(top="1 s"), None, "4"),
        (Tempo(cues=3), None, "6"),
    ],
)
def test_parts_of_a_tempo(given, own, seconds):
    assert clock.repetition_time(movement(rep=own), given) == Fraction(seconds)


@pytest.mark.parametrize(
    ("what", "seconds"),
    [
        ("6", 18),
        ("6-10", 30),  # at its top
        ("amrap 9", 27),
        ("amrap", 30),  # ten are expected
        ("30 s", 30),
        ("2 min", 120),
        ("20 m", 20),
        ("0.5 km", 500),
    ],
)
def test_a_set_of_anything(what, seconds):
    assert clock.set_time(movement(), dose(1, what), target(what)) == seconds
    assert clock.set_time(movement(), dose(1, what, each_side=True), target(what)) == 2 * seconds


def test_a_movement_has_its_own_speed():
    walk = movement(covers=("10 m", "12 s"))
    assert clock.set_time(walk, dose(1, "20 m"), Distance(read_quantity("20 m"))) == 24


def test_tempo_does_not_change_a_set_that_lasts_a_time():
    assert clock.set_time(movement(), dose(1, "30 s", tempo=tempo("9 s")), Timed(read_quantity("30 s"))) == 30


def test_none_expected_of_a_set_is_none():
    assert clock.set_time(movement(), dose(1, "amrap 0"), Amrap(expect=0)) == 0


def test_ramp_sets_are_sets():
    lift = entry("must", movement(), dose(3, "6", ramp=(5, 3), rest="60 s"))
    alone = block(lift)
    made = program(session(alone))
    assert clock.block_clock(made, alone).seconds([3]) == 15 + 9 + 3 * 18 + 4 * 60
    assert clock.block_clock(made, alone).seconds([1]) == 15 + 9 + 18 + 2 * 60
    assert clock.block_clock(made, alone).seconds([0]) == 0


def test_the_nearest_rest_holds():
    own = entry("do", movement(), dose(2, "10", rest="20 s"))
    plain = entry("do", movement(), dose(2, "10"))
    made, bare = program(session(), rest="80 s"), program(session())
    assert clock.block_clock(made, block(own, rest="40 s")).seconds([2]) == 30 + 20 + 30
    assert clock.block_clock(made, block(plain, rest="40 s")).seconds([2]) == 30 + 40 + 30
    assert clock.block_clock(made, block(plain)).seconds([2]) == 30 + 80 + 30
    assert clock.block_clock(bare, block(plain)).seconds([2]) == 30 + 60 + 30


def test_a_change_lies_between_two_movements():
    lifts = [entry("do", movement(), dose(1, "10"))] * 3
    task = session(block(*lifts[:2], change="15 s"), block(lifts[2]))
    assert clock.session_time(program(task), task) == 30 + 15 + 30 + 45 + 30
    assert clock.session_time(program(task, change="20 s"), task) == 30 + 15 + 30 + 20 + 30
    assert clock.session_time(program(task), task, (1, 0, 1)) == 30 + 45 + 30
    assert clock.session_time(program(task), task, (0, 0, 1)) == 30


def test_a_circuit_changes_within_a_round_and_rests_after_it():
    # As the store room's push and pull: nine repetitions, then eight on each side, three times.
    push = entry("must", movement(), dose(1, "amrap 9"))
    row = entry("must", movement(), dose(1, "8", each_side=True))
    task = session(block(push, row, rounds=3, rest="30 s", change="15 s"))
    made = program(task)
    assert clock.full_version(task) == (3, 3)
    assert clock.session_time(made, task) == 3 * (27 + 15 + 48) + 2 * 30
    assert clock.session_time(made, task, (2, 2)) == 2 * (27 + 15 + 48) + 30
    assert clock.session_time(made, task, (3, 0)) == 3 * 27 + 2 * 30
    # One station that leaves out the last round.
    assert clock.session_time(made, task, (3, 2)) == 3 * 27 + 2 * (15 + 48) + 2 * 30


def test_ramp_sets_of_a_circuit_come_once():
    task = session(block(entry("must", movement(), dose(1, "6", ramp=(5,))), rounds=3, rest="30 s"))
    assert clock.session_time(program(task), task) == 15 + 30 + 3 * 18 + 2 * 30


def test_a_timetable_says_when_each_block_starts():
    lift = entry("do", movement(), dose(2, "10", rest="30 s"))  # 90 s
    task = session(block(lift), block(lift, lift), block(lift, rounds=3, rest="30 s"))
    found = clock.timetable(program(task), task)
    assert [(part.start, part.seconds) for part in found.blocks] == [(0, 90), (135, 225), (405, 150)]
    assert [part.seconds for block in found.blocks for part in block.entries] == [90, 90, 90, 90]
    assert found.seconds == 555 == clock.session_time(program(task), task)


def test_a_timetable_of_a_version_passes_over_what_is_left_out():
    lift = entry("do", movement(), dose(2, "10", rest="30 s"))
    task = session(block(lift), block(lift), block(lift))
    found = clock.timetable(program(task), task, (0, 1, 2))
    assert [(part.start, part.seconds) for part in found.blocks] == [(0, 0), (0, 30), (75, 90)]
    found = clock.timetable(program(task), task, (1, 0, 2))
    assert [(part.start, part.seconds) for part in found.blocks] == [(0, 30), (30, 0), (75, 90)]
    assert [entry.kept for block in found.blocks for entry in block.entries] == [1, 0, 2]


def test_times_are_fractions():
    task = session(block(entry("do", movement(rep="3.3 s"), dose(3, "7"))))
    assert clock.session_time(program(task), task) == Fraction("189.3")


def test_a_version_has_a_number_for_each_entry():
    task = session(block(entry("do", movement(), dose(1, "10"))))
    with pytest.raises(ValueError, match="one number of kept sets an entry"):
        clock.session_time(program(task), task, (1, 1))
