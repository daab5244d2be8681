"""What is wrong with an easier week: one finding each, at its place, with what to write instead."""

from __future__ import annotations

import pytest
from setwright.compiler.pipeline import compile_texts

PROGRAM = """use basics

program store-room
  runs 12 weeks
  {line}
  session main, 3 a week
    block legs
      must goblet-squat 3 x 8 at 6 kg
        advance reps by 1 to 12
      must plank 2 x 30 s
        advance hold by 5 s to 60 s
    block round, rounds 3
      must push-up 8
        advance reps by 1 to 12
"""


def found(line: str, program: str = PROGRAM) -> list[tuple[str, str, int]]:
    """Code, marked words and column of every finding but advice, counted from the first word of the line."""
    told = compile_texts({"program.coach": program.format(line=line)}).diagnostics
    return [
        (one.code, one.span.text, one.span.source.position(one.span.start)[1] - 3)
        for one in told
        if one.severity != "advice"
    ]


def test_what_can_be_eased_gives_no_finding() -> None:
    assert found("weeks 4, 8: sets by -1, reps by -2, load by -2 kg, hold by -10%") == []
    assert found("week 4: sets by -1\n  week 8: load by -10%") == []


@pytest.mark.parametrize(
    ("line", "code", "words", "column"),
    [
        ("weeks 4, 4: sets by -1", "easier-week-twice", "4", 9),
        ("weeks 4, 14, 4: sets by -1", "easier-week-twice", "4", 13),
        ("weeks 99: sets by -1", "easier-week-out-of-range", "99", 6),
        ("weeks 4, 13: sets by -1", "easier-week-out-of-range", "13", 9),
        ("weeks 0, 4: sets by -1", "easier-week-out-of-range", "0", 6),
        ("weeks 4: sets by 1", "easier-not-down", "sets by 1", 9),
        ("weeks 4: reps by -2, load by 10%", "easier-not-down", "load by 10%", 21),
        ("weeks 4: sets by -0", "easier-not-down", "sets by -0", 9),
        ("weeks 4: rest by -10 s", "easier-axis-unfit", "rest by -10 s", 9),
        ("weeks 4: total reps by -3", "easier-axis-unfit", "total reps by -3", 9),
        ("weeks 4: rung by -1", "easier-axis-unfit", "rung by -1", 9),
        ("weeks 4: sets by -10%", "easier-unit-mismatch", "sets by -10%", 9),
        ("weeks 4: load by -10", "easier-unit-mismatch", "load by -10", 9),
        ("weeks 4: hold by -5 kg", "easier-unit-mismatch", "hold by -5 kg", 9),
        ("weeks 4: load by 10", "easier-unit-mismatch", "load by 10", 9),
        ("weeks 4: load by -100%", "easier-leaves-nothing", "load by -100%", 9),
        ("weeks 4: load by -50%", "easier-leaves-little", "load by -50%", 9),
        ("weeks 4: load by -90%", "easier-leaves-little", "load by -90%", 9),
        ("weeks 4: load by -6 kg", "easier-leaves-nothing", "load by -6 kg", 9),
        ("weeks 4: hold by -30 s", "easier-leaves-nothing", "hold by -30 s", 9),
        ("weeks 4: distance by -5 m", "easier-changes-nothing", "distance by -5 m", 9),
        ("weeks 4: time by -10%", "easier-changes-nothing", "time by -10%", 9),
        ("weeks 4: lood by -10%", "word-unknown", "lood", 9),
        ("weeks 4: sets by -1, sets by -2", "said-twice", "sets by -2", 21),
        ("weeks : sets by -1", "line-not-understood", ":", 6),
        ("weeks 4 sets by -1", "line-not-understood", "sets", 8),
        ("weeks 4: sets -1", "line-not-understood", "-1", 14),
        ("weeks 4: sets by -1, by -2", "line-not-understood", "by", 21),
    ],
)
def test_one_slip_gives_one_finding_at_its_place(line: str, code: str, words: str, column: int) -> None:
    told = [one for one in found(line) if "14" not in line or one[0] == code]
    assert told == [(code, words, column)]


def test_a_week_of_two_lines_is_told_at_the_second() -> None:
    assert found("weeks 4, 8: sets by -1\n  week 8: reps by -1") == [("easier-week-twice", "8", 5)]


def test_every_week_easier_and_no_length_are_warned_of() -> None:
    every = ", ".join(map(str, range(1, 13)))
    assert [code for code, *_ in found(f"weeks {every}: sets by -1")] == ["easier-every-week"]
    assert [code for code, *_ in found("week 4: sets by -1", PROGRAM.replace("  runs 12 weeks\n", ""))] == [
        "easier-without-runs"
    ]


def test_sets_that_are_as_few_as_can_be_are_told_of() -> None:
    least = PROGRAM.replace("6 kg", "6 kg, at least 3 sets").replace("2 x 30", "1 x 30").replace("rounds 3", "rounds 1")
    assert [code for code, *_ in found("week 4: sets by -1", least)] == ["easier-changes-nothing"]


def test_a_line_of_the_length_that_could_not_be_read_gives_no_second_finding() -> None:
    assert [code for code, *_ in found("week 4: sets by -1", PROGRAM.replace("12 weeks", "12"))] == ["line-unfinished"]


@pytest.mark.parametrize("near", ["sets by 1", "load by 10%", "hold by 5 s"])
def test_a_change_that_goes_up_is_told_with_its_minus_sign(near: str) -> None:
    told = compile_texts({"program.coach": PROGRAM.format(line=f"week 4: {near}")}).diagnostics
    assert next(one.help for one in told if one.code == "easier-not-down") == f"Write `{near.replace('by ', 'by -')}`."


def test_a_log_with_fewer_sets_in_an_easier_week_is_sound() -> None:
    log = "\nathlete maren\n  starts 2026-06-15\n  has kettlebell 6 kg\n  has floor\n\nlog maren on store-room\n\n"
    log += "2026-07-07 main, 20 min\n  goblet-squat 6 kg 8 8\n"
    assert found("week 4: sets by -1", PROGRAM + log) == []


def test_half_of_the_load_or_more_is_most_likely_what_should_be_left() -> None:
    def finding(line: str):
        return next(
            one
            for one in compile_texts({"program.coach": PROGRAM.format(line=line)}).diagnostics
            if one.code.startswith("easier-")
        )

    assert finding("week 4: load by 90%").help == "Write `load by -10%`."
    assert finding("week 4: load by 50%").help == "Write `load by -10%`."
    assert finding("week 4: load by 49%").help == "Write `load by -49%`."
    assert finding("week 4: load by -90%").message == "`load by -90%` leaves 10% of every load."
    assert found("week 4: load by -49%, hold by -50%") == []
