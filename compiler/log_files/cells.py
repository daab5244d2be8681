"""What a cell says: dates, loads, times and figures, as people type them. None where a text says nothing of the kind.

A comma is a decimal point, a unit may be left out where the column or the movement says which it is.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from functools import lru_cache

from ..quantity import UNITS, Quantity, read_quantity

_FIGURE = re.compile(r"(\d{1,9})(?:[.,](\d{1,9}))? *([a-z%]*)\.?")
_CLOCK = re.compile(r"(?:(\d{1,3}):)?(\d{1,3}):(\d\d)")
_DAY = re.compile(r"(\d{4})-(\d\d?)-(\d\d?)(?:[T ]00:00(?::00)?)?")
_OTHER_DAY = re.compile(r"(\d\d?)([./-]) ?(\d\d?)\2 ?(\d{4})\.?")
_UNIT_WORDS = {"lbs": "lb", "sec": "s", "secs": "s", "mins": "min", "hours": "h", "metres": "m", "kgs": "kg"}
REPS = "reps"
NOTHING = frozenset(("", "-", "–", "—", "__"))  # how an empty cell is written


def days(text: str) -> tuple[date, ...]:
    """All days that a text may mean: of `05/06/2026` the fifth of June, and the sixth of May."""
    try:
        return (date.fromisoformat(text),)
    except ValueError:  # not the short way
        match = _DAY.fullmatch(text)
    if match is not None:
        return _days((match[1], match[2], match[3]))
    match = _OTHER_DAY.fullmatch(text)
    if match is None:
        return ()
    return _days((match[4], match[3], match[1]), (match[4], match[1], match[3]))


def _days(*orders: tuple[str, str, str]) -> tuple[date, ...]:
    found: dict[date, None] = {}
    for order in orders:
        try:
            found[date(*map(int, order))] = None
        except ValueError:  # in no calendar
            continue
    return tuple(found)


def quantity(text: str, dimension: str, unit: str) -> Quantity | None:
    """An amount of a dimension; a plain number is in the unit."""
    figure = result(text, unit)
    return figure if isinstance(figure, Quantity) and figure.dimension == dimension else None


@lru_cache(maxsize=4096)
def result(text: str, unit: str) -> int | Quantity | None:
    """The figure of a set: a count, or an amount. A plain number is in the unit, or is a count where that is none."""
    clock = _CLOCK.fullmatch(text)
    if clock is not None:
        hours, minutes, seconds = (int(part or 0) for part in clock.groups())
        return read_quantity(f"{(hours * 60 + minutes) * 60 + seconds} s")
    match = _FIGURE.fullmatch(text.lower())
    if match is None:
        return None
    whole, part, written = match.groups()
    said = _UNIT_WORDS.get(written, written) or unit
    if said in ("", REPS, "rep", "x"):
        return int(whole) if part is None or not part.strip("0") else None
    if said not in UNITS:
        return None
    figure = whole if part is None else f"{whole}.{part}"
    return read_quantity(f"{figure} {said}")


def count(text: str) -> int | None:
    """A whole number, with or without the word `cues` behind it."""
    figure = result(text.lower().removesuffix("cues").strip(), "")
    return figure if isinstance(figure, int) else None


@lru_cache(maxsize=1024)
def minutes(text: str, unit: str) -> Quantity | None:
    """How long a session took. By the clock it could be hours and minutes as well as minutes and seconds: None."""
    return quantity(text, "time", unit) if ":" not in text else None


@lru_cache(maxsize=1024)
def effort(text: str) -> str | None:
    """A number on the scale of effort, as it is written with a decimal point."""
    match = _FIGURE.fullmatch(text.lower().removeprefix("rpe").strip())
    if match is None or match[3]:
        return None
    return match[1] if match[2] is None else f"{match[1]}.{match[2]}"


def name(text: str) -> str:
    """A title as a name: `Goblet squat` as `goblet-squat`."""
    return "-".join(text.lower().split())


def by_name(titles: Mapping[str, str]) -> dict[str, str]:
    """Names by how people may write them: the name, or its title."""
    return {**{name(title): one for one, title in titles.items()}, **{one: one for one in titles}}
