"""Minutes: sessions that outgrow their limit, and short versions that cannot be."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from ...grammar.diagnostic import Check, Diagnostic, Label, or_list
from ..clock import full_version, session_time, timetable
from ..model import Program, Session
from ..trim import Infeasible, trim
from .dose import MOST_SETS
from .examples import in_program, in_session
from .places import header, part
from .shape import MOST_ROUNDS

LONGEST = 6  # hours

_BLOCKS = """
block legs
  must chair-stand 3 x 10
    advance reps by 1 to 15
  do split-squat 3 x 8 each side
    advance reps by 1 to 12
"""

SESSION_OVER_LIMIT = Check(
    code="session-over-limit",
    severity="error",
    title="A session takes longer than its limit",
    message="Session `{session}` takes {takes} min, {over} min more than its {limit}.",
    help="Take sets or a movement out, shorten rests, or write `within {takes} min`.",
    explain="The clock adds up every set, rest and change of the full session, warm-up and cool-down included. The minutes "
    "are rounded up.",
    wrong=in_session("within 8 min\n" + _BLOCKS),
    right=in_session("within 9 min\n" + _BLOCKS),
)


def find_session_over_limit(program: Program) -> Iterator[Diagnostic]:
    for session in timed(program):
        takes = session_time(program, session)
        if session.within is not None and 0 < session.within.base < takes:
            yield SESSION_OVER_LIMIT.at(
                session.within_span or part(session.span, r"within +\S+ *\w*"),
                session=session.name,
                takes=whole_minutes(takes),
                over=whole_minutes(takes - session.within.base),
                limit=session.within,
                labels=[_longest(program, session)],
            )


def _longest(program: Program, session: Session) -> Label:
    """The block in which most of the minutes go, and the movement that takes most of them."""
    block = max(timetable(program, session).blocks, key=lambda timed: timed.seconds)
    entry = max(block.entries, key=lambda timed: timed.seconds)
    most = f", of it `{entry.entry.movement.name}` {whole_minutes(entry.seconds)} min" if len(block.entries) > 1 else ""
    return Label(header(block.block.span), f"the longest block: {whole_minutes(block.seconds)} min{most}")


SHORT_IMPOSSIBLE = Check(
    code="short-impossible",
    severity="error",
    title="Nothing fits a short version's limit",
    message="No version of session `{session}` fits {limit}: what must stay takes {least} min{holders}.",
    help="Write `short {least} min by {by}`, or let go of something: fewer `must`, a smaller `at least ... sets`{by_sets}.",
    explain="A short version keeps every `must` with its fewest sets, and a movement for every category that is required or that "
    "the week needs of this session. When these "
    "alone take longer than the limit, there is no such version. The minutes are rounded up.",
    wrong=in_session("within 20 min\nshort 2 min by sets\n" + _BLOCKS.replace("3 x 10", "3 x 10, at least 3 sets")),
    right=in_session("within 20 min\nshort 4 min by sets\n" + _BLOCKS.replace("3 x 10", "3 x 10, at least 3 sets")),
)


def find_short_impossible(program: Program) -> Iterator[Diagnostic]:
    for session in timed(program):
        for short in session.shorts:
            if short.limit.base <= 0:
                continue
            answer = trim(program, session, short.limit.base, short.by)
            if isinstance(answer, Infeasible):
                yield SHORT_IMPOSSIBLE.at(
                    header(short.span),
                    session=session.name,
                    limit=short.limit,
                    least=whole_minutes(answer.smallest.seconds),
                    by=short.by,
                    by_sets=", or cut `by sets`" if short.by == "movements" else "",
                    holders=_holders(answer),
                )


def _holders(answer: Infeasible) -> str:
    """What keeps a version from being shorter, as the end of a sentence."""
    musts = [entry.movement.name for entry in answer.musts]
    categories = [category.name for category in answer.categories]
    parts = []
    if musts:
        parts.append(f"`must` keeps {_and_list(musts)}")
    if categories:
        parts.append(f"a movement stays for {_and_list(categories)}")
    return f" ({'; '.join(parts)})" if parts else ""


SHORT_NOT_SHORTER = Check(
    code="short-not-shorter",
    severity="warning",
    title="A short version with as long a limit as the session",
    message="A short version of {limit} is no shorter than the session itself, which has {within}.",
    help="Write a limit below {within}, or take the line out.",
    explain="A short version is for the day on which the time of the full session is not there.",
    wrong=in_session("within 20 min\nshort 25 min by sets\n" + _BLOCKS),
    right=in_session("within 20 min\nshort 6 min by sets\n" + _BLOCKS),
)


def find_short_not_shorter(program: Program) -> Iterator[Diagnostic]:
    for session in program.sessions:
        for short in session.shorts:
            if session.within is not None and short.limit.base >= session.within.base > 0:
                yield SHORT_NOT_SHORTER.at(header(short.span), limit=short.limit, within=session.within)


SHORT_CUTS_NOTHING = Check(
    code="short-cuts-nothing",
    severity="advice",
    title="A short version in which nothing is cut",
    message="The full session `{session}` takes {takes} min, so its short version of {limit} cuts nothing.",
    help="Write a limit below {takes} min, or take the line out.",
    explain="The clock finds that the whole session already fits the limit of this short version, so the two are the same.",
    wrong=in_session("within 30 min\nshort 10 min by sets\n" + _BLOCKS),
    right=in_session("within 30 min\nshort 6 min by sets\n" + _BLOCKS),
)


def find_short_cuts_nothing(program: Program) -> Iterator[Diagnostic]:
    for session in timed(program):
        takes = session_time(program, session)
        for short in session.shorts:
            if takes <= short.limit.base and not (session.within and short.limit.base >= session.within.base):
                yield SHORT_CUTS_NOTHING.at(
                    header(short.span), session=session.name, takes=whole_minutes(takes), limit=short.limit
                )


SHORT_TWICE = Check(
    code="short-twice",
    severity="error",
    title="Two short versions of the same minutes",
    message="Session `{session}` has two short versions of {limit}, which a log could not tell apart.",
    help="Give one of them another limit, or take it out.",
    explain="Sheets and logs name a short version by its minutes: `main short 25 min`.",
    wrong=in_session("within 20 min\nshort 6 min by sets\nshort 6 min by movements\n" + _BLOCKS),
    right=in_session("within 20 min\nshort 6 min by sets\nshort 4 min by movements\n" + _BLOCKS),
)


def find_short_twice(program: Program) -> Iterator[Diagnostic]:
    for session in program.sessions:
        limits = [short.limit.base for short in session.shorts]
        for number, short in enumerate(session.shorts):
            if short.limit.base in limits[:number]:
                yield SHORT_TWICE.at(header(short.span), session=session.name, limit=short.limit)


LIMIT_OUT_OF_RANGE = Check(
    code="limit-out-of-range",
    severity="error",
    title="A limit of no minutes, or of more hours than a session has",
    message="`{written}` is no limit for a session: it is more than 0 min and at most {longest} h.",
    help="Write how many minutes there are, such as `{word} 45 min`.",
    explain="`within` and `short` say how much time the athlete has, from the first set to the end of the last.",
    wrong=in_session("within 0 min\n" + _BLOCKS),
    right=in_session("within 20 min\n" + _BLOCKS),
)


def find_limit_out_of_range(program: Program) -> Iterator[Diagnostic]:
    for session in program.sessions:
        if session.within is not None and not 0 < session.within.base <= LONGEST * 3600:
            where = session.within_span or part(session.span, r"within +\S+ *\w*")
            yield LIMIT_OUT_OF_RANGE.at(where, written=f"within {session.within}", word="within", longest=LONGEST)
        for short in session.shorts:
            if not 0 < short.limit.base <= LONGEST * 3600:
                yield LIMIT_OUT_OF_RANGE.at(
                    header(short.span), written=f"short {short.limit}", word="short", longest=LONGEST
                )


REST_OUT_OF_RANGE = Check(
    code="rest-out-of-range",
    severity="error",
    title="A rest or a change of more than 15 minutes",
    message="`{word} {time}` is longer than any pause in a session: 0 s to 15 min.",
    help="Write the seconds, such as `{word} 60 s`.",
    explain="`rest` is the pause between two sets, or after a round; `change` is the time to the next movement.",
    wrong=in_program("rest 60 min"),
    right=in_program("rest 60 s"),
)


def find_rest_out_of_range(program: Program) -> Iterator[Diagnostic]:
    places = [("rest", program.rest, program.span), ("change", program.change, program.span)]
    for session in program.sessions:
        for block in session.blocks:
            places += [("rest", block.rest, block.span), ("change", block.change, block.span)]
            for entry in block.entries:
                doses = [entry.dose, *(other.dose for other in entry.otherwise)]
                places += [("rest", dose.rest, dose.span) for dose in doses]
    for word, time, span in places:
        if time is not None and time.base > 15 * 60:
            yield REST_OUT_OF_RANGE.at(part(span, rf"\b{word} +[\d.]+ *[a-z]+"), word=word, time=time)


def whole_minutes(seconds: Fraction) -> int:
    """Minutes for people: rounded up, so that they are always enough."""
    return ceil(seconds / 60)


def _and_list(names: list[str]) -> str:
    return or_list(dict.fromkeys(names)).replace(" or ", " and ")


def timed(program: Program) -> Iterator[Session]:
    """The sessions whose minutes can be told: all lines read, and no figure that was told as out of range."""
    for session in () if program.damaged else program.sessions:
        covers = [entry.movement.covers for entry in session.entries]
        speeds = all(pair is None or pair[0].base > 0 for pair in covers)
        counts = full_version(session)
        if speeds and any(counts) and max(counts) <= max(MOST_SETS, MOST_ROUNDS):
            yield session
