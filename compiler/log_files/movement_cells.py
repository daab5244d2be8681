"""The cells of a movement: which it is, how it was done, and the figures of its sets.

A log says the same few things again and again, so whatever cells say together is worked out once and kept.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import Any

import attrs

from ...grammar.diagnostic import Check, nearest, or_list
from .. import model
from ..checks.log_files import CELL_UNREADABLE, NAME_UNKNOWN
from ..quantity import Quantity
from . import cells
from .columns import (
    CUES,
    DISTANCE,
    EFFORT,
    LOAD,
    LOWER,
    MOVEMENT,
    PAUSE,
    RAISE,
    REST,
    RUNG,
    SET,
    UNIT,
    Columns,
)  # fmt: skip

Figures = tuple[int | Quantity, ...]
Problem = tuple[
    str | int, Check, dict[str, Any]
]  # the column, by its name or place; what is wrong there, and the facts


@attrs.frozen
class State:
    """What the cells of a movement but its figures say: the movement, None where it is unknown, and how it was done."""

    movement: str | None
    entry: Callable[..., model.LoggedEntry]  # of the figures and the span
    empty: bool
    units: tuple[str, ...]  # of its figures: of the sets, then of distance and time
    of_set: Callable[
        [str], int | Quantity
    ]  # the figure that a text says in a set; KeyError where it was not read before
    known: tuple[dict[str, int | Quantity], ...]  # what the texts of its figures say, as far as they were read before
    problems: tuple[Problem, ...]


class MovementCells:
    """What the cells of movements say in the log of a program."""

    def __init__(self, columns: Columns, program: model.Program) -> None:
        self.columns, self.program = columns, program
        self._known: dict[str, dict[str, int | Quantity]] = {}
        self._movements: dict[str, model.Movement] = {}
        self._doses: dict[tuple[str, str], model.Dose] = {}
        for session in program.sessions:
            for entry in session.entries:
                asked: tuple[model.Entry | model.Alternative, ...] = (entry, *entry.otherwise)
                for one in asked:
                    self._movements.setdefault(one.movement.name, one.movement)
                    self._doses.setdefault((session.name, one.movement.name), one.dose)
                    self._doses.setdefault(("", one.movement.name), one.dose)  # what is done along with another session
        self._names = cells.by_name({one.name: one.title for one in self._movements.values()})

    def state(self, session: str, texts: tuple[str, ...]) -> State:
        """What the cells of a movement say, without its figures: of its name, and of how it was done."""
        named = texts[0].strip()
        name = self._names.get(cells.name(named), "")
        movement = self._movements.get(name)
        texts_said = zip(self.columns.states, (text.strip() for text in texts[1:]), strict=True)
        said = {column: text for column, text in texts_said if text not in cells.NOTHING}
        dose = self._doses.get((session, name)) or self._doses.get(("", name))
        unit = (
            said.pop(UNIT, "").lower() or self.columns.units.get(SET, "") or (unit_of(dose) if dose is not None else "")
        )
        problems: list[Problem] = []
        if movement is None and named and not self.program.damaged:
            near = nearest(cells.name(named), self._names)
            help = f"Did you mean {or_list(near)}?" if near else "Write its name as it stands in the program."
            problems.append(
                (MOVEMENT, NAME_UNKNOWN, _unknown("movement in this program", named, help, "its row is left out"))
            )
        band = _band(said, movement)
        done = self._done(said, movement, problems)
        units = tuple(self._units(unit))
        known = tuple(self._known.setdefault(one, {}) for one in units)
        of_set = self._known.setdefault(unit, {}).__getitem__
        with_band: Callable[..., model.LoggedEntry] = partial(model.LoggedEntry, band=band)
        entry = partial(with_band, name, *done)
        return State(name or None, entry, not said, units, of_set, known, tuple(problems))

    def _units(self, of_sets: str) -> Iterator[str]:
        """The unit of a plain number in each column of figures."""
        far = "km" if self.program.units == "kg" else "mi"
        for column, _ in self.columns.figures:
            said = self.columns.units.get(column)
            yield of_sets if column == SET else said or (far if column == DISTANCE else "min")

    def _done(
        self, said: Mapping[str, str], movement: model.Movement | None, problems: list[Problem]
    ) -> tuple[Any, ...]:
        """Load, rung, tempo, effort and rest, as far as they can be read."""
        units = self.columns.units

        def read(column: str, how: Callable[[str], Any], what: str, example: str) -> Any:
            value = how(said[column]) if column in said else None
            if value is None and column in said:
                problems.append((column, CELL_UNREADABLE, {"found": said[column], "what": what, "example": example}))
            return value

        def time(column: str) -> Any:
            unit = units.get(column) or "s"
            return read(column, lambda cell: cells.quantity(cell, "time", unit), "a time in seconds", "`3`")

        load_unit = units.get(LOAD) or self.program.units
        tempo = model.Tempo(
            lower=time(LOWER),
            pause=time(PAUSE),
            cues=read(CUES, cells.count, "a number of cues", "`2`"),
            up="fast" if said.get(RAISE, "").lower() == "fast" else time(RAISE),
        )
        return (
            read(LOAD, lambda cell: cells.quantity(cell, "mass", load_unit), "a load", f"`12 {load_unit}`"),
            self._rung(said.get(RUNG), movement, problems),
            tempo,
            read(EFFORT, cells.effort, "an effort from 0 to 10", "`7`"),
            time(REST),
        )

    def _rung(self, written: str | None, movement: model.Movement | None, problems: list[Problem]) -> str | None:
        if written is None or movement is None:
            return None
        rungs = [rung.name for rung in movement.rungs]
        if cells.name(written) in rungs:
            return cells.name(written)
        near = f"Write {or_list(nearest(cells.name(written), rungs) or rungs)}." if rungs else "It has none."
        facts = _unknown(f"rung of {movement.name}", written, near, "the rung is left out")
        problems.append((RUNG, NAME_UNKNOWN, facts))
        return None

    def figures(self, state: State, texts: tuple[str, ...]) -> tuple[Figures, tuple[Problem, ...]]:
        """The figures of the sets of a movement, then its distance and its time, and what is wrong with them."""
        figures: list[int | Quantity] = []
        problems: list[Problem] = []
        for (_, place), unit, known, text in zip(self.columns.figures, state.units, state.known, texts, strict=True):
            written = text.strip()
            if written in cells.NOTHING:
                continue
            figure = cells.result(written, unit)
            if figure is None:
                problems.append((place, CELL_UNREADABLE, _no_figure(written, unit)))
            else:
                figures.append(figure)
                known[text] = figure
        return tuple(figures), tuple(problems)


def _band(said: dict[str, str], movement: model.Movement | None) -> str | None:
    """The band that stands in the cell of the load, which is then taken out; None where that tells a weight, or nothing."""
    banded = movement is not None and "band" in movement.loaded_by
    if LOAD not in said or not banded or cells.quantity(said[LOAD], "mass", "kg") is not None:
        return None
    return said.pop(LOAD).strip('"')


def unit_of(dose: model.Dose) -> str:
    """The unit in which the sets of a dose are told."""
    match dose.sets[0].target if dose.sets else None:
        case model.Timed(time=time):
            return time.unit
        case model.Distance(length=length):
            return length.unit
        case _:
            return cells.REPS


def _unknown(kind: str, found: str, near: str, left_out: str) -> dict[str, Any]:
    return {"kind": kind, "found": found, "near": near, "left_out": left_out}


def _no_figure(found: str, unit: str) -> dict[str, Any]:
    example = "a whole number, such as `8`" if unit in ("", cells.REPS) else f"`20 {unit}`"
    return {"found": found, "what": "the figure of a set", "example": example}
