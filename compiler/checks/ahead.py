"""What comes: findings on a program run forward over its weeks, told where the weeks are looked at.

`check` does not tell them: they depend on who trains, and on how it goes. Each is told for the run in which every session
is good, the earliest that it can come.
"""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise

from ...grammar.diagnostic import Check, Diagnostic
from ..horizon import Ahead, Horizon, Outlook
from ..model import Project, Rule
from ..progression import Blocked
from ..quantity import UNITS, Figure, Quantity, decimal_text
from .allows import without_allowed
from .examples import in_weeks
from .minutes import whole_minutes
from .places import header, line, part

_SQUAT = """
session main, 3 a week
  within {within}
{short}  block legs
    must chair-stand {dose}
      after 2 good
      advance {rule}
    do plank 6 x 60 s
      advance none because "Six minutes are enough."
"""


def _in_weeks(rule: str, within: str = "60 min", dose: str = "4 x 15", short: str = "") -> Callable[[], str]:
    """A program of twelve weeks in which one movement follows a rule."""
    line = f"  short {short} by sets\n" if short else ""
    return in_weeks("", _SQUAT.format(rule=rule, within=within, dose=dose, short=line))


def _with_kettlebells(masses: str) -> Callable[[], str]:
    """The same with a squat that is loaded, and an athlete who has these kettlebells."""
    rule = "reps by 1 to 18, then load restarting reps, then pause by 1 s to 40 s"
    squat = _SQUAT.replace("chair-stand", "goblet-squat").format(rule=rule, within="60 min", dose="4 x 15", short="")
    made = in_weeks("jump 40%", squat)
    athlete = f"\nathlete maren\n  has kettlebell {masses}\n  has floor\n  begins goblet-squat at 8 kg\n"
    return lambda: made() + athlete


def ahead_findings(project: Project, outlook: Outlook) -> tuple[Diagnostic, ...]:
    """What a look ahead finds, in the order of the source, without what the coach allows."""
    found = [finding for find in AHEAD_CHECKS for finding in find(outlook)]
    found.sort(key=lambda one: (one.span.source.name, one.span.start, one.span.end))
    return without_allowed(project, found)


RULE_EXHAUSTED = Check(
    code="rule-exhausted",
    severity="warning",
    title="A rule of progression that comes to its end before the program does",
    message="`{movement}` has nowhere to go from week {week} of {weeks}{who}: {reasons}. {missed}",
    help="Give an axis more room, or add another one after it, such as `, then sets by 1 to 5`.",
    explain="A rule is exhausted when no axis of it can move: from there on the movement stays as it is, however well it goes. "
    "The week is the earliest, with every session good. With an athlete, their own starts and loads are counted with.",
    wrong=_in_weeks("reps by 1 to 20"),
    right=_in_weeks("reps by 1 to 40"),
)


def find_rule_exhausted(outlook: Outlook) -> Iterator[Diagnostic]:
    for row, other in zip(outlook.good.rows, outlook.missed.rows, strict=True):
        if row.exhausted is None or row.exhausted[0] >= outlook.good.weeks or not isinstance(row.entry.rule, Rule):
            continue
        week, turn = row.exhausted
        yield RULE_EXHAUSTED.at(
            line(row.entry.rule.span),
            movement=row.entry.movement.name,
            week=week,
            weeks=outlook.good.weeks,
            who=_who(outlook),
            reasons=_and(_reason(row, blocked) for blocked in turn.blocked),
            missed=_with_missed(outlook, None if other.exhausted is None else other.exhausted[0]),
        )


def _reason(row: Ahead, blocked: Blocked) -> str:
    """Why an axis cannot move, as a part of a sentence."""
    track = next((track for track in row.course.tracks if track.name == blocked.axis), None) if row.course else None
    match blocked.reason:
        case "repetitions" if track is not None:
            return f"`{blocked.axis}` waits for {track.at} repetitions, and no session asks for as many"
        case "no-heavier" if track is not None and track.step is not None:
            return "nothing that much heavier can be made"
        case "no-heavier":
            return "nothing heavier can be made"
        case "jump":
            return f"{_load(row, blocked.figure)} is too large a jump" if blocked.figure else "the jump is too large"
        case "top" if track is None or track.bound is None:
            return "the highest rung is reached"
    return f"`{blocked.axis}` is at its bound"


def _load(row: Ahead, load: Figure) -> str:
    """A load in the unit in which it is told."""
    unit = row.course.unit if row.course is not None else "kg"
    return f"{decimal_text(load / UNITS[unit][1], 2)}{'' if unit == '%' else ' '}{unit}"


SESSION_OUTGROWS = Check(
    code="session-outgrows-limit",
    severity="warning",
    title="A session that outgrows its limit as its movements progress",
    message="Session `{session}` outgrows its {limit} in week {week} of {weeks}{who}: it takes {takes} min then.{blame} {missed}",
    help="{instead}, or write `within {takes} min`.",
    explain="Repetitions, sets and holds take minutes as they grow. The clock is run for every week; the movement named is the "
    "one that has grown most by then beyond what is written.",
    wrong=_in_weeks("reps by 1 to 40", within="20 min"),
    right=_in_weeks("reps by 1 to 40", within="30 min"),
)


def find_session_outgrows(outlook: Outlook) -> Iterator[Diagnostic]:
    for ahead, other in zip(outlook.good.sessions, outlook.missed.sessions, strict=True):
        if ahead.over is None:
            continue
        told, instead = "", "Take a set out"
        if ahead.blame is not None:
            name = ahead.blame[0].movement.name
            told = f" `{name}` has grown most, by {_minutes(ahead.blame[1])}."
            instead = f"Give `{name}` a nearer bound, take a set out"
        yield SESSION_OUTGROWS.at(
            ahead.session.within_span or header(ahead.session.span),
            session=ahead.session.name,
            limit=ahead.session.within,
            week=ahead.over,
            weeks=outlook.good.weeks,
            who=_who(outlook),
            takes=whole_minutes(ahead.seconds[ahead.over - 1]),
            blame=told,
            instead=instead,
            missed=_with_missed(outlook, other.over),
        )


SHORT_OUTGROWN = Check(
    code="short-outgrown",
    severity="warning",
    title="A short version into which nothing fits any more",
    message="From week {week} of {weeks} on no version of session `{session}` fits {limit}{who}: what must stay takes "
    "{takes} min. {missed}",
    help="Let more go of it: fewer `must`, a smaller `at least ... sets`, a nearer bound; or write `short {takes} min by {by}`.",
    explain="What must stay in a short version progresses, too. When it alone takes longer than the limit, there is no such "
    "version from that week on.",
    wrong=_in_weeks("reps by 1 to 40", dose="4 x 15, at least 3 sets", short="5 min"),
    right=_in_weeks("reps by 1 to 40", dose="4 x 15, at least 3 sets", short="8 min"),
)


def find_short_outgrown(outlook: Outlook) -> Iterator[Diagnostic]:
    for ahead, other in zip(outlook.good.sessions, outlook.missed.sessions, strict=True):
        for short, later in zip(ahead.shorts, other.shorts, strict=True):
            if short.impossible is None or short.short.limit.base <= 0:
                continue
            week, seconds = short.impossible
            yield SHORT_OUTGROWN.at(
                header(short.short.span),
                session=ahead.session.name,
                limit=short.short.limit,
                week=week,
                weeks=outlook.good.weeks,
                who=_who(outlook),
                takes=whole_minutes(seconds),
                by=short.short.by,
                missed=_with_missed(outlook, later.impossible[0] if later.impossible else None),
            )


JUMP_AHEAD = Check(
    code="jump-ahead",
    severity="warning",
    title="A heavier load that is too far from the one before",
    message="`{movement}` comes in week {week} of {weeks} to a load that is too far{who}: from {load} to {next} is {share} "
    "more, and the jump is at most {jump}. {missed}",
    help="Let repetitions or sets grow further before it, bring something in between, or write `jump {share}` if that is "
    "safe for this athlete.",
    explain="A load is passed over when the step to it is larger than `jump`; the turn goes to the next axis of the rule. 2 "
    "to 10% is the published step (American College of Sports Medicine, Med Sci Sports Exerc 2009;41(3):687-708; read in a "
    "summary). With coarse weights more repetitions come first.",
    wrong=_with_kettlebells("8 kg, 12 kg, 16 kg"),
    right=_with_kettlebells("8 kg, 10 kg, 12 kg, 16 kg, 20 kg"),
)


def find_jump_ahead(outlook: Outlook) -> Iterator[Diagnostic]:
    for row, other in zip(outlook.good.rows, outlook.missed.rows, strict=True):
        if row.jump is None or row.course is None or not isinstance(row.entry.rule, Rule):
            continue
        if row.exhausted is not None and row.exhausted[0] == row.jump[0]:
            continue  # told as such, with the jump as a reason
        week, load, heavier = row.jump
        yield JUMP_AHEAD.at(
            part(row.entry.rule.span, r"\bload\b"),
            movement=row.entry.movement.name,
            week=week,
            weeks=outlook.good.weeks,
            who=_who(outlook),
            load=_load(row, load),
            next=_load(row, heavier),
            share=_share((heavier - load) / Fraction(load)),
            jump=_share(row.course.jump),
            missed=_with_missed(outlook, other.jump[0] if other.jump else None),
        )


LOAD_ENDS = Check(
    code="load-ends",
    severity="warning",
    title="A load that ends while its rule goes on",
    message="`{movement}` comes in week {week} of {weeks} to the heaviest load that can be made{who}{load}. {missed}",
    help="From there on the next axis of the rule takes the turn. Bring something heavier, or a harder variant, if it is "
    "the load that should grow.",
    explain="Load goes by what the athlete has. When nothing heavier can be made, the turn goes to the next axis of the rule.",
    wrong=_with_kettlebells("8 kg, 10 kg"),
    right=_with_kettlebells("8 kg, 10 kg, 12 kg, 16 kg, 20 kg"),
)


def find_load_ends(outlook: Outlook) -> Iterator[Diagnostic]:
    for row, other in zip(outlook.good.rows, outlook.missed.rows, strict=True):
        if row.heaviest is None or not isinstance(row.entry.rule, Rule):
            continue
        week, load = row.heaviest
        if row.exhausted is not None and row.exhausted[0] == week:
            continue  # told as such, with this as a reason
        yield LOAD_ENDS.at(
            part(row.entry.rule.span, r"\bload\b"),
            movement=row.entry.movement.name,
            week=week,
            weeks=outlook.good.weeks,
            who=_who(outlook),
            load=f", {_load(row, load)}" if load is not None else "",
            missed=_with_missed(outlook, other.heaviest[0] if other.heaviest else None),
        )


WEEK_RISES = Check(
    code="week-rises-fast",
    severity="warning",
    title="A week that asks for much more than the one before",
    message="Week {week} of {weeks} asks for {what}, {share} more than week {before}{who}.",
    help="Take a smaller step, or let `after 2 good` spread the steps over more sessions.",
    explain="The sets of a week, and the seconds spent in them, are those of its work and conditioning blocks. A week may "
    "rise by 25% without a word, or as much as `--rise` says; that figure is common practice, no source. Easier weeks are "
    "left out: the week after one is compared with the week before it.",
    wrong=_in_weeks("sets by 3 to 14, then reps by 1 to 40", dose="2 x 15"),
    right=_in_weeks("sets by 1 to 14, then reps by 1 to 40", dose="2 x 15"),
)


def find_week_rises_fast(outlook: Outlook) -> Iterator[Diagnostic]:
    ahead = outlook.good
    ordinary = [week for week in range(1, ahead.weeks + 1) if week not in ahead.easier]
    rises = [rising for pair in pairwise(ordinary) for rising in _rises(ahead, *pair)]
    largest = max(rises, key=lambda one: one[0], default=None)
    if largest is not None and largest[0] > outlook.rise:
        share, before, week, what = largest
        yield WEEK_RISES.at(
            header(ahead.program.span),
            week=week,
            weeks=ahead.weeks,
            what=what,
            share=_share(share),
            before=before,
            who=_who(outlook),
        )


def _rises(ahead: Horizon, before: int, week: int) -> Iterator[tuple[Fraction, int, int, str]]:
    """By which share a week asks for more sets, or more time in them, than an earlier one, and for what."""
    sets, seconds = ahead.sets, ahead.tension
    if sets[before - 1]:
        yield Fraction(sets[week - 1], sets[before - 1]) - 1, before, week, f"{sets[week - 1]} sets"
    if seconds[before - 1]:
        told = f"{_minutes(seconds[week - 1])} of work in its sets"
        yield seconds[week - 1] / seconds[before - 1] - 1, before, week, told


def _who(outlook: Outlook) -> str:
    return f" for {outlook.athlete.title}" if outlook.athlete is not None else ""


def _with_missed(outlook: Outlook, week: int | None) -> str:
    """When it comes with sessions missed."""
    every = outlook.missed.missed_every
    when = f"it comes in week {week}" if week is not None else f"it does not come in {outlook.missed.weeks} weeks"
    return f"With every {_ordinal(every or 0)} session missed {when}."


def _ordinal(number: int) -> str:
    return {2: "second", 3: "third"}.get(number, f"{number}th")


def _share(share: Fraction) -> str:
    return str(Quantity(Fraction(round(share * 100)), "%"))


def _minutes(seconds: Fraction) -> str:
    return f"{whole_minutes(seconds)} min"


def _and(parts: Iterator[str]) -> str:
    told = list(dict.fromkeys(parts))
    return " and ".join(filter(None, [", ".join(told[:-1]), *told[-1:]]))


AHEAD_CHECKS = (
    find_rule_exhausted, find_session_outgrows, find_short_outgrown, find_jump_ahead, find_load_ends, find_week_rises_fast,
)  # fmt: skip
CHECKS = (RULE_EXHAUSTED, SESSION_OUTGROWS, SHORT_OUTGROWN, JUMP_AHEAD, LOAD_ENDS, WEEK_RISES)
