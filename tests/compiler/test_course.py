"""From an entry to its course, and from a standing to a dose: the starts, the bounds, and what of a dose moves."""

from __future__ import annotations

from fractions import Fraction

import attrs
import pytest
from setwright.compiler.axes import AXES
from setwright.compiler.course import Means, course_of, dose_at
from setwright.compiler.model import Axis, NoProgress, Rule
from setwright.compiler.progression import Course, Standing
from setwright.compiler.quantity import UNITS, Figure, read_quantity

from ..generate import NOWHERE
from .worked import amount, compiled, means, sets

POUND = UNITS["lb"][1]


def started(dose: str, axis: str, brings: Means | None = None, *, block: str = "", settings: str = "") -> Figure | None:
    program, where, entry = compiled(dose, f'advance none because "{axis}"', block, settings)
    return AXES[axis].start(program, where, entry, brings or means())


def course(dose: str, rule: str, brings: Means | None = None, *, block: str = "", settings: str = "") -> Course:
    program, where, entry = compiled(dose, rule, block, settings)
    made = course_of(program, where, entry, brings or means())
    assert made is not None
    return made


@pytest.mark.parametrize(
    ("dose", "axis", "start"),
    [
        ("goblet-squat 3 x 8 at 12 kg", "load", 12),
        ("goblet-squat 3 x 8", "load", None),
        ("goblet-squat 3 x 8 at 20 lb", "load", 20 * POUND),
        ("deadlift 3 x 5 at 70%", "load", Fraction(7, 10)),
        ("deadlift sets 5 at 65%, 5 at 85%, 5 at 75%", "load", Fraction(85, 100)),
        ("chair-stand 3 x 10", "reps", 10),
        ("chair-stand 3 x 6-10", "reps", 6),
        ("chair-stand sets 8, 12, 10", "reps", 12),
        ("push-up 2 x amrap, expect 9", "reps", None),
        ("chair-stand 3 x 10", "total reps", 30),
        ("chair-stand sets 8, 12, 10", "total reps", 30),
        ("push-up 2 x amrap, expect 9", "total reps", 18),
        ("push-up 2 x amrap", "total reps", 20),  # of ten where nothing is expected
        ("push-up sets 8, amrap, expect 9", "total reps", 17),
        ("plank 2 x 30 s", "total reps", None),
        ("chair-stand 3 x 10", "sets", 3),
        ("split-squat 2 x 8, lower 3 s", "lower", 3),
        ("split-squat 2 x 8", "lower", None),
        ("split-squat 2 x 8, pause 2 s", "pause", 2),
        ("split-squat 2 x 8", "pause", 0),
        ("split-squat 2 x 8, pause 3 cues", "cues", 3),
        ("plank 2 x 30 s", "hold", 30),
        ("plank sets 20 s, 40 s", "hold", 40),
        ("step-over 1 x 2 min", "time", 120),
        ("step-over 1 x 2 min", "distance", None),
        ("suitcase-carry sets 20 m, 30 m", "distance", 30),
        ("suitcase-carry 2 x 20 m", "pace", 24),  # 10 m in 12 s
        ("step-over 1 x 2 min", "pace", None),
        ("reverse-lunge 2 x 10 m", "pace", None),  # nothing says how fast
        ("deadlift sets 5 at 20 kg, 5 at 70%", "load", 20),  # of what 70 % are, nobody knows
        ("chair-stand 3 x 10, rest 75 s", "rest", 75),
        ("chair-stand 3 x 10", "rest", 60),
        ("push-up 3 x 10", "rung", 0),
    ],
)
def test_where_each_axis_starts(dose: str, axis: str, start: Figure | None):
    assert started(dose, axis) == start


def test_a_circuit_counts_its_rounds():
    assert started("chair-stand 8", "sets", block=", rounds 3") == 3
    assert started("chair-stand 8", "total reps", block=", rounds 3") == 24
    assert started("push-up amrap, expect 9", "total reps", block=", rounds 3") == 27


def test_the_rest_of_the_block_and_of_the_program():
    assert started("chair-stand 3 x 10", "rest", settings="rest 90 s") == 90
    assert started("chair-stand 3 x 10", "rest", block=", rest 40 s", settings="rest 90 s") == 40


@pytest.mark.parametrize(
    ("dose", "begins", "axis", "start"),
    [
        ("goblet-squat 3 x 8 at 12 kg", "at 8 kg", "load", 8),
        ("deadlift 3 x 5 at 70%", "at 49 kg", "load", 49),
        ("push-up 3 x 10", "on knees", "rung", 2),
        ("push-up 3 x 10", "on nowhere", "rung", 0),
        ("push-up 3 x 10", "7 reps", "reps", 7),
        ("push-up 3 x 10", "7 reps", "total reps", 21),
        ("push-up sets 10, 8, 6", "7 reps", "total reps", 7 + 5 + 3),
        ("push-up sets 10, 4", "5 reps", "total reps", 5 + 1),  # never less than 1
        ("push-up 2 x amrap, expect 9", "7 reps", "total reps", 14),
        ("push-up 2 x amrap, expect 9", "7 reps", "reps", None),
        ("plank 2 x 30 s", "20 s", "hold", 20),
        ("suitcase-carry 2 x 20 m", "15 m", "distance", 15),
        ("step-over 1 x 20 min, log distance", "800 m", "distance", 800),
    ],
)
def test_where_an_athlete_begins(dose: str, begins: str, axis: str, start: Figure | None):
    assert started(dose, axis, means(begins=begins)) == start


def test_a_load_starts_with_what_can_be_made_and_is_not_heavier():
    assert started("goblet-squat 3 x 8 at 12 kg", "load", means("6 10 14")) == 10
    assert started("goblet-squat 3 x 8 at 12 kg", "load", means("6 12 14")) == 12
    assert started("goblet-squat 3 x 8 at 5 kg", "load", means("6 12")) == 5  # nothing so light is there
    assert started("goblet-squat 3 x 8 at 12 kg", "load", means("6 10 14", begins="at 9 kg")) == 6
    assert started("deadlift 3 x 5 at 70%", "load", means("50 55 60", maximum="80")) == 56  # the share stays exact
    assert started("goblet-squat 3 x 8", "load", means("6 10 14")) == 6  # nothing says another
    assert started("goblet-squat 3 x 8", "load", means()) is None
    assert started("deadlift 3 x 5 at 70%", "load", means("50 55 60")) == Fraction(7, 10)  # of what, nobody knows


def test_what_does_not_progress_has_no_course():
    program, where, entry = compiled("chair-stand 3 x 10", 'advance none because "Kept easy."')
    assert isinstance(entry.rule, NoProgress)
    assert course_of(program, where, entry) is None
    assert course_of(program, where, attrs.evolve(entry, rule=None)) is None


def test_the_jump_is_that_of_the_athlete_else_of_the_program_else_a_tenth():
    dose, rule = "goblet-squat 3 x 8", "advance load"
    assert course(dose, rule).jump == Fraction(1, 10)
    assert course(dose, rule, settings="jump 15%").jump == Fraction(15, 100)
    assert course(dose, rule, means(jump="20"), settings="jump 15%").jump == Fraction(20, 100)


@pytest.mark.parametrize(
    ("dose", "rule", "bound"),
    [
        ("chair-stand 3 x 8", "reps", None),
        ("chair-stand 3 x 6-10", "reps", 10),
        ("chair-stand 3 x 6-10", "reps to 12", 12),
        ("chair-stand sets 8-12, 6-15", "reps", 12),  # of the set that starts highest
        ("push-up 3 x 8", "rung to knees", 2),
        ("push-up 3 x 8", "rung", None),
        ("goblet-squat 3 x 8 at 20 lb", "load by 1 lb to 25 lb", 25 * POUND),
        ("deadlift 3 x 5 at 70%", "load by 5% to 90%", Fraction(9, 10)),
        ("deadlift 3 x 5 at 70%", "load by 5% to 90 kg", Fraction(12, 10)),  # of a maximum that nobody knows
        ("chair-stand 3 x 8, rest 60 s", "rest by 15 s to 30 s", 30),
    ],
)
def test_bounds(dose: str, rule: str, bound: Figure | None):
    assert course(dose, f"advance {rule}").tracks[0].bound == bound


def test_steps_and_bounds_of_a_share_whose_maximum_is_known():
    (track,) = course("deadlift 3 x 5 at 70%", "advance load by 5% to 90%", means(maximum="80")).tracks
    assert (track.start, track.step, track.share, track.bound) == (56, 4, False, 72)
    (track,) = course("deadlift 3 x 5 at 70%", "advance load by 2 kg to 70 kg", means(maximum="80")).tracks
    assert (track.start, track.step, track.share, track.bound) == (56, 2, False, 70)
    made = course("deadlift 3 x 5 at 70%", "advance load by 5 lb", means(maximum="80"), settings="units lb")
    assert (made.unit, made.tracks[0].step, made.tracks[0].grain) == ("lb", 5 * POUND, POUND / 10)


def test_what_is_eased_and_not_advanced_comes_after_the_axes():
    made = course("chair-stand 3 x 10, at least 2 sets", "after 3 missed, ease sets 1\nadvance reps to 12")
    assert [track.name for track in made.tracks] == ["reps", "sets"]
    assert (made.axes, made.missed, made.ease, made.tracks[1].least) == (1, 3, (1, 1, False), 2)
    made = course("goblet-squat 3 x 8", "after 2 missed, ease load 10%\nadvance load, then reps to 12")
    assert (made.axes, made.ease) == (2, (0, Fraction(1, 10), True))


# From a standing to a dose


def at(dose: str, rule: str, *figures: Figure | None, brings: Means | None = None, block: str = "", **more: int) -> str:
    program, where, entry = compiled(dose, rule, block)
    made = course_of(program, where, entry, brings or means())
    assert made is not None
    asked = dose_at(entry, made, Standing(figures, **more))
    return sets(asked) + ("" if asked.load is None else f", {amount(asked.load)}")


SETS = "advance reps, then sets"


@pytest.mark.parametrize(
    ("dose", "rule", "figures", "asked"),
    [
        ("chair-stand 3 x 10", SETS, (12, 4), "4 x 12"),
        ("chair-stand 3 x 10", SETS, (12, 2), "2 x 12"),
        ("chair-stand 3 x 6-10", SETS, (6, 3), "3 x 6"),
        ("chair-stand sets 10, 8, 4", "advance reps", (7,), "7 5 1"),
        ("chair-stand 3 x 8", "advance total reps", (25,), "9 8 8"),
        ("chair-stand 3 x 8", "advance total reps", (23,), "8 8 7"),
        ("chair-stand 3 x 8", "advance total reps", (1,), "3 x 1"),
        ("chair-stand sets 10, 8, 6", "advance total reps", (29,), "12 10 7"),
        ("chair-stand 3 x 6-10", "advance total reps", (18,), "3 x 6-10"),
        ("chair-stand 3 x 6-10", "advance total reps", (19,), "7 6 6"),
        ("chair-stand 3 x 8", "advance total reps, then sets", (24, 4), "4 x 6"),
        ("push-up sets 8, amrap, expect 9", "advance total reps", (18,), "9 amrap 9"),
        ("plank sets 20 s, 40 s", "advance hold by 5 s", (50,), "30 s 50 s"),
        ("plank sets 20 s, 40 s", "advance hold by 5 s", (10,), "1 s 10 s"),
        ("step-over 1 x 20 min", "advance time by 1 min", (Fraction(1230),), "1 x 20.5 min"),
        ("step-over 1 x 20 min", "advance time by 1 min", (Fraction(1231),), "1 x 1231 s"),
        ("suitcase-carry sets 20 m, 30 m", "advance distance by 5 m", (35,), "25 m 35 m"),
        ("goblet-squat 3 x 8", "advance load", (12,), "3 x 8, 12 kg"),
        ("goblet-squat 3 x 8", "advance load", (None,), "3 x 8"),
        ("goblet-squat 3 x 8 at 20 lb", "advance load", (25 * POUND,), "3 x 8, 25 lb"),
        ("deadlift sets 5 at 20 kg, 5 at 60 kg", "advance load", (30,), "5@0.1 kg 5@30 kg"),
        ("deadlift sets 5 at 65%, 5 at 75%", "advance load by 5%", (Fraction(8, 10),), "5@70% 5@80%"),
        ("deadlift sets 5 at 20 kg, 5 at 100 lb", "advance load", (110 * POUND,), "5@24.536 kg 5@110 lb"),
        ("push-up 3 x 8", "advance rung", (3,), "3 x 8"),
        ("suitcase-carry 2 x 20 m", "advance pace by 2%", (20,), "2 x 20 m"),
    ],
)
def test_the_dose_of_a_standing(dose: str, rule: str, figures: tuple[Figure | None, ...], asked: str):
    assert at(dose, rule, *figures) == asked


def test_a_circuit_asks_for_the_same_in_every_round():
    assert at("chair-stand 8", "advance total reps", 25, block=", rounds 3") == "1 x 9"
    assert at("chair-stand 8", "advance total reps", 24, block=", rounds 3") == "1 x 8"
    assert at("push-up amrap, expect 9", "advance total reps", 30, block=", rounds 3", expected=9) == "1 x amrap 10"


def test_as_many_as_possible_are_planned_with_the_best_so_far():
    assert at("push-up 2 x amrap leaving 2, expect 9", "advance rung", 0, expected=12) == "2 x amrap 12"
    assert at("push-up 2 x amrap", "advance rung", 0, expected=10) == "2 x amrap"  # as it was written


def test_shares_of_a_known_maximum_are_weights_that_can_be_made():
    # 65, 75 and 85 % of 80 kg are 52, 60 and 68
    dose, rule = "deadlift sets 5 at 65%, 5 at 75%, 5 at 85%", "advance load by 2.5%"
    assert at(dose, rule, 68, brings=means(maximum="80")) == "5@52 kg 5@60 kg 5@68 kg"
    assert at(dose, rule, 70, brings=means(maximum="80")) == "5@54 kg 5@62 kg 5@70 kg"
    assert at(dose, rule, 70, brings=means("50 55 60 65 70", maximum="80")) == "5@50 kg 5@60 kg 5@70 kg"
    # Below the lightest there is nothing: the lightest stays.
    assert at(dose, rule, 70, brings=means("65 70", maximum="80")) == "5@65 kg 5@65 kg 5@70 kg"


@pytest.mark.parametrize(
    "dose",
    [
        "chair-stand 3 x 10",
        "chair-stand sets 10, 8, 6",
        "push-up 2 x amrap leaving 2",
        "push-up 2 x amrap leaving 2, expect 7",
        "push-up sets 8, amrap, expect 9",
        "split-squat 2 x 8 each side, lower 3 s, pause 2 s, rest 1 min",
        "split-squat 2 x 8, pause 3 cues",
        "plank sets 1 min, 40 s",
        "suitcase-carry 2 x 0.5 km at 25 lb",
        "deadlift sets 5 at 65%, 5 at 75%, amrap at 85%, ramp 40% x 5",
        "goblet-squat 3 x 8 at 12000 g",
    ],
)
def test_the_dose_of_the_start_is_the_dose_itself(dose: str):
    program, where, entry = compiled(dose, 'advance none because "Kept."')
    for name in AXES:
        axis = Axis(name, read_quantity("5%") if name == "load" else 1, span=NOWHERE)
        moving = attrs.evolve(entry, rule=Rule((axis,), span=NOWHERE))
        made = course_of(program, where, moving)
        assert made is not None
        assert dose_at(moving, made, made.start) == entry.dose, name
