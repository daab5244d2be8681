"""Today: the program as it was fitted to an athlete, with what every movement asks for by now."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from statistics import median

import attrs

from .at_hand import AtHand
from .axes.counted import expecting
from .fitting import Choice, Fitting
from .lifting import lifted
from .logbook import LEARNED, Logbook, Stands, asked_now, pace_of
from .model import Entry, Program
from .reasons import Kind, Reason


def today(logbook: Logbook) -> Fitting:
    """The fitting with the doses and rungs of the next session, instead of those that the athlete began with."""
    if not logbook.sessions:
        return logbook.fitting
    fitting = logbook.fitting
    hands = AtHand(fitting.athlete)
    now = {
        (one.session.name, one.entry.movement.name): _now(fitting.program, one, hands)
        for one in logbook.stands
        if one.steps and one.course is not None
    }

    def moved(session: str, entry: Entry) -> Entry:
        return now.get((session, entry.movement.name), entry)

    logged = {(one.session.name, one.entry.movement.name): one for one in logbook.stands if one.steps}

    sessions = tuple(
        attrs.evolve(
            session,
            pace=_pace(logbook, session.name),
            blocks=tuple(
                attrs.evolve(block, entries=tuple(moved(session.name, entry) for entry in block.entries))
                for block in session.blocks
            ),
        )
        for session in fitting.program.sessions
    )
    choices = tuple(_chosen(choice, moved, logged) for choice in fitting.choices)
    program = attrs.evolve(fitting.program, sessions=sessions, after=logbook.sessions[-1].date)
    return attrs.evolve(fitting, program=program, choices=choices)


def _chosen(choice: Choice, moved: Callable[[str, Entry], Entry], logged: Mapping[tuple[str, str], Stands]) -> Choice:
    """A choice with what it asks for now; where the log has led on, it is the log that is the reason."""
    before = choice.chosen
    if before is None:
        return choice
    after = moved(choice.session.name, before)
    stands = logged.get((choice.session.name, before.movement.name))
    if stands is None or after is before:
        return choice
    spans = tuple(step.done.span for step in stands.steps[:-4:-1])
    reasons = choice.reasons
    led: tuple[tuple[Kind, tuple[Kind, ...], bool], ...] = (
        ("rung-logged", _RUNG, _rung(before) != _rung(after)),
        ("load-logged", _LOAD, _loads(before) != _loads(after)),
        ("band-logged", _BAND, _bands(before) != _bands(after)),
        ("dose-logged", _COUNT, _counts(before) != _counts(after)),
    )
    for kind, kinds, differs in led:
        if differs:
            reasons = tuple(one for one in reasons if one.kind not in kinds)
            reasons += (Reason(kind, before.movement, spans=spans),)
    return attrs.evolve(choice, chosen=after, reasons=reasons)


_RUNG: tuple[Kind, ...] = ("rung-begun", "rung-first", "rung-lower")
_LOAD: tuple[Kind, ...] = (
    "load-begun", "load-written", "load-share", "load-lightest", "load-capped", "load-rounded", "load-unknown",
)  # fmt: skip
_BAND: tuple[Kind, ...] = ("band-begun", "band-first")
_COUNT: tuple[Kind, ...] = ("reps-begun", "amount-begun")


def _rung(entry: Entry) -> str | None:
    return entry.fitted.rung if entry.fitted is not None else None


def _bands(entry: Entry) -> list[str]:
    return [making.band for _, making in entry.fitted.made] if entry.fitted is not None else []


def _loads(entry: Entry) -> list[Fraction | None]:
    return [making.load for _, making in entry.fitted.made] if entry.fitted is not None else []


def _counts(entry: Entry) -> tuple[object, ...]:
    return (tuple(work.target for work in entry.dose.sets), entry.dose.tempo, entry.dose.rest)


def _pace(logbook: Logbook, session: str) -> Fraction:
    """The pace by the log, to a twentieth: as exactly as minutes are told. One who is quicker is not hurried."""
    pace = pace_of(logbook, session)
    return Fraction(1) if pace is None else max(Fraction(round(pace * 20), 20), Fraction(1))


def _now(program: Program, stands: Stands, hands: AtHand) -> Entry:
    """An entry with the dose that it asks for now, how its loads are made, and its rung."""
    entry, asked = stands.entry, asked_now(stands)
    assert entry.fitted is not None
    dose = asked.dose
    if len(stands.totals) >= LEARNED:
        dose = expecting(dose, round(median(stands.totals) / max(asked.sets, 1)))
    assert stands.course is not None and stands.standing is not None
    fitted = attrs.evolve(entry.fitted, rung=asked.rung, stands=(stands.course, stands.standing))
    means = hands.means(entry.movement)
    if not entry.movement.loaded_by or means is None:
        return attrs.evolve(entry, dose=dose, fitted=fitted)
    loads = lifted(program, entry, dose, means, hands)
    if isinstance(loads, Reason):  # what was come to can no longer be made: as it was fitted
        return entry
    made = loads.made
    if stands.band is not None:
        made = tuple((None, band) for band in hands.bands(entry.movement) if band.band == stands.band)
    return attrs.evolve(entry, dose=loads.dose, fitted=attrs.evolve(fitted, made=made))
