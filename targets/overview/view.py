"""What the overview tells of each athlete, and what it counts over all of them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

import attrs

from ...compiler.fitting import Fitting
from ...grammar.diagnostic import Diagnostic
from .. import words
from ..reasons_told import changes


def _texts(values: Iterable[str]) -> tuple[str, ...]:
    return tuple(values)


def _pairs(values: Iterable[Iterable[str]]) -> tuple[tuple[str, ...], ...]:
    return tuple(tuple(pair) for pair in values)


@attrs.frozen
class Row:
    """One athlete with one program: plain texts, so that a build can keep them. `program` is "" for who trains by none.

    `replaced` has the title of each movement that the athlete does not do, with that of what takes its place, or "".
    """

    name: str
    title: str
    program: str = ""
    program_title: str = ""
    revision: int = 0
    source: str = ""
    own_source: str = ""  # as the athlete's own sheets have it
    changes: tuple[str, ...] = attrs.field(default=(), converter=_texts)
    replaced: tuple[tuple[str, ...], ...] = attrs.field(default=(), converter=_pairs)
    warnings: tuple[str, ...] = attrs.field(default=(), converter=_texts)
    errors: tuple[str, ...] = attrs.field(default=(), converter=_texts)

    @property
    def found(self) -> tuple[str, ...]:
        """What is open: the errors, then the warnings."""
        return self.errors + self.warnings

    @property
    def handout(self) -> str:
        """The place of the athlete's handout beside the overview, "" where there is none."""
        return "" if self.errors or not self.program else f"{self.name}/{self.name}-{self.program}-handout.html"


def row_of(fitting: Fitting, diagnostics: Iterable[Diagnostic]) -> Row:
    """The row of a fitting, with what was found on it."""
    program = fitting.program
    found = tuple(diagnostics)
    replaced = {
        choice.written.movement.title: choice.chosen.movement.title if choice.chosen is not None else ""
        for choice in fitting.choices
        if choice.chosen is None or (choice.chosen.fitted is not None and choice.chosen.fitted.instead_of is not None)
    }
    return Row(
        fitting.athlete.name,
        fitting.athlete.title,
        program.name,
        program.title,
        program.revision,
        fitting.written.fingerprint[:12],
        program.fingerprint[:12] if fitting.athlete.fingerprint else "",
        changes(fitting),
        replaced.items(),
        (_told(one.message) for one in found if one.severity == "warning"),
        (_told(one.message) for one in found if one.severity == "error"),
    )


def row_without(name: str, title: str, errors: Iterable[str] = ()) -> Row:
    """The row of an athlete who has no pack: because of errors, whose messages they are, or as they train by no program."""
    return Row(name, title, errors=map(_told, errors))


def as_json(row: Row) -> dict[str, Any]:
    """A row as plain values."""
    return attrs.asdict(row)


def from_json(kept: Mapping[str, Any]) -> Row:
    """The row of plain values that `as_json` gave."""
    return Row(**kept)


def _told(message: str) -> str:
    """What was found. Not in which line: a row is kept where only lines before it have changed."""
    return re.sub("`([^`]*)`", lambda match: words.quoted(match[1]), message)


# Over all rows


@attrs.frozen
class ProgramCount:
    title: str
    revision: int
    source: str
    athletes: int


@attrs.frozen
class Replaced:
    """A movement that some do not do: what they do instead, and who."""

    title: str
    instead: tuple[str, ...]


@attrs.frozen
class Summary:
    athletes: int
    without: int
    warned: int
    programs: tuple[ProgramCount, ...]
    replaced: tuple[Replaced, ...]


def summary(rows: Iterable[Row]) -> Summary:
    """What is counted over all rows; of those who do another movement the first are named."""
    athletes = without = warned = 0
    programs: dict[tuple[str, int, str], int] = {}
    replaced: dict[str, dict[str, tuple[list[str], int]]] = {}
    before = None
    for row in rows:
        athletes += row.name != before  # the rows of an athlete stand together
        before = row.name
        without += bool(row.errors)
        warned += bool(row.warnings) and not row.errors
        if row.program:
            key = row.program_title, row.revision, row.source
            programs[key] = programs.get(key, 0) + 1
        for title, instead in row.replaced:
            named, number = replaced.setdefault(title, {}).get(instead, ([], 0))
            if named[-1:] != [row.title]:  # who does it in two programs is named once
                replaced[title][instead] = (named if number >= words.NAMED else [*named, row.title], number + 1)
    return Summary(
        athletes,
        without,
        warned,
        tuple(ProgramCount(*key, number) for key, number in programs.items()),
        tuple(
            Replaced(
                title,
                tuple(
                    words.who_instead(instead or words.LEFT_OUT, named, number - len(named))
                    for instead, (named, number) in by.items()
                ),
            )
            for title, by in replaced.items()
        ),
    )
