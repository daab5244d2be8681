"""The sheets as PDF, to print: handout, guide, log and shorter versions, tagged, from the same values as the pages."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby
from typing import Any

import attrs

from ...compiler.model import Program
from ...compiler.trim import Version
from .. import handout, log_sheet, short, words
from ..handout.view import Handout
from ..log_sheet.view import LogRow, LogSession
from ..printing import USUAL, Paper, Printing
from ..sheet import Head, file_stem
from .compiling import compiled
from .values import as_json, plain

_TYPST_PAPERS: dict[Paper, str] = {"a4": "a4", "letter": "us-letter"}

_FOOT, _FOOT_LARGE, _SHORTEST = 96, 72, 12  # characters: of a line, of two lines in large print, of a part of it


def render(program: Program, shorts: tuple[Version, ...], printing: Printing = USUAL) -> dict[str, bytes]:
    """Every sheet of a program, by file name."""
    return {name: compiled(template, data) for name, template, data in ready(program, shorts, printing)}


def render_large(program: Program, printing: Printing = USUAL) -> dict[str, bytes]:
    """Handout and guide in large print beside the usual ones, for those of many readers who ask for it."""
    found = _handout_and_guide(program, attrs.evolve(printing, large=True), "-large")
    return {name: compiled(template, data) for name, template, data in found}


def ready(program: Program, shorts: tuple[Version, ...], printing: Printing = USUAL) -> Iterator[tuple[str, str, str]]:
    """For each sheet its file name, its template, and its values as JSON."""
    yield from _handout_and_guide(program, printing)
    for version in shorts:
        told = _short(short.sheet_values(program, version, printing.large))
        yield f"{short.sheet_name(program, version)}.pdf", "short", _ready("short", told, printing)
    told = _log(log_sheet.sheet_values(program, printing.large))
    yield f"{file_stem(program)}-log.pdf", "log", _ready("log", told, printing)


def _handout_and_guide(program: Program, printing: Printing, ending: str = "") -> Iterator[tuple[str, str, str]]:
    told = handout.sheet_values(program, printing.large)
    yield f"{file_stem(program)}-handout{ending}.pdf", "handout", _ready("handout", _handout(told), printing)
    yield f"{file_stem(program)}-guide{ending}.pdf", "guide", _ready("guide", _guide(told), printing)


def _ready(template: str, values: Mapping[str, Any], printing: Printing) -> str:
    foot = _foot(values["head"].running, _FOOT_LARGE if values["large"] else _FOOT)
    return as_json(template, {**values, "paper": _TYPST_PAPERS[printing.paper], "foot": foot})


def _foot(running: str, most: int) -> str:
    """What runs along on every page in at most so many characters: its longest parts are shortened."""
    parts = running.split(" · ")
    while (over := _wide(running) - most) > 0 and len(longest := max(parts, key=len)) > _SHORTEST:
        parts[parts.index(longest)] = f"{longest[: max(_SHORTEST, len(longest) - 1 - over // 2) - 1].rstrip()}…"
        running = " · ".join(parts)
    return running


def _wide(text: str) -> int:
    """How many usual letters a text is as wide as."""
    return len(text) + sum(1 for sign in text if sign.isupper() or sign in "mw@%") * 2 // 3


def _marked(values: Mapping[str, Any]) -> dict[str, Any]:
    """The values with the shape of each mark in words, for whoever does not see it."""
    marks = [
        {"word": mark.word, "meaning": mark.meaning, "shape": words.MARK_SHAPES[mark.word]} for mark in values["marks"]
    ]
    return {**values, "marks": marks}


def _handout(values: Mapping[str, Any]) -> dict[str, Any]:
    """The leaf that hangs where people train: all but what the guide holds."""
    sheet: Handout = values["sheet"]
    week = [
        (
            session.title,
            session.often or words.NOT_SAID,
            words.minutes(session.minutes),
            session.limit or words.NO_LIMIT,
        )
        for session in sheet.sessions
    ]
    lines = [words.session_line(session.often, session.minutes, session.limit) for session in sheet.sessions]
    told = plain(attrs.evolve(sheet, late={}, movements=(), explained=()))
    told |= {"week": plain(week), "lines": plain(lines)}
    return {**_marked(values), "sheet": told}


def _guide(values: Mapping[str, Any]) -> dict[str, Any]:
    """What is read before, or when time runs short: the cut lists, and how each movement is done."""
    sheet: Handout = values["sheet"]
    head: Head = values["head"]
    late = [(session.title, late) for session in sheet.sessions if (late := sheet.late[session.name]) is not None]
    movements = [
        plain(movement) | {"end": plain(words.no_more_loads(movement.next.end)) if movement.next.end else ""}
        for movement in sheet.movements
    ]
    steps = [
        (
            session.title,
            [(entry.title, entry.next_step) for block in session.blocks for entry in block.entries if entry.next_step],
        )
        for session in sheet.sessions
    ]
    told = {"late": plain(late), "movements": movements, "steps": plain([step for step in steps if step[1]])}
    told["explained"] = plain([line for line in sheet.explained if line not in sheet.heaviest])
    kept = {name: value for name, value in values.items() if name not in ("marks", "cautions")}
    return {**kept, "head": attrs.evolve(head, kind=words.GUIDE), "sheet": told}


def _short(values: Mapping[str, Any]) -> dict[str, Any]:
    sheet = values["sheet"]
    line = f"{words.short_line(sheet.planned, sheet.limit, sheet.whole)} {sheet.by}"
    return {**_marked(values), "sheet": plain(sheet) | {"line": plain(line)}}


def _log(values: Mapping[str, Any]) -> dict[str, Any]:
    """A page a week: the sessions of every week, and of each week that has its own."""
    sheet = values["sheet"]
    weeks = [
        {"week": week, "sessions": [_logged(session) for session in sessions]}
        for week, sessions in groupby(sheet.sessions, key=lambda session: session.week)
    ]
    later = any(session.has_later for session in sheet.sessions)
    return {**values, "sheet": plain({"who": sheet.who, "weeks": weeks, "later": later})}


def _logged(session: LogSession) -> dict[str, Any]:
    kept = ("title", "times", "versions", "easier", "before", "after")
    return {**{name: getattr(session, name) for name in kept}, "rows": [_log_row(row) for row in session.rows]}


def _log_row(row: LogRow) -> dict[str, Any]:
    told = " ".join(filter(None, (row.dose, words.in_form(row.form) if row.form else "")))
    return {
        "title": row.title,
        "told": told,
        "instead": words.log_instead(row.instead) if row.instead else "",
        "boxes": row.boxes,
    }
