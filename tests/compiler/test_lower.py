"""What is written is meant: nothing that a coach or an athlete writes is dropped without a word."""

from __future__ import annotations

from fractions import Fraction

import pytest
from setwright.compiler.model import LoggedEntry, NoProgress, Rule
from setwright.compiler.pipeline import Result, compile_texts
from setwright.compiler.quantity import Quantity, read_quantity

SOURCE = """use basics

movement lean
  pattern push
  rungs
    wall "on the wall"{rung}

program store-room
  session main
    block legs
      must chair-stand 3 x 10
        advance reps by 1 to 15
  session out
    block walk, conditioning
      do walk 30 min, log distance and time
        advance distance by 5%

athlete maren
  begins push-up {begins}

log maren on store-room

2026-06-17 main, 20 min{session}
  {logged}
"""
PLAIN = {"rung": "", "begins": "on knees", "session": "", "logged": "chair-stand 10 10 10"}


def q(text: str) -> Quantity:
    return -read_quantity(text.removeprefix("-"))


def compiled(**changed: str) -> Result:
    return compile_texts({"program.coach": SOURCE.format(**{**PLAIN, **changed})})


@pytest.mark.parametrize(
    ("written", "weeks", "changes"),
    [
        ("weeks 4, 8: sets by -1, load by -10%", (4, 8), (("sets", -1), ("load", Quantity(Fraction(-10), "%")))),
        ("week 4: reps by -2", (4,), (("reps", -2),)),
        ("weeks 4 and 8 : sets by -1", (4, 8), (("sets", -1),)),
        ("weeks 4,6 and 8:sets by - 1", (4, 6, 8), (("sets", -1),)),
        ("week 4: load by -2.5 kg", (4,), (("load", Quantity(Fraction(-5, 2), "kg")),)),
        ("week 4: time by -90 s, distance by -5m", (4,), (("time", q("-90 s")), ("distance", q("-5 m")))),
    ],
)
def test_easier_weeks_in_every_spelling(written, weeks, changes):
    text = SOURCE.format(**PLAIN).replace("program store-room\n", f"program store-room\n  runs 12 weeks\n  {written}\n")
    (program,) = compile_texts({"program.coach": text}).project.programs
    (easier,) = program.easier
    assert (easier.weeks, easier.changes) == (weeks, changes)
    assert easier.span.text == written


def test_several_lines_of_easier_weeks_stand_in_their_order():
    lines = "  runs 12 weeks\n  week 8: sets by -1\n  week 4: reps by -2\n"
    text = SOURCE.format(**PLAIN).replace("program store-room\n", f"program store-room\n{lines}")
    (program,) = compile_texts({"program.coach": text}).project.programs
    assert [easier.weeks for easier in program.easier] == [(8,), (4,)]


def errors(result: Result) -> list[tuple[str, str]]:
    return [(one.code, one.span.text) for one in result.diagnostics if one.severity == "error"]


def logged(result: Result) -> LoggedEntry:
    (log,) = result.project.logs
    return log.sessions[0].entries[0]


@pytest.mark.parametrize(
    ("where", "text", "again"),
    [
        ("rung", " moves 20%, moves 30%", "moves 30%"),
        ("rung", ", needs wall, needs step", "needs step"),
        ("begins", "on knees, on toes", "toes"),
        ("begins", "8 reps, 9 reps", "9"),
        ("session", ", 30 min", "30 min"),
        ("session", ", rpe 6, rpe 7", "rpe 7"),
        ("logged", "chair-stand rpe 6 rpe 7 10", "rpe 7"),
        ("logged", "chair-stand lower 3 s lower 4 s 10", "lower 4 s"),
        ("logged", "chair-stand rest 30 s rest 45 s 10", "rest 45 s"),
    ],
)
def test_what_is_said_twice_is_told(where: str, text: str, again: str) -> None:
    assert errors(compiled(**{where: text})) == [("said-twice", again)]


def test_the_rest_that_was_logged_is_kept() -> None:
    entry = logged(compiled(logged="chair-stand rest 45 s 10 10 10"))
    assert (str(entry.rest), entry.results) == ("45 s", (10, 10, 10))


def test_a_share_of_the_maximum_is_no_figure_of_a_log() -> None:
    assert errors(compiled(logged="chair-stand 70% 10")) == [("line-not-understood", "%")]


def test_what_another_session_asks_for_may_be_logged_along() -> None:
    result = compiled(logged="walk 2.4 km 31:00")
    assert errors(result) == []
    assert logged(result).movement == "walk"


def test_a_block_that_no_session_names_is_read_too() -> None:
    result = compile_texts({"block.coach": "use basics\n\nblock legs\n  must chair-stnd 3 x 10\n"})
    assert errors(result) == [("name-unknown", "chair-stnd")]


@pytest.mark.parametrize("blank", "\x85\u1680\u2000\u2028\u2029\u205f")
def test_no_kind_of_blank_stops_the_reading(blank: str) -> None:
    result = compiled(logged=f"{blank}chair-stand 10{blank}10")
    assert {code for code, _ in errors(result)} <= {"look-alike-character", "unseen-character"}
    assert logged(result).results == (10, 10)


def test_an_else_keeps_the_rule_below_it_and_the_entry_its_own() -> None:
    text = """use basics

program store-room
  session main
    block legs
      must goblet-squat 3 x 8
        else chair-stand 3 x 8
          after 2 good
          advance reps by 1 to 15
          after 3 missed, ease reps 2
        advance reps by 1 to 12
        else wall-sit 3 x 20 s
          advance none because "The knees decide."
        else bodyweight-squat 3 x 8
"""
    result = compile_texts({"program.coach": text})
    assert result.diagnostics == ()
    (entry,) = result.project.programs[0].sessions[0].entries
    chair, wall, free = (other.rule for other in entry.otherwise)
    assert isinstance(entry.rule, Rule)
    assert (entry.rule.axes[0].bound, entry.rule.good, entry.rule.missed) == (12, 1, None)
    assert isinstance(chair, Rule)
    assert (chair.axes[0].bound, chair.good, chair.missed, chair.ease) == (15, 2, 3, ("reps", 2))
    assert isinstance(wall, NoProgress)
    assert wall.because == "The knees decide."
    assert free is None


def test_the_band_to_begin_with() -> None:
    text = 'use basics\n\nathlete maren\n  has band "thin red", "blue"\n  begins band-row with "thin red", 12 reps\n'
    result = compile_texts({"crew.coach": text})
    assert result.diagnostics == ()
    (start,) = result.project.athletes[0].begins
    assert (start.band, start.reps, start.load) == ("thin red", 12, None)


def test_several_things_are_avoided_for_one_reason():
    text = 'use basics\n\nathlete maren\n  avoids lunge and step-up, deadlift "left knee"\n  avoids carry\n'
    (maren,) = compile_texts({"a.coach": text}).project.athletes
    assert [(one.movement, one.because) for one in maren.avoids] == [
        ("lunge", "left knee"), ("step-up", "left knee"), ("deadlift", "left knee"), ("carry", ""),
    ]  # fmt: skip


def test_a_blank_band_of_a_log_is_told_as_a_blank():
    text = (
        "use basics\n\nprogram door\n  session main\n    block pull\n      must band-row 3 x 12\n"
        '        advance reps by 1 to 15\n\nathlete maren\n  has band "red"\n  has door\n\nlog maren on door\n\n'
        '2026-06-17 main\n  band-row "__" 12 12 12\n'
    )
    (found,) = compile_texts({"a.coach": text}).diagnostics
    assert (found.code, found.span.text) == ("blank-left", '"__"')
