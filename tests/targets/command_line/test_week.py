"""`setwright week`: what a week holds, in figures."""

from collections.abc import Callable
from pathlib import Path

WEEK = """\
use basics

program hall "Hall class"
  revision 2, 2026-06-14
  category legs counts squat and lunge
  session main "Main session", on tue, thu
    block strength
      must chair-stand 3 x 10
        advance reps by 1 to 12
      must push-up 2 x 8
        advance reps by 1 to 12
      must band-row 2 x 8
        advance reps by 1 to 12
  session home "At home"
    block steady, conditioning
      do single-leg-stand 1 x 30 s each side
"""


def rows(text: str) -> dict[str, str]:
    parted = [line.strip().split("  ", 1) for line in text.splitlines()]
    return {line[0]: line[1].strip() for line in parted if len(line) == 2}


def test_sets_days_and_minutes(run: Callable, own_folder: Path):
    (own_folder / "hall.coach").write_text(WEEK, "utf-8")
    ran = run("week", "hall.coach")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith("A week of Hall class, revision 2\n")
    found = rows(ran.out)
    assert found["Legs"] == "6 sets in 2 sessions"
    assert (found["Pushing"], found["Pulling"]) == ("4 sets", "4 sets")
    assert found["Balance work"] == "on 1 day"
    assert found["Conditioning"] == "1 minute"
    assert found["In all"].startswith("3 sessions, ")
    assert found["Strength work"].startswith("on 2 days, ")
    assert "At home: nothing says how often, so it counts once." in ran.out


def test_errors_come_first(run: Callable, own_folder: Path):
    (own_folder / "hall.coach").write_text(WEEK.replace("3 x 10", "0 x 10"), "utf-8")
    ran = run("week", "hall.coach")
    assert ran.code == 1
    assert "sets-out-of-range" in ran.err
    assert ran.out == ""
