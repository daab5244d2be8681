"""The words of the calendar."""
# ruff: noqa: D103  a phrase that is a function says itself what it is

from __future__ import annotations

from typing import Final

from ..words import joined

PRODUCT: Final = "-//Setwright//Sessions//EN"
FIGURES: Final = "The figures are those of your handout. Where you have moved on since, go by your log."
FIGURES_BACK: Final = "Do no more than this, even when it feels easy."


def event(session: str, minutes: int) -> str:
    return f"{session}, {minutes} min"


def easier_event(session: str, minutes: int) -> str:
    return f"{session}, easier week, {minutes} min"


def edition(program: str, edition: str) -> str:
    return f"{program} · {edition}"


def left_out(sessions: list[str]) -> str:
    """Of sessions of which nobody knows the days."""
    return f"Not in this calendar, as no days are said: {joined(sessions)}."
