"""What an athlete has, against what the programs ask for that they train by."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator

from ...grammar.diagnostic import Check, Diagnostic
from ...grammar.source import Span
from ..implements import serves
from ..model import Athlete, Implement, Movement, Program, Project
from ..remembering import remembered
from ..training import in_training
from .examples import with_basics
from .places import begun, header
from .walk import doses

_PROGRAM = """
program store-room
  session main
    block legs
      must goblet-squat 3 x 8
        advance load, then reps by 1 to 12

athlete maren "Maren"
  starts 2026-06-15 on mon, wed, fri
"""

IMPLEMENT_UNUSED = Check(
    code="implement-unused",
    severity="advice",
    title="Something to lift that no movement is done with",
    message="No movement that {athlete} trains is done with a {what}.",
    help="Take the line out, or add the kind to the `loaded by` of a movement.",
    explain="A movement says in `loaded by` what it is done with, and a band can stand in `needs`, too. An implement that none "
    "of them names is never chosen. The programs are those that the athlete trains by.",
    wrong=with_basics(_PROGRAM + "  has dumbbell 8 kg\n  has barbell 20 kg\n"),
    right=with_basics(_PROGRAM + "  has dumbbell 8 kg\n"),
)


def find_implement_unused(project: Project) -> Iterator[Diagnostic]:
    for athlete, movements in _trained(project):
        for implement in athlete.implements:
            if not any(serves(implement, movement) or _on_a_rung(implement, movement) for movement in movements):
                alone = not implement.pair and any(f"{implement.kind} pair" in one.loaded_by for one in movements)
                what = f"{implement.kind}, but with a pair of them" if alone else implement.kind
                yield IMPLEMENT_UNUSED.at(header(implement.span), athlete=athlete.title, what=what)


NOTHING_AT_HAND = Check(
    code="nothing-at-hand",
    severity="warning",
    title="An athlete of whom nobody says what they have",
    message="Nobody says what {athlete} has, and {movement} asks for {what}: every movement counts as possible, and loads are "
    "as written.",
    help="Say it in `has` lines, such as `has chair, floor` and `has dumbbell pair 4 kg, 6 kg`.",
    explain="A sheet asks only for what an athlete has, and for loads that can be made of it. Where nothing is said, it can "
    "ask for things that are not there.",
    wrong=with_basics(_PROGRAM),
    right=with_basics(_PROGRAM + "  has dumbbell 8 kg\n"),
)


def find_nothing_at_hand(project: Project) -> Iterator[Diagnostic]:
    for athlete, movements in _trained(project):
        if athlete.implements or athlete.things or begun(athlete.span, "has"):
            continue
        asking = next((one for one in movements if one.needs or one.loaded_by), None)
        if asking is not None:
            what = f"a {asking.needs[0]}" if asking.needs else f"a {asking.loaded_by[0]}"
            yield NOTHING_AT_HAND.at(header(athlete.span), athlete=athlete.title, movement=asking.title, what=what)


def _on_a_rung(implement: Implement, movement: Movement) -> bool:
    return any(implement.kind in rung.needs for rung in movement.rungs)


@remembered(4)  # of a crew each athlete is judged alone, and the programs are always the same
def _movements(program: Program) -> tuple[Movement, ...]:
    """All movements that a program may ask for, each once."""
    return tuple({one.movement.name: one.movement for one in doses(program)}.values())


def _trained(project: Project) -> Iterator[tuple[Athlete, tuple[Movement, ...]]]:
    """Every athlete who trains by programs that could be read in full, with all movements that these may ask for."""
    trained: dict[Span, tuple[Movement, ...]] = {}
    unread: set[Span] = set()
    for program, athletes in in_training(project):
        movements = _movements(program)
        for athlete in athletes:
            before = trained.get(athlete.span)
            trained[athlete.span] = movements if before is None else before + movements
            if program.damaged:
                unread.add(athlete.span)
    for athlete in project.athletes:
        if athlete.span in trained and athlete.span not in unread:
            yield athlete, trained[athlete.span]
