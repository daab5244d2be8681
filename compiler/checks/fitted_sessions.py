"""Fitting: what becomes of the minutes of a session, and of the week, when a program is fitted to an athlete."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from ...grammar.diagnostic import Check, Diagnostic, Label, or_list
from ..clock import session_time, timetable
from ..model import Session
from ..trim import Infeasible, Version, shortened
from .coverage import MOST_A_WEEK, times, times_reached
from .examples import with_basics
from .minutes import whole_minutes
from .places import header, part

if TYPE_CHECKING:
    from ..fitting import Fitting

PROGRAM = """
program store-room
  session main
    within 20 min
    block legs
      must goblet-squat 3 x 8
        advance reps by 1 to 12, then load restarting reps
"""
ELSE = "        else chair-stand 3 x 12\n          advance reps by 1 to 20\n"
MAREN = '\nathlete maren "Maren"\n  has floor, chair\n'

FITTED_OVER_LIMIT = Check(
    code="fitted-over-limit",
    severity="error",
    title="A session takes longer than its limit for an athlete",
    message="Session `{session}` takes {takes} min for {athlete}, {over} min more than its {limit}.",
    help="Let {athlete} begin with less, or give what takes longer a smaller dose.",
    explain="The clock counts what the athlete does: what takes the place of a movement may take longer, and so do more "
    "repetitions or a longer hold to begin with. The minutes are rounded up.",
    wrong=with_basics(
        PROGRAM.replace("20 min", "4 min") + ELSE.replace("3 x 12", "3 x 30").replace("to 20", "to 40") + MAREN
    ),
    right=with_basics(PROGRAM.replace("20 min", "4 min") + ELSE + MAREN),
)

FITTED_SHORT_IMPOSSIBLE = Check(
    code="fitted-short-impossible",
    severity="error",
    title="Nothing fits a short version's limit for an athlete",
    message="No version of session `{session}` fits {limit} for {athlete}: what must stay takes {least} min.",
    help="Let {athlete} begin with less, or give what takes longer a smaller dose.",
    explain="A short version is made of what the athlete does: what takes the place of a movement may take longer, and so do "
    "more repetitions or a longer hold to begin with. The minutes are rounded up.",
    wrong=with_basics(
        PROGRAM.replace("20 min", "20 min\n    short 3 min by sets")
        + ELSE.replace("3 x 12", "3 x 30, at least 3 sets").replace("to 20", "to 40")
        + MAREN
    ),
    right=with_basics(PROGRAM.replace("20 min", "20 min\n    short 3 min by sets") + ELSE + MAREN),
)


def find_over_limit(fitting: Fitting) -> Iterator[Diagnostic]:
    """Sessions, and short versions, that take longer than their limit only for the athlete."""
    written = {session.name: session for session in fitting.written.sessions}
    for session in fitting.program.sessions:
        before = written[session.name]
        within = session.within
        if within is not None and session_time(fitting.written, before) <= within.base:
            takes = session_time(fitting.program, session)
            if takes > within.base:
                yield FITTED_OVER_LIMIT.at(
                    fitting.athlete.span,
                    athlete=fitting.athlete.title,
                    session=session.name,
                    takes=whole_minutes(takes),
                    over=whole_minutes(takes - within.base),
                    limit=within,
                    labels=[_longest(fitting, before, session)],
                )
        for short in session.shorts:
            least = shortened(fitting.program, session, short)
            if isinstance(least, Infeasible) and isinstance(shortened(fitting.written, before, short), Version):
                yield FITTED_SHORT_IMPOSSIBLE.at(
                    fitting.athlete.span,
                    athlete=fitting.athlete.title,
                    session=session.name,
                    limit=short.limit,
                    least=whole_minutes(least.smallest.seconds),
                    labels=[_longest(fitting, before, session)],
                )


def _longest(fitting: Fitting, before: Session, now: Session) -> Label:
    """The entry that takes most more seconds than as it is written."""
    written = [entry.seconds for block in timetable(fitting.written, before).blocks for entry in block.entries]
    fitted = iter(entry.seconds for block in timetable(fitting.program, now).blocks for entry in block.entries)
    here = [choice for choice in fitting.choices if choice.session is before]
    more = [
        (next(fitted) - seconds, choice.chosen)
        for choice, seconds in zip(here, written, strict=True)
        if choice.chosen is not None
    ]
    longer, entry = max(more, key=lambda pair: pair[0])
    return Label(header(entry.span), f"{whole_minutes(longer)} min more than as it is written")


FITTED_WEEK_UNREACHED = Check(
    code="fitted-week-unreached",
    severity="warning",
    title="An athlete's week does not reach what a category asks for",
    message="`{category}` is asked for {wanted} a week, but the sessions of a week of {athlete} reach it {reached}.",
    help="Write an `else` with the pattern {patterns} that {athlete} can do below `{lost}`.",
    explain="`at least 2 a week` is a promise that stands on the sheet of everyone. Where an athlete cannot do a movement, "
    "and nothing of the same category takes its place, fewer sessions of the week may keep it.",
    wrong=with_basics(
        PROGRAM.replace(
            "  session main", "  category legs at least 2 a week, counts squat\n  session main, 2 a week"
        ).replace("must goblet-squat", "may goblet-squat")
        + "      do push-up 3 x 8\n        advance reps by 1 to 12\n"
        + MAREN
    ),
    right=with_basics(
        PROGRAM.replace(
            "  session main", "  category legs at least 2 a week, counts squat\n  session main, 2 a week"
        ).replace("must goblet-squat", "may goblet-squat")
        + ELSE
        + "      do push-up 3 x 8\n        advance reps by 1 to 12\n"
        + MAREN
    ),
)


def find_week_unreached(fitting: Fitting) -> Iterator[Diagnostic]:
    """Categories that only the week of the athlete does not reach."""
    for category in fitting.written.categories:
        asked, reached = category.at_least or 0, times_reached(fitting.program, category)
        empty = category.required and not reached  # told as such
        if reached < asked <= min(times_reached(fitting.written, category), MOST_A_WEEK) and not empty:
            lost = next(
                choice.written
                for choice in fitting.choices
                if category.holds(choice.written.movement)
                and (choice.chosen is None or not category.holds(choice.chosen.movement))
            )
            yield FITTED_WEEK_UNREACHED.at(
                fitting.athlete.span,
                athlete=fitting.athlete.title,
                category=category.name,
                wanted=times(asked),
                reached=times(reached),
                patterns=or_list(category.counts),
                lost=lost.movement.name,
                labels=[
                    Label(part(category.span, r"at +least +\d+ +a +week"), "asked for here"),
                    Label(header(lost.span), "this one"),
                ],
            )
