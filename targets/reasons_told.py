"""Why something is as it is for an athlete, in the words of whoever coaches: reasons to clauses, fittings to sentences."""

from __future__ import annotations

from collections.abc import Iterator

from ..compiler.fitting import Choice, Fitting
from ..compiler.quantity import Quantity
from ..compiler.reasons import Reason
from . import telling, words
from .taking import told_weight

# Reasons of which the coach may not know, as the program or the athlete's own lines do not say it.
_CHANGES = frozenset((
    "load-lightest", "load-capped", "load-rounded", "load-unknown", "ramp-left-out", "band-first", "rung-first", "rung-lower",
))  # fmt: skip
HINDRANCES = frozenset((
    "avoided", "needs-missing", "no-implement", "no-rung", "condition-unmet", "in-session", "too-heavy",
))  # fmt: skip


def changes(fitting: Fitting) -> tuple[str, ...]:
    """What is otherwise for an athlete than in the program, a sentence each, the same told once."""
    return tuple(dict.fromkeys(told for choice in fitting.choices for told in _changes(choice, fitting.athlete.title)))


def _changes(choice: Choice, who: str) -> Iterator[str]:
    against = hindrances(choice)
    written, chosen = choice.written.movement, choice.chosen
    if against:
        first, *others = against
        told = [clause(first, who), *(words.nor(other.movement.title, clause(other, who)) for other in others)]
        if chosen is None:
            yield words.left_out_because(written.title, "; ".join(told))
        else:
            yield words.in_place_because(chosen.movement.title, written.title, "; ".join(told))
    for reason in choice.reasons:
        if reason.kind in _CHANGES:
            yield words.about(reason.movement.title, clause(reason, who))


def hindrances(choice: Choice) -> tuple[Reason, ...]:
    """Why an entry, and each alternative that was tried before the one chosen, cannot be done."""
    return tuple(reason for reason in choice.reasons if reason.kind in HINDRANCES)


def clause(reason: Reason, who: str) -> str:
    """A reason as a clause."""
    return _hindrance(reason, who) if reason.kind in HINDRANCES else _figure_of(reason, who)


def _hindrance(reason: Reason, who: str) -> str:
    things = [words.a_thing(name) for name in reason.names]
    match reason.kind:
        case "avoided":
            pattern = "" if reason.movement.name in reason.names else "".join(reason.names)
            return words.avoids(who, pattern, reason.text)
        case "needs-missing" | "condition-unmet":
            return words.not_there(things)
        case "no-implement":
            return words.no_implement([words.IMPLEMENTS.get(name, words.a_thing(name)) for name in reason.names])
        case "no-rung":
            return words.no_form(_rung(reason, reason.before), things)
        case "in-session":
            return words.IN_SESSION_ALREADY
    return words.too_heavy(_told(reason.figure), _told(reason.before))


def _figure_of(reason: Reason, who: str) -> str:  # noqa: PLR0911 (one for each kind)
    figure, before = _told(reason.figure), _told(reason.before)
    match reason.kind:
        case "load-begun" | "amount-begun":
            return words.begins_with(who, figure)
        case "reps-begun":
            return words.begins_with(who, words.repeated(figure))
        case "load-written":
            return words.written_load(figure)
        case "load-share":
            return words.share_of_maximum(words.joined(reason.names), before, figure)
        case "load-lightest":
            return words.lightest_load(figure)
        case "load-capped":
            return words.capped_load(figure, before)
        case "load-rounded":
            return words.rounded_load(figure, before)
        case "load-unknown":
            return words.unknown_load(before)
        case "ramp-left-out":
            return words.no_lighter_set(before)
        case "band-begun":
            return words.begins_with(who, words.take_band(figure, two=False))
        case "band-first":
            return words.weakest_band(figure)
        case "rung-begun":
            return words.begins_with(who, words.quoted(_rung(reason, reason.figure)))
        case "rung-first":
            return words.easiest_form(_rung(reason, reason.figure))
        case "rung-lower":
            return words.easier_form(_rung(reason, reason.figure), _rung(reason, reason.before))
        case "rungs-left-out":
            return words.forms_left_out([_rung(reason, name) for name in reason.names])
        case "rung-logged" | "load-logged" | "band-logged" | "dose-logged":
            return words.BY_THE_LOG
    raise AssertionError(reason.kind)


def _rung(reason: Reason, name: object) -> str:
    return telling.rung_text(reason.movement, name) if isinstance(name, str) else ""


def _told(figure: Quantity | int | str | None) -> str:
    if isinstance(figure, Quantity):
        return told_weight(figure.base, figure.unit) if figure.dimension == "mass" else words.amount(figure)
    return "" if figure is None else str(figure)
