"""The movements that there are, as lines for a terminal: all of them by their patterns, or one with all that is known of it."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence

from ..compiler.at_hand import AtHand
from ..compiler.model import Movement, Rung
from . import telling, words
from .reasons_told import clause

NAME_WIDTH = 26


def list_lines(movements: Sequence[Movement], wanted: str, hands: AtHand | None, columns: int) -> Iterator[str]:
    """The movements under their first pattern, or under the one that is wanted; of an athlete only those that can be done."""
    meant = [one for one in movements if not wanted or wanted in one.patterns]
    can = [one for one in meant if hands is None or hands.hindrance(one) is None]
    patterns = [wanted] if wanted else list(dict.fromkeys(one.patterns[0] for one in can if one.patterns))
    for pattern in patterns:
        here = [one for one in can if wanted or one.patterns[:1] == (pattern,)]
        if here:
            yield pattern
            for movement in here:
                yield from _in_list(movement, hands, columns)
            yield ""
    if hands is not None:
        yield words.can_be_done(len(can), len(meant), hands.athlete.title)
    yield words.MOVEMENTS_MORE


def _in_list(movement: Movement, hands: AtHand | None, columns: int) -> Iterator[str]:
    """One movement: its name, then its title, what it takes, and its rungs by name."""
    told = [f"{movement.title}.", *_takes(movement)]
    if rungs := _rungs(movement, hands):
        told.append(f"{words.ITS_RUNGS}: {', '.join(rung.name for rung in rungs)}.")
    yield from _hung(movement.name, " ".join(told), NAME_WIDTH, columns)


def _takes(movement: Movement) -> Iterator[str]:
    """What it needs, and what it is loaded by, a sentence each."""
    if movement.needs:
        yield f"{words.NEEDS} {words.joined(_things(movement.needs))}."
    if movement.loaded_by:
        yield f"{words.LOADED_BY} {words.joined([words.IMPLEMENTS[kind] for kind in movement.loaded_by], 'or')}."


def _rungs(movement: Movement, hands: AtHand | None) -> tuple[Rung, ...]:
    return movement.rungs if hands is None else hands.rungs(movement)


def _things(names: Iterable[str]) -> list[str]:
    return [words.a_thing(name) for name in names]


def movement_lines(movement: Movement, hands: AtHand | None, columns: int) -> Iterator[str]:
    """All that is known of a movement; of an athlete whether they can do it, and else why not."""
    yield f"{movement.name}  {movement.title}"
    for name, told in _known(movement):
        yield from _hung(name, told, 13, columns)
    for place, rung in enumerate(movement.rungs):
        needs = f" ({words.needing(words.joined(_things(rung.needs)))})" if rung.needs else ""
        yield from _hung("" if place else words.LIST_RUNGS, f"{rung.name}: {rung.text}{needs}", 13, columns)
    for name, lines in ((words.LIST_CUES, movement.cues), (words.LIST_CAUTIONS, movement.cautions)):
        for place, line in enumerate(lines):
            yield from _hung("" if place else name, line, 13, columns)
    yield from _hung(words.LIST_HOW, " ".join(movement.how.split()), 13, columns)
    if hands is not None:
        why = hands.hindrance(movement)
        who = hands.athlete.title
        yield from _hung(who, words.can_do(who) if why is None else words.sentence(clause(why, who)), 13, columns)
        lacking = [rung.name for rung in movement.rungs if rung not in hands.rungs(movement)]
        if why is None and lacking:
            yield from _hung("", words.rungs_not_there(lacking), 13, columns)


def _known(movement: Movement) -> Iterator[tuple[str, str]]:
    """What the lines of a movement say, each with what it is called."""
    yield words.LIST_PATTERN, words.joined(list(movement.patterns))
    if movement.needs:
        yield words.LIST_NEEDS, words.joined(_things(movement.needs))
    if movement.loaded_by:
        yield words.LIST_LOADED, words.joined([words.IMPLEMENTS[kind] for kind in movement.loaded_by], "or")
    if movement.held:
        yield words.LIST_HELD, words.HELD_FOR_A_TIME
    if movement.rep is not None:
        yield words.LIST_REP, telling.duration(movement.rep.base)
    if movement.covers is not None:
        length, time = movement.covers
        yield words.LIST_COVERS, f"{words.amount(length)} in {telling.duration(time.base)}"


def _hung(name: str, told: str, margin: int, columns: int) -> Iterator[str]:
    """A name, and beside it a text, whose further lines stand below its first."""
    head = f"  {name}".ljust(margin + 2)
    lines = textwrap.wrap(told, max(columns - len(head), 30), break_on_hyphens=False) or [""]
    for line in lines:
        yield f"{head if line is lines[0] else ' ' * (margin + 2)}{line}".rstrip()
