"""`setwright next`: what the next session asks for, and why."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from .conftest import Ran

SOURCE = """use basics

program hall "Hall class"
  jump 25%
  session main "Main session", 2 a week
    block strength "Strength"
      must goblet-squat 3 x 8
        advance reps by 1 to 9, then load restarting reps
      must chair-stand 3 x 8
        after 2 good
        advance reps by 1 to 12
  session home, 1 a week
    block legs
      must plank 2 x 20 s
        advance hold by 5 s to 30 s

athlete agnes "Agnes"
  starts 2026-06-15
  has dumbbell 4 kg, 5 kg
  has chair, floor, wall
  begins goblet-squat at 4 kg
athlete wilf "Wilf"
  starts 2026-06-15
  has dumbbell 4 kg, 5 kg
  has chair, floor, wall
group both: agnes, wilf

log agnes on hall

2026-06-15 main, 20 min
  goblet-squat 4 kg 8 8 8
  chair-stand 8 8 8
2026-06-17 main, 20 min
  goblet-squat 4 kg 9 9 9
  chair-stand 8 7 8
"""


@pytest.fixture
def run_next(own_folder: Path, run: Callable[..., Ran]) -> Callable[..., Ran]:
    (own_folder / "hall.coach").write_text(SOURCE, "utf-8")
    return lambda *words: run("next", "hall.coach", *words)


def joined(ran: Ran) -> str:
    return " ".join(ran.out.split())


def test_what_comes_next_and_why(run_next: Callable[..., Ran]) -> None:
    ran = run_next("--for", "agnes", "--session", "main")
    assert ran.code == 0
    told = joined(ran)
    assert "2 sessions logged, the last on 17 June 2026." in told
    assert "■ Goblet squat: 3 sets of 8, with 5 kg." in told and "Take: the 5 kg dumbbell." in told
    assert "On 17 June 2026: 9 9 9, with 4 kg. Every set reached its target (repetitions at the end)" in told
    assert "so it moves on: load 5 kg; repetitions as at the beginning." in told
    assert "■ Chair stand: 3 sets of 8." in told
    assert "On 17 June 2026: 8 7 8. A set of 7 fell short of 8. So it stays as it is until it goes well." in told
    assert "Plank" not in told


def test_without_a_log_it_is_where_to_begin(run_next: Callable[..., Ran]) -> None:
    told = joined(run_next("--for", "wilf"))
    assert "Nothing is logged yet: this is where to begin." in told
    assert "■ Goblet squat: 3 sets of 8, with 4 kg." in told and "Plank: 2 sets of 20 seconds." in told


def test_a_group_is_each_of_its_members(run_next: Callable[..., Ran]) -> None:
    told = joined(run_next("--for", "both", "--session", "home"))
    assert told.index("for Agnes") < told.index("for Wilf")


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--for", "agness"), "Did you mean `agnes`?"),
        (("--for", "bothh"), "Did you mean `both`?"),
        (("--for", "agnes", "--session", "mian"), "Did you mean `main`?"),
        ((), "--for"),
    ],
)
def test_what_cannot_be_meant_is_refused(run_next: Callable[..., Ran], words: tuple[str, ...], sentence: str) -> None:
    ran = run_next(*words)
    assert ran.code == 2 and sentence in ran.err


def test_explain_tells_where_the_log_led(run_next: Callable[..., Ran], run: Callable[..., Ran]) -> None:
    assert run_next("--for", "agnes").code == 0  # the source is there
    told = " ".join(run("explain", "agnes", "goblet-squat", "hall.coach").out.split())
    assert "Load 5 kg This is where the log has led. hall.coach:34 goblet-squat 4 kg 9 9 9" in told
    assert "Agnes begins with 4 kg" not in told
    assert "Log On 17 June 2026: 9 9 9, with 4 kg. Every set reached its target" in told
    begun = " ".join(run("explain", "wilf", "goblet-squat", "hall.coach").out.split())
    assert "Log On" not in begun and "This is where the log has led" not in begun


def test_who_cannot_do_the_program_gets_no_half_of_it(own_folder: Path, run: Callable[..., Ran]) -> None:
    source = SOURCE.replace("group both", 'athlete kamal "Kamal"\n  has chair\ngroup both')
    (own_folder / "hall.coach").write_text(source, "utf-8")
    ran = run("next", "hall.coach", "--for", "kamal")
    assert ran.code == 1 and ran.out == "" and "Kamal cannot do hall as it is" in ran.err
