"""Beginnings of movements that an athlete does not come to do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from ...grammar.diagnostic import Check, Diagnostic
from ..model import Athlete
from .examples import with_basics
from .fitting import told

if TYPE_CHECKING:
    from ..fitting import Choice

_PROGRAM = """
program boat-shed
  session main
    block lifts
      must deadlift 3 x 5
        advance reps by 1 to 8
        else hip-hinge 3 x 10
          advance reps by 1 to 15

athlete bram "Bram"
  has stick
  begins deadlift at 40 kg
"""

BEGINS_UNDONE = Check(
    code="begins-undone",
    severity="warning",
    title="A beginning of a movement that the athlete cannot do",
    message="{athlete} begins `{movement}`, but does not do it: {reason}.",
    help="Add to what {athlete} has, or take the line out.",
    explain="Fitting gives an athlete another movement, or leaves it out, where something is missing. A beginning of a movement "
    "that is on no sheet of theirs says nothing.",
    wrong=with_basics(_PROGRAM),
    right=with_basics(_PROGRAM + "  has barbell 20 kg with plates 2 x 10 kg\n"),
)


def find_begins_undone(athlete: Athlete, choices: Iterable[Choice]) -> Iterator[Diagnostic]:
    """Beginnings of what cannot be done in any program; what is avoided, or told as left out, is told there."""
    done: set[str] = set()
    known: set[str] = {exclusion.movement for exclusion in athlete.avoids}
    why: dict[str, str] = {}
    for choice in choices:
        if choice.chosen is not None:
            done |= {choice.chosen.movement.name, *(other.movement.name for other in choice.chosen.otherwise)}
        elif choice.written.priority != "may":
            known.add(choice.written.movement.name)
        for reason in choice.reasons:
            if choice.chosen is None or reason.movement.name != choice.chosen.movement.name:
                why.setdefault(reason.movement.name, told(reason))
    for start in athlete.begins:
        name = start.movement
        if name in why and name not in done | known:
            yield BEGINS_UNDONE.at(start.span, athlete=athlete.title, movement=name, reason=why[name])
