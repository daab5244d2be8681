"""Problems told to the coach: what a check is, and one finding of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Literal

import attrs

from .source import Span

Severity = Literal["error", "warning", "advice"]


Files = str | dict[str, str | bytes]
Example = Files | Callable[[], Files]  # a function where the text is too long to be made at every start


LONGEST_FACT = 100


@attrs.frozen
class Label:
    """A second place that helps to understand a finding, with a few words on it."""

    span: Span
    text: str


@attrs.frozen
class Diagnostic:
    """One finding: which check, where, one sentence on what is wrong, and what to write instead."""

    code: str
    severity: Severity
    message: str
    span: Span
    help: str = ""
    labels: tuple[Label, ...] = ()


@attrs.frozen(eq=False)
class Check:
    """Everything about one kind of problem, in one place: its words, its page and its two examples.

    `message` and `help` are templates for `str.format`; `wrong` and `right` are whole sources (a mapping of file names
    to texts where one file is not enough) of which the first gives exactly this code and the second gives nothing.
    """

    code: str
    severity: Severity
    title: str
    message: str
    help: str
    explain: str
    wrong: Example
    right: Example

    def at(self, span: Span, *, labels: Iterable[Label] = (), **facts: object) -> Diagnostic:
        """The finding of this check at a place, its words filled in with the facts; very long ones are shortened."""
        for name in ("found", "where"):
            if len(str(facts.get(name, ""))) > LONGEST_FACT:
                facts[name] = str(facts[name])[:LONGEST_FACT] + "…"
        return Diagnostic(
            self.code,
            self.severity,
            self.message.format(**facts),
            span,
            self.help.format(**facts).strip(),
            tuple(labels),
        )


def nearest(word: str, known: Iterable[str]) -> list[str]:
    """Up to three known words that the coach may have meant, the likeliest first; none when nothing is near."""
    from difflib import get_close_matches  # needed only once something is wrong

    names = sorted(set(known))
    lowered = word.lower()
    same = [name for name in names if name.lower() == lowered]
    return same or get_close_matches(lowered, names, n=3, cutoff=0.7)


def or_list(words: Iterable[str]) -> str:
    """`a`, `b` or `c`, each in backticks."""
    quoted = [f"`{word}`" for word in words]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} or {quoted[-1]}" if quoted else ""
