"""Going through a program: every entry, and every dose, with where it stands."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from ...grammar.source import Span
from ..model import Axis, Block, Dose, Entry, Movement, Program, Rule, Session, Target


@attrs.frozen(eq=False, repr=False, match_args=False)
class Place:
    """An entry with the session and the block in which it stands; or an `else`, seen as the entry that it stands below."""

    session: Session
    block: Block
    entry: Entry
    instead: bool = False


@attrs.frozen(eq=False, repr=False, match_args=False)
class Dosed:
    """A movement with a dose: an entry's own, or that of one of its alternatives."""

    block: Block
    movement: Movement
    dose: Dose
    span: Span

    @property
    def targets(self) -> tuple[Target, ...]:
        """What its sets ask for."""
        return tuple(work.target for work in self.dose.sets)


def places(program: Program) -> Iterator[Place]:
    """All entries of a program in the order of work."""
    for session in program.sessions:
        for block in session.blocks:
            for entry in block.entries:
                yield Place(session, block, entry)


def doses(program: Program) -> Iterator[Dosed]:
    """All doses of a program, those of alternatives too."""
    for here in places(program):
        yield Dosed(here.block, here.entry.movement, here.entry.dose, here.entry.span)
        for other in here.entry.otherwise:
            yield Dosed(here.block, other.movement, other.dose, other.span)


def chances(program: Program) -> Iterator[Place]:
    """All that an entry can come to: itself, and each `else` below it as if it were the entry."""
    for here in places(program):
        yield here
        for other in here.entry.otherwise:
            entry = Entry(here.entry.priority, other.movement, other.dose, other.rule, span=other.span)
            yield Place(here.session, here.block, entry, instead=True)


def rules(program: Program) -> Iterator[tuple[Place, Rule]]:
    """All rules of progression of a program, those of alternatives too."""
    for here in chances(program):
        if isinstance(here.entry.rule, Rule):
            yield here, here.entry.rule


def axes(program: Program) -> Iterator[tuple[Place, Axis]]:
    """All axes of all rules of a program."""
    for here, rule in rules(program):
        for axis in rule.axes:
            yield here, axis
