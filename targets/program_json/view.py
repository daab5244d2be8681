"""The model as plain values of JSON: fields in their order, figures exact and as text, spans as places in a file."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from typing import TypeAlias

import attrs

from ...compiler.model import Amrap, Distance, Movement, NoProgress, Program, Reps, Rule, Timed
from ...compiler.quantity import Quantity
from ...grammar.source import Span
from ..plan import movements

Json: TypeAlias = "bool | int | str | list[Json] | dict[str, Json] | None"

FORMAT = "setwright-program"
VERSION = 1

# What no program of a source has: nothing built is damaged, and what was fitted to somebody is theirs alone. The program to
# which another leads back is a file of its own.
# The bytes of a logo stand in its own file.
_LEFT_OUT = {"damaged", "athlete", "fitted", "pace", "normal", "after", "data", "accent_span", "logo_span"}
# Where a field can hold things of several classes, `kind` says which it is.
_KINDS = {Reps: "reps", Amrap: "amrap", Timed: "time", Distance: "distance", Rule: "advance", NoProgress: "none"}


def program_json(program: Program) -> dict[str, Json]:
    """The whole program; entries name their movement, and each movement stands once in `movements`."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "program": _fields(program),
        "movements": [_fields(movement) for movement in movements(program)],
    }


def _fields(thing: attrs.AttrsInstance) -> dict[str, Json]:
    fields: dict[str, Json] = {"kind": _KINDS[type(thing)]} if type(thing) in _KINDS else {}
    told = [field.name for field in attrs.fields(type(thing)) if field.name not in _LEFT_OUT]
    return fields | {name: _plain(getattr(thing, name)) for name in told}


def _plain(value: object) -> Json:
    match value:
        case None | bool() | int() | str():
            return value
        case Quantity(amount=amount, unit=unit):
            return {"amount": exact_text(amount), "unit": unit}
        case date():
            return value.isoformat()
        case Span():
            line, column = value.source.position(value.start)
            return {"file": value.source.name, "line": line, "column": column}
        case Movement(name=name):
            return name
        case tuple():
            return [_plain(item) for item in value]
        case _ if attrs.has(type(value)):
            return _fields(value)  # type: ignore[arg-type]
    raise TypeError(f"no JSON for {type(value).__name__}")


def exact_text(value: Fraction) -> str:
    """A figure without loss: a decimal where one ends, else a fraction such as `1/3`."""
    places = 0
    while 10**places % value.denominator:
        places += 1
        if places > value.denominator.bit_length():  # a denominator of 2s and 5s divides 10 to this power
            return f"{value.numerator}/{value.denominator}"
    whole, rest = divmod(abs(value.numerator) * 10**places // value.denominator, 10**places)
    sign = "-" if value < 0 else ""
    return f"{sign}{whole}.{rest:0{places}}" if places else f"{sign}{whole}"
