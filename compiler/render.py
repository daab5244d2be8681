"""Findings as text for a terminal, and as one JSON document for another program."""

from __future__ import annotations

import re
import unicodedata
from bisect import bisect_right
from collections.abc import Iterable
from functools import lru_cache

import attrs

from ..grammar.diagnostic import Diagnostic
from ..grammar.source import Source, Span

WIDEST = 100  # columns of a source line that are shown
_TAB = "    "
_COLOURS = {"error": "1;31", "warning": "1;33", "advice": "1;36", "note": "1;34", "help": "1;32", "strong": "1"}
# Characters that would move the cursor, turn the direction of writing, or not be seen at all.
_UNSEEN = re.compile("[\x00-\x08\x0a-\x1f\x7f-\x9f\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]")


def render(diagnostics: Iterable[Diagnostic], colour: bool) -> str:
    """All findings, each with its place, its source line, and what to do, an empty line between them."""
    return "\n\n".join(_finding(diagnostic, colour) for diagnostic in diagnostics)


def to_json(diagnostics: Iterable[Diagnostic]) -> str:
    """All findings as a JSON document: `{"findings": [...]}`; lines and columns from 1, the end excluded."""
    import json  # only where it is asked for

    findings = [
        {
            "code": diagnostic.code,
            "severity": diagnostic.severity,
            "message": diagnostic.message,
            "help": diagnostic.help,
            **_place(diagnostic.span),
            "labels": [{"text": label.text, **_place(label.span)} for label in diagnostic.labels],
        }
        for diagnostic in diagnostics
    ]
    return json.dumps({"findings": findings}, ensure_ascii=False, indent=2)


def _place(span: Span) -> dict[str, str | int]:
    line, column = _position(span.source, span.start)
    end_line, end_column = _position(span.source, max(span.start, span.end))
    return {"file": span.source.name, "line": line, "column": column, "end_line": end_line, "end_column": end_column}


def _finding(found: Diagnostic, colour: bool) -> str:
    spans = [found.span, *(label.span for label in found.labels)]
    gutter = max(len(str(_position(span.source, max(span.start, span.end))[0])) for span in spans)
    head = f"{_paint(found.severity, f'{found.severity}[{found.code}]', colour)}: {_seen(found.message)}"
    lines = [f"{_paint('strong', _seen(_told(found.span)), colour)}: {head}"]
    lines += _marked(found.span, _Marks("^", "", found.severity, gutter, colour))
    for label in found.labels:
        if label.span.source is not found.span.source:
            lines.append(f"  {_seen(_told(label.span))}:")
        lines += _marked(label.span, _Marks("-", _seen(label.text), "note", gutter, colour))
    if found.help:
        lines.append(f"  {_paint('help', 'help', colour)}: {_seen(found.help)}")
    return "\n".join(lines)


@attrs.frozen
class _Marks:
    """How a place is marked: with which sign and words, in which colour, beside how wide a column of line numbers."""

    sign: str
    text: str
    kind: str
    gutter: int
    colour: bool


def _marked(span: Span, marks: _Marks) -> list[str]:
    """The line of a span with marks under it; of a span over several lines the first and the last."""
    first, column = _position(span.source, span.start)
    last, end_column = _position(span.source, max(span.start, span.end))
    if last > first and end_column == 1:  # the end of the line before
        last -= 1
        end_column = len(_text(span.source, last)) + 1
    if first == last:
        return _line(_text(span.source, first), first, (column, end_column), marks)
    first_line, last_line = _text(span.source, first), _text(span.source, last)
    lines = _line(first_line, first, (column, len(first_line) + 1), attrs.evolve(marks, text=""))
    if last > first + 1:
        lines.append(f"  {'.' * marks.gutter} |")
    indent = len(last_line) - len(last_line.lstrip())
    return lines + _line(last_line, last, (indent + 1, end_column), marks)


def _line(written: str, number: int, columns: tuple[int, int], marks: _Marks) -> list[str]:
    """A source line with its number, and below it marks from one column to another, both counted from 1."""
    shown, before, marked = _cut(written.rstrip("\r"), columns[0] - 1, columns[1] - 1)
    under = _paint(marks.kind, f"{marks.sign * marked} {marks.text}".rstrip(), marks.colour)
    return [
        f"  {number:>{marks.gutter}} | {shown}".rstrip(),
        f"  {' ' * marks.gutter} | {' ' * before}{under}",
    ]


@lru_cache(maxsize=16)
def _starts(source: Source) -> list[int]:
    """Where each line of a source starts: found once, because many findings may stand in one source."""
    return [0, *(match.end() for match in re.finditer("\n", source.text))]


def _position(source: Source, offset: int) -> tuple[int, int]:
    """Line and column of an offset, both counted from 1."""
    line = bisect_right(_starts(source), offset)
    return source.before + line, offset - _starts(source)[line - 1] + 1


def _text(source: Source, line: int) -> str:
    """The text of a line, counted from 1, without its end."""
    start = _starts(source)[line - source.before - 1]
    end = source.text.find("\n", start)
    return source.text[start : end if end != -1 else len(source.text)]


def _told(span: Span) -> str:
    line, column = _position(span.source, span.start)
    return span.source.told(line, column, _text(span.source, line))


def _cut(written: str, start: int, end: int) -> tuple[str, int, int]:
    """What is shown of a line, and the columns before the marked stretch and within it."""
    if (
        len(written) > 10 * WIDEST
    ):  # what stands far from the place is not shown, and must not cost time at each finding
        skipped = max(start - 5 * WIDEST, 0)
        written, start, end = (
            written[skipped : start + 10 * WIDEST],
            start - skipped,
            min(end, start + 5 * WIDEST) - skipped,
        )
    pieces = [_seen(written[:start]), _seen(written[start:end]), _seen(written[end:])]
    if width(written[:start]) + width(written[start:end]) <= WIDEST - 2:
        shown = _fit("".join(pieces), WIDEST)
        return shown, width(pieces[0]), max(width(pieces[1]), 1)
    head = _fit(pieces[0][::-1], 20)[::-1] if width(pieces[0]) > 20 else pieces[0]
    middle = _fit(pieces[1], WIDEST - 40)
    return head + middle + _fit(pieces[2], 20), width(head), max(width(middle), 1)


def _fit(text: str, columns: int) -> str:
    """The beginning of a text in so many columns, with `…` where more of it is left out."""
    if width(text) <= columns:
        return text
    while width(text) > columns - 1:
        text = text[: columns - 1] if len(text) >= columns else text[:-1]
    return text + "…"


def _seen(text: str) -> str:
    """A text of which every character is seen and stays in its place: tabs as blanks, the unseen as `�`."""
    return _UNSEEN.sub("�", text.replace("\t", _TAB))


def width(text: str) -> int:
    """The columns that a text takes in a terminal."""
    return sum(_columns(character) for character in _seen(text))


def _columns(character: str) -> int:
    if character < "\u0300":
        return 1
    if unicodedata.combining(character):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def _paint(kind: str, text: str, colour: bool) -> str:
    return f"\x1b[{_COLOURS[kind]}m{text}\x1b[0m" if colour and text else text
