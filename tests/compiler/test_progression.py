"""The rule of progression, worked out by hand for every axis: each table is a row of sessions."""

import pytest
from setwright.compiler.axes import AXES
from setwright.compiler.course import course_of
from setwright.compiler.progression import Course, Standing, Track, after

from .worked import check, compiled, means

SIX_TO_TEN = means("6 8 10", jump="40")  # 8 is 33 % above 6, 10 is 25 % above 8


# Load


def test_the_next_load_that_can_be_made():
    # 5.5 is 10 % above 5, 6 is 9.1 % above 5.5, 6.5 is 8.3 % above 6
    check(
        """
        good  | load                         | 3 x 8, 5.5 kg
        good  | load                         | 3 x 8, 6 kg
        short | held                         | 3 x 8, 6 kg
        good  | load                         | 3 x 8, 6.5 kg
        good  | exhausted (load: no-heavier) | 3 x 8, 6.5 kg
        good  | exhausted (load: no-heavier) | 3 x 8, 6.5 kg
        """,
        "goblet-squat 3 x 8 at 5 kg",
        "advance load",
        means("5 5.5 6 6.5"),
    )


def test_a_load_of_which_nobody_knows_what_can_be_made_goes_on_unknown():
    # The dose stays as it was written: the next load is the athlete's to find.
    check(
        """
        good | load | 3 x 8, 20 kg
        good | load | 3 x 8, 20 kg
        """,
        "goblet-squat 3 x 8 at 20 kg",
        "advance load",
    )
    rule = "advance load, then reps by 1 to 12"
    check("good | load | 3 x 8", "goblet-squat 3 x 8", rule)
    # Where loads are there and nothing says which, the lightest; where there are none, nothing grows heavier.
    check("good | reps (load: jump) | 3 x 9, 6 kg", "goblet-squat 3 x 8", rule, means("6 8"), first="3 x 8, 6 kg")
    check("good | reps (load: no-heavier) | 3 x 9", "goblet-squat 3 x 8", rule, means(""))


def test_a_share_of_a_maximum_goes_on_exactly_and_is_never_lifted_heavier():
    # 70, 72.5, 75 ... % of 150 kg are 105, 108.75, 112.5, 116.25, 120 kg; plates make steps of 2.5 kg.
    check(
        """
        good | load | 3 x 5, 107.5 kg
        good | load | 3 x 5, 112.5 kg
        good | load | 3 x 5, 115 kg
        good | load | 3 x 5, 120 kg
        """,
        "deadlift 3 x 5 at 70%",
        "advance load by 2.5%",
        means(" ".join(str(2.5 * number) for number in range(8, 60)), maximum="150"),
        first="3 x 5, 105 kg",
    )


def test_no_load_goes_above_the_cap_and_no_share_above_what_may_be_told():
    bar = " ".join(str(20 + 2.5 * number) for number in range(40))
    alone = means(bar, maximum="80", cap="85")
    # 85 % of 80 kg are 68 kg: at 90 % it begins there, and at 80 % it ends there.
    check(
        "good | exhausted (load: bound) | 3 x 5, 67.5 kg",
        "deadlift 3 x 5 at 90%", "advance load by 2.5% to 100%", alone, first="3 x 5, 67.5 kg",
    )  # fmt: skip
    check(
        """
        good | load                    | 3 x 5, 67.5 kg
        good | exhausted (load: bound) | 3 x 5, 67.5 kg
        """,
        "deadlift 3 x 5 at 80%", "advance load by 5%", alone, first="3 x 5, 62.5 kg",
    )  # fmt: skip
    check(
        """
        good | load                    | 3 x 5, 120%
        good | exhausted (load: bound) | 3 x 5, 120%
        """,
        "deadlift 3 x 5 at 115%",
        "advance load by 5%",
    )


def test_eased_to_a_lighter_load_the_best_of_the_heavier_one_tells_nothing():
    check(
        """
        good  | counting   | 1 x amrap 7, 10 kg
        good  | load       | 1 x amrap 6, 11 kg
        good  | counting   | 1 x amrap 7, 11 kg
        short | held       | 1 x amrap 7, 11 kg
        short | eased load | 1 x amrap 6, 10 kg
        """,
        "goblet-squat 1 x amrap, expect 6, at 10 kg",
        "after 2 good\nafter 2 missed, ease load 10%\nadvance load",
        means("10 11 12"),
    )


def test_a_heavier_load_begins_with_the_repetitions_expected():
    check(
        """
        good | load | 1 x amrap 6, 65%
        good | load | 1 x amrap 6, 67.5%
        """,
        "deadlift 1 x amrap, expect 6, at 62.5%",
        "advance load by 2.5%",
    )


def test_a_load_by_a_weight():
    check(
        """
        good | load                              | 3 x 8, 22 kg
        good | load                              | 3 x 8, 24 kg
        good | exhausted (load: bound)           | 3 x 8, 24 kg
        """,
        "goblet-squat 3 x 8 at 20 kg",
        "advance load by 2 kg to 25 kg",
    )


def test_a_load_by_a_weight_takes_the_first_that_is_as_much_heavier():
    # 21 is not 2 kg above 20; 22.5 is. Then 24.5 is asked for, and is there; then 26.5, and 27 is.
    loads = "20 21 22.5 24 24.5 27"
    check(
        """
        good | load                         | 3 x 8, 22.5 kg
        good | load                         | 3 x 8, 24.5 kg
        good | load                         | 3 x 8, 27 kg
        good | exhausted (load: no-heavier) | 3 x 8, 27 kg
        """,
        "goblet-squat 3 x 8 at 20 kg",
        "advance load by 2 kg",
        means(loads, jump="12.5"),  # 2.5 of 20
    )
    # 2.5 of 24.5 are 10.2 %.
    check(
        "good | exhausted (load: jump) | 3 x 8, 24.5 kg",
        "goblet-squat 3 x 8 at 24.5 kg",
        "advance load by 2 kg",
        means(loads, jump="10"),
    )


def test_a_load_by_a_share_is_rounded_down_to_a_tenth():
    # 5 % of 20 is 1; of 21, 1.05, so 1; of 22, 1.1; of 23.1, 1.155, so 1.1
    check(
        """
        good | load | 3 x 8, 21 kg
        good | load | 3 x 8, 22 kg
        good | load | 3 x 8, 23.1 kg
        good | load | 3 x 8, 24.2 kg
        """,
        "goblet-squat 3 x 8 at 20 kg",
        "advance load by 5%",
    )
    # A tenth of a pound: 10 % of 12.5 lb is 1.25. Rounded up it would pass the jump of 10 %.
    check("good | load | 3 x 8, 13.7 lb", "goblet-squat 3 x 8 at 12.5 lb", "advance load by 10%")
    # 5 % of 1 kg is less than a tenth, which is the least.
    check("good | load | 3 x 8, 1.1 kg", "goblet-squat 3 x 8 at 1 kg", "advance load by 5%")


def test_a_load_told_as_a_share_of_the_maximum_goes_by_points():
    check(
        """
        good | load                    | 3 x 5, 75%
        good | load                    | 3 x 5, 80%
        good | exhausted (load: bound) | 3 x 5, 80%
        """,
        "deadlift 3 x 5 at 70%",
        "advance load by 5% to 80%",
    )
    # From 40 to 45 % is 12.5 % more of what is lifted.
    check("good | exhausted (load: jump) | 3 x 5, 40%", "deadlift 3 x 5 at 40%", "advance load by 5%")


def test_a_share_of_a_maximum_that_is_known_is_a_weight():
    # 70 % of 80 kg is 56; 5 points are 4 kg; the bound is 64.
    check(
        """
        good | load                    | 3 x 5, 60 kg
        good | load                    | 3 x 5, 64 kg
        good | exhausted (load: bound) | 3 x 5, 64 kg
        """,
        "deadlift 3 x 5 at 70%",
        "advance load by 5% to 80%",
        means(maximum="80"),
        first="3 x 5, 56 kg",
    )


def test_a_share_of_a_maximum_starts_at_a_load_that_can_be_made_and_is_not_heavier():
    # 70 % of 80 kg are 56 kg, which cannot be made: 55. 75 % are 60, and 80 % are 64, of which 60 kg can be made.
    check(
        """
        good | load                    | 3 x 5, 60 kg
        good | load                    | 3 x 5, 60 kg
        good | exhausted (load: bound) | 3 x 5, 60 kg
        """,
        "deadlift 3 x 5 at 70%",
        "advance load by 5% to 80%",
        means("50 55 57.5 60 65", maximum="80"),
        first="3 x 5, 55 kg",
    )


def test_a_first_weight_tells_the_maximum_of_which_shares_are_told():
    # 49 kg is 70 % of 70 kg: 5 points are 3.5 kg, and 80 % are 56.
    check(
        """
        good | load                    | 3 x 5, 52.5 kg
        good | load                    | 3 x 5, 56 kg
        good | exhausted (load: bound) | 3 x 5, 56 kg
        """,
        "deadlift 3 x 5 at 70%",
        "advance load by 5% to 80%",
        means(begins="at 49 kg"),
        first="3 x 5, 49 kg",
    )


def test_a_first_weight_is_that_of_the_heaviest_set():
    # 60 kg are 75 % of 80 kg: 65 % are 52 kg, and 5 points 4 kg.
    check(
        "good | load | 5@56 kg 5@64 kg",
        "deadlift sets 5 at 65%, 5 at 75%",
        "advance load by 5%",
        means(begins="at 60 kg"),
        first="5@52 kg 5@60 kg",
    )


def test_a_load_that_begins_at_its_bound():
    check(
        "good | exhausted (load: bound) | 3 x 8, 20 kg",
        "goblet-squat 3 x 8",
        "advance load to 20 kg",
        means(begins="at 20 kg"),
    )


def test_a_weight_more_than_a_share_of_an_unknown_maximum_is_unknown():
    check(
        """
        good  | load | 3 x 5, 70%
        short | held | 3 x 5, 70%
        short | held | 3 x 5, 70%
        """,
        "deadlift 3 x 5 at 70%",
        "after 2 missed, ease load 5 kg\nadvance load by 2 kg, then reps by 1 to 8",
    )


def test_sets_with_loads_of_their_own_keep_their_distance_from_the_heaviest():
    check(
        """
        good | load                    | 5@67.5% 5@77.5% 5@87.5%
        good | load                    | 5@70% 5@80% 5@90%
        good | exhausted (load: bound) | 5@70% 5@80% 5@90%
        """,
        "deadlift sets 5 at 65%, 5 at 75%, 5 at 85%",
        "advance load by 2.5% to 90%",
    )


def test_sets_with_loads_of_their_own_are_made_of_what_there_is():
    # 80 to 85 is 5 more: 45 and 65 are asked for, and 40 and 65 are what can be made and is not heavier.
    check(
        """
        good | load | 5@40 kg 5@65 kg 5@85 kg
        good | load | 5@50 kg 5@65 kg 5@90 kg
        """,
        "deadlift sets 5 at 40 kg, 5 at 60 kg, 5 at 80 kg",
        "advance load",
        means("40 50 60 65 80 85 90"),
    )


def test_a_jump_too_large_gives_the_turn_to_the_next_axis():
    # 12 is 20 % above 10.
    check(
        """
        good | reps (load: jump)                    | 3 x 9, 10 kg
        good | reps (load: jump)                    | 3 x 10, 10 kg
        good | exhausted (load: jump, reps: bound)  | 3 x 10, 10 kg
        """,
        "goblet-squat 3 x 8 at 10 kg",
        "advance load, then reps by 1 to 10",
        means("8 10 12"),
    )


def test_loads_finer_than_a_step_are_passed_over():
    # A jug with a line at every tenth of a litre: 2 % of 10 kg are 0.2 kg, of 10.2 kg 0.204.
    fine = " ".join(f"{tenths / 10}" for tenths in range(100, 111))
    table = """
        good | load                                     | 3 x 8, 10.2 kg
        good | load                                     | 3 x 8, 10.5 kg
        short | held                                    | 3 x 8, 10.5 kg
        good | load                                     | 3 x 8, 10.8 kg
        good | reps (load: no-heavier)                  | 3 x 9, 10.8 kg
    """
    dose, rule = "goblet-squat 3 x 8 at 10 kg", "advance load, then reps by 1 to 12"
    check(table, dose, rule, means(fine, least="2"))
    check("good | load | 3 x 8, 10.1 kg", dose, rule, means(fine))
    # What the rule says goes before it, and the bound and the jump count as ever.
    check("good | load | 3 x 8, 10.1 kg", dose, "advance load by 0.1 kg", means(fine, least="2"))
    check("good | load | 3 x 8, 10.1 kg", dose, "advance load by 1%", means(fine, least="2"))
    check("good | exhausted (load: bound) | 3 x 8, 10 kg", dose, "advance load to 10.1 kg", means(fine, least="2"))
    check("good | exhausted (load: jump) | 3 x 8, 10 kg", dose, "advance load", means("10 10.1 12", least="2"))


def test_the_jump_of_the_athlete_goes_before_that_of_the_program():
    rule, dose = "advance load, then reps by 1 to 10", "goblet-squat 3 x 8 at 10 kg"
    check("good | load | 3 x 8, 12 kg", dose, rule, means("10 12"), settings="jump 20%")
    check("good | reps (load: jump) | 3 x 9, 10 kg", dose, rule, means("10 12", jump="19"), settings="jump 20%")
    check("good | load | 3 x 8, 12 kg", dose, rule, means("10 12", jump="20"), settings="jump 5%")


# Repetitions and sets


def test_repetitions_by_one_and_by_two():
    check(
        """
        good  | reps                    | 3 x 11
        short | held                    | 3 x 11
        good  | reps                    | 3 x 12
        good  | exhausted (reps: bound) | 3 x 12
        """,
        "chair-stand 3 x 10",
        "advance reps to 12",
    )
    check(
        """
        good | reps                    | 3 x 12
        good | reps                    | 3 x 14
        good | exhausted (reps: bound) | 3 x 14
        """,
        "chair-stand 3 x 10",
        "advance reps by 2 to 15",
    )


def test_repetitions_of_unlike_sets_keep_their_distance():
    check(
        """
        good | reps                    | 11 9 7
        good | exhausted (reps: bound) | 11 9 7
        """,
        "chair-stand sets 10, 8, 6",
        "advance reps to 11",
    )


def test_a_range_of_repetitions_ends_at_its_top():
    check(
        """
        good | reps                    | 3 x 7
        good | reps                    | 3 x 8
        good | exhausted (reps: bound) | 3 x 8
        """,
        "chair-stand 3 x 6-8",
        "advance reps",
    )


def test_all_repetitions_together():
    check(
        """
        good | total reps                    | 9 8 8
        good | total reps                    | 9 9 8
        good | total reps                    | 3 x 9
        good | exhausted (total reps: bound) | 3 x 9
        """,
        "chair-stand 3 x 8",
        "advance total reps to 27",
    )
    check("good | total reps | 11 9 6", "chair-stand sets 10, 8, 6", "advance total reps by 2")


def test_all_repetitions_of_amrap_sets_together():
    # 2 x 4 are 8, and 9 are 5 and 4
    check(
        """
        good  | total reps                    | amrap 5 amrap 4
        short | held                          | amrap 5 amrap 4
        good  | total reps                    | 2 x amrap 5
        good  | exhausted (total reps: bound) | 2 x amrap 5
        """,
        "pull-up 2 x amrap leaving 2, expect 4",
        "advance total reps by 1 to 10",
    )


def test_all_repetitions_of_a_circuit_together():
    # 3 rounds of 8 are 24; 25 to 27 ask for 9 in each round.
    check(
        """
        good | total reps                    | 1 x 9
        good | total reps                    | 1 x 9
        good | total reps                    | 1 x 9
        good | total reps                    | 1 x 10
        good | exhausted (total reps: bound) | 1 x 10
        """,
        "chair-stand 8",
        "advance total reps by 1 to 28",
        block=", rounds 3",
    )


def test_sets():
    check(
        """
        good | sets                    | 4 x 10
        good | sets                    | 5 x 10
        good | exhausted (sets: bound) | 5 x 10
        """,
        "chair-stand 3 x 10",
        "advance sets to 5",
    )


# Tempo


def test_lowering():
    check(
        """
        good | lower                    | 2 x 8, lower 4 s
        good | lower                    | 2 x 8, lower 5 s
        good | exhausted (lower: bound) | 2 x 8, lower 5 s
        """,
        "split-squat 2 x 8, lower 3 s",
        "advance lower by 1 s to 5 s",
    )
    # 20 % of 4 s is less than a second, which is the least; of 10 s it is 2.
    check("good | lower | 2 x 8, lower 5 s", "split-squat 2 x 8, lower 4 s", "advance lower by 20%")
    check("good | lower | 2 x 8, lower 12 s", "split-squat 2 x 8, lower 10 s", "advance lower by 20%")


def test_a_pause_starts_at_nothing():
    check(
        """
        good | pause                    | 2 x 8, pause 1 s
        good | pause                    | 2 x 8, pause 2 s
        good | exhausted (pause: bound) | 2 x 8, pause 2 s
        """,
        "split-squat 2 x 8",
        "advance pause by 1 s to 2 s",
        first="2 x 8",
    )
    check("good | pause | 2 x 8, pause 4 s", "split-squat 2 x 8, pause 2 s", "advance pause by 2 s")


def test_cues():
    check(
        """
        good | cues                    | 2 x 8, 3 cues
        good | cues                    | 2 x 8, 4 cues
        good | exhausted (cues: bound) | 2 x 8, 4 cues
        """,
        "split-squat 2 x 8, pause 2 cues",
        "advance cues to 4",
    )


# Times, distances, paces, rests


def test_a_hold():
    check(
        """
        good | hold                    | 2 x 35 s
        good | hold                    | 2 x 40 s
        good | exhausted (hold: bound) | 2 x 40 s
        """,
        "plank 2 x 30 s",
        "advance hold by 5 s to 40 s",
    )
    check("good | hold | 25 s 45 s", "plank sets 20 s, 40 s", "advance hold by 5 s")


def test_a_time():
    # 10 % of 20 min is 2 min; of 22, 2.2 min, which is 132 s; of 1452 s, 145.2 s, so 145 s: 1597 s is no tenth of a minute
    check(
        """
        good | time                    | 1 x 22 min
        good | time                    | 1 x 24.2 min
        good | time                    | 1 x 1597 s
        good | exhausted (time: bound) | 1 x 1597 s
        """,
        "step-over 1 x 20 min",
        "advance time by 10% to 28 min",
    )
    check("good | time | 1 x 21 min", "step-over 1 x 20 min", "advance time by 1 min")


def test_a_distance():
    check(
        """
        good | distance                    | 4 x 25 m
        good | distance                    | 4 x 30 m
        good | exhausted (distance: bound) | 4 x 30 m
        """,
        "suitcase-carry 4 x 20 m",
        "advance distance by 5 m to 30 m",
    )
    # 5 % of 45 m is 2.25 m, so 2; of 47 m 2.35 m, so 2; of 12 m less than a metre, which is the least
    check(
        """
        good | distance | 4 x 47 m
        good | distance | 4 x 49 m
        """,
        "suitcase-carry 4 x 45 m",
        "advance distance by 5%",
    )
    check("good | distance | 4 x 13 m", "suitcase-carry 4 x 12 m", "advance distance by 5%")
    check("good | distance | 1 x 1.1 km", "suitcase-carry 1 x 1 km", "advance distance by 100 m")


def test_a_pace_shrinks():
    # The movement covers 10 m in 12 s: 40 m take 48 s. 10 % of 48 s are 4.8 s, of 43.2 s 4.32 s, of 38.88 s 3.888 s.
    check(
        """
        good | pace                    | 2 x 40 m, pace 43.2 s
        good | pace                    | 2 x 40 m, pace 38.88 s
        good | exhausted (pace: bound) | 2 x 40 m, pace 38.88 s
        """,
        "suitcase-carry 2 x 40 m",
        "advance pace by 10% to 38 s",
    )
    check("good | pace | 2 x 50 m, pace 59.4 s", "suitcase-carry 2 x 50 m", "advance pace by 1%")


def test_a_pace_is_kept_over_a_longer_distance():
    # 10 m in 7 s, so 20 m in 14 s: 2 % of them are 0.28 s, and of 13.72 s 0.2744 s. Over 60 m three times as long.
    check(
        """
        good  | distance                  | 5 x 40 m, pace 28 s
        good  | distance                  | 5 x 60 m, pace 42 s
        good  | pace (distance: bound)    | 5 x 60 m, pace 41.16 s
        good  | pace (distance: bound)    | 5 x 60 m, pace 40.337 s
        short | held                      | 5 x 60 m, pace 40.337 s
        """,
        "brisk-walk 5 x 20 m",
        "advance distance by 20 m to 60 m, then pace by 2%",
        first="5 x 20 m, pace 14 s",
    )
    check("good | pace | 5 x 10 m, pace 6.86 s", "brisk-walk 5 x 20 m", "advance pace by 2%, then distance by 5 m",
          means(begins="10 m"), first="5 x 10 m, pace 7 s")  # fmt: skip
    check("good | pace | 20 m 40 m, pace 27.44 s", "brisk-walk sets 20 m, 40 m", "advance pace by 2%")


def test_steps_and_bounds_of_a_pace_are_times_for_the_distance_as_written():
    check(
        """
        good | distance                                 | 5 x 40 m, pace 28 s
        good | pace (distance: bound)                   | 5 x 40 m, pace 26 s
        good | pace (distance: bound)                   | 5 x 40 m, pace 24 s
        good | exhausted (distance: bound, pace: bound) | 5 x 40 m, pace 24 s
        """,
        "brisk-walk 5 x 20 m",
        "advance distance by 20 m to 40 m, then pace by 1 s to 12 s",
    )


def test_a_pace_goes_back_to_its_start_and_is_eased():
    check(
        """
        good  | pace                    | 5 x 20 m, pace 13 s
        good  | distance (pace: bound)  | 5 x 30 m, pace 21 s
        good  | pace                    | 5 x 30 m, pace 19.5 s
        short | held                    | 5 x 30 m, pace 19.5 s
        short | eased pace              | 5 x 30 m, pace 21.45 s
        """,
        "brisk-walk 5 x 20 m",
        "advance pace by 1 s to 13 s, then distance by 10 m restarting pace\nafter 2 missed, ease pace 10%",
    )


def test_a_pace_never_comes_to_nothing():
    table = """
        good | pace                    | 5 x 20 m, pace 7 s
        good | exhausted (pace: bound) | 5 x 20 m, pace 7 s
    """
    for rule in ("advance pace by 7 s", "advance pace by 7 s to 0 s"):
        check(table, "brisk-walk 5 x 20 m", rule)


def test_a_rest_shrinks():
    check(
        """
        good | rest                    | 3 x 10, rest 45 s
        good | rest                    | 3 x 10, rest 30 s
        good | exhausted (rest: bound) | 3 x 10, rest 30 s
        """,
        "chair-stand 3 x 10",
        "advance rest by 15 s to 30 s",  # from the 60 s that stand where nothing is said
        first="3 x 10",
    )
    check(
        """
        good | rest                    | 3 x 10, rest 0 s
        good | exhausted (rest: bound) | 3 x 10, rest 0 s
        """,
        "chair-stand 3 x 10, rest 20 s",
        "advance rest by 20 s",
    )


# Rungs


def test_rungs():
    check(
        """
        good | rung                  | 3 x 8, bench
        good | rung                  | 3 x 8, knees
        good | exhausted (rung: top) | 3 x 8, knees
        """,
        "push-up 3 x 8",
        "advance rung to knees",
        first="3 x 8, wall",
    )


def test_the_top_of_a_ladder():
    check(
        """
        good | rung                  | 3 x 8, feet-raised
        good | exhausted (rung: top) | 3 x 8, feet-raised
        """,
        "push-up 3 x 8",
        "advance rung",
        means(begins="on toes"),
    )


def test_a_rung_waits_for_repetitions_that_amrap_sets_reach():
    # Nothing told: each good session brings one more than the best before. On a new rung the count begins anew.
    check(
        """
        good | waiting (rung: repetitions) | 2 x amrap 14, wall
        good | rung                        | 2 x amrap 13, bench
        good | waiting (rung: repetitions) | 2 x amrap 14, bench
        12   | waiting (rung: repetitions) | 2 x amrap 14, bench
        17   | rung                        | 2 x amrap 13, knees
        """,
        "push-up 2 x amrap, expect 13",
        "advance rung at 15 reps",
    )


def test_a_rung_waits_for_a_fixed_number_of_repetitions():
    rule = "advance reps by 1 to 15, then rung at 15 reps restarting reps"
    check(
        """
        good | reps                    | 3 x 14, wall
        good | reps                    | 3 x 15, wall
        good | rung (reps: bound)      | 3 x 13, bench
        good | reps                    | 3 x 14, bench
        """,
        "push-up 3 x 13",
        rule,
    )


def test_a_rung_at_a_number_that_the_dose_asks_for_already():
    check("good | rung | 3 x 15, bench", "push-up 3 x 15", "advance rung at 15 reps")
    check("good | rung | 3 x 10-15, bench", "push-up 3 x 10-15", "advance rung at 15 reps")
    check(
        """
        good | waiting (rung: repetitions) | 3 x 12, wall
        14   | waiting (rung: repetitions) | 3 x 12, wall
        15   | rung                        | 3 x 12, bench
        """,
        "push-up 3 x 12",
        "advance rung at 15 reps",
    )


def test_the_top_of_a_ladder_waits_for_nothing():
    check(
        "good | exhausted (rung: top) | 2 x amrap 9, feet-raised",
        "push-up 2 x amrap, expect 9",
        "advance rung at 15 reps",
        means(begins="on feet-raised, 9 reps"),
    )


def test_the_smallest_set_must_reach_the_repetitions_of_a_rung():
    # 16 and 14 are at the bound, and 14 are not 15.
    check(
        """
        good | reps                                     | 14 16, wall
        good | waiting (reps: bound, rung: repetitions) | 14 16, wall
        15   | rung (reps: bound)                       | 14 16, bench
        """,
        "push-up sets 13, 15",
        "advance reps by 1 to 16, then rung at 15 reps",
    )
    check("good | waiting (rung: repetitions) | 15 12, wall", "push-up sets 15, 12", "advance rung at 15 reps")
    check(
        "good | waiting (rung: repetitions) | 8 amrap 21, wall",
        "push-up sets 8, amrap, expect 20",
        "advance rung at 9 reps",
    )
    check("good | rung | 8 amrap 20, bench", "push-up sets 8, amrap, expect 20", "advance rung at 8 reps")


def test_every_set_must_reach_the_repetitions_of_a_rung():
    # 16 14: the smaller set does not reach 15; 17 15 does.
    check(
        """
        good | reps                                 | 16 14, wall
        good | reps                                 | 17 15, wall
        good | rung (reps: bound)                   | 15 13, bench
        """,
        "push-up sets 15, 13",
        "advance reps by 1 to 17, then rung at 15 reps restarting reps",
    )
    check(
        """
        good | total reps                    | 16 14 14, wall
        good | rung (total reps: bound)      | 16 14 14, bench
        """,
        "push-up sets 15, 14, 14",
        "advance total reps to 44, then rung at 14 reps",
    )


# Orders of axes


def test_load_then_repetitions_then_sets():
    check(
        """
        good  | load                                                        | 3 x 8, 8 kg
        good  | load                                                        | 3 x 8, 10 kg
        good  | reps (load: no-heavier)                                     | 3 x 9, 10 kg
        short | held                                                        | 3 x 9, 10 kg
        good  | reps (load: no-heavier)                                     | 3 x 10, 10 kg
        good  | sets (load: no-heavier, reps: bound)                        | 4 x 10, 10 kg
        good  | exhausted (load: no-heavier, reps: bound, sets: bound)      | 4 x 10, 10 kg
        """,
        "goblet-squat 3 x 8 at 6 kg",
        "advance load, then reps by 1 to 10, then sets by 1 to 4",
        SIX_TO_TEN,
    )


def test_repetitions_to_the_top_of_a_range_then_load_with_repetitions_back_at_its_bottom():
    check(
        """
        good  | reps                                       | 3 x 7, 6 kg
        good  | reps                                       | 3 x 8, 6 kg
        good  | reps                                       | 3 x 9, 6 kg
        good  | reps                                       | 3 x 10, 6 kg
        good  | load (reps: bound)                         | 3 x 6, 8 kg
        good  | reps                                       | 3 x 7, 8 kg
        good  | reps                                       | 3 x 8, 8 kg
        good  | reps                                       | 3 x 9, 8 kg
        good  | reps                                       | 3 x 10, 8 kg
        good  | load (reps: bound)                         | 3 x 6, 10 kg
        good  | reps                                       | 3 x 7, 10 kg
        good  | reps                                       | 3 x 8, 10 kg
        good  | reps                                       | 3 x 9, 10 kg
        good  | reps                                       | 3 x 10, 10 kg
        good  | exhausted (reps: bound, load: no-heavier)  | 3 x 10, 10 kg
        """,
        "goblet-squat 3 x 6-10 at 6 kg",
        "advance reps, then load restarting reps",
        SIX_TO_TEN,
    )


def test_the_example_of_the_reference():
    check(
        """
        good  | reps                                      | 3 x 11, 6 kg
        short | held                                      | 3 x 11, 6 kg
        good  | reps                                      | 3 x 12, 6 kg
        good  | load (reps: bound)                        | 3 x 10, 8 kg
        good  | reps                                      | 3 x 11, 8 kg
        good  | reps                                      | 3 x 12, 8 kg
        good  | load (reps: bound)                        | 3 x 10, 10 kg
        good  | reps                                      | 3 x 11, 10 kg
        good  | reps                                      | 3 x 12, 10 kg
        good  | sets (reps: bound, load: no-heavier)      | 4 x 12, 10 kg
        """,
        "goblet-squat 3 x 10",
        "after 2 missed, ease load 10%\nadvance reps by 1 to 12, then load restarting reps, then sets by 1 to 4",
        means("6 8 10", begins="at 6 kg"),
        settings="jump 40%",
    )


def test_restarting_two_axes():
    check(
        """
        good | reps                            | 3 x 9, 6 kg
        good | sets (reps: bound)              | 4 x 9, 6 kg
        good | load (reps: bound, sets: bound) | 3 x 8, 8 kg
        good | reps                            | 3 x 9, 8 kg
        """,
        "goblet-squat 3 x 8 at 6 kg",
        "advance reps by 1 to 9, then sets by 1 to 4, then load restarting reps and sets",
        SIX_TO_TEN,
    )


# In a row


def test_two_good_sessions_in_a_row():
    check(
        """
        good  | counting                | 3 x 10
        good  | reps                    | 3 x 11
        good  | counting                | 3 x 11
        short | held                    | 3 x 11
        good  | counting                | 3 x 11
        good  | reps                    | 3 x 12
        good  | counting                | 3 x 12
        good  | exhausted (reps: bound) | 3 x 12
        good  | exhausted (reps: bound) | 3 x 12
        """,
        "chair-stand 3 x 10",
        "after 2 good\nadvance reps by 1 to 12",
    )


def test_who_waits_for_repetitions_has_had_the_good_sessions_already():
    # The second and the third session are two in a row, and the third brings the 15 that are asked for.
    check(
        """
        13 | counting                    | 1 x amrap 13, wall
        14 | waiting (rung: repetitions) | 1 x amrap 14, wall
        15 | rung                        | 1 x amrap 10, bench
        15 | counting                    | 1 x amrap 15, bench
        """,
        "push-up 1 x amrap, expect 10",
        "after 2 good\nadvance rung at 15 reps",
    )


def test_an_exhausted_rule_expects_no_more_of_an_amrap_set():
    check(
        """
        good | counting              | 1 x amrap 11, feet-raised
        good | exhausted (rung: top) | 1 x amrap 11, feet-raised
        good | exhausted (rung: top) | 1 x amrap 11, feet-raised
        13   | exhausted (rung: top) | 1 x amrap 13, feet-raised
        """,
        "push-up 1 x amrap, expect 10",
        "after 2 good\nadvance rung",
        means(begins="on feet-raised"),
    )


def test_easing_a_load():
    # 10 % of 10 kg is 1: 9 cannot be made, 8 is lighter. 10 % of 8 is 0.8: 6. Below 6 there is nothing.
    check(
        """
        short | held       | 3 x 8, 10 kg
        good  | exhausted (load: no-heavier) | 3 x 8, 10 kg
        short | held       | 3 x 8, 10 kg
        short | eased load | 3 x 8, 8 kg
        short | held       | 3 x 8, 8 kg
        short | eased load | 3 x 8, 6 kg
        short | held       | 3 x 8, 6 kg
        short | held       | 3 x 8, 6 kg
        good  | load       | 3 x 8, 8 kg
        """,
        "goblet-squat 3 x 8 at 10 kg",
        "after 2 missed, ease load 10%\nadvance load",
        SIX_TO_TEN,
    )
    # 10 % of 22.5 kg is 2.25, so 2.2
    check(
        "short | eased load | 3 x 8, 20.3 kg",
        "goblet-squat 3 x 8 at 22.5 kg",
        "after 1 missed, ease load 10%\nadvance load",
    )
    # A share of the share: 10 % of 70 %
    check(
        "short | eased load | 3 x 5, 63%", "deadlift 3 x 5 at 70%", "after 1 missed, ease load 10%\nadvance load by 5%"
    )
    check(
        "short | eased load | 3 x 8, 0.1 kg",
        "goblet-squat 3 x 8 at 2 kg",
        "after 1 missed, ease load 5 kg\nadvance load",
    )


def test_easing_repetitions():
    check(
        """
        good  | reps       | 3 x 4
        short | eased reps | 3 x 2
        short | eased reps | 3 x 1
        short | held       | 3 x 1
        good  | reps       | 3 x 2
        """,
        "chair-stand 3 x 3",
        "after 1 missed, ease reps 2\nadvance reps by 1 to 12",
    )
    check("short | eased reps | 4 1", "chair-stand sets 8, 3", "after 1 missed, ease reps 4\nadvance reps by 1 to 12")


def test_easing_goes_to_the_next_lighter_load_and_to_the_lightest_at_the_end():
    # 20 % of 10 kg are 2, and 8 are there; half of 10 are 5, and 6 is the lightest.
    ease = "after 1 missed, ease load {}\nadvance load"
    check("short | eased load | 3 x 8, 8 kg", "goblet-squat 3 x 8 at 10 kg", ease.format("20%"), SIX_TO_TEN)
    check("short | eased load | 3 x 8, 6 kg", "goblet-squat 3 x 8 at 10 kg", ease.format("50%"), SIX_TO_TEN)


def test_easing_a_load_that_does_not_advance():
    # 10 % of 22.5 kg is 2.25, so 2.2
    check(
        "short | eased load | 3 x 8, 20.3 kg",
        "goblet-squat 3 x 8 at 22.5 kg",
        "after 1 missed, ease load 10%\nadvance reps",
    )


def test_easing_a_hold_with_a_share_of_an_unknown_maximum():
    check(
        "short | eased hold | 2 x 25 s, 50%",
        "suitcase-hold 2 x 30 s at 50%",
        "after 1 missed, ease hold 5 s\nadvance hold by 5 s",
    )


def test_easing_a_rung():
    check(
        """
        17    | rung       | 1 x amrap 10, bench
        good  | waiting (rung: repetitions) | 1 x amrap 11, bench
        short | held       | 1 x amrap 11, bench
        short | eased rung | 1 x amrap 10, wall
        short | held       | 1 x amrap 10, wall
        short | held       | 1 x amrap 10, wall
        """,
        "push-up 1 x amrap, expect 10",
        "after 2 missed, ease rung 1\nadvance rung at 15 reps",
    )


def test_easing_an_axis_that_the_rule_does_not_name():
    check(
        """
        short | eased sets | 2 x 10
        short | held       | 2 x 10
        good  | reps       | 2 x 11
        """,
        "chair-stand 3 x 10, at least 2 sets",
        "after 1 missed, ease sets 1\nadvance reps by 1 to 12",
    )
    check(
        "short | eased rest | 3 x 10, rest 90 s",
        "chair-stand 3 x 10, rest 60 s",
        "after 1 missed, ease rest 30 s\nadvance reps",
    )


@pytest.mark.parametrize(
    ("dose", "ease", "left"),
    [
        ("chair-stand 2 x 1", "reps 1", "2 x 1"),
        ("chair-stand 2 x 2", "total reps 9", "2 x 1"),
        ("chair-stand 1 x 9", "sets 1", "1 x 9"),
        ("split-squat 2 x 8, lower 2 s", "lower 5 s", "2 x 8, lower 1 s"),
        ("split-squat 2 x 8, pause 2 s", "pause 5 s", "2 x 8, pause 1 s"),
        ("split-squat 2 x 8", "pause 5 s", "2 x 8"),
        ("split-squat 2 x 8, pause 3 cues", "cues 5", "2 x 8, 1 cues"),
        ("plank 2 x 3 s", "hold 5 s", "2 x 1 s"),
        ("step-over 1 x 1 min", "time 2 min", "1 x 1 s"),
        ("suitcase-carry 2 x 3 m", "distance 5 m", "2 x 1 m"),
    ],
)
def test_easing_never_leaves_less_than_one(dose: str, ease: str, left: str):
    follows = (
        "held"
        if dose == left or dose.endswith(f" {left}")
        else f"eased {ease.rpartition(' ')[0].rstrip('0123456789 ')}"
    )
    axis = {"plank": "hold by 5 s", "step-over": "time by 5 s", "suitcase-carry": "distance by 5 m"}
    check(
        f"short | {follows} | {left}",
        dose,
        f"after 1 missed, ease {ease}\nadvance {axis.get(dose.split(maxsplit=1)[0], 'reps')}",
    )


# The unknown


def test_what_is_only_logged_is_never_called_exhausted():
    check(
        """
        good  | distance       | 1 x 20 min
        good  | distance       | 1 x 20 min
        short | eased distance | 1 x 20 min
        """,
        "step-over 1 x 20 min, log distance",
        "after 1 missed, ease distance 10%\nadvance distance by 5% to 3 km",
    )


def test_nothing_is_changed_by_a_session():
    program, block, entry = compiled("chair-stand 3 x 10", "advance reps by 1 to 12")
    course = course_of(program, block, entry)
    assert course is not None
    start = course.start
    assert after(course, start, good=True) == after(course, start, good=True)
    assert start == course.start
    with pytest.raises(AttributeError):
        start.good = 3  # type: ignore[misc]


def test_a_ladder_of_no_rungs_is_at_its_top():
    turn = after(Course((Track(AXES["rung"], 0),), axes=1), Standing((0,)), good=True)
    assert (turn.kind, turn.blocked[0].reason) == ("exhausted", "top")
