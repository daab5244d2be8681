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

from .axes import AXES
from .axes.counted import fewer_sets
from .model import Block, Dose, Entry, Movement, Program, Session
from .quantity import Quantity
from .remembering import remembered
from .week import COUNTED

Change = tuple[str, int | Quantity]  # an axis and its change, below zero
Changes = Mapping[str, int | Quantity]


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
    if block.kind not in COUNTED:
        return block
    alike = tuple(changes.items())
    entries = tuple(_eased_entry(entry, alike) for entry in block.entries)
    return attrs.evolve(block, entries=entries, rounds=eased_rounds(block, changes))


@remembered(1024, values=1)  # athletes who begin it alike share an entry
def _eased_entry(entry: Entry, alike: tuple[Change, ...]) -> Entry:
    changes = dict(alike)
    dose = eased_dose(entry.dose, changes, entry.movement)
    if not entry.otherwise:
        return entry if dose is entry.dose else attrs.evolve(entry, dose=dose)
    others = (attrs.evolve(other, dose=eased_dose(other.dose, changes, other.movement)) for other in entry.otherwise)
    return attrs.evolve(entry, dose=dose, otherwise=tuple(others))


def eased_rounds(block: Block, changes: Changes) -> int | None:
    """The rounds of a circuit after changes; None for a block that is none."""
    if block.rounds is None:
        return None
    least = max((entry.dose.least_sets for entry in block.entries), default=1)
    return fewer_sets(block.rounds, changes.get("sets"), least)


def eases(block: Block, axis: str, change: int | Quantity) -> bool:
    """Whether a change takes part in a block; of a figure that only the athlete knows, it does."""
    unsaid = block.kind in COUNTED and any(AXES[axis].unsaid(entry.movement) for entry in block.entries)
    return unsaid or (block.kind in COUNTED and _loses(block, {axis: change}))


def _loses(block: Block, changes: Changes) -> bool:
    """Whether a block of work is less with changes than without."""
    doses = [(entry.dose, entry.movement) for entry in block.entries]
    doses += [(other.dose, other.movement) for entry in block.entries for other in entry.otherwise]
    return eased_rounds(block, changes) != block.rounds or any(
        eased_dose(dose, changes, movement) != dose for dose, movement in doses
    )


def eased_dose(dose: Dose, changes: Changes, movement: Movement) -> Dose:
    """The dose of a movement with every change that suits it; in a circuit its rounds are the block's."""
    return _eased_dose(dose, movement, tuple(changes.items()))


@remembered(1024, values=1)
def _eased_dose(dose: Dose, movement: Movement, changes: tuple[Change, ...]) -> Dose:
    for axis, change in changes:
        if AXES[axis].moves(movement):
            dose = AXES[axis].eased(dose, change)
    return dose
