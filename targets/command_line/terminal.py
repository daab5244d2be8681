"""What all commands share when they talk to the terminal."""

from __future__ import annotations

import argparse
import os
import re
import sys
import textwrap
from collections.abc import Collection, Iterable
from fractions import Fraction
from io import TextIOWrapper
from typing import TYPE_CHECKING, TextIO

if TYPE_CHECKING:
    from ...grammar.diagnostic import Diagnostic


class Refusal(Exception):
    """A command cannot do what it was asked; its sentence says why. Exit code 2, unless the source is at fault."""

    def __init__(self, sentence: str, code: int = 2) -> None:
        super().__init__(sentence)
        self.code = code


def tell_findings(diagnostics: Collection[Diagnostic], options: argparse.Namespace, stream: TextIO | None) -> None:
    """Print the findings as text to the stream, or as one JSON document to the standard output."""
    if not diagnostics and options.format == "text":
        return
    from ...compiler.render import render, to_json

    if options.format == "json":
        if isinstance(sys.stdout, TextIOWrapper):
            sys.stdout.reconfigure(encoding="utf-8")  # JSON is UTF-8 whatever the terminal is
        print(to_json(tuple(diagnostics)))
    else:
        print(render(tuple(diagnostics), colour(options.color, stream)), file=stream)


def result_stream(options: argparse.Namespace) -> TextIO | None:
    """Where a command tells its result: beside the JSON document, not in it."""
    return sys.stderr if options.format == "json" else sys.stdout


def colour(when: str, stream: TextIO | None) -> bool:
    """Whether to write in colour: as asked, else on a terminal that is willing."""
    if when != "auto":
        return when == "always"
    willing = not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    return willing and stream is not None and stream.isatty()


def width(stream: TextIO | None) -> int:
    """The columns of a terminal, within what can be read; 100 where the output is none."""
    try:
        columns = os.get_terminal_size(stream.fileno()).columns if stream is not None else 0
    except (OSError, ValueError):  # a file, a pipe, or an output without a file behind it
        columns = 0
    return min(max(columns, 60), 140) if columns else 100


def has_errors(diagnostics: Collection[Diagnostic]) -> bool:
    """Whether anything was found that stops a build."""
    return any(diagnostic.severity == "error" for diagnostic in diagnostics)


# Errors about minutes: nothing is built with them, but what helps to mend them is just what the other commands show.
OF_MINUTES = frozenset(("session-over-limit", "short-impossible"))
# Errors of a program that does not fit one athlete: the program itself is sound.
OF_FITTING = frozenset(("must-impossible", "category-unfilled", "fitted-over-limit", "fitted-short-impossible"))


def errors_in_the_way(diagnostics: Collection[Diagnostic]) -> str:
    """`2 errors: mend them`, or "" where there are none, or none but errors about minutes, or about one athlete."""
    errors = [found for found in diagnostics if found.severity == "error"]
    if all(found.code in OF_MINUTES | OF_FITTING for found in errors):
        return ""
    return f"{errors_counted(errors)}: mend {'it' if len(errors) == 1 else 'them'}"


def errors_counted(diagnostics: Collection[Diagnostic]) -> str:
    """`2 errors`: what has to be mended, without warnings and advice."""
    return counted(sum(found.severity == "error" for found in diagnostics), "error")


def summary(diagnostics: Collection[Diagnostic]) -> str:
    """`2 errors and 1 warning`, or `nothing to report`."""
    counts = [(sum(found.severity == name for found in diagnostics), name) for name in ("error", "warning", "advice")]
    parts = [counted(count, name) for count, name in counts if count]
    return " and ".join(filter(None, [", ".join(parts[:-1]), *parts[-1:]])) or "nothing to report"


def counted(count: int, name: str) -> str:
    """`1 file`, `2 files`; advice has no plural of its own."""
    if name == "advice":
        return f"{count} piece{'' if count == 1 else 's'} of advice"
    return f"{count} {name}{'' if count == 1 else 's'}"


def minutes(seconds: Fraction) -> str:
    """`4 min`, `3 min 20 s`, `45 s`: rounded up to a second, so that nothing is promised shorter than it is."""
    whole, rest = divmod(-(-seconds // 1), 60)
    return " ".join([f"{whole} min"] * (whole > 0) + [f"{rest} s"] * (rest > 0 or not whole))


def suggestion(word: str, known: Iterable[str]) -> str:
    """`Did you mean ...?`, or all that is known where nothing is near."""
    from ...grammar.diagnostic import nearest, or_list

    near = nearest(word, known)
    return f"Did you mean {or_list(near)}?" if near else f"Known: {', '.join(known)}."


def wrapped(text: str, first: str, indent: int, columns: int) -> list[str]:
    """The text in lines, in which no figure is parted from its unit."""
    lines = textwrap.wrap(
        re.sub(r"(?<=\d) (?=[a-z%])|(?<=\dx) (?=\d)|(?<= x) (?=\d)", "\N{NO-BREAK SPACE}", text),
        columns,
        initial_indent=first,
        subsequent_indent=" " * indent,
        break_long_words=False,
        break_on_hyphens=False,
    )
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in lines]
