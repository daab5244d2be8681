"""What a shorter version of a session tells: what stays, what was cut, and why."""

from __future__ import annotations

from fractions import Fraction

import attrs

from ...compiler import clock
from ...compiler.clock import Timetable
from ...compiler.model import Program
from ...compiler.remembering import remembered
from ...compiler.trim import Cut, Version
from .. import telling, words
from ..plan import PlannedSession, planned_session


@attrs.frozen
class CutLine:
    title: str
    what: str
    why: str
    saves: str


@attrs.frozen
class ShortSheet:
    limit: str
    by: str
    complete: str
    planned: int
    whole: int
    plan: PlannedSession
    cuts: tuple[CutLine, ...]


@remembered(8)  # page and paper tell the same
def short_sheet(program: Program, version: Version) -> ShortSheet:
    """The shorter version of a session."""
    timetable = clock.timetable(program, version.session, version.kept)
    return ShortSheet(
        telling.duration(version.limit),
        words.SHORT_BY[version.by],
        _complete(program, timetable),
        telling.whole_minutes(version.seconds),
        telling.whole_minutes(version.full_seconds),
        planned_session(program, timetable),
        tuple(_cut(cut) for cut in version.cuts),
    )


def _complete(program: Program, timetable: Timetable) -> str:
    """That no required category is missing; "" where none is required of the session, or one is missing all the same."""
    kept = [
        timed.entry.movement
        for part in timetable.blocks
        if part.block.kind in {"work", "conditioning"}
        for timed in part.entries
        if timed.kept
    ]
    required = [category for category in program.categories if category.required]
    complete = all(any(map(category.holds, kept)) for category in required)
    return words.complete([category.title for category in required]) if required and complete else ""


def _cut(cut: Cut) -> CutLine:
    why = words.CUT_REASONS[cut.reason]
    if cut.lacking > 0:
        why += f" {words.over_the_limit(_about(cut.lacking))}"
    what = words.kept_of(cut.kept, cut.full, cut.reason == "rounds") if cut.kept else words.WHOLE_MOVEMENT
    return CutLine(cut.entry.movement.title, what, why, _about(cut.seconds_saved))


def _about(seconds: Fraction) -> str:
    """A time to half a minute: nobody saves seconds."""
    halves = round(seconds / 30)
    return telling.duration(Fraction(halves * 30)) if halves else words.UNDER_HALF_A_MINUTE
