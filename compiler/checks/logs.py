"""Logs: dates, minutes and efforts that cannot be right."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date

from ...grammar.diagnostic import Check, Diagnostic, Label, or_list
from ...grammar.source import Span
from ..model import Amrap, Distance, Dose, Log, LoggedSession, Program, Project, Reps, Session, Timed
from ..quantity import Quantity
from .dose import RPE_OUT_OF_RANGE
from .examples import in_log, with_basics
from .places import cell, header, line

MOST_MINUTES = 300
_DATE = r"\d{4}-\d\d-\d\d"


def _banded(band: str) -> Callable[[], str]:
    """A log of a movement that was done with a band."""
    return with_basics(
        f"""
program store-room
  session main
    block pull
      must band-row 3 x 12
        advance reps by 1 to 15

athlete maren
  starts 2026-06-15
  has band "red", "blue"
  has door

log maren on store-room

2026-06-17 main, 20 min
  band-row "{band}" 12 12 12
"""
    )


BEFORE_START = Check(
    code="log-before-start",
    severity="error",
    title="A logged session before the athlete started",
    message="This session of {date} lies before {start}, the day on which `{athlete}` starts.",
    help="Mend the date here, or the day of `starts`.",
    explain="An athlete's first session is on the day of `starts` or later. An earlier one is almost always a wrong year or "
    "month.",
    wrong=in_log("2026-05-17 main, 20 min\n  chair-stand 10 10 10"),
    right=in_log("2026-06-17 main, 20 min\n  chair-stand 10 10 10"),
)


def find_before_start(log: Log, project: Project) -> Iterator[Diagnostic]:
    starts = next((one.starts for one in project.athletes if one.name == log.athlete), None)
    for session in log.sessions:
        if starts is not None and session.date < starts:
            yield BEFORE_START.at(
                cell(session.span, "date", _DATE), date=session.date, start=starts, athlete=log.athlete
            )


LOGGED_TWICE = Check(
    code="session-logged-twice",
    severity="warning",
    title="A session logged twice on one day",
    message="Session `{session}` of {date} is logged twice.",
    help="Take one of the two out, or mend its date.",
    explain="Twice the same session on one day is almost always a copy, and would count as two sessions.",
    wrong=in_log(
        """
        2026-06-17 main, 20 min
          chair-stand 10 10 10
        2026-06-17 main, 20 min
          chair-stand 10 10 10
        """
    ),
    right=in_log(
        """
        2026-06-17 main, 20 min
          chair-stand 10 10 10
        2026-06-19 main, 20 min
          chair-stand 10 10 10
        """
    ),
)


def find_logged_twice(log: Log, project: Project) -> Iterator[Diagnostic]:
    first: dict[tuple[date, str], LoggedSession] = {}
    for session in log.sessions:
        before = first.setdefault((session.date, session.session), session)
        if before is not session:
            label = Label(header(before.span), "the first of the two")
            yield LOGGED_TWICE.at(header(session.span), session=session.session, date=session.date, labels=[label])


OUT_OF_ORDER = Check(
    code="log-out-of-order",
    severity="advice",
    title="Logged sessions that are not in the order of their days",
    message="This session of {date} stands below one of {before}.",
    help="Put the sessions in the order of their days, or mend the date.",
    explain="Sessions are read by their dates, wherever they stand. One out of order is often a slip in the date.",
    wrong=in_log(
        """
        2026-06-19 main, 20 min
          chair-stand 10 10 10
        2026-06-17 main, 20 min
          chair-stand 10 10 10
        """
    ),
    right=in_log(
        """
        2026-06-17 main, 20 min
          chair-stand 10 10 10
        2026-06-19 main, 20 min
          chair-stand 10 10 10
        """
    ),
)


def find_out_of_order(log: Log, project: Project) -> Iterator[Diagnostic]:
    for before, after in zip(log.sessions, log.sessions[1:], strict=False):
        if after.date < before.date:
            yield OUT_OF_ORDER.at(cell(after.span, "date", _DATE), date=after.date, before=before.date)


MINUTES_OUT_OF_RANGE = Check(
    code="logged-minutes-out-of-range",
    severity="error",
    title="A session of no minutes, or of more than five hours",
    message="This session cannot have taken {took}: it is more than 0 min and at most {most} min.",
    help="Write the minutes from the first set to the end of the last, such as `58 min`, or leave them out.",
    explain="The minutes of logged sessions correct the clock, so a slip here would spoil the plan.",
    wrong=in_log("2026-06-17 main, 580 min\n  chair-stand 10 10 10"),
    right=in_log("2026-06-17 main, 58 min\n  chair-stand 10 10 10"),
)


def find_minutes_out_of_range(log: Log, project: Project) -> Iterator[Diagnostic]:
    for session in log.sessions:
        if session.took is not None and not 0 < session.took.base <= MOST_MINUTES * 60:
            where = cell(session.span, "minutes", r"(?<=, )[\d.]+ *(?:s|min|h)\b")
            yield MINUTES_OUT_OF_RANGE.at(where, took=session.took, most=MOST_MINUTES)


def find_logged_rpe_out_of_range(log: Log, project: Project) -> Iterator[Diagnostic]:
    for session in log.sessions:
        if session.rpe is not None and float(session.rpe) > 10:
            yield RPE_OUT_OF_RANGE.at(cell(session.span, "rpe", r"\brpe +[\d.]+"), rpe=session.rpe)
        for entry in session.entries:
            if entry.rpe is not None and float(entry.rpe) > 10:
                yield RPE_OUT_OF_RANGE.at(cell(entry.span, "effort", r"\brpe +[\d.]+"), rpe=entry.rpe)


SHORT_UNKNOWN = Check(
    code="logged-short-unknown",
    severity="warning",
    title="A short version that the session does not have",
    message="Session `{session}` has no short version of {limit}.",
    help="{instead}",
    explain="A log names a short version by its minutes, as they stand in the program.",
    wrong=in_log("2026-06-17 main short 25 min, 24 min\n  chair-stand 10 10"),
    right=in_log("2026-06-17 main, 24 min\n  chair-stand 10 10"),
)


def find_short_unknown(log: Log, project: Project) -> Iterator[Diagnostic]:
    program = program_of(log, project)
    for logged in log.sessions:
        session = _session(program, logged.session)
        if session is None or logged.short is None or (program and program.damaged):
            continue
        if logged.short.base not in {short.limit.base for short in session.shorts}:
            limits = or_list(f"short {short.limit}" for short in session.shorts)
            yield SHORT_UNKNOWN.at(
                cell(logged.span, "short", r"\bshort +[\d.]+ *[a-z]+"),
                session=session.name,
                limit=logged.short,
                instead=f"Write {limits}." if limits else f"Write `{session.name}` alone: it has no short version.",
            )


MOVEMENT_LOGGED_TWICE = Check(
    code="movement-logged-twice",
    severity="warning",
    title="A movement logged twice in a session",
    message="`{movement}` is logged twice in this session.",
    help="Put the figures of all its sets on one line.",
    explain="Each movement of a session has one line in the log, with one figure for each set.",
    wrong=in_log("2026-06-17 main, 20 min\n  chair-stand 10 10\n  chair-stand 9"),
    right=in_log("2026-06-17 main, 20 min\n  chair-stand 10 10 9"),
)


def find_movement_logged_twice(log: Log, project: Project) -> Iterator[Diagnostic]:
    for session in log.sessions:
        first: dict[str, Label] = {}
        for entry in session.entries:
            if entry.movement in first:
                yield MOVEMENT_LOGGED_TWICE.at(
                    header(entry.span), movement=entry.movement, labels=[first[entry.movement]]
                )
            first.setdefault(entry.movement, Label(header(entry.span), "the first of the two"))


BEFORE_REVISION = Check(
    code="log-before-revision",
    severity="warning",
    title="A logged session before its revision was there",
    message="This session of {date} lies before {dated}, the date of the revision that the log names.",
    help="Mend the date, or name the revision that was trained: `log {athlete} on {program}, revision N`.",
    explain="A log names one revision of a program. Sessions of an earlier one belong to a log of their own.",
    wrong=in_log("2026-06-17 main, 20 min\n  chair-stand 10 10 10", program="revision 1, 2026-09-14"),
    right=in_log("2026-06-17 main, 20 min\n  chair-stand 10 10 10", program="revision 1, 2026-06-14"),
)


def find_before_revision(log: Log, project: Project) -> Iterator[Diagnostic]:
    program = program_of(log, project)
    for session in log.sessions:
        if program is not None and program.dated is not None and session.date < program.dated:
            yield BEFORE_REVISION.at(
                cell(session.span, "date", _DATE),
                date=session.date,
                dated=program.dated,
                athlete=log.athlete,
                program=log.program,
            )


FIGURE_UNFIT = Check(
    code="logged-figure-unfit",
    severity="warning",
    title="A logged figure that is not told as the dose is",
    message="`{figure}` does not suit `{movement}`, whose dose is told in {measure}.",
    help="Write {example}.",
    explain="Each set is logged as its dose is told: repetitions as plain numbers, times as `20 s` or `31:00`, distances as "
    "`20 m`. A dose with `log distance and time` takes both.",
    wrong=in_log("2026-06-17 main, 20 min\n  chair-stand 20 s, 20 s, 20 s"),
    right=in_log("2026-06-17 main, 20 min\n  chair-stand 10 10 10"),
)


def find_figure_unfit(log: Log, project: Project) -> Iterator[Diagnostic]:
    program = program_of(log, project)
    doses = {session.name: _doses(session) for session in program.sessions} if program is not None else {}
    for logged in log.sessions:
        for entry in logged.entries:
            dose = doses.get(logged.session, {}).get(entry.movement)
            if dose is None or not dose.sets:
                continue
            wanted = {_MEASURES[type(work.target)] for work in dose.sets} | set(dose.logs)
            for number, figure in enumerate(entry.results):
                if _measure(figure) not in wanted:
                    measure = _MEASURES[type(dose.sets[0].target)]
                    yield FIGURE_UNFIT.at(
                        cell(entry.span, number, ".*"),
                        figure=figure,
                        movement=entry.movement,
                        measure=measure,
                        example=_FIGURES[measure],
                    )
                    break


LOGGED_VOLUME = Check(
    code="logged-volume",
    severity="error",
    title="A volume in a log in place of a load",
    message="`{found}` is a volume, and a log tells the load.",
    help="Write what was lifted in kg or lb: beside the line to which it is filled the sheet says how heavy it then is.",
    explain="What a container weighs depends on what is in it, so a line of a log tells a weight, whatever it was made of.",
    wrong=in_log("2026-06-17 main, 20 min\n  chair-stand 2 l 10 10 10"),
    right=in_log("2026-06-17 main, 20 min\n  chair-stand 10 10 10"),
)

LOGGED_BAND_UNKNOWN = Check(
    code="logged-band-unknown",
    severity="warning",
    title="A band in a log that the athlete does not have",
    message="`{athlete}` has no band `{band}`.",
    help="{near}",
    explain="A log names the band that was used as it stands after `has band` of the athlete. By their order there, the weakest "
    "first, is known whether it was the one that was asked for. Any other is taken to be that one.",
    wrong=_banded("green"),
    right=_banded("blue"),
)


def find_logged_band_unknown(log: Log, project: Project) -> Iterator[Diagnostic]:
    athlete = next((one for one in project.athletes if one.name == log.athlete), None)
    if athlete is None or (not athlete.implements and not athlete.things):
        return
    known = [step for implement in athlete.implements for step in implement.steps]
    for logged in log.sessions:
        for entry in logged.entries:
            if entry.band is not None and entry.band not in known:
                near = f"Write {or_list(known)}." if known else f'Add a line such as `has band "{entry.band}"`.'
                where = _quoted(entry.span, entry.band)
                yield LOGGED_BAND_UNKNOWN.at(where, athlete=log.athlete, band=entry.band, near=near)


def _quoted(span: Span, said: str) -> Span:
    """A text in quotes that stands after the beginning of a span."""
    at = span.source.text.find(f'"{said}"', span.start, line(span).end)
    return header(span) if at < 0 else Span(span.source, at, at + len(said) + 2)


_MEASURES: dict[type, str] = {Reps: "repetitions", Amrap: "repetitions", Timed: "time", Distance: "distance"}
_FIGURES = {
    "repetitions": "plain numbers, such as `10 10 8`",
    "time": "times, such as `20 s, 20 s`",
    "distance": "distances, such as `20 m, 20 m`",
}


def _measure(figure: int | Quantity) -> str:
    if isinstance(figure, int):
        return "repetitions"
    return "distance" if figure.dimension == "length" else "time"


def _doses(session: Session) -> dict[str, Dose]:
    """The dose of each movement that a session may have asked for."""
    doses: dict[str, Dose] = {}
    for entry in session.entries:
        for movement, dose in ((entry.movement, entry.dose), *((one.movement, one.dose) for one in entry.otherwise)):
            doses.setdefault(movement.name, dose)
    return doses


def program_of(log: Log, project: Project) -> Program | None:
    """The program of a log: the revision it names, else the latest."""
    named = [program for program in project.programs if program.name == log.program]
    if log.revision is not None:
        named = [program for program in named if program.revision == log.revision]
    return max(named, key=lambda program: program.revision, default=None)


def _session(program: Program | None, name: str) -> Session | None:
    return next((session for session in program.sessions if session.name == name), None) if program else None
