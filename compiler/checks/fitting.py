"""Fitting: what an athlete cannot do, and what becomes of the session without it."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from ...grammar.diagnostic import Check, Diagnostic, Label, or_list
from ...grammar.source import Span
from ..guidelines import LEAST_STEP
from ..model import Category, Session
from ..quantity import Quantity, decimal_text
from ..week import strength_sessions
from .coverage import members
from .examples import with_basics
from .fitted_sessions import ELSE, MAREN, PROGRAM, find_over_limit, find_week_unreached
from .places import header

if TYPE_CHECKING:
    from ..fitting import Choice, Fitting
    from ..reasons import Reason

_REASONS = (
    "The reason is a line `avoids`, a thing that the movement needs and the athlete does not have, nothing to load it with, "
    "or loads that are all heavier than what is asked for. "
)

MUST_IMPOSSIBLE = Check(
    code="must-impossible",
    severity="error",
    title="An athlete cannot do what the program requires",
    message="{athlete} cannot do `must {movement}` in session `{session}`: {reason}.",
    help="{serving}.",
    explain="Each `must` stands in every version of a session, so somebody who cannot do it needs another movement: the "
    f"first `else` below it that they can do. {_REASONS}The movements that are named share a pattern with it.",
    wrong=with_basics(PROGRAM + MAREN),
    right=with_basics(PROGRAM + ELSE + MAREN),
)

CATEGORY_UNFILLED = Check(
    code="category-unfilled",
    severity="error",
    title="A required category is left empty for an athlete",
    message="{athlete} has no movement left for `{category}` in session `{session}`: {reason}.",
    help="{serving}.",
    explain=f"A required category is the promise that no working session goes without it, whoever does it. {_REASONS}",
    wrong=with_basics(
        PROGRAM.replace("program store-room\n", "program store-room\n  category legs required, counts squat\n").replace(
            "must", "do"
        )
        + "      do plank 2 x 20 s\n        advance hold by 5 s to 60 s\n"
        + MAREN
        + '  allow movement-left-out because "It waits for the ship."\n'
    ),
    right=with_basics(
        PROGRAM.replace("program store-room\n", "program store-room\n  category legs required, counts squat\n").replace(
            "must", "do"
        )
        + ELSE
        + "      do plank 2 x 20 s\n        advance hold by 5 s to 60 s\n"
        + MAREN
    ),
)

LEFT_OUT = Check(
    code="movement-left-out",
    severity="advice",
    title="A movement is left out for an athlete",
    message="{athlete} does not do `{priority} {movement}` in session `{session}`, and nothing takes its place: {reason}.",
    help="{serving}; or `allow` it here.",
    explain=f"What cannot be done is left out where no `else` serves. A `may` is left out without a word. {_REASONS}",
    wrong=with_basics(PROGRAM + ELSE + "      do step-up 2 x 8 each side\n        advance reps by 1 to 12\n" + MAREN),
    right=with_basics(PROGRAM + ELSE + "      may step-up 2 x 8 each side\n        advance reps by 1 to 12\n" + MAREN),
)


def _named(fitting: Fitting, patterns: Iterable[str], session: Session) -> str:
    """What to write: up to five movements that would serve, none that the session has already, for anybody or for them."""
    from ..fitting import serving
    from ..pipeline import library_movements  # read only once something is wrong

    there = {entry.movement.name for entry in session.entries}
    for choice in fitting.choices:
        if choice.session.name == session.name:
            there |= {other.movement.name for other in choice.written.otherwise}
            there |= {choice.chosen.movement.name} if choice.chosen is not None else set()
    own = (entry.movement for other in fitting.written.sessions for entry in other.entries)
    known = {movement.name: movement for movement in (*own, *library_movements())}
    found = serving(fitting.athlete, patterns, known.values())
    names = [movement.name for movement in found if movement.name not in there]
    who = fitting.athlete.title
    if not names:
        return f"Nothing else in the library would serve {who}: declare a movement that does"
    return f"Write one of these as an `else` below it: {or_list(names[:5])}. {who} can do them with what is there"


def _left(fitting: Fitting, choice: Choice, check: Check) -> Diagnostic:
    reason = choice.reasons[0]
    return check.at(
        _place(fitting, reason),
        athlete=fitting.athlete.title,
        movement=choice.written.movement.name,
        priority=choice.written.priority,
        session=choice.session.name,
        reason=told(reason),
        serving=_named(fitting, choice.written.movement.patterns, choice.session),
        labels=[Label(header(choice.written.span), "this one")],
    )


def find_left_out(fitting: Fitting) -> Iterator[Diagnostic]:
    """Each `must` that cannot be done, and each `key` and `do` that is left out."""
    for choice in fitting.choices:
        if choice.chosen is None and choice.written.priority != "may":
            yield _left(fitting, choice, MUST_IMPOSSIBLE if choice.written.priority == "must" else LEFT_OUT)


def find_category_unfilled(fitting: Fitting) -> Iterator[Diagnostic]:
    required = [category for category in fitting.written.categories if category.required]
    now = {session.name: session for session in fitting.program.sessions}
    for session in strength_sessions(fitting.written) if required else ():
        for category in required:
            there = members(session, category)
            if there and not (session.name in now and members(now[session.name], category)):
                lost = [one for one in fitting.choices if one.session is session and one.written in there]
                if not any(one.chosen is None and one.written.priority == "must" for one in lost):  # told as such
                    yield _unfilled(fitting, session, category, lost)


def _unfilled(fitting: Fitting, session: Session, category: Category, lost: list[Choice]) -> Diagnostic:
    reason = next(reason for choice in lost for reason in choice.reasons)
    return CATEGORY_UNFILLED.at(
        _place(fitting, reason),
        athlete=fitting.athlete.title,
        category=category.name,
        session=session.name,
        reason=told(reason),
        serving=_named(fitting, category.counts, session),
        labels=[Label(header(category.span), "required here"), Label(header(lost[0].written.span), "this one")],
    )


ELSE_STAYS = Check(
    code="else-stays",
    severity="advice",
    title="What an athlete does instead never advances",
    message="{athlete} does `{movement}` in place of `{written}`, and nothing says how it advances.",
    help='Write below its `else`, set further in, how it does: `advance reps by 1 to 15`, or `advance none because "..."`.',
    explain="An `else` can have a rule of progression of its own, on lines below it. Without one the movement stays as it is "
    "for whoever does it.",
    wrong=with_basics(PROGRAM + ELSE.split("\n", maxsplit=1)[0] + "\n" + MAREN),
    right=with_basics(PROGRAM + ELSE + MAREN),
)


def find_else_stays(fitting: Fitting) -> Iterator[Diagnostic]:
    for choice in fitting.choices:
        chosen = choice.chosen
        if (
            choice.block.kind == "work"
            and chosen is not None
            and chosen.rule is None
            and choice.written.rule is not None
        ):
            yield ELSE_STAYS.at(
                header(chosen.span),
                athlete=fitting.athlete.title,
                movement=chosen.movement.name,
                written=choice.written.movement.name,
            )


BEGINS_UNMAKEABLE = Check(
    code="begins-unmakeable",
    severity="warning",
    title="An athlete begins with a load that cannot be made",
    message="{athlete} begins `{movement}` at {load}, which cannot be made of what there is: the sheet says {made}.",
    help="Write `at {made}`, or add to what {athlete} has.",
    explain="A load is made of what the athlete `has`. Where the load asked for cannot be made, it is the next lighter one.",
    wrong=with_basics(
        PROGRAM + '\nathlete maren "Maren"\n  has kettlebell 8 kg, 12 kg\n  begins goblet-squat at 10 kg\n'
    ),
    right=with_basics(
        PROGRAM + '\nathlete maren "Maren"\n  has kettlebell 8 kg, 12 kg\n  begins goblet-squat at 8 kg\n'
    ),
)

BEGINS_RUNG_MISSING = Check(
    code="begins-on-missing-rung",
    severity="warning",
    title="An athlete begins on a rung that cannot be done",
    message="{athlete} begins `{movement}` on `{rung}`, which needs what is not there: the sheet says `{lower}`.",
    help="Write `on {lower}`, or add to what {athlete} has.",
    explain="A rung can need things of its own. Where they are not there, it is the next easier rung that can be done.",
    wrong=with_basics(
        PROGRAM.replace("goblet-squat", "push-up").replace("then load restarting reps", "then rung restarting reps")
        + '\nathlete maren "Maren"\n  has floor, wall\n  begins push-up on box\n'
    ),
    right=with_basics(
        PROGRAM.replace("goblet-squat", "push-up").replace("then load restarting reps", "then rung restarting reps")
        + '\nathlete maren "Maren"\n  has floor, wall, box, bench, table, chair, step, bar, stairs\n  begins push-up on box\n'
    ),
)


def find_begins_otherwise(fitting: Fitting) -> Iterator[Diagnostic]:
    """Beginnings that what is there does not allow."""
    for choice in fitting.choices:
        kinds = {reason.kind: reason for reason in choice.reasons}
        if {"load-begun", "load-rounded"} <= kinds.keys() and "load-capped" not in kinds:
            begun, made = kinds["load-begun"], kinds["load-rounded"]
            if _as_good_as(choice, made):
                continue
            yield BEGINS_UNMAKEABLE.at(
                _place(fitting, begun),
                athlete=fitting.athlete.title,
                movement=begun.movement.name,
                load=begun.figure,
                made=_figure(made.figure),
            )
        if "rung-lower" in kinds:
            lower = kinds["rung-lower"]
            yield BEGINS_RUNG_MISSING.at(
                _place(fitting, lower),
                athlete=fitting.athlete.title,
                movement=lower.movement.name,
                rung=lower.before,
                lower=lower.figure,
            )


def _as_good_as(choice: Choice, made: Reason) -> bool:
    """Whether a filled container comes so near to a load that nobody could tell: its density is no better known."""
    fitted = choice.chosen.fitted if choice.chosen is not None else None
    filled = fitted is not None and any(making.litres is not None for _, making in fitted.made)
    now, asked = made.figure, made.before
    assert isinstance(now, Quantity) and isinstance(asked, Quantity)
    return filled and asked.base - now.base <= asked.base * LEAST_STEP


def _place(fitting: Fitting, reason: Reason) -> Span:
    """The line that is to blame, else the athlete."""
    from ..reasons import lines

    return next(iter(lines(reason, fitting.athlete)), fitting.athlete.span)


def _figure(figure: Quantity | int | str | None) -> str:
    if isinstance(figure, Quantity):
        return f"{decimal_text(figure.amount, 2)} {figure.unit}"
    return str(figure)


def told(reason: Reason) -> str:
    """Why a movement cannot be done, as the end of a sentence."""
    things = or_list(reason.names).replace(" or ", " and ")
    match reason.kind:
        case "avoided":
            because = f" ({reason.text})" if reason.text else ""
            return f"{things} is avoided{because}"
        case "needs-missing" | "condition-unmet":
            return f"{things} {'is' if len(reason.names) == 1 else 'are'} not there"
        case "no-implement":
            return f"there is no {or_list(reason.names)} to load it with"
        case "no-rung" if reason.before is not None:
            return f"`{reason.before}` and what is easier cannot be done without {things}"
        case "no-rung":
            return f"none of its rungs can be done without {things}"
        case "in-session":
            return f"`{reason.movement.name}` stands in this session already"
    return f"the lightest load that can be made is {_figure(reason.figure)}, and {_figure(reason.before)} is asked for"


FITTING_CHECKS = (
    find_left_out, find_category_unfilled, find_else_stays, find_begins_otherwise, find_over_limit, find_week_unreached,
)  # fmt: skip


def fitting_findings(fitting: Fitting) -> Iterator[Diagnostic]:
    """All findings on a program fitted to an athlete, as they begin it."""
    for find in FITTING_CHECKS:
        yield from find(fitting)
