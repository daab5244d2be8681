"""What a build for people is asked for, and what became of each of them; those whose pack is as it should be are told here.

Nothing that makes a pack is imported: a build that has nothing to make is done before all of that is read.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, Literal

import attrs

from ..printing import USUAL, Printing
from .record import Told, is_whole, key, read_record
from .store import Store, open_store

if TYPE_CHECKING:
    from ...compiler.roster import Piece


class OtherEdition(Exception):
    """The machine that was to build has another Setwright than the one that asked it to."""


@attrs.frozen
class Shared:
    """What all people of a build share: the files without them, and what was asked for."""

    texts: Mapping[str, bytes] = attrs.field(repr=False)
    made_from: str  # stands for the texts, and for what was asked for
    to: str
    program: str | None
    revision: int | None
    edition: str
    printing: Printing = USUAL

    def __hash__(self) -> int:
        return hash(self.made_from)


@attrs.frozen
class Wanted:
    """A person to be built: the name, and all that is written about them."""

    name: str
    pieces: tuple[Piece, ...] = attrs.field(repr=False)


@attrs.frozen
class Outcome:
    """What became of a person: made anew, kept as it was, failed because of errors, or in no program that was asked for.

    `changed` and `removed` are files by their names in the person's folder, `same` how many stay as they were; `touched`
    are those of the changed that somebody else had changed before.
    """

    name: str
    title: str
    what: Literal["made", "kept", "failed", "none"]
    made_from: str
    changed: tuple[str, ...] = ()
    removed: tuple[str, ...] = ()
    touched: tuple[str, ...] = ()
    same: int = 0
    findings: tuple[Told, ...] = ()
    rows: tuple[Mapping[str, Any], ...] = ()  # of the coach's overview


def made_from(shared: Shared, wanted: Wanted) -> str:
    """Stands for all that a person's pack is made from. Where in its file a piece stands takes no part."""
    from ...grammar.parse import ended  # packs are looked at before the language is read

    parts = [part for piece in wanted.pieces for part in (piece.path, ended(piece.text))]
    return key(shared.made_from, wanted.name, *parts)


def kept(shared: Shared, wanted: Wanted, seen: Mapping[str, Outcome] | None = None) -> Outcome | None:
    """A pack that is there as it should be, None where it must be made; `seen` are all that are as they were made."""
    outcome = as_it_was(open_store(shared.to), wanted.name) if seen is None else seen.get(wanted.name)
    return outcome if outcome is not None and outcome.made_from == made_from(shared, wanted) else None


def as_it_was(store: Store, name: str) -> Outcome | None:
    """The pack of a person as it was made, None where there is none, or another hand was at it."""
    record = read_record(store, name)
    if record is None or not is_whole(store, name, record):
        return None
    return Outcome(
        name,
        "",
        "kept",
        record.made_from,
        same=len(record.files),
        findings=tuple(record.findings),
        rows=tuple(record.rows),
    )
