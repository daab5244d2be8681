"""Findings as plain values, which a record keeps, and back to findings at the lines of today."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any

from ...compiler.roster import declarations
from ...grammar.diagnostic import Diagnostic, Label
from ...grammar.source import Source, Span
from .record import Told


def plain(findings: Iterable[Diagnostic], pieces: Sequence[Source] = ()) -> list[Told]:
    """Findings as plain values, each place within the piece in which it stands.

    A piece is a number where it is one of those given, else the path of a file and the number of a declaration in it, as
    `crew.coach#3`, so that a place is the same wherever its declaration stands; or the path alone.
    """
    numbers = {piece: number for number, piece in enumerate(pieces)}

    def place(span: Span) -> list[Any]:
        if span.source in numbers:
            return [numbers[span.source], span.start, span.end]
        for number, (start, end) in enumerate(declarations(span.source.text)):
            if start <= span.start and span.end <= end:
                return [f"{span.source.name}#{number}", span.start - start, span.end - start]
        return [span.source.name, span.start, span.end]

    return [
        [one.code, one.severity, one.message, one.help, place(one.span),
         [[label.text, place(label.span)] for label in one.labels]]
        for one in findings
    ]  # fmt: skip


def piece_of(which: str, texts: Callable[[str], str]) -> Source:
    """The text of a piece that is no number; `texts` gives that of a file by its path."""
    path, mark, number = which.rpartition("#")
    if not mark or not number.isdigit():
        return Source(which, texts(which))
    text = texts(path)
    start, end = declarations(text)[int(number)]
    return Source(path, text[start:end], text.count("\n", 0, start))


def told(findings: Iterable[Told], source: Callable[[int | str], Source]) -> list[Diagnostic]:
    """Findings from plain values; `source` gives the text of a piece."""

    def span(place: Sequence[Any]) -> Span:
        return Span(source(place[0]), place[1], place[2])

    return [
        Diagnostic(code, severity, message, span(place), help,
                   tuple(Label(span(of_label), text) for text, of_label in labels))
        for code, severity, message, help, place, labels in findings
    ]  # fmt: skip
