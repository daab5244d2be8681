"""What a week holds: counted by hand."""

import pytest
from setwright.compiler.model import Program
from setwright.compiler.pipeline import compile_texts
from setwright.compiler.week import days_a_week
from setwright.compiler.week_coverage import week_coverage

WEEK = """use basics

program store-room
  rest 60 s, change 45 s
  category legs counts squat and lunge
  category push
  category balance

  session main, on mon, wed, fri
    block ready, warm-up
      do chair-stand 2 x 10
    block legs
      must goblet-squat 3 x 10 at 70%, ramp 40% x 5, 60% x 3
        advance load
      do split-squat 2 x 8 each side
        advance reps by 1 to 12
    block upper, rounds 4, rest 30 s, change 15 s
      must push-up 8
        advance reps by 1 to 12
      must band-row 8
        advance reps by 1 to 12

  session steady, 2 a week
    block out, conditioning
      do single-leg-stand 2 x 30 s each side
      do walk 1 x 20 min
"""


MINUTES = """use basics

program store-room
  rest 60 s, change 45 s
  session main, 3 a week
    block ready, warm-up
      do march-in-place 1 x 2 min
    block steady
      must plank 3 x 30 s
        advance hold by 5 s to 60 s
    block out, conditioning
      do walk 1 x 10 min
    block down, cool-down
      do chest-opener 1 x 60 s
  session walk, on sat, sun
    block out, conditioning
      do walk 1 x 20 min
"""


def program(text: str = WEEK) -> Program:
    (one,) = compile_texts({"program.coach": text}).project.programs
    return one


def test_sets_of_each_category():
    found = {one.category.name: (one.sets, one.sessions) for one in week_coverage(program()).categories}
    assert found == {"legs": (3 * (3 + 2), 3), "push": (3 * 4, 3), "balance": (2 * 2, 2)}


def test_pushing_and_pulling():
    coverage = week_coverage(program())
    assert (coverage.push_sets, coverage.pull_sets) == (12, 12)


def test_sessions_and_days():
    coverage = week_coverage(program())
    assert (coverage.sessions, coverage.strength_sessions, coverage.strength_days, coverage.balance_days) == (
        5,
        3,
        3,
        2,
    )
    assert coverage.told


def test_minutes():
    coverage = week_coverage(program(MINUTES))
    assert coverage.strength_seconds == 3 * (3 * 30 + 2 * 60)
    assert coverage.conditioning_seconds == 3 * 10 * 60 + 2 * 20 * 60
    assert coverage.seconds == 3 * (2 * 60 + 45 + 210 + 45 + 600 + 45 + 60) + 2 * 20 * 60


def test_a_session_that_says_nothing_counts_once():
    coverage = week_coverage(program(WEEK.replace("main, on mon, wed, fri", "main")))
    assert (coverage.strength_sessions, coverage.push_sets) == (1, 4)
    assert not coverage.told


@pytest.mark.parametrize(
    ("often", "days"),
    [
        (["on mon, wed", "on wed, fri"], 3),
        (["on mon, wed", "2 a week"], 4),
        (["every day", "3 a week"], 7),
        (["12 a week"], 7),
    ],
)
def test_days_are_not_sessions(often: list[str], days: int):
    block = "\n    block legs\n      must chair-stand 3 x 10\n        advance reps by 1 to 15\n"
    sessions = "".join(f"  session s{number}, {held}{block}" for number, held in enumerate(often))
    assert days_a_week(program("use basics\n\nprogram store-room\n" + sessions).sessions) == days
