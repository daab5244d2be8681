"""From a text to its syntax tree and everything that is wrong with the text.

A declaration is the unit: the text is cut at each line that begins at the left edge, and every piece is parsed alone. Where
a piece goes wrong the problem is told, the line is mended or left out, and the piece is parsed again, so that one run tells
every independent problem and none that follows from another.
"""

from __future__ import annotations

import re
from itertools import pairwise

from . import problems
from .cleaning import comments, expanded, plain
from .diagnostic import Diagnostic, nearest
from .hints import like_day
from .nodes import File, Placed
from .recovery import Piece
from .source import Source, Span
from .trouble import DECLARATIONS, LINE, blanked

_CUT = re.compile(r"^[^\s#]", re.M)
_HEAD = re.compile(r"(?:use|movement|program|block|athlete|group|log)(?![\w-])|\d{4}-\d\d-\d\d")
_EXPLAINS = {problems.NUMBER_TOO_LONG.code, problems.TAB.code}


def parse(source: Source) -> tuple[File, list[Diagnostic]]:
    """The declarations of a source that could be read, and everything that is wrong with its text."""
    found: list[Diagnostic] = []
    source = expanded(source, found)
    kept = tuple(comments(source.text))
    text = plain(source, found)
    text, cuts = _without_strays(source, text, cut(text), found)
    if not LINE.search(text):
        found.append(problems.FILE_EMPTY.at(Span(source, 0, 0)))
    first = LINE.search(text, 0, cuts[0] if cuts else len(text))
    if first:
        end = text.find("\n", first.end())
        found.append(problems.INDENT_UNEXPECTED.at(Span(source, first.end(), end), where="the start of a file"))
    muted = frozenset(one.span.line - 1 - source.before for one in found if one.code in _EXPLAINS)
    declarations: list[Placed] = []
    lost: set[str] = set()
    strangers = 0  # lines at the left edge, one after the other, that begin no declaration: told once
    for start, end in pairwise([*cuts, len(text)]):
        if strangers and not begins_declaration(text, start, strangers):
            strangers += 1
            continue
        strangers = 0
        placed, told = parse_declaration(source, start, text[start:end], muted)
        found += told
        header = text[start:end].split("\n", 1)[0]
        if placed is None or any(one.span.start < start + len(header) for one in told):
            words = re.findall(r"[a-z0-9]+(?:-[a-z0-9]+)*", header.lower().replace("_", "-"))
            lost.update(words, ("-".join(words[first:last]) for first in range(4) for last in range(first + 2, 7)))
        if placed is None:
            strangers = int(any(one.code == problems.NOT_A_DECLARATION.code for one in told))
        else:
            declarations.append(placed)
    return File(source, tuple(declarations), kept, frozenset(lost)), found


def _without_strays(source: Source, text: str, cuts: list[int], found: list[Diagnostic]) -> tuple[str, list[int]]:
    """The text without lines that stand at the left edge by a slip in the middle of a declaration, and the other cuts.

    What goes on deep below such a line belongs to the declaration above it: that a line was broken in two must not hide
    the rest of a program.
    """
    kept: list[int] = []
    for start in cuts:
        end = text.find("\n", start)
        below = LINE.search(text, end)
        if (
            kept
            and below is not None
            and len(below[1]) > 2
            and not begins_declaration(text, start, len(cuts) - len(kept))
        ):
            word = text[start:end].split(" ", 1)[0]
            found.append(problems.NOT_A_DECLARATION.at(Span(source, start, start + len(word)), found=word))
            text = blanked(text, start, end)
        else:
            kept.append(start)
    return text, kept


def begins_declaration(text: str, start: int, strangers: int) -> bool:
    """Whether the line may begin a declaration, if only by a slip; slips are looked for near the first few lines."""
    if _HEAD.match(text, start):
        return True
    if strangers < 50 and like_day(text, start):
        return True
    word = re.match(r"\S{0,20}", text[start : start + 20])
    return strangers < 50 and word is not None and bool(nearest(word[0], [name.lower() for name in DECLARATIONS]))


def cut(text: str) -> list[int]:
    """Where the declarations of a text begin."""
    return [match.start() for match in _CUT.finditer(text)]


def ended(piece: str) -> str:
    """A declaration without the comments and blank lines that stand before the next one."""
    piece = piece.rstrip()
    while (last := piece.rpartition("\n")[2].lstrip()).startswith("#"):
        piece = piece[: len(piece) - len(last)].rstrip()
    return piece


def parse_declaration(
    source: Source, offset: int, text: str, muted: frozenset[int] = frozenset()
) -> tuple[Placed | None, list[Diagnostic]]:
    """One declaration, its text given with a line end at its end; None where its header could not be read.

    Of the lines in `muted`, counted from 0, nothing more is told.
    """
    node, told, damaged = Piece(source, offset, text, muted=muted).read()
    return None if node is None else Placed(node, offset, damaged), told
