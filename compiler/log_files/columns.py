"""The columns of a log as a table: what each is called, in which unit, and where it stands."""

from __future__ import annotations

import re
from collections.abc import Callable
from operator import itemgetter

import attrs

from ..quantity import UNITS

# Of the session, on its first row or on each of its rows.
DATE, SESSION, SHORT, MINUTES, RPE, NOTE = "date", "session", "short", "minutes", "rpe", "note"
# Of a movement. `asked` is for people: what stands there is not read.
MOVEMENT, ASKED, LOAD, RUNG, LOWER, PAUSE, CUES, RAISE, REST, EFFORT = (
    "movement", "asked", "load", "rung", "lower", "pause", "cues", "raise", "rest", "effort",
)  # fmt: skip
UNIT, SET, DISTANCE, TIME = "unit", "set", "distance", "time"

OF_SESSION = (SHORT, MINUTES, RPE, NOTE)
OF_STATE = (UNIT, LOAD, RUNG, LOWER, PAUSE, CUES, RAISE, REST, EFFORT)
KNOWN = (DATE, SESSION, *OF_SESSION, MOVEMENT, ASKED, *OF_STATE, DISTANCE, TIME)
PRINTED = (SESSION, MOVEMENT, ASKED, UNIT)  # what stands in a blank log already
_NUMBERED = re.compile(r"set *(\d{1,3})")


@attrs.frozen
class Columns:
    """Where each column stands, counted from 0, and the unit that its header says; the sets in the order of their numbers."""

    at: dict[str, int]
    units: dict[str, str]
    sets: tuple[int, ...]
    strange: tuple[int, ...]  # what no column of ours is called
    again: tuple[int, ...]  # what was there before

    @property
    def width(self) -> int:
        return max((*self.at.values(), *self.sets), default=-1) + 1

    @property
    def states(self) -> tuple[str, ...]:
        """The columns that say how a movement was done, as far as they are there."""
        return tuple(name for name in OF_STATE if name in self.at)

    @property
    def figures(self) -> tuple[tuple[str, int], ...]:
        """The columns of figures and their places: the sets, then distance and time, as far as they are there."""
        return tuple((SET, place) for place in self.sets) + tuple(
            (name, self.at[name]) for name in (DISTANCE, TIME) if name in self.at
        )


def picker(places: list[int]) -> Callable[[list[str]], tuple[str, ...]]:
    """A function from the cells of a row to those at some places."""
    if len(places) > 1:
        return itemgetter(*places)
    return lambda cells: tuple(cells[place] for place in places)


def read_columns(headers: list[str]) -> Columns:
    """The columns of a header row."""
    at: dict[str, int] = {}
    units: dict[str, str] = {}
    sets: dict[int, int] = {}
    strange: list[int] = []
    again: list[int] = []
    for place, header in enumerate(headers):
        words = re.sub(r"[()\[\],:]", " ", header.lower()).split()
        unit = words.pop() if len(words) > 1 and words[-1] in UNITS else ""
        numbered = _NUMBERED.fullmatch(" ".join(words))
        name = " ".join(words)
        if not words:
            continue
        if numbered is not None and int(numbered[1]) not in sets:
            sets[int(numbered[1])] = place
            units[SET] = unit or units.get(SET, "")
        elif numbered is not None or name in at:
            again.append(place)
        elif name not in KNOWN:
            strange.append(place)
        else:
            at[name], units[name] = place, unit
    return Columns(at, units, tuple(sets[number] for number in sorted(sets)), tuple(strange), tuple(again))
