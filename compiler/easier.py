"""Easier weeks: what a session asks for in a week that is lighter on purpose.

Work and conditioning are eased, warm-up and cool-down stay as they are. Sets go from the last, as in short versions, and
stay at `at least N sets`; a circuit loses rounds. Repetitions stay at 1 or more; a set of as many as possible is left
that much earlier. Where a weight, time or distance would be eased to nothing, or the change is told in another kind of
unit, it stays as it is.

In an easier week nothing advances and nothing counts as missed: every rule of progression holds where it was.
"""

from __future__ import annotations

from collections.abc import Mapping

import attrs

from .model import Amrap, Block, Distance, Dose, Movement, Program, Reps, Session, Target, Timed, WorkSet
from .quantity import Quantity

Changes = Mapping[str, int | Quantity]  # axis -> its change, below zero

EASED_KINDS = ("work", "conditioning")


def easier_weeks(program: Program) -> tuple[int, ...]:
    """The weeks of a program that are easier, counted from 1, in their order."""
    return tuple(sorted({week for easier in program.easier for week in easier.weeks}))


def changes_in(program: Program, week: int) -> Changes:
    """What a week eases, by axis; nothing in an ordinary week."""
    return dict(next((easier.changes for easier in program.easier if week in easier.weeks), ()))


def eased_session(program: Program, session: Session, week: int) -> Session:
    """The session as it is in a week, counted from 1; itself in an ordinary one."""
    changes = changes_in(program, week)
    if not changes:
        return session
    return attrs.evolve(session, blocks=tuple(eased_block(block, changes) for block in session.blocks))


def eased_block(block: Block, changes: Changes) -> Block:
    """The block with its doses eased; a circuit with fewer rounds, and none fewer than one of its doses needs."""
    if block.kind not in EASED_KINDS:
        return block
    entries = tuple(
        attrs.evolve(
            entry,
            dose=eased_dose(entry.dose, changes, entry.movement),
            otherwise=tuple(
                attrs.evolve(other, dose=eased_dose(other.dose, changes, other.movement)) for other in entry.otherwise
            ),
        )
        for entry in block.entries
    )
    rounds = block.rounds
    if rounds is not None:
        rounds = fewer_sets(rounds, changes, max((entry.dose.least_sets for entry in block.entries), default=1))
    return attrs.evolve(block, entries=entries, rounds=rounds)


def eases(block: Block, axis: str, change: int | Quantity) -> bool:
    """Whether a change takes part in a block; of a load that only the athlete knows, it does."""
    loaded = block.kind in EASED_KINDS and any(entry.movement.loaded_by for entry in block.entries)
    return (axis == "load" and loaded) or eased_block(block, {axis: change}) != block


def eased_dose(dose: Dose, changes: Changes, movement: Movement) -> Dose:
    """The dose of a movement with every change that suits it; in a circuit its rounds are the block's."""
    kept = dose.sets[: fewer_sets(len(dose.sets), changes, dose.least_sets)]
    load = changes.get("load")
    return attrs.evolve(
        dose,
        sets=tuple(
            WorkSet(eased_target(work.target, changes, held=movement.held), _less(work.load, load)) for work in kept
        ),
        ramp=tuple(attrs.evolve(lighter, share=less(lighter.share, load)) for lighter in dose.ramp),
        load=_less(dose.load, load),
    )


def fewer_sets(sets: int, changes: Changes, least: int) -> int:
    """Sets, or rounds, after the change of `sets`: at least the fewest worth doing, and at least 1."""
    change = changes.get("sets")
    return max(sets + change, min(sets, least), min(sets, 1)) if isinstance(change, int) else sets


def eased_target(target: Target, changes: Changes, *, held: bool) -> Target:
    """What a set asks for after the changes of repetitions, distance and time (`hold` in a held position)."""
    fewer = changes.get("reps")
    match target:
        case Reps(low=low, high=high) if isinstance(fewer, int):
            return Reps(max(low + fewer, min(low, 1)), max(high + fewer, min(high, 1)))
        case Amrap(leaving=leaving, expect=expect) if isinstance(fewer, int):
            return Amrap((leaving or 0) - fewer, None if expect is None else max(expect + fewer, min(expect, 1)))
        case Timed(time=time):
            return Timed(less(time, changes.get("hold" if held else "time")))
        case Distance(length=length):
            return Distance(less(length, changes.get("distance")))
    return target


def less(figure: Quantity, change: int | Quantity | None) -> Quantity:
    """A weight, time, distance or share after a change: a share of itself, or an amount in its own kind of unit.

    A load told as a share of the training maximum is eased by a share of that share: 80% by -10% is 72%.
    """
    if not isinstance(change, Quantity):
        return figure
    if change.unit == "%":
        eased = figure.amount * (1 + change.base)
    elif change.dimension == figure.dimension:
        eased = figure.amount + change.to(figure.unit).amount
    else:
        return figure
    return Quantity(eased, figure.unit) if eased > 0 else figure


def _less(figure: Quantity | None, change: int | Quantity | None) -> Quantity | None:
    return None if figure is None else less(figure, change)
