"""What a blank log holds: for each session its times in a week, and for each movement the boxes to fill in."""

from __future__ import annotations

import posixpath
from collections.abc import Iterator
from pathlib import PurePosixPath

import attrs

from ...compiler.alike import alike
from ...compiler.clock import full_sets
from ...compiler.implements import bands
from ...compiler.model import Block, Distance, Entry, Program, Rule, Session, Timed
from ...compiler.remembering import remembered
from ...grammar.source import Span
from .. import telling, words
from ..from_here import from_here
from ..plan import form
from ..taking import load_in


@attrs.frozen
class Box:
    """Room for one figure: what stands over it, how wide it is, and whether it is for a set that is added later."""

    caption: str
    kind: str  # "figure", or "wide" for a word or a longer figure
    later: bool = False


@attrs.frozen(cache_hash=True)
class LogRow:
    """A movement to log: its boxes for paper, and its line for a text log."""

    title: str
    dose: str
    form: str
    start: str
    order: str
    instead: str
    boxes: tuple[Box, ...]
    name: str
    blanks: str
    forms: str
    banded: bool
    bands: str


@attrs.frozen
class LogSession:
    name: str
    title: str
    times: tuple[str, ...]
    versions: tuple[str, ...]
    easier: tuple[str, ...]
    before: tuple[str, ...]
    after: tuple[str, ...]
    rows: tuple[LogRow, ...]
    week: int | None  # the only week in which it is held

    @property
    def has_later(self) -> bool:
        """Whether any box is for a set that is added later."""
        return any(box.later for row in self.rows for box in row.boxes)


@attrs.frozen
class LogSheet:
    program: str
    revision: int
    file: str
    uses: tuple[str, ...]
    who: str
    name: str
    begun: bool  # whether the athlete has logged sessions of it
    sessions: tuple[LogSession, ...]


@remembered(4)  # page and paper tell the same
def log_sheet(program: Program) -> LogSheet:
    """The blank log of a program, that of its athlete where it was fitted to one."""
    sessions = tuple(_session(program, session) for session in program.sessions)
    athlete = program.athlete
    file = _file(program.span if athlete is None else athlete.span)
    used = (file.name,) if athlete is None else tuple(dict.fromkeys((file.name, _beside(_file(program.span), file))))
    who, name = (athlete.title, athlete.name) if athlete is not None else ("", "")
    return LogSheet(program.name, program.revision, file.name, used, who, name, program.after is not None, sessions)


def _file(span: Span) -> PurePosixPath:
    return PurePosixPath(span.source.name.replace("\\", "/"))


def _beside(file: PurePosixPath, other: PurePosixPath) -> str:
    """The path of a file from the folder of another."""
    return posixpath.relpath(file, other.parent)


def _session(program: Program, session: Session) -> LogSession:
    """A session; of a warm-up or cool-down only that it was done is logged."""
    logged = [block for block in session.blocks if block.kind in {"work", "conditioning"}]
    shorts = tuple(words.version(words.amount(short.limit)) for short in session.shorts)
    return LogSession(
        session.name,
        session.title,
        times(session),
        (words.LOG_WHOLE, *shorts) if shorts else (),
        telling.easier_on_log(program, session),
        tuple(block.title for block in session.blocks if block.kind == "warm-up"),
        tuple(block.title for block in session.blocks if block.kind == "cool-down"),
        tuple(alike(_row, program, block, entry) for block in logged for entry in block.entries),
        session.week,
    )


def times(session: Session) -> tuple[str, ...]:
    """The columns of a week: the days of the session, or its first, second, ... time."""
    if session.days:
        return tuple(words.DAY_WORDS.get(day, day) for day in session.days)
    if session.per_week == 7:
        return tuple(words.DAY_WORDS.values())
    return tuple(words.nth_time(number) for number in range(1, (session.per_week or 1) + 1))


def _row(program: Program, block: Block, entry: Entry) -> LogRow:
    kept = full_sets(block, entry)
    circuit = block.rounds is not None
    state = tuple(_state(program, entry))
    figures = tuple(_figures(program, entry, kept))
    dose = telling.dose(entry.dose, kept, circuit, load_in(program, entry))
    pieces = [piece for _, piece in state] + [_results([piece for box, piece in figures if not box.later])]
    return LogRow(
        entry.movement.title,
        " ".join(filter(None, (dose, words.rounds(kept) if circuit else ""))),
        form(entry),
        dose if program.athlete is not None else "",
        telling.axes_in_order(entry, from_here(program, block, entry)),
        words.joined([other.movement.title for other in entry.otherwise], "or"),
        tuple(box for box, _ in (*state, *figures)),
        entry.movement.name,
        "  ".join(filter(None, pieces)),
        ", ".join(rung.name for rung in entry.movement.rungs),
        is_banded(entry),
        _bands(program, entry),
    )


def _bands(program: Program, entry: Entry) -> str:
    """The bands that a movement can be done with, the weakest first, as a log tells them."""
    if program.athlete is None or not is_banded(entry):
        return ""
    return ", ".join(made.band for made in bands(program.athlete, entry.movement))


def _results(pieces: list[str]) -> str:
    """Figures with units are parted by commas, plain ones by blanks."""
    return (", " if any(" " in piece for piece in pieces) and len(set(pieces)) == 1 else " ").join(pieces)


def axis_names(entry: Entry) -> set[str]:
    """The names of the axes in which an entry progresses."""
    return {axis.name for axis in entry.rule.axes} if isinstance(entry.rule, Rule) else set()


def _state(program: Program, entry: Entry) -> Iterator[tuple[Box, str]]:
    """What the sets were done with: load, form and tempo, each as a box and as a blank of the text log."""
    movement, tempo, axes = entry.movement, entry.dose.tempo, axis_names(entry)
    if is_banded(entry):
        yield Box(words.LOG_BAND, "wide"), ""  # the template writes it: nothing that is filled in may hold quotes
    elif movement.loaded_by or entry.dose.load is not None:
        yield Box(program.units, "figure"), f"__ {program.units}"
    if movement.rungs:
        yield Box(words.LOG_FORM, "wide"), "__"
    if tempo.lower is not None or "lower" in axes:
        yield Box(words.LOG_LOWER, "figure"), "lower __ s"
    if tempo.cues is not None or "cues" in axes:
        yield Box(words.LOG_CUES, "figure"), "pause __ cues"
    elif tempo.pause is not None or "pause" in axes:
        yield Box(words.LOG_PAUSE, "figure"), "pause __ s"


def is_banded(entry: Entry) -> bool:
    """Whether a movement is done with a band: the athlete's own, or any."""
    if entry.fitted is None:
        return entry.movement.loaded_by == ("band",)
    return any(made.band for _, made in entry.fitted.made)


def _figures(program: Program, entry: Entry, kept: int) -> Iterator[tuple[Box, str]]:
    """The figure of each set, or what else the coach wants written down in its place."""
    if entry.dose.logs:
        yield from (_asked(program, name) for name in entry.dose.logs)
        return
    unit = _unit(entry)
    for number in range(1, max(kept, most_sets(entry)) + 1):
        yield Box(words.log_set(number, unit), "figure", later=number > kept), f"__ {unit}".strip()


def _asked(program: Program, name: str) -> tuple[Box, str]:
    far = "km" if program.units == "kg" else "mi"
    if name == "distance":
        return Box(far, "wide"), f"__ {far}"
    return (Box(words.LOG_CLOCK, "wide"), "__:__") if name == "time" else (Box(name, "wide"), "__")


def _unit(entry: Entry) -> str:
    match entry.dose.sets[0].target if entry.dose.sets else None:
        case Timed(time=time):
            return time.unit
        case Distance(length=length):
            return length.unit
        case _:
            return ""


def most_sets(entry: Entry) -> int:
    """The sets that the entry may grow to."""
    if not isinstance(entry.rule, Rule):
        return 0
    return max(
        (axis.bound for axis in entry.rule.axes if axis.name == "sets" and isinstance(axis.bound, int)), default=0
    )
