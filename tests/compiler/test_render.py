"""Findings as text: the line, the marks under the right columns, and nothing that a terminal would obey."""

from __future__ import annotations

import json

import pytest
from setwright.compiler.render import WIDEST, render, to_json, width
from setwright.grammar.diagnostic import Diagnostic, Label
from setwright.grammar.source import Source, Span


def finding(text: str, marked: str, *, last: str = "", help: str = "", labels: tuple[Label, ...] = ()) -> Diagnostic:
    source = Source("hall.coach", text)
    start = text.index(marked)
    end = text.index(last, start) + len(last) if last else start + len(marked)
    return Diagnostic("some-code", "warning", "Something is odd.", Span(source, start, end), help, labels)


def lines(diagnostic: Diagnostic) -> list[str]:
    return render([diagnostic], colour=False).split("\n")


def test_place_code_message_line_marks_and_help() -> None:
    assert lines(finding("a\n  rest 60 s\n", "60 s", help="Write less.")) == [
        "hall.coach:2:8: warning[some-code]: Something is odd.",
        "  2 |   rest 60 s",
        "    |        ^^^^",
        "  help: Write less.",
    ]


def test_a_label_stands_under_its_own_line() -> None:
    text = "first\n" * 11 + "last\n"
    source = Source("hall.coach", text)
    label = Label(Span(source, 0, 5), "the first")
    told = Diagnostic("some-code", "error", "Twice.", Span(source, 66, 70), labels=(label,))
    assert lines(told)[1:] == ["  12 | last", "     | ^^^^", "   1 | first", "     | ----- the first"]


def test_a_label_in_another_file_says_which() -> None:
    label = Label(Span(Source("crew.coach", "athlete maren\n"), 8, 13), "declared here")
    assert "  crew.coach:1:9:" in lines(finding("x\n", "x", labels=(label,)))


def test_the_first_and_the_last_of_several_lines() -> None:
    text = "one two\n  three\nfour\n  five six\n"
    assert lines(finding(text, "two", last="five"))[1:] == [
        "  1 | one two",
        "    |     ^^^",
        "  . |",
        "  4 |   five six",
        "    |   ^^^^",
    ]


def test_nothing_marked_is_one_mark() -> None:
    source = Source("hall.coach", "rest\n")
    told = Diagnostic("some-code", "error", "Too early.", Span(source, 4, 4))
    assert lines(told)[1:] == ["  1 | rest", "    |     ^"]


def test_the_end_of_a_text_without_a_last_line_end() -> None:
    source = Source("hall.coach", "rest")
    assert lines(Diagnostic("c", "error", "Too early.", Span(source, 4, 4)))[1:] == ["  1 | rest", "    |     ^"]
    assert lines(Diagnostic("c", "error", "Empty.", Span(Source("e.coach", ""), 0, 0)))[1:] == ["  1 |", "    | ^"]


@pytest.mark.parametrize(
    ("text", "columns"),
    [("\trest", 4), ("深蹲 rest", 5), ("é rest", 2), ("e\u0301 rest", 2), ("\u200brest", 1), ("\x1b[31mrest", 5)],
)
def test_marks_stand_under_the_word_whatever_stands_before(text: str, columns: int) -> None:
    assert lines(finding(text, "rest"))[2] == "    | " + " " * columns + "^^^^"


def test_nothing_that_a_terminal_would_obey() -> None:
    source = Source("ha\x1b[2Jll.coach", "rest \x1b[31m \u202e 60 s\x07\n")
    told = Diagnostic("c", "error", "`\x1b[31m` is odd.", Span(source, 5, 6), "Not \x9b.", ())
    assert not set(render([told], colour=False)) & set("\x1b\x07\x9b\u202e")


@pytest.mark.parametrize("at", [0, 50, 90, 97, 98, 99, 100, 120, 400, 492])
@pytest.mark.parametrize("letter", ["x", "深"])
def test_a_long_line_is_cut_around_the_marks(at: int, letter: str) -> None:
    text = letter * at + "HERE" + letter * (500 - at)
    _, shown, marks = lines(finding(text, "HERE"))
    assert width(shown) <= WIDEST + 6
    before = marks.index("^")
    word = shown.index("HERE")
    assert width(shown[:word]) == before and marks.count("^") == 4


def test_a_long_stretch_is_cut() -> None:
    _, shown, marks = lines(finding("x" * 1000, "x" * 1000))
    assert len(shown) <= WIDEST + 6 and len(marks) <= WIDEST + 6 and "…" in shown


def test_colour_only_where_it_is_asked_for() -> None:
    told = finding("a rest\n", "rest", help="Write less.")
    painted = render([told], colour=True)
    assert "\x1b[1;33mwarning[some-code]\x1b[0m" in painted
    plain = render([told], colour=False)
    assert plain == painted.replace("\x1b[1;33m", "").replace("\x1b[1;32m", "").replace("\x1b[1m", "").replace(
        "\x1b[0m", ""
    )


def test_as_json() -> None:
    told = finding("a\n  rest 60 s\nb", "60 s", last="b", help="Write less.")
    assert json.loads(to_json([told])) == {
        "findings": [
            {
                "code": "some-code",
                "severity": "warning",
                "message": "Something is odd.",
                "help": "Write less.",
                "file": "hall.coach",
                "line": 2,
                "column": 8,
                "end_line": 3,
                "end_column": 2,
                "labels": [],
            }
        ]
    }
    assert json.loads(to_json([])) == {"findings": []}
