"""More help than what can stand at a place: what a line was most likely meant to be, told by the text around the slip."""

from __future__ import annotations

import re
from collections.abc import Collection

from .diagnostic import nearest
from .phrases import WORDS, expectations, phrase

TITLED = {"movement", "program", "block", "athlete", "session", "category"}  # what has a name and then its title
TEXT = re.compile(r'"([^"\n]*)"')
_UP_TO_MOVEMENT = re.compile(r" *(?:must|key|do|may|else|begins|max|avoids) +([a-z][a-z0-9-]*) *")
_ENTRY = re.compile(r" *(?:must|key|do|may) +[a-z]")
_EASIER = re.compile(r" *weeks? [^:]*: *(?:.*, *)?")
_WEEKS_FROM = re.compile(r" *weeks? +\d+ *")
_WEEKS_FROM_TO = re.compile(_WEEKS_FROM.pattern + r"(?:-|to\b)")
_LIKE_EASIER = re.compile(r"(?:every|each|all)\b.*\bweeks?\b|deload|easy|easier|light", re.I)
MOST_AT_START = 16  # words that are told as those that can begin a line
EASIER = "Easier weeks are written one by one, as in `weeks 4, 8: sets by -1`"

# Words that people write for those of the language.
MEANT = {
    "have": "has", "having": "has", "owns": "has", "own": "has", "got": "has", "equipment": "has", "birth": "born",
    "birthday": "born", "birthyear": "born", "weighs": "body", "weight": "body", "bodyweight": "body", "maximum": "max",
    "hates": "avoids", "without": "avoids",
}  # fmt: skip
_MONTH = r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?"
_DAY = rf"\d{{1,4}}(?:st|nd|rd|th)?(?:[./ -]+(?:{_MONTH}|\d{{1,4}}))*[.,]?|{_MONTH} +\d{{1,2}}(?:,? +\d{{4}})?"
_LIKE_DAY = re.compile(rf"(?:__+|(?:(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*[.,]* +)?(?:{_DAY}))(?= +[a-z])", re.I)
_LOG_ABOVE = re.compile(r"^log(?![\w-])", re.M)


def meant(word: str, keywords: Collection[str]) -> list[str]:
    """The words of the language that were most likely meant by another."""
    return [MEANT[word]] if MEANT.get(word) in keywords else nearest(word, keywords)


def like_day(text: str, start: int) -> str:
    """What was most likely meant as the day of a logged session, at the beginning of a line below a log; "" for nothing."""
    found = _LIKE_DAY.match(text, start)
    return found[0] if found is not None and _LOG_ABOVE.search(text, 0, start) is not None else ""


def plain_name(text: str) -> str:
    """The spelling as a name of what was not spelt as one."""
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")


def shortened(text: str) -> str:
    """A text as it is told in a message: not more of it than says which is meant."""
    return text if len(text) <= 40 else f"{text[:36].rstrip()}..."


def expected_here(before: str, accepts: Collection[str], line: str = "") -> str:
    """What can stand after the beginning of a line, and what the line was most likely meant to be."""
    told = expectations(accepts) if before.strip() else expectations(accepts, MOST_AT_START)
    if {"NAME", "TOTAL"} <= set(accepts) and _EASIER.fullmatch(before):
        return phrase("EASED")
    from_to = _WEEKS_FROM.fullmatch(before) and _WEEKS_FROM_TO.match(line)
    if from_to or (not before.strip() and "WEEKS" in accepts and _LIKE_EASIER.match(line.strip())):
        return f"{told}. {EASIER}"
    return told


def text_unexpected(before: str, text: str, rest: str, accepts: set[str], missing: str) -> tuple[str, str]:
    """Of a text in quotes where none can stand: what can, and the name that it was meant as, "" for none.

    `rest` is the line after the text; `missing` is the one word that can stand here, if a text can stand after it.
    """
    told, inside = expected_here(before, accepts), text[1:-1]
    name, shown = plain_name(inside), shortened(text)
    begun = before.replace(",", " ").split()
    after = re.match(r" +([a-z][a-z0-9-]*)", rest)
    own = after[1] if after and after[1] not in WORDS else name
    if "NAME" in accepts and before.strip() in TITLED and own and (own, own) != (name, inside):
        title = f". A title stands after the name, as in `{begun[0]} {shortened(own)} {shown}`"
        return told + title, "" if own != name else name
    if "NAME" in accepts and name and (name == inside or accepts <= {"NAME", "WORD", "QUOTE"}):
        return f"{told}. A name has no quotes: `{shortened(name)}`", name
    if missing:
        return f"{told}. `{missing}` is missing before the text: `{missing} {shown}`", ""
    if len(begun) > 2 and begun[0] in TITLED and '"' not in before:
        return f"{told}. A title stands right after the name, as in `{begun[0]} {begun[1]} {shown}`", ""
    if _ENTRY.match(before):
        return f"{told}. A note on a movement stands below it, in a line that begins with `|`", ""
    return told, ""


def one_name(before: str, word: str) -> str:
    """More help where a word follows a movement's name: `goblet squat` may be meant as one name."""
    named = _UP_TO_MOVEMENT.fullmatch(before)
    if named is None or word in WORDS or not re.fullmatch(r"[a-z]+", word):
        return ""
    return f". If the two words are one name, write `{named[1]}-{word}`"


def two_times(before: str, after: str) -> tuple[int, str] | None:
    """Where a time was told in two, as in `1 min 30 s`: how long its second part is, and the time as one figure."""
    large = re.search(r"(\d+) *(h|min) +$", before)
    small = re.match(rf"(\d+) *({'min' if large[2] == 'h' else 's'})\b", after) if large else None
    return (len(small[0]), f"{60 * int(large[1]) + int(small[1])} {small[2]}") if large and small else None
