"""The values of a sheet as plain data for a template of typst: nothing in them is markup, whatever it looks like."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Mapping
from functools import cache, lru_cache
from typing import Any

import attrs

from ...compiler.glyphs import SHAPELESS, STANDS_FOR, unprintable
from .. import words
from ..handout.view import Handout, MovementText
from ..plan import PlannedBlock, PlannedEntry, PlannedSession
from ..prose import prose_pieces
from .compiling import templates

# Fields that hold the coach's prose, which may have emphasis, lists and links.
_PROSE: dict[type, frozenset[str]] = {
    Handout: frozenset({"aims", "rules"}),
    PlannedSession: frozenset({"note"}),
    PlannedBlock: frozenset({"note"}),
    PlannedEntry: frozenset({"note"}),
    MovementText: frozenset({"how"}),
}
_UNSEEN = re.compile(r"[\x00-\x08\x0e-\x1f\x7f-\x9f]")
_LONG_WORD = re.compile(r"[^\s\u200b]{21,}")
_BREAK = "\u200b"  # where a line may end
_NO_GLYPH = "\ue000"  # of private use: no font has it, so no text that is printed holds it
_LINE = 40  # characters that a text takes at least of the room, as it begins a line


def as_json(template: str, values: Mapping[str, Any]) -> str:
    """The values of a sheet as a template takes them, with the words that it uses of the catalogue; `sheet` is plain already."""
    rest = plain({name: value for name, value in values.items() if name != "sheet"})
    told = json.dumps(
        {**rest, "sheet": values["sheet"], "words": words_of(template)}, ensure_ascii=False, separators=(",", ":")
    )
    replaced = json.dumps(_NO_GLYPH in told)
    return f'{{"replaced":{replaced},{told[1:]}'.replace(_NO_GLYPH, words.NO_GLYPH)


@cache
def words_of(template: str) -> Mapping[str, str]:
    """The words of the catalogue that stand in a template."""
    used = set(re.findall(rb"\bwords\.([A-Z_]+)", b"\n".join(templates(template).values())))
    return {name: plain(getattr(words, name)) for name in sorted(map(bytes.decode, used))}


def plain(value: Any) -> Any:
    """A view as lists, dictionaries, texts and figures; nobody may change it, as parts of it are kept for other sheets."""
    if isinstance(value, str):
        return with_breaks(printable(value))
    if isinstance(value, list | tuple):
        return [plain(each) for each in value]
    if isinstance(value, Mapping):
        return {name: plain(each) for name, each in value.items()}
    if isinstance(value, PlannedEntry | MovementText):
        return _kept(value)
    return _fields(value) if attrs.has(type(value)) else value


@lru_cache(maxsize=4096)
def _kept(value: PlannedEntry | MovementText) -> dict[str, Any]:
    """What many sheets tell alike."""
    return _fields(value)


def _fields(value: Any) -> dict[str, Any]:
    kind = type(value)
    prose = _PROSE.get(kind, frozenset())
    told = {}
    for field in attrs.fields(kind):
        if field.name != "sign":  # shapes are drawn
            part = getattr(value, field.name)
            told[field.name] = _prose_of(part) if field.name in prose else plain(part)
    if kind is PlannedEntry or kind is MovementText:
        told["size"] = _size(told) + _size(told["title"])  # which is larger
    elif kind is PlannedBlock:
        told["size"] = len(value.note)
    return told


def _size(told: Any) -> int:
    """About how many characters have to find room."""
    if isinstance(told, str):
        return max(len(told), _LINE) if told else 0
    if isinstance(told, list | dict):
        return sum(map(_size, told.values() if isinstance(told, dict) else told))
    return 0


@lru_cache(maxsize=4096)
def _prose_of(text: str) -> list[dict[str, Any]]:
    return _prose(prose_pieces(text))


def _prose(blocks: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Typed prose with its texts as they are printed; a link that leads out tells its address: on paper it leads nowhere."""
    return [
        {**block, "pieces": [_piece(*piece) for piece in block["pieces"]]}
        if block["kind"] == "paragraph"
        else {**block, "items": [_prose(item) for item in block["items"]]}
        for block in blocks
    ]


def _piece(style: str, told: str, href: str = "") -> list[str]:
    leads = re.match("(https?|mailto):", href) and told != href
    return ["plain" if href else style, plain(f"{told} ({href})" if leads else told)]


def printable(text: str) -> str:
    """The text on one line, in characters that the fonts have, with a sign where they have none."""
    if text.isascii() and text.isprintable():
        return text
    text = re.sub(r"\s+", " ", _UNSEEN.sub(" ", unicodedata.normalize("NFC", text).translate(STANDS_FOR)))
    return unprintable().sub(_NO_GLYPH, SHAPELESS.sub("", text))


def with_breaks(text: str) -> str:
    """The text with places in its very long words where a line may end."""
    if len(text) <= 20:
        return text
    return _LONG_WORD.sub(lambda match: re.sub("(.{4})(?=.)", rf"\1{_BREAK}", match[0]), text)
