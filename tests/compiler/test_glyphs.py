"""The table of characters that can be printed is that of the fonts."""

import pytest
from setwright.compiler.glyphs import TABLE, without_glyph
from setwright.compiler.pipeline import compile_texts

from tests.accept_glyphs import table

PROGRAM = """\
use basics

program hall "Hall class"
  for "{audience}"
  session main "Main session", 2 a week
    | {note}
    block strength "Strength"
      must chair-stand 3 x 8   # a comment with \U0001f4aa
        advance reps by 1 to 12
"""


def test_the_table_is_that_of_the_fonts():
    assert TABLE.read_text("utf-8") == table(), "run: python -m tests.accept_glyphs"


PRINTABLE = (
    "Łódź", "Ωμέγα", "Стул", "½ × 3 ≥ 2 – “so”… °C € ″", "e\u0301te\u0301", "non\u2011breaking", "a\u00adb\u200bc",
)  # fmt: skip
UNPRINTABLE = (
    ("lift \U0001f4aa\U0001f3fd now", ["\U0001f4aa\U0001f3fd"]), ("שלום to all", ["שלום"]), ("مرحبا", ["مرحبا"]),
    ("椅子", ["椅子"]), ("a\ue000b", ["\ue000"]), ("☃ and ☃", ["☃", "☃"]),
)  # fmt: skip


@pytest.mark.parametrize("text", PRINTABLE)
def test_what_can_be_printed(text: str):
    assert list(without_glyph(text)) == []


@pytest.mark.parametrize(("text", "found"), UNPRINTABLE)
def test_what_cannot_be_printed(text: str, found: list[str]):
    assert [text[start:end] for start, end in without_glyph(text)] == found


def test_a_finding_stands_at_the_character():
    source = PROGRAM.format(audience="The \U0001f4aa crew", note="שלום, begin slowly.")
    found = [one for one in compile_texts({"hall.coach": source}).diagnostics if one.code == "character-unprintable"]
    assert [(one.span.line, one.span.text, one.severity) for one in found] == [
        (4, "\U0001f4aa", "warning"),
        (6, "שלום", "warning"),
    ]


def test_nothing_is_found_where_all_can_be_printed():
    source = PROGRAM.format(audience="Øystein’s crew", note="Half: ½. Κάθισε, Стул.")
    assert "character-unprintable" not in {one.code for one in compile_texts({"hall.coach": source}).diagnostics}
