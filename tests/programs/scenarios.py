"""What the tests of the demo scenarios ask of all of them."""

from __future__ import annotations

from collections.abc import Iterator

from setwright.compiler.checks.ahead import ahead_findings
from setwright.compiler.fitting import Fitting, fit
from setwright.compiler.horizon import outlook
from setwright.compiler.implements import makeable_loads
from setwright.compiler.model import Dose, Entry, Movement, Program, Project, Rule
from setwright.compiler.training import trains_by


def chances(entry: Entry) -> Iterator[tuple[Movement, Dose]]:
    """All that an entry can come to, in order."""
    yield entry.movement, entry.dose
    yield from ((other.movement, other.dose) for other in entry.otherwise)


def fitted(project: Project, name: str) -> Iterator[Fitting]:
    """The programs of an athlete, each fitted to them."""
    athlete = next(one for one in project.athletes if one.name == name)
    yield from (fit(program, athlete) for program in trains_by(project, athlete))


def chosen(fitting: Fitting) -> list[tuple[str, str | None]]:
    """What an athlete does, in order: movements, and their rungs."""
    return [
        (entry.movement.name, entry.fitted.rung if entry.fitted is not None else None)
        for entry in entries(fitting.program)
    ]


def entries(program: Program) -> list[Entry]:
    return [entry for session in program.sessions for entry in session.entries]


def movements(program: Program) -> dict[str, Movement]:
    return {movement.name: movement for entry in entries(program) for movement, _ in chances(entry)}


def starts_that_cannot_be_made(project: Project) -> list[str]:
    """Loads at which somebody begins, and that cannot be made of what there is."""
    return [
        f"{athlete.name}: {start.movement} at {start.load}"
        for athlete in project.athletes
        for program in trains_by(project, athlete)
        for start in athlete.begins
        if start.load is not None and start.movement in movements(program)
        if start.load.base not in makeable_loads(athlete, movements(program)[start.movement])
    ]


def comes(project: Project) -> list[str]:
    """What the weeks to come hold for anybody that the coach should know of."""
    return [
        f"{athlete.name}: {found.message}"
        for athlete in project.athletes
        for program in trains_by(project, athlete)
        for found in ahead_findings(project, outlook(program, athlete))
    ]


def without_a_rule(program: Program) -> list[str]:
    """Alternatives in work blocks that say nothing of how they go on."""
    return [
        other.movement.name
        for session in program.sessions
        for block in session.blocks
        for entry in block.entries
        for other in entry.otherwise
        if block.kind == "work" and not isinstance(other.rule, Rule)
    ]
