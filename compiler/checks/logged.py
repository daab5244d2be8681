"""What was logged, against what was asked for and what the athlete has: most likely a slip, or more than is wise."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import timedelta
from fractions import Fraction
from typing import TYPE_CHECKING

from ...grammar.diagnostic import Check, Diagnostic
from ..implements import makeable_loads
from ..judging import GRAIN, NEAR, climbed
from ..model import Athlete, Dose, Log, LoggedEntry, Movement, Program, Project
from ..quantity import UNITS, decimal_text
from ..remembering import remembered
from .examples import with_basics
from .logs import program_of
from .places import header, line, on_line
from .walk import doses as all_doses

if TYPE_CHECKING:
    from ..logbook import Logbook, Stands, Step

WEEKS_AFTER = 4  # that a program may go on beyond those that it says
SETS_MORE = 2  # than asked for


def _logged(figures: str, *, athlete: str = "", day: str = "2026-06-17") -> Callable[[], str]:
    """A log of one session of a squat and a push-up."""
    return with_basics(
        f"""
program store-room
  runs 8 weeks
  session main, 2 a week
    block legs
      must goblet-squat 3 x 8
        advance reps by 1 to 12, then load restarting reps
      must push-up 3 x 8
        advance reps by 1 to 12, then rung restarting reps
  allow strength-minutes-few because "An example."
  allow pull-below-push because "An example."

athlete maren
  starts 2026-06-15
  has kettlebell 4 kg, 6 kg, 8 kg, 12 kg
  has wall, bench, floor, step
  begins goblet-squat at 6 kg
  begins push-up on wall
{athlete}
log maren on store-room

{day} main, 20 min
  {figures}
"""
    )


FAR_AHEAD = Check(
    code="logged-far-ahead",
    severity="warning",
    title="A logged session far ahead of what was asked for",
    message="{athlete} was asked for {asked} in `{movement}`, and logs {done}.",
    help="Mend it if it is a slip: what comes next goes on from there. If it is right, `allow` it in the athlete.",
    explain="More than was asked for is a step of the athlete's own. A load that is heavier by more than the largest step, "
    "which `jump` says, or one more than the next rung, is more often a slip of the pen. Nothing is told of what was done "
    "before, nor of a first session where nobody says where the athlete begins.",
    wrong=_logged("goblet-squat 12 kg 8 8 8"),
    right=_logged("goblet-squat 6 kg 8 8 8"),
)


def find_far_ahead(book: Logbook) -> Iterator[Diagnostic]:
    begun = {start.movement for start in book.fitting.athlete.begins}
    for stands in book.stands:
        for place, step in enumerate(stands.steps):
            told = _ahead(stands, step, stands.steps[:place]) if place or step.done.movement in begun else None
            if told is not None:
                asked, done, pattern = told
                yield FAR_AHEAD.at(
                    on_line(step.done.span, pattern),
                    athlete=book.fitting.athlete.title,
                    movement=step.done.movement,
                    asked=asked,
                    done=done,
                )


def _ahead(stands: Stands, step: Step, before: Sequence[Step]) -> tuple[str, str, str] | None:
    """What was asked for and what was done, where that is far ahead and was not done before, and how it is written."""
    asked, done = step.asked, step.done
    if done.rung is not None and any(one.done.rung == done.rung for one in before):
        return None
    if climbed([rung.name for rung in asked.movement.rungs], asked.rung, done.rung) > 1:
        return f"`{asked.rung}`", f"`{done.rung}`", rf"(?<= ){done.rung}\b"
    if asked.load is None or done.load is None or stands.course is None:
        return None
    if any(one.done.load is not None and one.done.load.base >= done.load.base for one in before):
        return None
    next_load = min((load for load in stands.course.loads or () if load > asked.load), default=asked.load)
    if done.load.base > max(asked.load * (1 + stands.course.jump), next_load) * (1 + NEAR):
        return _load(asked.load, done.load.unit), str(done.load), _MASS
    return None


def _load(kilograms: Fraction, unit: str) -> str:
    return f"{decimal_text(kilograms / UNITS[unit][1], 1)} {unit}"


SETS_MANY = Check(
    code="logged-sets-many",
    severity="warning",
    title="Many more sets logged than were asked for",
    message="Asked for were {asked} sets of `{movement}`, and the log has {done}.",
    help="Mend the figures: each is one set. A range or a note goes into a line that begins with `|`.",
    explain=f"A set or two more are done on a good day. More than {SETS_MORE} are more often figures that are something else: a "
    "load without its unit, or those of two movements on one line.",
    wrong=_logged("goblet-squat 6 kg 8 8 8 8 8 8"),
    right=_logged("goblet-squat 6 kg 8 8 8 8"),
)


def find_sets_many(book: Logbook) -> Iterator[Diagnostic]:
    for stands in book.stands:
        for step in stands.steps:
            done = len(step.done.results)
            if not step.asked.dose.logs and done > step.asked.sets + SETS_MORE:
                yield SETS_MANY.at(line(step.done.span), movement=step.done.movement, asked=step.asked.sets, done=done)


LOGBOOK_CHECKS = (find_far_ahead, find_sets_many)


OVER_CAP = Check(
    code="logged-over-cap",
    severity="warning",
    title="A logged load above the limit for training alone",
    message="{load} in `{movement}` is above {most}, which is {cap} of the maximum: {athlete} trains alone.",
    help="Speak with {athlete}, or mend the figure. If somebody was there to watch, `allow` it in the athlete.",
    explain="`alone at most 85%` holds back every load on the sheet while nobody watches. A log that goes beyond it is read like "
    "any other, so the coach has to see it.",
    wrong=_logged(
        "goblet-squat 12 kg 8 8 8",
        athlete='  trains alone\n  alone at most 85%\n  max goblet-squat 12 kg\n  allow logged-far-ahead because "True."',
    ),
    right=_logged("goblet-squat 6 kg 8 8 8", athlete="  trains alone\n  alone at most 85%\n  max goblet-squat 12 kg"),
)


def find_over_cap(log: Log, project: Project) -> Iterator[Diagnostic]:
    athlete = _athlete(log, project)
    if athlete is None or not athlete.alone or athlete.alone_cap is None:
        return
    most = {name: maximum.base * athlete.alone_cap.base for name, maximum in athlete.maxima}
    for entry in _entries(log):
        if entry.load is not None and entry.movement in most:
            limit = most[entry.movement]
            if entry.load.base > limit + max(GRAIN, limit * NEAR):
                yield OVER_CAP.at(
                    on_line(entry.span, _MASS),
                    athlete=athlete.title,
                    movement=entry.movement,
                    load=entry.load,
                    most=_load(limit, entry.load.unit),
                    cap=athlete.alone_cap,
                )


LOAD_UNFIT = Check(
    code="logged-load-unfit",
    severity="warning",
    title="A load logged for a movement that is done without",
    message="`{movement}` is done without a load, and the log has {load}.",
    help="Take {load} out, or log the loaded movement by its own name where the session has it.",
    explain="A load counts only where the movement says `loaded by`, or its dose tells a load. Elsewhere it is read, and "
    "leads to nothing.",
    wrong=_logged("push-up wall 10 kg 8 8 8"),
    right=_logged("push-up wall 8 8 8"),
)


def find_load_unfit(log: Log, project: Project) -> Iterator[Diagnostic]:
    asked = _asked(log, project)
    for entry in _entries(log):
        if entry.load is not None and entry.movement in asked:
            movement, doses = asked[entry.movement]
            if not movement.loaded_by and not any(_tells_load(dose) for dose in doses):
                yield LOAD_UNFIT.at(on_line(entry.span, _MASS), movement=entry.movement, load=entry.load)


LOAD_MISSING = Check(
    code="logged-load-missing",
    severity="advice",
    title="A loaded movement logged without its load",
    message="`{movement}` is logged without a load, and {athlete} has {count} to choose from.",
    help="Write the load before the figures of the sets, such as `{movement} {example} 8 8 8`.",
    explain="Where a log tells no load it is taken to be the one that was asked for. It is told once for each movement of a log.",
    wrong=_logged("goblet-squat 8 8 8"),
    right=_logged("goblet-squat 6 kg 8 8 8"),
)


def find_load_missing(log: Log, project: Project) -> Iterator[Diagnostic]:
    athlete = _athlete(log, project)
    if athlete is None or not athlete.implements:
        return
    asked = _asked(log, project)
    told: set[str] = set()
    for entry in _entries(log):
        if entry.load is None and entry.band is None and entry.movement in asked and entry.movement not in told:
            movement = asked[entry.movement][0]
            loads = makeable_loads(athlete, movement) if movement.loaded_by else ()
            if len(loads) > 1 and not _is_banded(athlete, movement):
                told.add(entry.movement)
                yield LOAD_MISSING.at(
                    header(entry.span),
                    movement=entry.movement,
                    athlete=athlete.title,
                    count=f"{len(loads)} loads",
                    example=_load(loads[0], _units(log, project)),
                )


AFTER_END = Check(
    code="log-after-end",
    severity="warning",
    title="A logged session long after the program has ended",
    message="This session of {date} lies in week {week}, and `{program}` runs {weeks} weeks.",
    help="Mend the date, or the day of `starts`. If they go on with it on purpose, let the program run longer.",
    explain=f"A session more than {WEEKS_AFTER} weeks after the last of a program is often a slip in the year or the month. "
    "Weeks are counted from the day of `starts`, or from the date of the revision where that is later.",
    wrong=_logged("goblet-squat 6 kg 8 8 8", day="2026-11-17"),
    right=_logged("goblet-squat 6 kg 8 8 8", day="2026-08-17"),
)


def find_after_end(log: Log, project: Project) -> Iterator[Diagnostic]:
    athlete, program = _athlete(log, project), program_of(log, project)
    if athlete is None or athlete.starts is None or program is None or program.weeks is None:
        return
    begins = max(athlete.starts, program.dated or athlete.starts)
    end = begins + timedelta(weeks=program.weeks + WEEKS_AFTER)
    late = next((session for session in log.sessions if session.date >= end), None)
    if late is not None:
        week = (late.date - begins).days // 7 + 1
        yield AFTER_END.at(header(late.span), date=late.date, week=week, program=log.program, weeks=program.weeks)


_MASS = r"\b\d[\d.]* *(?:kg|g|lb)\b"


def _athlete(log: Log, project: Project) -> Athlete | None:
    return next((one for one in project.athletes if one.name == log.athlete), None)


def _entries(log: Log) -> Iterator[LoggedEntry]:
    for session in log.sessions:
        yield from session.entries


def _asked(log: Log, project: Project) -> dict[str, tuple[Movement, list[Dose]]]:
    """The movements of the log's program, each with all doses that it may have."""
    program = program_of(log, project)
    return _movements(program) if program is not None else {}


@remembered(4)  # of a crew each athlete is judged alone, and the programs are always the same
def _movements(program: Program) -> dict[str, tuple[Movement, list[Dose]]]:
    found: dict[str, tuple[Movement, list[Dose]]] = {}
    for one in all_doses(program):
        found.setdefault(one.movement.name, (one.movement, []))[1].append(one.dose)
    return found


def _units(log: Log, project: Project) -> str:
    program = program_of(log, project)
    return program.units if program is not None else "kg"


def _tells_load(dose: Dose) -> bool:
    return bool(dose.ramp) or dose.load is not None or any(work.load is not None for work in dose.sets)


def _is_banded(athlete: Athlete, movement: Movement) -> bool:
    """Whether an athlete may do it with a band, which has no weight."""
    return any(start.movement == movement.name and start.band is not None for start in athlete.begins)
