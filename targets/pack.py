"""The pack of one athlete: every file of a program that was fitted to them."""

from __future__ import annotations

from ..compiler.fitting import Fitting
from .printing import USUAL, Printing
from .sheets import for_athletes


def pack(fitting: Fitting, printing: Printing = USUAL) -> dict[str, str | bytes]:
    """Handout, short versions and blank logs of an athlete, by file name."""
    return for_athletes(fitting.program, printing)
