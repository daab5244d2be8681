"""Figures of logs that can hardly be right: loads that cannot be made, and slips of a key."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from statistics import median

from ...grammar.diagnostic import Check, Diagnostic
from ..at_hand import AtHand
from ..implements import Makings
from ..judging import GRAIN
from ..model import Amrap, Distance, Dose, Log, LoggedEntry, Movement, Project, Reps, Rule, Session, Timed
from ..quantity import Quantity, figure_of
from .examples import in_log, with_basics
from .logs import program_of
from .places import cell

_LOADED = """
program store-room
  session main
    block legs
      must goblet-squat 3 x 8
        advance load

athlete maren
  starts 2026-06-15
  has dumbbell 8 kg, 10 kg

log maren on store-room

2026-06-17 main, 20 min
  goblet-squat {} 8 8 8
"""

LOAD_NOT_MAKEABLE = Check(
    code="logged-load-not-makeable",
    severity="warning",
    title="A logged load that cannot be made of what is there",
    message="{athlete} cannot make {load} for `{movement}`.",
    help="{instead}",
    explain="What an athlete has makes some loads and no others. One that cannot be made is a slip, or there is something to "
    "lift that no `has` line tells. A load may be rounded: 23 kg stands for 22.9 kg. It counts as it was logged.",
    wrong=with_basics(_LOADED.format("9 kg")),
    right=with_basics(_LOADED.format("8 kg")),
)


def find_load_not_makeable(log: Log, project: Project) -> Iterator[Diagnostic]:
    athlete = next((one for one in project.athletes if one.name == log.athlete), None)
    program = program_of(log, project)
    if athlete is None or program is None or not athlete.implements:
        return
    hands = AtHand(athlete)
    movements = {name: movement for session in program.sessions for name, (movement, *_) in asked_in(session).items()}
    made: dict[tuple[str, Quantity], bool] = {}
    for session in log.sessions:
        for entry in session.entries:
            movement = movements.get(entry.movement)
            if entry.load is None or movement is None or not movement.loaded_by:
                continue
            key = (entry.movement, entry.load)
            if key not in made:
                made[key] = _is_made(hands.makings(movement), entry.load)
            if not made[key]:
                where = cell(entry.span, "load", r"\b[\d.]+ *(?:kg|lb|g)\b")
                instead = _nearest(hands.makings(movement), entry.load, movement)
                yield LOAD_NOT_MAKEABLE.at(
                    where, athlete=athlete.title, movement=entry.movement, load=entry.load, instead=instead
                )


def _is_made(makings: Makings, load: Quantity) -> bool:
    """Whether a load can be made, as it may have been rounded: 23 kg stands for 22.9 kg, and 22.5 kg for 22.45 kg."""
    places = next((number for number in range(4) if (load.amount * 10**number).denominator == 1), 4)
    slack = max(GRAIN, Quantity(Fraction(1, 2 * 10**places), load.unit).base)
    return any(abs(one - load.base) <= slack for one in makings.loads)


def _nearest(makings: Makings, load: Quantity, movement: Movement) -> str:
    if not makings.loads:
        return f"Nothing to lift serves it: it is done with {' or '.join(movement.loaded_by)}."
    near = min(makings.loads, key=lambda one: (abs(one - load.base), one))
    told = Quantity(round(Quantity(near, "kg").to(load.unit).amount * 10) / Fraction(10), load.unit)
    return f"The nearest load is {told}. If there is more to lift, add it in a `has` line."


FIGURE_UNLIKELY = Check(
    code="logged-figure-unlikely",
    severity="warning",
    title="A logged figure that is many times what is usual",
    message="`{figure}` of `{movement}` is more than {times} times what was likely.",
    help="{instead}",
    explain="A key pressed twice makes 55 of 5, and a lost point 120 of 12.0. A figure is pointed out when it is more than five "
    "times the most that the program asks for, and more than five times the middle of the athlete's own. Where it is right, "
    "it can stay: it counts as it was logged. The five is our own choice, no source.",
    wrong=in_log("2026-06-17 main, 20 min\n  chair-stand 10 100 10"),
    right=in_log("2026-06-17 main, 20 min\n  chair-stand 10 12 10"),
)
TIMES = 5
LEAST_KNOWN = 3  # figures of one's own, of which the middle says something


def find_figure_unlikely(log: Log, project: Project) -> Iterator[Diagnostic]:
    program = program_of(log, project)
    if program is None:
        return
    asked = {session.name: asked_in(session) for session in program.sessions}
    usual = {key: _usual(figures) for key, figures in _own(log).items()}
    for session in log.sessions:
        for entry in session.entries:
            dose = asked.get(session.session, {}).get(entry.movement)
            most = _most(dose[1], dose[2]) if dose is not None else {}
            for number, figure in enumerate(entry.results):
                kind = _kind(figure)
                known = [one for one in (most.get(kind), usual.get((entry.movement, kind))) if one]
                if known and figure_of(figure) > TIMES * max(known):
                    yield _unlikely(entry, number, figure, max(known))


def _unlikely(entry: LoggedEntry, number: int, figure: int | Quantity, usual: Fraction) -> Diagnostic:
    likely = [one for one in _slips(figure) if usual / 2 <= figure_of(one) <= usual * 2]
    near = min(likely, key=lambda one: abs(figure_of(one) - usual), default=None)
    instead = (
        f"Likely was `{near}`. Where `{figure}` is right, leave it."
        if near is not None
        else "Mend it, if it is a slip."
    )
    where = cell(entry.span, number, rf"(?<![\w.]){figure}(?![\w.])")
    return FIGURE_UNLIKELY.at(where, figure=figure, movement=entry.movement, times=TIMES, instead=instead)


def _slips(figure: int | Quantity) -> Iterator[int | Quantity]:
    """What may have been meant: with one digit less, with a point before the last digit, minutes as seconds."""
    amount = Fraction(figure) if isinstance(figure, int) else figure.amount
    digits = str(amount.numerator) if amount.denominator == 1 else ""
    fewer = [Fraction(digits[:place] + digits[place + 1 :]) for place in range(len(digits)) if len(digits) > 1]
    for one in dict.fromkeys((*fewer, amount / 10, amount / 60)):
        if not isinstance(figure, int):
            yield Quantity(one, figure.unit)
        elif one.denominator == 1:
            yield int(one)


def _own(log: Log) -> dict[tuple[str, str], list[Fraction]]:
    """All figures of each movement, by what they are told in."""
    own: dict[tuple[str, str], list[Fraction]] = {}
    for session in log.sessions:
        for entry in session.entries:
            for figure in entry.results:
                own.setdefault((entry.movement, _kind(figure)), []).append(Fraction(figure_of(figure)))
    return own


def _usual(figures: list[Fraction]) -> Fraction | None:
    return median(figures) if len(figures) >= LEAST_KNOWN else None


def _kind(figure: int | Quantity) -> str:
    return "count" if isinstance(figure, int) else figure.dimension


Asked = tuple[Movement, Dose, Rule | None]


def asked_in(session: Session) -> dict[str, Asked]:
    """What a session may have asked for, by the names of movements."""
    found: dict[str, Asked] = {}
    for entry in session.entries:
        rule = entry.rule if isinstance(entry.rule, Rule) else None
        found.setdefault(entry.movement.name, (entry.movement, entry.dose, rule))
        for other in entry.otherwise:
            found.setdefault(other.movement.name, (other.movement, other.dose, None))
    return found


def _most(dose: Dose, rule: Rule | None) -> dict[str, Fraction]:
    """The largest figure of a set that a dose asks for now or can come to, by what it is told in."""
    most: dict[str, Fraction] = {}

    def grow(kind: str, figure: Fraction) -> None:
        most[kind] = max(figure, most.get(kind, figure))

    for work in dose.sets:
        match work.target:
            case Reps(high=high):
                grow("count", Fraction(high))
            case Amrap(expect=expect) if expect is not None:
                grow("count", Fraction(expect))
            case Timed(time=time):
                grow("time", time.base)
            case Distance(length=length):
                grow("length", length.base)
    for axis in rule.axes if rule is not None else ():
        if (
            axis.name in ("reps", "hold", "distance", "time")
            and axis.bound is not None
            and not isinstance(axis.bound, str)
        ):
            grow(_kind(axis.bound), Fraction(figure_of(axis.bound)))
    return most
