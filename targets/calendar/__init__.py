"""The calendar of an athlete: the days of their sessions for the calendar of a phone or a computer."""

from __future__ import annotations

from ...compiler.model import Program
from ..sheet import file_stem
from .ics import as_ics
from .view import calendar


def render(program: Program) -> dict[str, str | bytes]:
    """The calendar of a program that was fitted to an athlete, by file name; none where no day of it is known."""
    told = calendar(program)
    return {} if told is None else {f"{file_stem(program)}.ics": as_ics(told)}
