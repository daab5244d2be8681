"""The log on the phone: one page for each week that needs nothing from anywhere, and gives back the table of our log."""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path

import attrs
from markupsafe import Markup

from ...compiler.model import Program
from .. import words as catalogue
from ..handout.view import movement_texts
from ..plan import movements
from ..sheet import file_stem, fill_html, head, marks, prints_large
from ..taking import cautions
from . import words
from .view import Last, WebLog, last_times, web_log
from .week import in_week, weeks_to_log

__all__ = ["last_times", "render"]
_FOLDER = Path(__file__).parent
_NO_LAST: Last = {}


def render(program: Program, last: Last = _NO_LAST) -> dict[str, str]:
    """The logs of a program for its coming weeks, by file name; `last` tells of each movement what was logged last."""
    return dict(_page(program, week, last) for week in weeks_to_log(program))


def _page(program: Program, week: int | None, last: Last) -> tuple[str, str]:
    here = in_week(program, week)
    log = web_log(here, week, last)
    done = movements(here)
    notes, told = _notes(log), words.week(week) if week is not None else ""
    values = {
        "head": head(here, words.LOG_TO_FILL),
        "page": words,
        "week": told,
        "whose": tuple(filter(None, (words.LOG_TO_FILL, told, here.athlete.title if here.athlete is not None else ""))),
        "cautions": cautions(here, catalogue.CAUTIONS_SHORT, done, brief=True),
        "marks": marks(),
        "large": prints_large(here),
        "data": _as_json(log, notes),
        "notes": notes,
        "movements": dict(zip((one.name for one in done), movement_texts(here), strict=True)),
        "style": _part("log.css"),
        "script": _part("log.js"),
        "style_hash": _fingerprint("log.css"),
        "script_hash": _fingerprint("log.js"),
    }
    number = f"-{week}" if week is not None else ""
    return f"{file_stem(program)}-log-week{number}.html", fill_html("web_log/log.html.jinja", values)


def _notes(log: WebLog) -> tuple[str, ...]:
    """The coach's prose, each text once: it is made HTML here, and the script puts copies of that in their places."""
    told = (
        (
            session.note,
            *(note for block in session.blocks for note in (block.note, *(one.note for one in block.entries))),
        )
        for session in log.sessions
    )
    return tuple(dict.fromkeys(note for notes in told for note in notes if note))


def _as_json(log: WebLog, notes: tuple[str, ...]) -> Markup:
    """The values for the script, notes by their numbers.

    It is JSON in which no text can end its element or begin a comment (HTML Standard, script data state).
    """
    numbers = {note: number for number, note in enumerate(notes)}

    def told(_: object, field: attrs.Attribute[object] | None, value: object) -> object:
        return numbers.get(str(value)) if field is not None and field.name == "note" else value

    values: Mapping[str, object] = {
        **attrs.asdict(log, value_serializer=told),
        "words": words.PAGE,
        "months": catalogue.MONTHS,
    }
    text = json.dumps(values, ensure_ascii=False, separators=(",", ":"))
    return Markup(text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026"))


@cache
def _part(name: str) -> Markup:
    """The style or the script of the page, as it is allowed to stand there by its hash."""
    return Markup((_FOLDER / name).read_text("utf-8"))


@cache
def _fingerprint(name: str) -> str:
    """The hash by which a content policy knows a text between its tags (W3C, Content Security Policy Level 3)."""
    return "sha256-" + base64.b64encode(hashlib.sha256(_part(name).encode()).digest()).decode()
