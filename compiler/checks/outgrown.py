"""What an athlete's logs tell of the minutes: sessions that are over their limits by now."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from ...grammar.diagnostic import Check, Diagnostic, Label
from ..clock import session_time
from ..trim import Infeasible, shortened
from .examples import with_basics
from .minutes import whole_minutes
from .places import header

if TYPE_CHECKING:
    from ..fitting import Fitting

_PROGRAM = """
program store-room
  session main
    within 20 min
    block legs
      must goblet-squat 3 x 8
        advance reps by 1 to 12, then load restarting reps
"""
_LOGGED = """
log maren on store-room

2026-06-15 main, {minutes}
  goblet-squat 8 kg 8 8 8
2026-06-17 main, {minutes}
  goblet-squat 8 kg 8 8 8
2026-06-19 main, {minutes}
  goblet-squat 8 kg 8 8 8
"""
_LOGGING = '\nathlete maren "Maren"\n  has kettlebell 8 kg\n'
_TIGHT = _PROGRAM.replace("20 min", "5 min\n    short 3 min by sets")

OUTGROWN = Check(
    code="outgrown-by-now",
    severity="warning",
    title="By an athlete's logs a session takes longer than its limit",
    message="By now session `{session}` takes {takes} min for {athlete}{pace}, {over} min more than its {limit}.",
    help="Take something out, shorten rests, or give it more time. Until then the cut list on the sheet says what to leave out.",
    explain="From three logged full sessions on, planned minutes follow the athlete: the middle of logged to planned time, where "
    "that is longer. Doses that have grown by their rules count as they are today.",
    wrong=with_basics(_TIGHT + _LOGGING + _LOGGED.format(minutes="9 min")),
    right=with_basics(_TIGHT + _LOGGING + _LOGGED.format(minutes="4 min")),
)

SHORT_OUTGROWN = Check(
    code="short-outgrown-by-now",
    severity="warning",
    title="By an athlete's logs nothing fits a short version any more",
    message="By now no version of session `{session}` fits {limit} for {athlete}{pace}: what must stay takes {least} min.",
    help="Write `short {least} min`, or let go of something. Until then the pack has no such sheet.",
    explain="A short version is cut from what the athlete does today, at their own pace: from three logged full sessions on, the "
    "middle of logged to planned time, where that is longer.",
    wrong=with_basics(
        _PROGRAM.replace("20 min", "20 min\n    short 3 min by sets").replace("3 x 8", "3 x 8, at least 2 sets")
        + _LOGGING
        + _LOGGED.format(minutes="8 min")
    ),
    right=with_basics(
        _PROGRAM.replace("20 min", "20 min\n    short 3 min by sets").replace("3 x 8", "3 x 8, at least 2 sets")
        + _LOGGING
        + _LOGGED.format(minutes="4 min")
    ),
)


def find_outgrown(now: Fitting) -> Iterator[Diagnostic]:
    """Sessions and short versions that are over their limits today; `now` is the fitting by the athlete's log."""
    for session in now.program.sessions:
        pace = f", who needs {round(session.pace * 100)}% of the planned time" if session.pace > 1 else ""
        within = session.within
        takes = session_time(now.program, session)
        if within is not None and takes > within.base:
            yield OUTGROWN.at(
                now.athlete.span,
                athlete=now.athlete.title,
                session=session.name,
                takes=whole_minutes(takes),
                over=whole_minutes(takes - within.base),
                limit=within,
                pace=pace,
                labels=[Label(header(session.span), "the session")],
            )
        for short in session.shorts:
            least = shortened(now.program, session, short)
            if isinstance(least, Infeasible):
                yield SHORT_OUTGROWN.at(
                    now.athlete.span,
                    athlete=now.athlete.title,
                    session=session.name,
                    limit=short.limit,
                    least=whole_minutes(least.smallest.seconds),
                    pace=pace,
                    labels=[Label(header(short.span), "this one")],
                )
