"""The picture of a session over its weeks: a lane for each movement, and the minutes below. Lengths in points.

A lane is a line as long as its rule lives, with a bead for each week in which an axis moved, and the letter of that axis
in it. At its end stands a block; from there on the line is thin. Shapes and letters tell everything; no colour does.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate
from textwrap import wrap

import attrs

from .. import words
from ..horizon_table import Cell, Row, SessionTable

WIDTH = 514  # of a page
NAME = 124
GAP = 14
LANE = 17
TWO_LINES = 25
HEAD = 30.0
ABOVE_BARS = 12
BARS = 48
TALL = 12  # of a bar that a figure fits into
FIGURE = 5.3  # how wide a figure is
WIDEST_PITCH = 30
NARROWEST_BEAD = 12  # a narrower pitch leaves no room for frames, nor for two runs side by side
WIDEST_BEAD = 13
LONGEST = 52  # weeks in a panel
NAME_SIGNS = 22


@attrs.frozen
class Bead:
    x: float
    y: float
    shape: str  # "up", "down", "more", "end"
    letter: str


@attrs.frozen
class Line:
    x: float
    to: float
    y: float
    ended: bool


@attrs.frozen
class Bar:
    x: float
    y: float
    height: float
    over: float  # how much of it is over the limit
    label: str
    inside: bool  # whether the label fits into the bar


@attrs.frozen
class Panel:
    """A stretch of weeks of a run: `numbers` above, `shades` behind easier weeks, `limit` as a height or None."""

    title: str
    x: float
    width: float
    pitch: float
    bead: float
    framed: bool  # whether there is room for a frame around a letter
    numbers: tuple[tuple[float, str], ...]
    shades: tuple[float, ...]
    lines: tuple[Line, ...]
    beads: tuple[Bead, ...]
    bars: tuple[Bar, ...]
    limit: float | None


@attrs.frozen
class Name:
    y: float
    lines: tuple[str, ...]


@attrs.frozen
class Picture:
    """A picture and what is read out in its place."""

    key: str
    title: str
    description: str
    height: float
    bottom: float  # where the bars stand
    minutes: str
    names: tuple[Name, ...]
    panels: tuple[Panel, ...]


def pictures(key: str, runs: Sequence[tuple[str, SessionTable]], easier: frozenset[int]) -> tuple[Picture, ...]:
    """The runs of a session side by side where they fit, else one below the other, long ones in stretches."""
    weeks = len(runs[0][1].minutes)
    room = (WIDTH - NAME - GAP * (len(runs) - 1)) / len(runs)
    if weeks <= room / NARROWEST_BEAD:
        return (_picture(key, [(title, table, range(weeks)) for title, table in runs], room, easier),)
    parts = [
        (title, table, range(first, min(first + LONGEST, weeks)))
        for title, table in runs
        for first in range(0, weeks, LONGEST)
    ]
    return tuple(_picture(f"{key}-{place}", [part], WIDTH - NAME, easier) for place, part in enumerate(parts, start=1))


@attrs.frozen
class _Frame:
    """Where the weeks of a panel stand, and how tall a minute is."""

    weeks: range
    x: float
    pitch: float
    bottom: float
    minute: float

    def at(self, week: int) -> float:
        """The middle of a week, counted from 0."""
        return self.x + (week - self.weeks.start + 0.5) * self.pitch

    @property
    def right(self) -> float:
        return self.x + self.pitch * len(self.weeks)


def _picture(
    key: str, parts: Sequence[tuple[str, SessionTable, range]], room: float, easier: frozenset[int]
) -> Picture:
    table = parts[0][1]
    titles = [tuple(wrap(row.title, NAME_SIGNS, max_lines=2, placeholder="…")) or ("",) for row in table.rows]
    heights = [LANE if len(lines) == 1 else TWO_LINES for lines in titles]
    tops = list(accumulate(heights, initial=HEAD))
    middles = [top + height / 2 for top, height in zip(tops, heights, strict=False)]
    bottom = tops[-1] + ABOVE_BARS + BARS
    minute = BARS / max(1, table.limit_minutes or 0, *(max(one.minutes) for _, one, _ in parts))
    panels = []
    for place, (title, one, weeks) in enumerate(parts):
        pitch = min(room / len(weeks), WIDEST_PITCH)
        frame = _Frame(weeks, NAME + place * (room + GAP), pitch, bottom, minute)
        panels.append(_panel(title, one, frame, middles, easier))
    return Picture(
        key,
        words.picture_title(table.title),
        " ".join(sentence for title, one, weeks in parts for sentence in _described(title, one, weeks)),
        bottom + 8,
        bottom,
        words.minutes_of(table.limit),
        tuple(Name(middle, lines) for middle, lines in zip(middles, titles, strict=True)),
        tuple(panels),
    )


def _panel(title: str, table: SessionTable, frame: _Frame, middles: Sequence[float], easier: frozenset[int]) -> Panel:
    weeks, limit = frame.weeks, table.limit_minutes
    every = 1 if frame.pitch >= FIGURE * 2 + 3 else 5
    rows = list(zip(table.rows, middles, strict=True))
    return Panel(
        title,
        frame.x,
        frame.right - frame.x,
        frame.pitch,
        min(frame.pitch - 0.6, WIDEST_BEAD) if frame.pitch >= NARROWEST_BEAD else frame.pitch,
        frame.pitch >= NARROWEST_BEAD,
        tuple((frame.at(week), str(week + 1)) for week in weeks if (week + 1) % every == 0 or week == weeks[0]),
        tuple(frame.at(week) - frame.pitch / 2 for week in weeks if week + 1 in easier),
        tuple(line for row, y in rows for line in _lines(row, y, frame)),
        tuple(bead for row, y in rows for bead in _beads(row, y, frame)),
        tuple(_bars(table, frame)),
        frame.bottom - frame.minute * limit if limit is not None else None,
    )


def _lines(row: Row, y: float, frame: _Frame) -> Iterator[Line]:
    """A line while the rule lives, a thin one from its end on; none for a movement that only an easier week changes."""
    if not any(cell.axis or cell.ends for cell in row.cells):
        return
    end = next((week for week, cell in enumerate(row.cells) if cell.ends), frame.weeks.stop)
    turn = min(max(frame.x + (end + 1 - frame.weeks.start) * frame.pitch, frame.x), frame.right)
    if turn > frame.x:
        yield Line(frame.x, turn, y, False)
    if turn < frame.right:
        yield Line(turn, frame.right, y, True)


def _beads(row: Row, y: float, frame: _Frame) -> Iterator[Bead]:
    for week in frame.weeks:
        cell = row.cells[week]
        if cell.kind in ("up", "down", "more"):
            yield Bead(frame.at(week), y, cell.kind, _letter(cell))
        if cell.ends:
            yield Bead(frame.at(week), y, "end", "")


def _letter(cell: Cell) -> str:
    letter = words.AXIS_SIGNS.get(cell.axis) or words.SIGNS["more"]
    return letter.lower() if cell.kind == "down" else letter


def _bars(table: SessionTable, frame: _Frame) -> Iterator[Bar]:
    """A bar for each week; its minutes are written where there is room, else where they are the first or the most."""
    weeks = frame.weeks
    most = max(weeks, key=lambda week: table.minutes[week])
    for week in weeks:
        minutes = table.minutes[week]
        fits = frame.pitch >= FIGURE * len(str(minutes)) + 3
        told = fits or week in (weeks[0], most)
        over = week + 1 in table.over
        limit = table.limit_minutes if table.limit_minutes is not None else minutes
        # A minute begun counts as one: only what is over its limit may stand above the line.
        height = frame.minute * (minutes if over else min(minutes, limit))
        more = height - frame.minute * limit if over else 0
        yield Bar(
            frame.at(week), frame.bottom - height, height, more, str(minutes) if told else "", fits and height > TALL
        )


def _described(title: str, table: SessionTable, weeks: range) -> Iterator[str]:
    """The picture in sentences; figure by figure it is in the tables."""
    yield f"{title}, {words.weeks_from_to(weeks.start + 1, weeks.stop)}."
    for row in table.rows:
        moved = sum(row.cells[week].kind == "up" for week in weeks)
        end = next((week + 1 for week, cell in enumerate(row.cells) if cell.ends), None)
        yield words.lane_described(row.title, moved, end)
    here = [table.minutes[week] for week in weeks]
    yield words.bars_described(here[0], max(here), sum(week + 1 in table.over for week in weeks))
