"""The table of all limits of a session: from which time on which version is the best, and what changes there."""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Iterator, Sequence

from ...compiler.clock import Kept
from ...compiler.model import Block, Entry, Session
from ...compiler.trim import Limit
from .terminal import counted, minutes

WIDTH = 98
_COLUMNS = "  {from_:>13}  {movements:>9}  {sets:>9}  "


def table(session: Session, limits: Sequence[Limit], everything: bool) -> Iterator[str]:
    """The rows of a session: those from which on more is kept, or all."""
    shown = limits if everything else _more_work(session, limits)
    full = limits[-1].kept
    yield _COLUMNS.format(from_="from", movements="movements", sets="sets") + "what changes"
    before: Kept | None = None
    for limit in shown:
        yield from _row(session, limit, full, before)
        before = limit.kept
    if len(limits) == 1:
        yield "  Nothing of it can be cut."
    elif len(shown) < len(limits):
        yield (
            f"  Between two rows sets come back, or one movement takes the place of another: "
            f"--all shows all {len(limits)} versions."
        )


def _more_work(session: Session, limits: Sequence[Limit]) -> list[Limit]:
    """The limits at which more `key`, else more `do`, else more `may` is kept; once all of it is, more sets."""
    most = _movements(session, limits[-1].kept)

    def worth(limit: Limit) -> tuple[int, ...]:
        movements = _movements(session, limit.kept)
        return *movements, sum(limit.kept) if movements == most else 0

    found = [limits[0]]
    for limit in limits[1:]:
        if worth(limit) > worth(found[-1]):
            found.append(limit)
    return found if found[-1] is limits[-1] else [*found, limits[-1]]


def _movements(session: Session, kept: Kept) -> tuple[int, ...]:
    count = Counter(entry.priority for entry, sets in zip(session.entries, kept, strict=True) if sets)
    return count["key"], count["do"], count["may"]


def _row(session: Session, limit: Limit, full: Kept, before: Kept | None) -> Iterator[str]:
    columns = _COLUMNS.format(
        from_=minutes(limit.seconds),
        movements=f"{sum(map(bool, limit.kept))} of {sum(map(bool, full))}",
        sets=f"{sum(limit.kept)} of {sum(full)}",
    )
    changes = _changes(session, limit.kept, before) if before is not None else _stays(session, limit.kept, full)
    if limit.kept == full:
        changes = f"{changes}; the full session" if changes else "the full session"
    # Breaks between changes, never within one.
    kept_together = changes.replace(" ", "\N{NO-BREAK SPACE}").replace(",\N{NO-BREAK SPACE}", ", ")
    lines = textwrap.wrap(kept_together, WIDTH - len(columns), break_long_words=False, break_on_hyphens=False) or [""]
    for number, line in enumerate(lines):
        yield (" " * len(columns) if number else columns) + line.replace("\N{NO-BREAK SPACE}", " ")


def _stays(session: Session, kept: Kept, full: Kept) -> str:
    """What the shortest version keeps."""
    parts = [
        name if sets == whole else f"{name} {sets} of {whole}"
        for (name, _), sets, whole in zip(_named(session), kept, full, strict=True)
        if sets
    ]
    return f"keeps {', '.join(parts)}" if parts else "keeps nothing: no movement has to stay"


def _changes(session: Session, kept: Kept, before: Kept) -> str:
    """`+ Goblet squat 3 sets, + Step up to 2 sets, - Side plank`: movements that come and go, new numbers of sets."""
    parts: list[str] = []
    for (name, block), sets, earlier in zip(_named(session), kept, before, strict=True):
        if sets == earlier:
            continue
        amount = counted(sets, "set" if block.rounds is None else "round")
        to = f" to {amount}" if earlier else f" {amount}"
        parts.append(f"{'+' if sets > earlier else '-'} {name}{to if sets else ''}")
    return ", ".join(parts)


def _named(session: Session) -> list[tuple[str, Block]]:
    """The title of each entry, with that of its block where two would be called the same, and its block."""
    entries: list[tuple[Entry, Block]] = [(entry, block) for block in session.blocks for entry in block.entries]
    count = Counter(entry.movement.title for entry, _ in entries)
    return [
        (f"{entry.movement.title} ({block.title})" if count[entry.movement.title] > 1 else entry.movement.title, block)
        for entry, block in entries
    ]
