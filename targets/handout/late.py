"""What an athlete who runs late is told: the cuts in their order, and from which minute each is needed."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import groupby, pairwise

import attrs

from ...compiler.cut_list import CutList, Less, Pace, cut_list
from ...compiler.model import Entry, Program, Session
from .. import words


@attrs.frozen
class CutRow:
    number: int
    what: str
    saves: str
    together: str


@attrs.frozen
class PaceRow:
    """A block: its planned minute, the minute of each cut ("–" where its work is done), and the last."""

    minute: int
    title: str
    cuts: tuple[str, ...]
    last: int


@attrs.frozen
class Late:
    """The cut list of a session; the texts about minutes are "" and the pace is empty where it has no limit."""

    order: str
    cuts: tuple[CutRow, ...]
    reading: str
    pace: tuple[PaceRow, ...]
    last: str

    @property
    def hours(self) -> bool:
        """Whether minutes have three figures, which need more room."""
        return any(row.last > 99 for row in self.pace)


def late(program: Program, session: Session) -> Late | None:
    """What to leave out of a session; None for one of a single movement that cannot be cut."""
    found = cut_list(program, session)
    stop = None if session.within is None else session.within.base // 60
    if not found.steps:
        return Late(words.nothing_to_cut(stop), (), "", (), "") if len(session.entries) > 1 else None
    pace = tuple(_pace_row(each) for each in found.pace)
    return Late(
        words.cut_order(bool(session.shorts)),
        tuple(_cut_rows(found)),
        " ".join(filter(None, (words.READ_PACE, _example(pace)))) if pace else "",
        pace,
        words.too_late(stop) if stop is not None else "",
    )


def _cut_rows(found: CutList) -> Iterator[CutRow]:
    """The cuts, times to half a minute: together never more than they save, and each what it adds to that."""
    halves = [0, *(step.together // 30 for step in found.steps)]
    for number, (step, (before, after)) in enumerate(zip(found.steps, pairwise(halves), strict=True), start=1):
        yield CutRow(
            number, _what(found.session, step.less), words.half_minutes(after - before), words.half_minutes(after)
        )


def _what(session: Session, less: tuple[Less, ...]) -> str:
    """What is less, told once for all movements that keep as many sets."""
    told = []
    for (circuit, kept), alike in groupby(less, key=lambda each: (each.entry is None, each.kept)):
        names = [each.block.title if each.entry is None else _name(session, each, each.entry) for each in alike]
        told.append(words.only_rounds(names, kept) if circuit else words.only_sets(names, kept))
    return " ".join(told)


def _name(session: Session, less: Less, entry: Entry) -> str:
    """The title of a movement, told apart from the same one elsewhere in the session."""
    title = entry.movement.title
    blocks = [number for number, block in enumerate(session.blocks) for _ in block.entries]
    same = [index for index, other in enumerate(session.entries) if other.movement.title == title]
    here = [index for index in same if blocks[index] == blocks[less.index]]
    if len(same) == 1:
        return title
    return words.same_movement(title, less.block.title, here.index(less.index) + 1 if len(here) > 1 else None)


def _pace_row(pace: Pace) -> PaceRow:
    cuts = tuple(words.NO_CUT if until is None else str(_minute(until)) for until in pace.until)
    return PaceRow(_minute(pace.start), pace.block.title, cuts, _minute(pace.last))


def _minute(seconds: Fraction) -> int:
    """Rounded down, so that no late start looks earlier than it is."""
    return max(seconds // 60, 0)


def _example(pace: tuple[PaceRow, ...]) -> str:
    """How the row of a block is read, with the first block after the beginning that still has several cuts."""
    for row in (*pace[1:], *pace[:1]):
        minutes = [(number, int(text)) for number, text in enumerate(row.cuts, start=1) if text != words.NO_CUT]
        if len(minutes) > 2:
            begun = minutes[1][1] + 1
            return words.pace_example(row.title, begun, [number for number, minute in minutes if minute < begun])
    return ""
