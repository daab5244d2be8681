"""What an athlete says, against the programs that they train by. Who trains by none is not judged here."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

import attrs

from ...grammar.diagnostic import Check, Diagnostic, Label
from ..implements import serves
from ..model import Amrap, Athlete, Distance, Dose, Entry, Movement, Program, Project, Reps, Session, Start, Timed
from ..remembering import remembered
from ..training import together
from ..week import strength_sessions
from .examples import with_basics
from .places import header, on_line, part
from .walk import places

_PROGRAM = """
program boat-shed
  session main, 2 a week
    block lifts
      must deadlift 3 x 5 at 70%
        advance load by 2.5% to 80%
      must push-up 3 x 8
        advance reps by 1 to 12
      do plank 2 x 30 s
        advance hold by 5 s to 60 s

athlete bram "Bram"
  has barbell 20 kg with plates 4 x 10 kg
  has floor
"""
_ON_DAYS = r"(?<=[ \n])on +[a-z]+(?: *, *[a-z]+)*"
_MAX = "  max deadlift 80 kg\n"


@attrs.define(eq=False, slots=False)
class _Asked:
    """What programs ask of somebody who trains by all of them."""

    programs: tuple[Program, ...]

    @cached_property
    def entries(self) -> tuple[Entry, ...]:
        return tuple(here.entry for program in self.programs for here in places(program))

    @cached_property
    def doses(self) -> dict[str, list[Dose]]:
        """The doses of each movement, those of alternatives too."""
        found: dict[str, list[Dose]] = {}
        for entry in self.entries:
            for movement, dose in _chances(entry):
                found.setdefault(movement.name, []).append(dose)
        return found

    @cached_property
    def loaded(self) -> frozenset[str]:
        """The movements that are done with a load."""
        return frozenset(one.name for entry in self.entries for one, _ in _chances(entry) if one.loaded_by)


def _chances(entry: Entry) -> Iterator[tuple[Movement, Dose]]:
    """All that an entry can come to, in order."""
    yield entry.movement, entry.dose
    for other in entry.otherwise:
        yield other.movement, other.dose


@remembered(4)  # of a crew each athlete is judged alone, and the programs are always the same
def _asked(*programs: Program) -> _Asked:
    return _Asked(programs)


def _judged(project: Project) -> Iterator[tuple[Athlete, _Asked]]:
    """Every athlete who trains by programs that could be read in full, with what these ask."""
    for programs, athletes in together(project):
        asked = _asked(*programs)
        if not any(program.damaged for program in programs):
            yield from ((athlete, asked) for athlete in athletes)


BEGINS_UNUSED = Check(
    code="begins-unused",
    severity="warning",
    title="A beginning of a movement that no program asks for",
    message="{athlete} begins `{movement}`, but nothing in {programs} asks for it.",
    help="Take the line out, or name the movement as the program does.",
    explain="A beginning says where an athlete starts in a movement of a program, or in one that an `else` names. The programs "
    "are those that the athlete `follows`, else those that are logged, else the only one there is.",
    wrong=with_basics(_PROGRAM + _MAX + "  begins pull-up on foot-help\n"),
    right=with_basics(_PROGRAM + _MAX + "  begins push-up on knees\n"),
)


def find_begins_unused(project: Project) -> Iterator[Diagnostic]:
    for athlete, asked in _judged(project):
        for start in athlete.begins:
            if start.movement not in asked.doses:
                yield BEGINS_UNUSED.at(
                    start.span, athlete=athlete.title, movement=start.movement, programs=_names(asked.programs)
                )


BEGINS_UNFIT = Check(
    code="begins-unfit",
    severity="warning",
    title="A beginning in figures that the dose does not have",
    message="{athlete} begins `{movement}` with {figure}, but its dose {dosed}.",
    help="Write {instead}, or leave the figure out.",
    explain="Where repetitions are counted an athlete begins with so many, as in `8 reps`; where a time or a distance is asked "
    "for, with such a one. A figure of another kind changes nothing.",
    wrong=with_basics(_PROGRAM + _MAX + "  begins push-up on knees, 30 s\n"),
    right=with_basics(_PROGRAM + _MAX + "  begins push-up on knees, 8 reps\n"),
)

_KINDS = {"reps": "counts repetitions", "time": "is a time", "distance": "is a distance"}
_EXAMPLES = {"reps": "repetitions, such as `8 reps`", "time": "a time, such as `20 s`", "distance": "such as `20 m`"}


def find_begins_unfit(project: Project) -> Iterator[Diagnostic]:
    for athlete, asked in _judged(project):
        for start in athlete.begins:
            kinds = {kind: None for dose in asked.doses.get(start.movement, ()) for kind in _figures(dose)}
            for kind, figure in _begun(start):
                if kinds and kind not in kinds:
                    first = next(iter(kinds))
                    yield BEGINS_UNFIT.at(
                        start.span,
                        athlete=athlete.title,
                        movement=start.movement,
                        figure=figure,
                        dosed=_KINDS[first],
                        instead=_EXAMPLES[first],
                    )


def _figures(dose: Dose) -> Iterator[str]:
    """What a dose counts, and what else is logged of it, which can advance, too."""
    for work in dose.sets:
        match work.target:
            case Reps() | Amrap():
                yield "reps"
            case Timed():
                yield "time"
            case Distance():
                yield "distance"
    yield from (logged for logged in dose.logs if logged in ("time", "distance"))


def _begun(start: Start) -> Iterator[tuple[str, str]]:
    if start.reps is not None:
        yield "reps", f"{start.reps} repetitions"
    if start.amount is not None:
        yield "time" if start.amount.dimension == "time" else "distance", str(start.amount)


MAX_UNUSED = Check(
    code="max-unused",
    severity="warning",
    title="A training maximum of which nothing is a share",
    message="{athlete} has a training maximum in `{movement}`, but nothing in {programs} asks for a share of it.",
    help="Take the line out, or ask for a share, such as `at 70%`.",
    explain="A training maximum is used where a dose or a ramp tells a share of it, and for an athlete who trains alone under a "
    "cap, such as `alone at most 85%`.",
    wrong=with_basics(_PROGRAM + _MAX + "  max overhead-press 40 kg\n"),
    right=with_basics(_PROGRAM + _MAX),
)


def find_max_unused(project: Project) -> Iterator[Diagnostic]:
    for athlete, asked in _judged(project):
        capped = athlete.alone and athlete.alone_cap is not None
        for name, _ in athlete.maxima:
            shared = any(_shares(dose) for dose in asked.doses.get(name, ()))
            if not shared and not (capped and name in asked.loaded):
                where = part(athlete.span, rf"(?<=[ \n])max +{name} +[\d.]+ *[a-z]+")
                yield MAX_UNUSED.at(where, athlete=athlete.title, movement=name, programs=_names(asked.programs))


MAX_MISSING = Check(
    code="max-missing",
    severity="warning",
    title="A share of a training maximum that nobody knows",
    message="{athlete} has no training maximum in `{movement}`: the sheet can only tell the share.",
    help="Add a line such as `max {movement} {example}`, or `begins {movement} at {example}`.",
    explain="`at 70%` is a share of the training maximum. Without that, and without a load to begin with, the athlete has to "
    "work out the load. It is not told of a movement that the athlete avoids or has nothing to load with.",
    wrong=with_basics(_PROGRAM),
    right=with_basics(_PROGRAM + _MAX),
)


def find_max_missing(project: Project) -> Iterator[Diagnostic]:
    for athlete, asked in _judged(project):
        known = {name for name, _ in athlete.maxima} | {start.movement for start in athlete.begins if start.load}
        told: set[str] = set()
        for entry in asked.entries:
            movement, dose = next((one for one in _chances(entry) if _can_do(athlete, one[0])), (None, None))
            if movement is None or dose is None or movement.name in known | told or not _shares(dose):
                continue
            told.add(movement.name)
            yield MAX_MISSING.at(
                header(athlete.span),
                athlete=athlete.title,
                movement=movement.name,
                example="80 kg" if asked.programs[0].units == "kg" else "180 lb",
                labels=[Label(on_line(dose.span, r"[\d.]+ *%"), "a share of it")],
            )


def _can_do(athlete: Athlete, movement: Movement) -> bool:
    """Whether an athlete does not avoid a movement, and has something to load it with."""
    avoided = {exclusion.movement for exclusion in athlete.avoids}
    unsaid = not athlete.implements and not athlete.things
    can_load = unsaid or not movement.loaded_by or any(serves(one, movement) for one in athlete.implements)
    return can_load and avoided.isdisjoint((movement.name, *movement.patterns))


def _shares(dose: Dose) -> bool:
    """Whether a dose tells a share of the training maximum."""
    loads = (dose.load, *(work.load for work in dose.sets))
    return bool(dose.ramp) or any(load is not None and load.unit == "%" for load in loads)


FOLLOWS_TWICE = Check(
    code="follows-twice",
    severity="warning",
    title="A program that is followed twice",
    message="{athlete} follows `{program}` twice.",
    help="Name each program once.",
    explain="`follows` names the programs that an athlete trains by. Each gives one set of sheets.",
    wrong=with_basics(_PROGRAM + _MAX + "  follows boat-shed, boat-shed\n"),
    right=with_basics(_PROGRAM + _MAX + "  follows boat-shed\n"),
)


def find_follows_twice(project: Project) -> Iterator[Diagnostic]:
    for athlete in project.athletes:
        for name in dict.fromkeys(name for name in athlete.follows if athlete.follows.count(name) > 1):
            named = rf"(?<![a-z0-9-]){name}(?![a-z0-9-])"
            where = part(athlete.span, rf"{named}(?=[^\n]*(?:\n *follows[^\n]*)*{named})")
            yield FOLLOWS_TWICE.at(where, athlete=athlete.title, program=name)


DAYS_FEW = Check(
    code="days-few",
    severity="warning",
    title="Fewer training days than a session asks for",
    message="{athlete} trains on {days}, but session `{session}` is held {times} a week.",
    help="Add a day after `on`, or leave the days out.",
    explain="A session that says how often it is held, and on no days of its own, takes the training days of the athlete.",
    wrong=with_basics(_PROGRAM + _MAX + "  starts 2026-06-15 on mon\n"),
    right=with_basics(_PROGRAM + _MAX + "  starts 2026-06-15 on mon, thu\n"),
)


def find_days_few(project: Project) -> Iterator[Diagnostic]:
    for athlete, asked in _judged(project):
        session = _most_often(asked.programs)
        days = len(athlete.days)
        if session is not None and session.per_week is not None and 0 < days < session.per_week:
            yield DAYS_FEW.at(
                part(athlete.span, _ON_DAYS),
                athlete=athlete.title,
                days="one day" if days == 1 else f"{days} days",
                session=session.name,
                times=session.per_week,
                labels=[Label(header(session.span), "the session")],
            )


DAYS_CLASH = Check(
    code="days-clash",
    severity="warning",
    title="A session on days on which an athlete does not train",
    message="Session `{session}` is held on {held}, but {athlete} trains on {days}.",
    help="Add {missing} to the days of {athlete}, or let the session say only how often it is held.",
    explain="A session of strength work with days of its own stands on these on every sheet, whatever days an "
    "athlete trains on. Without days of its own, as in `3 a week`, it takes those of the athlete.",
    wrong=with_basics(_PROGRAM.replace("2 a week", "on tue, thu") + _MAX + "  starts 2026-06-15 on mon, thu\n"),
    right=with_basics(_PROGRAM.replace("2 a week", "on tue, thu") + _MAX + "  starts 2026-06-16 on tue, thu, sat\n"),
)


def find_days_clash(project: Project) -> Iterator[Diagnostic]:
    for athlete, asked in _judged(project):
        for session in (one for program in asked.programs if athlete.days for one in strength_sessions(program)):
            missing = [f"`{day}`" for day in session.days if day not in athlete.days]
            if missing:
                yield DAYS_CLASH.at(
                    part(athlete.span, _ON_DAYS),
                    session=session.name,
                    held=", ".join(session.days),
                    athlete=athlete.title,
                    days=", ".join(athlete.days),
                    missing=", ".join(missing),
                    labels=[Label(header(session.span), "the session")],
                )


def _most_often(programs: tuple[Program, ...]) -> Session | None:
    """The session that is held most often of those that take the athlete's days."""
    free = (session for program in programs for session in program.sessions if session.per_week and not session.days)
    return max(free, key=lambda session: session.per_week or 0, default=None)


def _names(programs: tuple[Program, ...]) -> str:
    names = [f"`{program.name}`" for program in programs]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
