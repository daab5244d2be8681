"""Where exactly a finding stands: from the span of an object to the words that are wrong."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from ...grammar.source import Source, Span
from ..log_files.placing import cell_of
from ..log_files.table import Table

_QUIET = re.compile(r'"[^"\n]*"|#[^\n]*|\|[^\n]*')  # strings, comments and prose
_TEXT = re.compile(r'"(?P<string>[^"\n]*)"|#[^\n]*|\|(?P<prose>[^\n]*)')


@lru_cache(maxsize=8)
def _bare(source: Source) -> str:
    """The text with its strings, comments and prose blanked out, every other character at its place."""
    return _QUIET.sub(lambda match: " " * len(match[0]), source.text)


def region(span: Span) -> Span:
    """The whole of what begins at a span: its line and the deeper lines below it."""
    text, bare = span.source.text, _bare(span.source)
    line_start = text.rfind("\n", 0, span.start) + 1
    first_line = text[line_start : span.start]
    depth = len(first_line) - len(first_line.lstrip(" \t"))
    end = text.find("\n", span.start)
    while end != -1:
        line_end = text.find("\n", end + 1)
        line = text[end + 1 : line_end if line_end != -1 else len(text)]
        words = line.lstrip(" \t")
        blank = not bare[end + 1 : end + 1 + len(line)].strip() and not words.startswith(("|", '"'))
        if not blank and len(line) - len(words) <= depth:
            return Span(span.source, span.start, end)
        end = line_end
    return Span(span.source, span.start, len(text))


def header(span: Span) -> Span:
    """The first line of a span, without what may follow it on deeper lines."""
    end = span.source.text.find("\n", span.start)
    return Span(span.source, span.start, min(span.end, end)) if end != -1 else span


def line(span: Span) -> Span:
    """From the start of a span to the end of its line, a comment left out."""
    end = span.source.text.find("\n", span.start)
    end = len(span.source.text) if end == -1 else end
    kept = _bare(span.source)[span.start : end].rstrip()
    return Span(span.source, span.start, span.start + len(kept))


def words(span: Span) -> str:
    """What a span says on its first line, strings and comments left out."""
    return _bare(span.source)[span.start : line(span).end]


def part(span: Span, pattern: str, nth: int = 1) -> Span:
    """The words of an object that match a pattern, on its line or below, or its first line where none do."""
    stretch = region(span)
    found = _found(stretch, pattern)
    for _ in range(nth - 1):
        found = found and _found(Span(span.source, found.end, stretch.end), pattern)
    return found or header(span)


def on_line(span: Span, pattern: str) -> Span:
    """The words that match a pattern from the start of a span to the end of its line, or the span where none do."""
    return _found(line(span), pattern) or header(span)


def cell(span: Span, column: str | int, pattern: str) -> Span:
    """The cell of a column, or of a figure by its number, where a log is a table; else the words that match a pattern."""
    if isinstance(span.source, Table):
        return cell_of(span.source, span, column)
    return on_line(span, pattern)


def _found(stretch: Span, pattern: str) -> Span | None:
    match = re.compile(pattern, re.MULTILINE).search(_bare(stretch.source), stretch.start, stretch.end)
    return Span(stretch.source, match.start(), match.end()) if match else None


def nothing_below(span: Span) -> bool:
    """Whether no line but prose and comments stands below, not even one that could not be read."""
    return not _bare(span.source)[line(span).end : region(span).end].strip()


def own(span: Span, pattern: str) -> Span | None:
    """The words that match a pattern on the lines directly below a span: those below an `else` are not the entry's own."""
    stretch, bare = region(span), _bare(span.source)
    below = list(re.compile(r"^ +(?=\S)", re.MULTILINE).finditer(bare, span.end, stretch.end))
    depth = min((len(blanks[0]) for blanks in below), default=0)
    lines = (line(Span(span.source, blanks.end(), stretch.end)) for blanks in below if len(blanks[0]) == depth)
    return next(filter(None, (_found(one, pattern) for one in lines)), None)


def begun(span: Span, word: str) -> bool:
    """Whether a line below begins with a word: where it could not be read, that was told already."""
    return _found(region(span), rf"^[ \t]+{word}\b") is not None


def texts(span: Span) -> Iterator[Span]:
    """Every string (quotes included) and every line of prose (its bar included) of what begins at a span."""
    stretch = region(span)
    for match in _TEXT.finditer(stretch.source.text, stretch.start, stretch.end):
        if match.lastgroup is not None:
            yield Span(span.source, match.start(), match.end())


def declaration(span: Span) -> Span:
    """The declaration in which a span stands: from its first word, at the left edge, to its last line."""
    text = span.source.text
    start = text.rfind("\n", 0, span.start) + 1
    while start and text[start] in " \t\n\r#|":
        start = text.rfind("\n", 0, start - 1) + 1
    return region(Span(span.source, start, span.end))


def is_inside(span: Span, scope: Span) -> bool:
    """Whether a span begins in a stretch of the same source."""
    return span.source is scope.source and scope.start <= span.start < scope.end
