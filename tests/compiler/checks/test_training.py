"""What an athlete says against the programs that they train by: where a finding must come, and where not."""

from __future__ import annotations

import pytest
from setwright.compiler.checks.registry import FAMILIES
from setwright.compiler.pipeline import compile_texts
from setwright.grammar.diagnostic import Diagnostic

SHED = """use basics

program shed
  session main, 2 a week
    block lifts
      must deadlift {dose}
        advance none because "A test."
        else goblet-squat 3 x 5 at 50%
      key plank 2 x 30 s
        advance hold by 5 s to 60 s
      do walk 1 x 20 min, log distance
        advance none because "A test."
  session home, on mon, tue, thu, fri, sat
    block legs
      must push-up 3 x 8
        advance reps by 1 to 12
        else floor-press 3 x 8

athlete bram
  {says}
"""
OTHER = {"nothing-at-hand", "days-clash"} | {
    check.code for title, checks in FAMILIES for check in checks if title == "A program fitted to an athlete"
}  # another matter: what of this an athlete can do
BAR = "has barbell 20 kg\n  "


def codes(says: str, dose: str = "3 x 5", more: str = "") -> list[str]:
    return [one.code for one in found(says, dose, more)]


def found(says: str, dose: str = "3 x 5", more: str = "") -> list[Diagnostic]:
    told = compile_texts({"shed.coach": SHED.format(says=says, dose=dose) + more}).diagnostics
    return [one for one in told if one.code not in OTHER]


@pytest.mark.parametrize(
    ("says", "code"),
    [
        ("begins push-up on knees, 8 reps", None),
        ("begins floor-press at 5 kg", None),  # an `else` asks for it
        ("begins pull-up on lowering", "begins-unused"),
        ("begins plank on wall, 20 s", None),
        ("begins plank 8 reps", "begins-unfit"),
        ("begins push-up 30 s", "begins-unfit"),
        ("begins push-up 20 m", "begins-unfit"),
        ("begins walk 25 min", None),
        ("begins walk 2 km", None),  # it is logged, so it can advance
        ("begins walk 8 reps", "begins-unfit"),
        ("begins push-up on ceiling", "word-unknown"),
        ("begins walk on ceiling", "name-unknown"),
        ("begins push-up at 12 kg", "begins-without-load"),
        ('begins push-up with "red"', "begins-without-band"),
        ("starts 2026-06-15 on mon", "days-few"),
        ("starts 2026-06-15 on mon, thu", None),  # the home session has days of its own
        ("starts 2026-06-15", None),
    ],
)
def test_beginnings_and_days(says: str, code: str | None) -> None:
    assert codes(says) == ([code] if code else [])


@pytest.mark.parametrize(
    ("dose", "says", "code"),
    [
        ("3 x 5 at 70%", BAR + "max deadlift 80 kg", None),
        ("3 x 5 at 70%", BAR, "max-missing"),
        ("3 x 5 at 70%", BAR + "begins deadlift at 50 kg", None),
        ("3 x 5 at 70%", BAR + "begins deadlift 5 reps", "max-missing"),
        ("3 x 5, ramp 40% x 5", BAR, "max-missing"),
        ("sets 5 at 65%, 5 at 75%", BAR, "max-missing"),
        ("3 x 5 at 50 kg", BAR, None),
        ("3 x 5", BAR + "max deadlift 80 kg", "max-unused"),
        ("3 x 5", BAR + "max deadlift 80 kg\n  trains alone\n  alone at most 85%", None),
        ("3 x 5", BAR + "max push-up 80 kg\n  trains alone\n  alone at most 85%", "max-unused"),
        ("3 x 5 at 70%", "has kettlebell 12 kg", "max-missing"),  # of the `else`: there is no bar
        ("3 x 5 at 70%", "has kettlebell 12 kg\n  max goblet-squat 20 kg", None),
        ("3 x 5 at 70%", BAR + 'avoids deadlift "back"', None),  # and there is nothing for the `else`
        ("3 x 5 at 70%", BAR + 'avoids hinge "back"\n  has kettlebell 12 kg', "max-missing"),
        ("3 x 5 at 70%", "has floor", None),  # nothing to load anything with
    ],
)
def test_training_maxima(dose: str, says: str, code: str | None) -> None:
    assert codes(says, dose) == ([code] if code else [])


def test_who_trains_by_no_program_is_not_judged() -> None:
    other = "\nprogram other\n  session main\n    block legs\n      must chair-stand 3 x 8\n        advance reps by 1\n"
    says = "begins pull-up on lowering\n  max deadlift 80 kg\n  starts 2026-06-15 on mon"
    assert sorted(codes(says)) == ["begins-unused", "days-few", "max-unused"]
    assert codes(says, more=other) == []
    assert codes(says + "\n  follows other", more=other) == ["begins-unused", "max-unused"]


def test_a_beginning_may_be_of_any_of_the_programs_that_are_followed() -> None:
    other = "\nprogram other\n  session main\n    block legs\n      must chair-stand 3 x 8\n        advance reps by 1\n"
    assert codes("follows shed, other\n  begins chair-stand on hands\n  begins push-up on knees", more=other) == []
    (told,) = found("follows shed, other\n  begins pull-up on full", more=other)
    assert "nothing in `shed` and `other` asks for it" in told.message


@pytest.mark.parametrize("slip", [("push-up 3 x 8", "push-pu 3 x 8"), ("else floor-press", "else flor-press")])
def test_what_may_follow_from_a_misspelt_movement_is_not_told(slip: tuple[str, str]) -> None:
    text = SHED.format(says="begins push-up on knees, 8 reps\n  begins floor-press at 5 kg", dose="3 x 5")
    assert [one.code for one in compile_texts({"shed.coach": text.replace(*slip)}).diagnostics] == ["name-unknown"]


def test_what_may_follow_from_a_misspelt_program_is_not_told() -> None:
    assert codes("follows shet\n  begins pull-up on full\n  starts 2026-06-15 on mon") == ["name-unknown"]


@pytest.mark.parametrize(
    ("says", "place"),
    [("follows shed, shed", (20, 11)), ("follows shed and shed", (20, 11)), ("follows shed\n  follows shed", (20, 11))],
)
def test_a_program_followed_twice_is_told_at_its_place(says: str, place: tuple[int, int]) -> None:
    (told,) = found(says)
    assert told.code == "follows-twice"
    assert told.span.source.position(told.span.start) == place
    assert told.span.text == "shed"


@pytest.mark.parametrize(
    ("days", "told"),
    [
        ("mon, thu", "Add `tue`, `fri`, `sat` to the days of Bram"),
        ("wed, sun", "Add `mon`, `tue`, `thu`, `fri`, `sat` to the days of Bram"),
        ("mon, tue, thu, fri, sat", None),
    ],
)
def test_a_session_with_days_of_its_own_is_on_those_of_the_athlete(days: str, told: str | None) -> None:
    source = SHED.format(says=f"starts 2026-06-15 on {days}", dose="3 x 5")
    clash = [one for one in compile_texts({"shed.coach": source}).diagnostics if one.code == "days-clash"]
    assert [told] * len(clash) == [one.help.split(",  ")[0].split(", or let")[0] for one in clash]
    assert bool(clash) == (told is not None)


def test_a_beginning_of_what_cannot_be_done_is_told() -> None:
    source = SHED.format(says="has kettlebell 8 kg\n  has floor\n  begins deadlift at 40 kg", dose="3 x 5")
    (undone,) = [one for one in compile_texts({"shed.coach": source}).diagnostics if one.code == "begins-undone"]
    assert "there is no `barbell` to load it with" in undone.message


def test_a_group_is_no_athlete() -> None:
    source = SHED.format(says="has floor", dose="3 x 5") + "\ngroup bram: bram\n"
    assert "group-named-as-athlete" in {one.code for one in compile_texts({"shed.coach": source}).diagnostics}
