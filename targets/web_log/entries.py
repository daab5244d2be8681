"""What the log on the phone tells of a movement, and what can be written down of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

import attrs

from ...compiler import clock
from ...compiler.implements import bands
from ...compiler.log_files import columns
from ...compiler.log_files.movement_cells import unit_of
from ...compiler.model import Alternative, Amrap, Block, Distance, Dose, Entry, Program, Reps, Tempo, Timed, WorkSet
from ...compiler.quantity import decimal_text
from .. import telling
from .. import words as catalogue
from ..log_sheet.view import axis_names, is_banded
from ..plan import form, instead_of
from ..taking import load_in, made_of, takes, told_weight
from . import words


@attrs.frozen
class Field:
    """What the sets were done with: its column in the table, its name, what is asked for, and what can be chosen."""

    column: str
    label: str
    asked: str
    options: tuple[tuple[str, str], ...] = ()


@attrs.frozen
class SetTarget:
    """A set: the figure that it asks for, "" where that is open, and the one to count from."""

    asked: str
    start: str


@attrs.frozen
class Way:
    """One movement that an entry can be done with: the entry's own, or another in its place.

    `doses` and `counts` have the dose and the number of sets for each version of the session. Times are in seconds.
    """

    name: str
    title: str
    form: str
    take: tuple[tuple[str, str], ...]
    tempo: str
    doses: tuple[str, ...]
    counts: tuple[int, ...]
    asked: str  # the cell of the table
    unit: str
    label: str  # of its unit
    step: int
    sets: tuple[SetTarget, ...]
    fields: tuple[Field, ...]
    each_side: bool
    measured: tuple[str, ...]  # "distance" and "time", where these are written down in place of sets
    cautions: tuple[str, ...]
    phases: tuple[tuple[str, float], ...]
    repetitions: int  # 0 where they are open
    hold: float


@attrs.frozen
class LogEntry:
    """An entry: the same `id` in every version of a program that has the movement."""

    id: str
    priority: str
    ways: tuple[Way, ...]
    instead_of: str
    before: str
    condition: str
    note: str
    rest: float
    last: str


def log_entry(program: Program, block: Block, entry: Entry, kept: Sequence[int], *, id: str, last: str) -> LogEntry:
    """An entry; `kept` are its sets in each version of the session."""
    circuit = block.rounds is not None
    ways = (_way(program, block, entry, kept), *(_other(program, block, entry, one, kept) for one in entry.otherwise))
    several = clock.full_sets(block, entry) + len(entry.dose.ramp) > 1 and not circuit
    return LogEntry(
        id,
        entry.priority,
        ways,
        instead_of(entry),
        telling.ramp(entry.dose, load_in(program, entry)),
        telling.condition(entry.condition),
        entry.note,
        seconds(clock.rest_time(program, block, entry)) if several else 0,
        last,
    )


def seconds(time: Fraction) -> float:
    """Seconds for the page: whole ones, or tenths."""
    return int(time) if time.denominator == 1 else round(float(time), 1)


def as_entry(entry: Entry, other: Alternative) -> Entry:
    """Another movement as an entry in the same place."""
    return attrs.evolve(
        entry, movement=other.movement, dose=other.dose, rule=other.rule, otherwise=(), fitted=None, note=""
    )


def _other(program: Program, block: Block, entry: Entry, other: Alternative, kept: Sequence[int]) -> Way:
    """Another movement, cut as far as the entry is."""
    instead, full = as_entry(entry, other), clock.full_sets(block, entry)
    own = clock.full_sets(block, instead)
    return _way(program, block, instead, [own if sets >= full else min(sets, own) for sets in kept])


def _way(program: Program, block: Block, entry: Entry, kept: Sequence[int]) -> Way:
    circuit, dose = block.rounds is not None, entry.dose
    full, at_load = clock.full_sets(block, entry), load_in(program, entry)
    measured = tuple(name for name in dose.logs if name in {"distance", "time"})
    unit = "" if measured else unit_of(dose)
    targets = dose.sets if not circuit else dose.sets[:1] * full
    return Way(
        entry.movement.name,
        entry.movement.title,
        form(entry),
        takes(program, entry, full),
        telling.tempo(dose.tempo),
        tuple(telling.dose(dose, sets, circuit, at_load) for sets in kept),
        tuple(kept),
        telling.dose(dose, full, circuit, at_load),
        unit,
        words.UNITS.get(unit, unit),
        words.STEPS.get(unit, 1),
        tuple(_target(work) for work in targets),
        tuple(_fields(program, entry)),
        dose.each_side,
        measured,
        tuple(catalogue.sentence(caution) for caution in entry.movement.cautions),
        _phases(entry),
        _repetitions(dose),
        seconds(work.target.time.base)
        if (work := next(iter(dose.sets), None)) and isinstance(work.target, Timed)
        else 0,
    )


def _target(work: WorkSet) -> SetTarget:
    match work.target:
        case Reps(low=low, high=high):
            return SetTarget(str(high) if low == high else "", str(low))
        case Amrap(expect=expected):
            return SetTarget("", str(expected or clock.AMRAP_REPETITIONS))
        case Timed(time=amount) | Distance(length=amount):
            return SetTarget(decimal_text(amount.amount), decimal_text(amount.amount))


def _repetitions(dose: Dose) -> int:
    highest = {work.target.high if isinstance(work.target, Reps) else 0 for work in dose.sets}
    return highest.pop() if len(highest) == 1 else 0


# What the sets were done with: the columns of the blank table (`log_sheet/table.py`), with what is asked for in each


def _fields(program: Program, entry: Entry) -> Iterator[Field]:
    movement, tempo, axes = entry.movement, entry.dose.tempo, axis_names(entry)
    if is_banded(entry):
        yield _band(program, entry)
    elif movement.loaded_by or entry.dose.load is not None:
        yield _load(program, entry)
    if movement.rungs:
        rung = entry.fitted.rung if entry.fitted is not None else None
        yield Field(columns.RUNG, words.FORM, rung or "", tuple((one.name, one.text) for one in movement.rungs))
    if tempo.lower is not None or "lower" in axes:
        yield Field(columns.LOWER, words.LOWER, _in_seconds(tempo.lower))
    if tempo.cues is not None or "cues" in axes:
        yield Field(columns.CUES, words.CUES, str(tempo.cues or ""))
    elif tempo.pause is not None or "pause" in axes:
        yield Field(columns.PAUSE, words.PAUSE, _in_seconds(tempo.pause))
    if "rest" in axes:
        yield Field(columns.REST, words.REST_TAKEN, _in_seconds(entry.dose.rest))
    if "effort" in entry.dose.logs:
        yield Field(columns.EFFORT, words.EFFORT, "")


def _in_seconds(time: object) -> str:
    base = getattr(time, "base", None)
    return "" if base is None else decimal_text(base)


def _band(program: Program, entry: Entry) -> Field:
    """The band: one of the athlete's own, else whatever they write."""
    asked = next((made.band for _, made in entry.fitted.made), "") if entry.fitted is not None else ""
    own = bands(program.athlete, entry.movement) if program.athlete is not None else ()
    return Field(columns.LOAD, words.BAND, asked, tuple((one.band, one.band) for one in own))


def _load(program: Program, entry: Entry) -> Field:
    """The weight that is asked for, in the unit of the program; of unlike sets the heaviest."""
    loads = [load for work in entry.dose.sets if (load := work.load or entry.dose.load) is not None]
    made = [how for load in loads or (None,) if (how := made_of(entry, load)) is not None]
    masses = [how.load for how in made if how.load is not None]
    masses = masses or [load.base for load in loads if load.dimension == "mass"]
    asked = told_weight(max(masses), program.units).split(" ")[0] if masses else ""
    label = words.weight(program.units, two=any(how.two for how in made), heaviest=len(set(masses)) > 1)
    return Field(columns.LOAD, label, asked)


# Timers


def _phases(entry: Entry) -> tuple[tuple[str, float], ...]:
    """The parts of a repetition in their order, as `clock.repetition_time` counts them; none where no tempo is asked for."""
    tempo, counts = entry.dose.tempo, any(isinstance(work.target, Reps | Amrap) for work in entry.dose.sets)
    if tempo == Tempo() or not counts:
        return ()
    own = entry.movement.rep.base if entry.movement.rep is not None else clock.REPETITION
    pause = clock.CUE * (tempo.cues or 0) if tempo.pause is None else tempo.pause.base
    up = clock.FAST if tempo.up == "fast" else own / 2 if tempo.up is None else tempo.up.base
    parts = (
        (words.PHASE_LOWER, own / 2 if tempo.lower is None else tempo.lower.base),
        (words.PHASE_CUES if tempo.pause is None else words.PHASE_PAUSE, pause),
        (words.PHASE_FAST if tempo.up == "fast" else words.PHASE_RAISE, up),
        (words.PHASE_TOP, tempo.top.base if tempo.top is not None else Fraction(0)),
    )
    return tuple((told, seconds(time)) for told, time in parts if time)
