"""A text made ready to be read: bytes to characters, and plain characters where others only look like them."""

from __future__ import annotations

import re
from collections.abc import Iterator

from . import problems
from .diagnostic import Diagnostic
from .nodes import Comment
from .source import Source, Span

_OUTSIDE = re.compile(r'"[^"\n]*"|^ *\|[^\n]*|(#[^\n]*)', re.M)
# Compiled only when a text holds more than plain letters.
_ODD = (
    r"[^\x20-\x7e\n\u00a1-\u167f\u1681-\u1fff\u2030-\u205e\u2060-\u2fff\u3001-\U0010ffff]"
    r"|[\t\u201c\u201d\u201e\u00ab\u00bb\u2212\u00a0]"
)
_TABS = r"(?m)^ *\t[ \t]*"
_UNSEEN = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\x85\u2028\u2029]")
_LONG_NUMBER = re.compile(rf"\d{{{problems.LIMIT_DIGITS + 1},}}")
_PLAIN = {
    **dict.fromkeys("\u201c\u201d\u201e\u201f\u00ab\u00bb", ('"', "a curly quote")),
    **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", ("-", "a long dash")),
    **dict.fromkeys(
        "\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000",
        (" ", "a special space"),
    ),
}


def read_source(name: str, raw: bytes) -> tuple[Source, list[Diagnostic]]:
    """The text of a file, its line ends made one, and what is wrong with its bytes."""
    if len(raw) > problems.LIMIT_CHARACTERS:
        source = Source(name, "")
        return source, [problems.FILE_TOO_LARGE.at(Span(source, 0, 0), limit=f"{problems.LIMIT_CHARACTERS:,}")]
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        source = Source(name, raw[: error.start].decode("utf-8", "ignore"))
        end = len(source.text)
        found = f"{raw[error.start]:#04x}"
        return Source(name, ""), [problems.NOT_UTF8.at(Span(source, end, end), found=found, place=error.start)]
    if "\r" not in text:
        return Source(name, text), []
    source = Source(name, text.replace("\r\n", "\n").replace("\r", "\n"))
    return source, [problems.WINDOWS_LINE_ENDS.at(Span(source, 0, 0))]


def comments(text: str) -> Iterator[Comment]:
    """The comments of a text, in their order; a number sign in quotes or in prose begins none."""
    if "#" in text:
        for match in _OUTSIDE.finditer(text):
            if match[1] is not None:
                line_start = text.rfind("\n", 0, match.start()) + 1
                yield Comment(match.start(), match.end(), not text[line_start : match.start()].strip())


def expanded(source: Source, found: list[Diagnostic]) -> Source:
    """The source with each tab before a line's first letter made two blanks; told once."""
    if "\t" not in source.text or type(source) is not Source:
        return source
    tabs = list(re.finditer(_TABS, source.text))
    if not tabs:
        return source
    text = re.sub(_TABS, lambda match: match[0].replace("\t", "  "), source.text)
    plain = Source(source.name, text, source.before)
    start = tabs[0].start()
    others = len(tabs) - 1
    more = f", and on {others} more {'line' if others == 1 else 'lines'}" if others else ""
    found.append(problems.TAB.at(Span(plain, start, start + 2), more=more))
    return plain


def plain(source: Source, found: list[Diagnostic]) -> str:
    """The text with a line end at its end, and plain characters where others only look like them."""
    text = source.text if source.text.endswith("\n") else source.text + "\n"
    if _LONG_NUMBER.search(text):
        text = _without_long_numbers(text, source, found)
    text = _seen(text, source, found)
    if text.isascii() and "\t" not in text:
        return text
    safe = [(match.start(), match.end()) for match in _OUTSIDE.finditer(text)]
    spots = [match.start() for match in re.finditer(_ODD, text) if not _inside(match.start(), safe)]
    tabs = [spot for spot in spots if text[spot] == "\t"]
    if tabs and not any(one.code == problems.TAB.code for one in found):
        more = f", and {len(tabs) - 1} more after it" if len(tabs) > 1 else ""
        found.append(problems.TAB.at(Span(source, tabs[0], tabs[0] + 1), more=more))
    letters = list(text)
    told: set[tuple[int, str]] = set()
    for spot in spots:
        if text[spot] == "\t":
            letters[spot] = " "
        elif text[spot] in _PLAIN:
            near, name = _PLAIN[text[spot]]
            letters[spot] = near
            line = text.count("\n", 0, spot)
            if (line, near) not in told:
                told.add((line, near))
                shown = "an ordinary space" if near == " " else f"`{near}`"
                what = f"The {name[2:]} `{text[spot]}`" if near != " " else "The special space here"
                found.append(problems.LOOK_ALIKE.at(Span(source, spot, spot + 1), found=what, near=shown))
    return "".join(letters)


def _seen(text: str, source: Source, found: list[Diagnostic]) -> str:
    """The text with blanks for characters that cannot be seen, in texts and prose too; told once."""
    unseen = _UNSEEN.search(text)
    if unseen is None:
        return text
    span = Span(source, unseen.start(), unseen.end())
    found.append(problems.UNSEEN_CHARACTER.at(span, found=f"U+{ord(unseen[0]):04X}"))
    return _UNSEEN.sub(" ", text)


def _without_long_numbers(text: str, source: Source, found: list[Diagnostic]) -> str:
    """The text with numbers beyond the limit replaced by blanks of the line they stand on."""
    safe = [(match.start(), match.end()) for match in _OUTSIDE.finditer(text)]
    for match in _LONG_NUMBER.finditer(text):
        if _inside(match.start(), safe):
            continue
        digits = len(match[0])
        span = Span(source, match.start(), match.end())
        found.append(problems.NUMBER_TOO_LONG.at(span, found=digits, limit=problems.LIMIT_DIGITS))
        text = text[: match.start()] + "1".ljust(digits) + text[match.end() :]
    return text


def _inside(spot: int, stretches: list[tuple[int, int]]) -> bool:
    return any(start <= spot < end for start, end in stretches)
