"""Text that a coach began and forgot to finish."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import lru_cache

from ...grammar.diagnostic import Check, Diagnostic
from ...grammar.source import Source, Span
from ..glyphs import without_glyph
from ..model import Athlete, Log, Movement, Program, Project
from .examples import in_program
from .places import declaration, texts

UNFINISHED = Check(
    code="unfinished-text",
    severity="warning",
    title="A text that is not finished",
    message="{what} would be printed as it stands.",
    help="Write the text, or take it out.",
    explain="Every text between quotes and every line after `|` reaches somebody. A mark such as TODO, TBD, FIXME, XXX or ???, "
    "dots in place of words, a blank to fill in such as `<name>` or `____`, and an empty text are pointed out, so that none of "
    "them comes out on a sheet. Notes to yourself belong after `#`.",
    wrong=in_program('for "TODO"'),
    right=in_program('for "The winter crew"'),
)

_MARKS = re.compile(
    r"""(?P<mark>\b(?:TODO|TBD|TBC|FIXME|XXX+)\b|\?\?\?+)
    |(?P<dots>(?:^|(?<=[\s"|]))(?:\.\.\.+|…)(?=\s*(?:"|$)))
    |(?P<blank><[^<>\s][^<>]*>|(?<![\w_])_{3,}(?![\w_]))
    """,
    re.VERBOSE | re.MULTILINE,
)
_WHAT = {"mark": "The mark `{}`", "dots": "The dots `{}`", "blank": "The blank `{}`"}


def find_unfinished(
    declared: Program | Movement | Athlete | Log, project: Project | None = None
) -> Iterator[Diagnostic]:
    for text in _texts(declared, _suspect):
        yield from _unfinished(text)


def _texts(declared: Program | Movement | Athlete | Log, suspect: Callable[[Source], bool]) -> Iterator[Span]:
    """All texts of a declaration that stand in sources of which something is suspected."""
    starts = [declared.span]
    if isinstance(declared, Program):  # a block may stand elsewhere, at the left edge
        starts += [block.span for session in declared.sessions for block in session.blocks]
    if isinstance(declared, Log):
        starts += [session.span for session in declared.sessions]
    for span in dict.fromkeys(
        declaration(start) for start in starts if type(start.source) is Source and suspect(start.source)
    ):
        yield from texts(span)


@lru_cache(maxsize=64)
def _suspect(source: Source) -> bool:
    """Whether anything of the kind stands in a source at all: nearly always a quick no."""
    return re.search(r'"\s*"', source.text) is not None or _MARKS.search(source.text) is not None


def _unfinished(text: Span) -> Iterator[Diagnostic]:
    quoted = text.text.startswith('"')
    start = text.start + 1
    words = text.text[1:-1] if quoted else text.text[1:]
    if quoted and not words.strip():
        yield UNFINISHED.at(text, what="An empty text")
    for match in _MARKS.finditer(words):
        kind = match.lastgroup or "mark"
        where = Span(text.source, start + match.start(), start + match.end())
        yield UNFINISHED.at(where, what=_WHAT[kind].format(match[0]))


NO_GLYPH = Check(
    code="character-unprintable",
    severity="warning",
    title="A character that the font of the printed sheets has not",
    message="{what} cannot be printed: the PDFs tell “[?]” in place of it.",
    help="Write it with Latin, Greek or Cyrillic letters, or leave it out.",
    explain="The PDFs are set in one font, which is the same on every machine. It has the letters of languages written in "
    "Latin, Greek and Cyrillic, and the usual signs; it has no letters that run from right to left, none of East Asia, and no "
    "emoji. What it has not is told as “[?]”, with a note at the head of the sheet; the pages for the screen and the texts "
    "have every character.",
    wrong=in_program('for "The winter crew \U0001f4aa"'),
    right=in_program('for "The winter crew, Łódź and Ωμέγα"'),
)


def find_no_glyph(declared: Program | Movement | Athlete) -> Iterator[Diagnostic]:
    """Of logs nothing is printed."""
    for text in _texts(declared, _unprintable):
        for start, end in without_glyph(text.text):
            found = text.text[start:end]
            told = f"The character `{found}`" if len(found) == 1 else f"The text `{found[:20]}`"
            yield NO_GLYPH.at(Span(text.source, text.start + start, text.start + end), what=told)


@lru_cache(maxsize=64)
def _unprintable(source: Source) -> bool:
    """Whether a source holds a character without a glyph at all, in a comment or a text."""
    return next(without_glyph(source.text), None) is not None
