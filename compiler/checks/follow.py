"""Findings that only follow from an error told already: they are left out until it is mended."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator

from ...grammar.diagnostic import Diagnostic
from ...grammar.source import Span
from .places import declaration, line, region, words

# What is told of a declaration as a whole: an error anywhere in it may be why.
OF_THE_WHOLE = frozenset(
    (
        "program-without-sessions session-without-blocks category-empty optional-carries-category category-counts-nothing "
        "category-unreached-in-week session-over-limit short-impossible short-cuts-nothing allow-unused "
        "strength-days-few strength-minutes-few balance-days-few pull-below-push "
        "begins-unused begins-unfit max-unused max-missing days-few days-clash"
    ).split()
)


def without_follow_on(found: Iterable[Diagnostic], earlier: Collection[Diagnostic]) -> tuple[Diagnostic, ...]:
    """The findings without those of the checks that an error of an earlier stage, in the same lines, may have caused."""
    errors = [one for one in earlier if one.severity == "error"]
    lines = [_statement(one.span) for one in errors]
    declarations = [declaration(one.span) for one in errors]
    told = set(earlier)
    return tuple(
        one
        for one in found
        if one in told
        or not (_within(one.span, lines) or (one.code in OF_THE_WHOLE and _within(one.span, declarations)))
    )


def _within(span: Span, stretches: Iterable[Span]) -> bool:
    return any(span.source is one.source and one.start <= span.start <= one.end for one in stretches)


def _statement(span: Span) -> Span:
    """All that may suffer from an error: its entry or its block, else its line and the deeper lines; of a header its line."""
    first = next(_lines_upward(span), span)
    if words(first).startswith(("session ", "category ")) or not _depth(first):
        return line(first)
    entry = next((one for one in _lines_upward(span) if re.match(r"(must|key|do|may)\b", words(one))), None)
    return region(entry or first)


def _lines_upward(span: Span) -> Iterator[Span]:
    """The line of a span, then each line above that is less deep than those before, each from its first word."""
    text = span.source.text
    depth = len(text)
    start = text.rfind("\n", 0, span.start) + 1
    while True:
        end = text.find("\n", start)
        written = text[start : end if end != -1 else len(text)]
        here = len(written) - len(written.lstrip())
        if written.strip() and here < depth:
            depth = here
            yield Span(span.source, start + here, start + len(written))
        if not depth or not start:
            return
        start = text.rfind("\n", 0, start - 1) + 1


def _depth(span: Span) -> int:
    return span.source.position(span.start)[1] - 1
