"""A horizon as a table for the coach: what each movement asks for in each week, in as few signs as can be read.

The words are those of the language, short forms of what the coach wrote: `3 x 8, 10 kg`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import compress
from math import ceil
from typing import Literal

import attrs

from ..compiler.clock import full_sets
from ..compiler.course import pace_time
from ..compiler.easier import Changes, changes_in, eased_block
from ..compiler.fitting import Fitting
from ..compiler.forward import Stage
from ..compiler.horizon import Ahead, Horizon, Outlook, SessionAhead
from ..compiler.model import Amrap, Block, Distance, Dose, Reps, Target, Timed, WorkSet
from ..compiler.quantity import Quantity, decimal_text
from . import telling, words

# up, down: an axis took a step or was eased; more: an `amrap` set expects more; done: the rule is exhausted.
Kind = Literal["up", "down", "more", "still", "easier", "done"]


@attrs.frozen
class Cell:
    """A movement in a week: what its last session asks for, part by part, and what moved in that week, by axis.

    Of several axes the furthest in the rule is told: the others are only its way there. `ends` marks the week in which
    the rule is exhausted.
    """

    parts: tuple[str, ...]
    kind: Kind
    axis: str = ""
    ends: bool = False

    @property
    def unknown(self) -> bool:
        """Whether something moves of which no figure is known."""
        return any(part[0] in "+-" for part in self.parts)

    @property
    def dose(self) -> str:
        """All that is asked for."""
        return ", ".join(self.parts)

    def since(self, before: Cell) -> str:
        """What is asked for otherwise than before, "" where nothing is; what moves unknown moves anew each time."""
        return ", ".join(part for part in self.parts if part not in before.parts or part[0] in "+-")


@attrs.frozen
class Row:
    title: str
    cells: tuple[Cell, ...]

    @property
    def changes(self) -> bool:
        """Whether anything is told of it that is not told by its first week."""
        return any(cell.axis or cell.ends or cell.parts != self.cells[0].parts for cell in self.cells)


@attrs.frozen
class SessionTable:
    """A session over the weeks: its movements, its minutes in each, rounded up, and the weeks in which it is over its limit."""

    title: str
    often: str
    limit: str
    limit_minutes: float | None
    rows: tuple[Row, ...]
    minutes: tuple[int, ...]
    over: frozenset[int]


@attrs.frozen
class TwoRuns:
    """A session in both runs, only with the movements of which anything changes in one of them; the others by their dose."""

    good: SessionTable
    missed: SessionTable
    still: tuple[tuple[str, str], ...]

    @property
    def alike(self) -> bool:
        """Whether it comes to the same with sessions missed."""
        return self.good == self.missed


def two_runs(outlook: Outlook) -> tuple[TwoRuns, ...]:
    """The sessions of an outlook in their order."""
    pairs = zip(session_tables(outlook.good), session_tables(outlook.missed), strict=True)
    return tuple(_two_runs(*pair) for pair in pairs)


def _two_runs(good: SessionTable, missed: SessionTable) -> TwoRuns:
    moving = [one.changes or other.changes for one, other in zip(good.rows, missed.rows, strict=True)]
    still = tuple((row.title, row.cells[0].dose) for row, moves in zip(good.rows, moving, strict=True) if not moves)
    return TwoRuns(
        attrs.evolve(good, rows=tuple(compress(good.rows, moving))),
        attrs.evolve(missed, rows=tuple(compress(missed.rows, moving))),
        still,
    )


def session_tables(horizon: Horizon) -> tuple[SessionTable, ...]:
    """The sessions of a horizon in their order."""
    changes = [changes_in(horizon.program, week) for week in range(1, horizon.weeks + 1)]
    return tuple(_session(horizon, ahead, changes) for ahead in horizon.sessions)


def shown_weeks(table: SessionTable, most: int, some: int | None = None) -> tuple[int, ...]:
    """The weeks that are otherwise than the one before, from the first on; where they are more than `most`, `some` of them."""
    changing = [
        week
        for week in range(1, len(table.minutes) + 1)
        if week == 1 or _told_in(table, week) != _told_in(table, week - 1)
    ]
    if len(changing) <= most:
        return tuple(changing)
    every = -(-len(changing) // ((some or most) - 1))
    return tuple(sorted({*changing[::every], changing[-1]}))


def _told_in(table: SessionTable, week: int) -> tuple[object, ...]:
    """What a table tells of a week."""
    return (table.minutes[week - 1], *((row.cells[week - 1].parts, row.cells[week - 1].ends) for row in table.rows))


def signs_told(tables: Iterable[SessionTable]) -> tuple[str, ...]:
    """What the signs mean that stand in tables."""
    return words.signs_explained(*_found(tables))


def drawn_told(tables: Iterable[SessionTable]) -> tuple[str, ...]:
    """What the shapes and letters mean that stand in pictures of tables."""
    return words.picture_explained(*_found(tables))


def _found(tables: Iterable[SessionTable]) -> tuple[list[str], set[str]]:
    """The axes and the kinds of weeks that there are in tables."""
    cells = [cell for table in tables for row in table.rows for cell in row.cells]
    axes = {cell.axis for cell in cells}
    kinds: set[str] = {cell.kind for cell in cells} | {"ends" for cell in cells if cell.ends}
    return [axis for axis in words.AXIS_SIGNS if axis in axes], kinds


def cells_told(tables: Iterable[SessionTable]) -> str:
    """How the cells of tables are read."""
    unknown = any(cell.unknown for table in tables for row in table.rows for cell in row.cells)
    return words.CELLS_EXPLAINED + (f" {words.UNKNOWN_EXPLAINED}" if unknown else "")


def done_otherwise(fitting: Fitting | None) -> str:
    """What an athlete does in place of other movements, and what is left out; "" where all is done as it is written."""
    if fitting is None:
        return ""
    changed = [
        one for one in fitting.choices if one.chosen is None or one.chosen.movement.name != one.written.movement.name
    ]
    instead = [(one.written.movement.title, one.chosen.movement.title) for one in changed if one.chosen is not None]
    left = [one.written.movement.title for one in changed if one.chosen is None]
    return words.done_otherwise(fitting.athlete.title, list(dict.fromkeys(instead)), list(dict.fromkeys(left)))


def sign(cell: Cell) -> str:
    """One sign of what moved in a week."""
    letter = words.AXIS_SIGNS.get(cell.axis, "")
    signs = {"up": letter, "down": letter.lower()}
    return words.ENDS_HERE if cell.ends else signs.get(cell.kind) or words.SIGNS[cell.kind]


def told_load(load: Quantity) -> str:
    """A load to two places: what the scale tells."""
    return f"{decimal_text(load.amount, 2)}{'' if load.unit == '%' else ' '}{load.unit}"


def _session(horizon: Horizon, ahead: SessionAhead, changes: Sequence[Changes]) -> SessionTable:
    session, limit = ahead.session, ahead.session.within
    rows = [row for row in horizon.rows if row.session is session]
    titles = Counter(row.entry.movement.title for row in rows)
    return SessionTable(
        session.title,
        telling.frequency(session),
        str(limit) if limit is not None else "",
        float(limit.base / 60) if limit is not None else None,
        tuple(_row(row, changes, titles[row.entry.movement.title] > 1, horizon.easier) for row in rows),
        tuple(ceil(seconds / 60) for seconds in ahead.seconds),
        frozenset(
            week for week, seconds in enumerate(ahead.seconds, start=1) if limit is not None and seconds > limit.base
        ),
    )


def _row(row: Ahead, changes: Sequence[Changes], several: bool, easier: frozenset[int]) -> Row:
    side = words.EACH_SIDE if row.entry.dose.each_side else ""
    title = ", ".join(filter(None, (row.entry.movement.title, row.block.title if several else "", side)))
    cells: list[Cell] = []
    ended = False
    for week, (stage, steps, change) in enumerate(zip(row.stages, row.steps, changes, strict=True), start=1):
        dose = _dose(row, stage, change)
        axis = max(steps, key=lambda step: _place(row, step), default="")
        kind: Kind = "done" if ended else "still"
        if week in easier:
            kind = "easier"
        elif axis:
            kind = "down" if axis.startswith("-") else "up"
        elif (
            not ended
            and cells
            and cells[-1].kind != "easier"
            and stage != row.stages[week - 2]
            and not row.steps[week - 2]
        ):
            kind = "more"
        ends = row.exhausted is not None and row.exhausted[0] == week
        ended = ended or ends
        axis = axis.lstrip("-")
        cells.append(Cell((*dose, *_unknown(row, kind, axis)), kind, axis, ends))
    return Row(title, tuple(cells))


def _place(row: Ahead, step: str) -> int:
    """How far in its rule an axis stands; one that was eased is always told."""
    names = [track.name for track in row.course.tracks] if row.course is not None else []
    return len(names) if step.startswith("-") else names.index(step)


def _unknown(row: Ahead, kind: Kind, axis: str) -> list[str]:
    """What moves without a figure: heavier than nobody knows what, or by nobody knows how much."""
    if kind not in ("up", "down") or row.course is None:
        return []
    track = next(track for track in row.course.tracks if track.name == axis)
    by_what = axis == "load" and row.course.loads is None and track.step is None
    return [f"{'+' if kind == 'up' else '-'}{axis}"] if track.start is None or by_what else []


def _lost(row: Ahead, stage: Stage) -> bool:
    """Whether the load of a stage is no longer known: it is heavier than the dose says."""
    if row.course is None or stage.standing is None:
        return False
    both = zip(row.course.tracks, stage.standing.figures, strict=True)
    return any(track.name == "load" and track.start is not None and figure is None for track, figure in both)


# Doses


def _dose(row: Ahead, stage: Stage, change: Changes) -> tuple[str, ...]:
    """What a stage asks for, part by part: sets, target, load, and all that its rule moves."""
    block, dose = row.block, stage.entry.dose
    eased = eased_block(block, change) if change else block
    parts = [_sets(eased, stage, dose)]
    load = dose.load or (dose.sets[0].load if dose.sets and len(set(dose.sets)) == 1 else None)
    parts += [words.over_load(told_load(load)) if _lost(row, stage) else told_load(load)] if load is not None else []
    parts += [stage.rung] if stage.rung is not None else []
    moving = {track.name for track in row.course.tracks} if row.course is not None else set()
    figures = {
        "lower": dose.tempo.lower,
        "pause": dose.tempo.pause,
        "cues": dose.tempo.cues,
        "rest": dose.rest,
        "pace": _pace(row, stage),
    }
    parts += [f"{axis} {_figure(value)}" for axis, value in figures.items() if axis in moving and value is not None]
    return tuple(filter(None, parts))


def _sets(block: Block, stage: Stage, dose: Dose) -> str:
    """`3 x 8`, or the targets one by one where they differ: `5 5 amrap`, each with its own load."""
    count = full_sets(block, stage.entry)
    if len(set(dose.sets)) == 1:
        return f"{count} x {_target(dose.sets[0].target)}"
    return " ".join(map(_unlike, dose.sets))


def _unlike(work: WorkSet) -> str:
    return _target(work.target) + (f"@{told_load(work.load).replace(' ', '')}" if work.load is not None else "")


def _target(target: Target) -> str:
    match target:
        case Reps(low=low, high=high):
            return str(low) if low == high else f"{low}-{high}"
        case Amrap(expect=expect):
            return "amrap" if expect is None else f"amrap {expect}"
        case Timed(time=time):
            return _figure(time)
        case Distance(length=length):
            return _figure(length)


def _pace(row: Ahead, stage: Stage) -> Quantity | None:
    """The time for the distance of a stage, which is no part of its dose."""
    if row.course is None or stage.standing is None:
        return None
    both = zip(row.course.tracks, stage.standing.figures, strict=True)
    figure = next((figure for track, figure in both if track.name == "pace"), None)
    return None if figure is None else pace_time(row.entry, stage.entry.dose, figure)


def _figure(value: int | Quantity) -> str:
    """A count, a time or a distance, long ones in minutes and kilometres: `45 s`, `2 min`, `31:30 min`, `2.4 km`."""
    if isinstance(value, int):
        return str(value)
    if value.unit == "s" and value.amount >= 120:
        minutes, seconds = divmod(round(value.amount), 60)
        return f"{minutes}{f':{seconds:02}' if seconds else ''} min"
    told = value.to("km") if value.unit == "m" and value.amount >= 1000 else value
    return f"{decimal_text(told.amount, 2)} {told.unit}"
