"""What follows from an entry alone, worked out once for all athletes who begin it alike.

For them it is the same entry (`fitting.py`): all that its figures come from is the same, what they have to lift with, where
they begin and what limits them. Of what a log has led on nothing is kept.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import TypeVar

from .model import Block, Entry, Program

MOST = 4096
_KNOWN: dict[tuple[object, ...], tuple[Entry, object]] = {}
R = TypeVar("R")


def alike(told: Callable[..., R], program: Program, block: Block, entry: Entry, *more: Hashable) -> R:
    """What a function says of an entry; `more` stands for what else in the program and the block it depends on.

    Each is kept with its entry, so that no other takes its place.
    """
    if entry.fitted is None or entry.fitted.stands is not None:
        return told(program, block, entry, *more)
    key = (told, id(entry), block.rounds, program.units, program.jump, *more)
    if key not in _KNOWN:
        if len(_KNOWN) >= MOST:
            _KNOWN.clear()
        _KNOWN[key] = (entry, told(program, block, entry, *more))
    return _KNOWN[key][1]  # type: ignore[return-value]
