"""Going through a program: every entry, and every dose, with where it stands."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from ...grammar.source import Span
from ..model import Athlete, Axis, Block, Dose, Entry, Movement, Program, Project, Rule, Session, Target


@attrs.frozen(eq=False, repr=False, match_args=False)
class Place:
    """An entry with the session and the block in which it stands."""

    session: Session
    block: Block
    entry: Entry


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


def rules(program: Program) -> Iterator[tuple[Place, Rule]]:
    """All rules of progression of a program."""
    for here in places(program):
        if isinstance(here.entry.rule, Rule):
            yield here, here.entry.rule


def axes(program: Program) -> Iterator[tuple[Place, Axis]]:
    """All axes of all rules of a program."""
    for here, rule in rules(program):
        for axis in rule.axes:
            yield here, axis


def in_training(project: Project) -> Iterator[tuple[Program, tuple[Athlete, ...]]]:
    """Every program in its newest revision, with those who train by it.

    They are those who log it; and where there is one program alone, all who log nothing, too.
    """
    newest: dict[str, Program] = {}
    for program in sorted(project.programs, key=lambda one: one.revision):
        newest[program.name] = program
    logged = {(log.athlete, log.program) for log in project.logs}
    logging = {athlete for athlete, _ in logged}
    for name, program in newest.items():
        alone = len(newest) == 1
        yield (
            program,
            tuple(one for one in project.athletes if (one.name, name) in logged or (alone and one.name not in logging)),
        )
