"""What a slip was most likely meant to be: one finding, with what to write instead, and the line read as it was meant."""

from __future__ import annotations

import pytest
from setwright.grammar.parse import parse
from setwright.grammar.source import Source

PROGRAM = """program hall
  category push required
  {line}
  session main
    block legs
      must goblet-squat 3 x 8
        advance reps by 1 to 12
"""
ENTRY = "  session main\n    block legs\n      {line}\n"
WEEKS = "`weeks 4, 8: sets by -1`"


def told(line: str, text: str = PROGRAM) -> tuple[str, str, str, str]:
    """Code, marked words, message and help of the one finding that there is."""
    _, found = parse(Source("a.coach", text.format(line=line)))
    assert len(found) == 1, [one.message for one in found]
    return found[0].code, found[0].span.text, found[0].message, found[0].help


@pytest.mark.parametrize(
    ("line", "after", "meant"),
    [
        ('category "Firm" pull required', "category", 'A title stands after the name, as in `category pull "Firm"`.'),
        ('category "Firm" required', "category", 'A title stands after the name, as in `category firm "Firm"`.'),
        ('category "firm" pull required', "category", 'A title stands after the name, as in `category pull "firm"`.'),
        ('category "firm" required', "category", "A name has no quotes: `firm`."),
        ('category pull required "Firm"', "category pull required", 'as in `category pull "Firm"`.'),
        ('allow "pull-below-push" because "x"', "allow", "A name has no quotes: `pull-below-push`."),
        ('allow pull-below-push "x"', "allow pull-below-push", '`because` is missing before the text: `because "x"`.'),
        ('coach "Shore", ask "mail"', 'coach "Shore", ask', '`by` is missing before the text: `by "mail"`.'),
    ],
)
def test_a_text_that_is_closed_is_told_by_what_can_stand_there(line: str, after: str, meant: str):
    code, marked, message, help_ = told(line)
    assert code == "line-not-understood"
    assert marked.startswith('"') and marked.endswith('"')
    assert message == f"`{marked}` cannot stand after `{after}`."
    assert help_.startswith("What can stand here: ")
    assert meant in help_


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ('must push-up 3 x 8 "slowly"', "in a line that begins with `|`."),
        ('do push-up "slowly" 3 x 8', "in a line that begins with `|`."),
        ('must "Push-up" 3 x 8', "A name has no quotes: `push-up`."),
    ],
)
def test_a_text_in_the_line_of_a_movement(line: str, meant: str):
    code, _, _, help_ = told(line, "program hall\n" + ENTRY)
    assert code == "line-not-understood"
    assert meant in help_


def test_a_text_that_is_not_closed_is_still_told_as_that():
    assert told('category pull "Firm')[0] == "quote-missing"
    assert told('must push-up 3 x 8 "slowly', "program hall\n" + ENTRY)[0] == "quote-missing"


def test_a_long_text_is_told_by_its_beginning():
    _, _, message, _ = told(f'allow pull-below-push "{"long " * 40}"')
    assert len(message) < 120


@pytest.mark.parametrize("name", ["push-up", "Push-up"])
def test_a_name_in_quotes_is_read_as_the_name(name: str):
    text = f'program hall\n  session main\n    block legs\n      must "{name}" 3 x 8\n'
    file, _ = parse(Source("a.coach", text))
    assert not file.declarations[0].damaged


def test_a_comma_in_place_of_and():
    code, marked, message, help_ = told("weeks 4, 8: sets by -1 and load by -10%")
    assert (code, marked) == ("comma-missing", "and")
    assert message == "A comma is missing where `and` stands."
    assert help_ == "Write `, load`."
    assert told("must squat 3 x 8 and rest 60 s", "program hall\n" + ENTRY)[3] == "Write `, rest`."


def test_what_is_meant_by_a_comma_in_place_of_and_is_read_so():
    text = PROGRAM.format(line="weeks 4, 8: sets by -1, load by -10%")
    assert parse(Source("a.coach", text))[1] == []
    file, _ = parse(Source("a.coach", PROGRAM.format(line="weeks 4, 8: sets by -1 and load by -10%")))
    assert not file.declarations[0].damaged


@pytest.mark.parametrize(
    "line",
    [
        "weeks 4-8: sets by -1",
        "weeks 4 to 8: sets by -1",
        "every 4th week: sets by -1",
        "deload 4, 8: sets by -1",
        "easier weeks 4, 8: sets by -1",
    ],
)
def test_how_easier_weeks_are_written(line: str):
    assert WEEKS in told(line)[3]


def test_easier_weeks_are_not_spoken_of_where_nothing_looks_like_them():
    assert WEEKS not in told("remember 4, 8: sets by -1")[3]
    assert WEEKS not in told("weeks 4, 8 sets by -1")[3]


@pytest.mark.parametrize("line", ["weeks 4, 8: -1 set", "weeks 4, 8: by -1", "weeks 4, 8: load by -10%, -1 set"])
def test_only_what_can_be_eased_is_offered_in_an_easier_week(line: str):
    help_ = told(line)[3]
    assert "`sets by -1`" in help_
    assert "total reps" not in help_


def test_nothing_follows_from_a_text_at_the_start_of_a_line_or_before_the_rest_of_one():
    assert told('"Main" category pull required')[0] == "line-not-understood"
    assert told('must "" push-up 3 x 8', "program hall\n" + ENTRY)[3] == "What can stand here: a name (`goblet-squat`)."
    assert told('must push-up 3 "big" x 8', "program hall\n" + ENTRY)[0] == "line-not-understood"


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("have chair", "has"),
        ("own floor", "has"),
        ("birth 1949", "born"),
        ("weighs 68 kg", "body"),
        ("bron 1949", "born"),
    ],
)
def test_a_word_that_others_would_use(line: str, meant: str):
    code, _, _, help = told(line, "athlete maren\n  {line}\n  prints large\n")
    assert (code, help) == ("word-misspelt", f"Write `{meant}`.")


LOG = "program p\n  session main\n    block all\n      do walk 30 min\n\nlog maren on p\n\n{line}\n  walk 31:00\n"


@pytest.mark.parametrize("day", ["__", "1 sept", "Sept 1", "1.9.2026", "2026-9-1", "Monday 1st September 2026", "1/9"])
def test_a_day_that_is_no_date(day: str):
    code, marked, _, help = told(f"{day} main", LOG)
    assert (code, marked, help) == (
        "logged-day-unreadable",
        day,
        "Write year, month and day, as in `2026-09-01 main`.",
    )


def test_what_stands_below_a_day_that_is_no_date_is_looked_at():
    _, found = parse(Source("a.coach", LOG.format(line="__ main, __ min, rpe 6\n  jog __")))
    assert [(one.code, one.span.line) for one in found] == [
        ("logged-day-unreadable", 8), ("blank-left", 8), ("blank-left", 9),
    ]  # fmt: skip


def test_without_a_log_above_no_day_is_meant():
    code, *_ = told("1 sept main", "movement a\n  pattern squat\n\n{line}\n")
    assert code == "not-a-declaration"
