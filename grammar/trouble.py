"""What stops the reading of a declaration: told with what was most likely meant, and ways offered to read on."""

from __future__ import annotations

import re
import threading
from collections.abc import Iterator
from typing import TYPE_CHECKING

import attrs
from lark import Lark, Token, UnexpectedToken

from . import problems
from .diagnostic import nearest, or_list
from .hints import (
    TEXT,
    TITLED,
    expected_here,
    like_day,
    meant,
    one_name,
    plain_name,
    shortened,
    text_unexpected,
    two_times,
)
from .phrases import WORDS, expectations, phrase
from .tables import Layout, load_parser

if TYPE_CHECKING:
    from .recovery import Piece

LINE = re.compile(r"^( *)(?=[^ \n#])", re.M)
_UNITS = {
    "s": "sec secs second seconds", "min": "mins minute minutes", "h": "hr hrs hour hours",
    "kg": "kgs kilo kilos kilogram kilograms", "g": "gr gram grams", "lb": "lbs pound pounds",
    "m": "meter meters metre metres mtr", "km": "kms kilometer kilometers kilometre kilometres", "mi": "mile miles",
    "cm": "centimeter centimeters", "ft": "foot feet", "yd": "yard yards", "l": "liter liters litre litres ltr",
    "%": "percent pct",
}  # fmt: skip
_UNIT_OF = {word: unit for unit, words in _UNITS.items() for word in words.split()} | {
    unit.upper(): unit for unit in _UNITS if unit != "%"
}
_FIGURES = {"TIME", "MASS", "LENGTH", "LITRES", "PERCENT"}
_AMOUNTS = _FIGURES | {"INT", "DECIMAL"}
_WEEKDAYS = {"monday": "mon", "tuesday": "tue", "wednesday": "wed", "thursday": "thu", "friday": "fri"}
_WEEKDAYS |= {"saturday": "sat", "sunday": "sun"}
DECLARATIONS = {"USE", "MOVEMENT", "PROGRAM", "BLOCK", "ATHLETE", "GROUP", "LOG", "DATE"}

_own = threading.local()  # Lark's parser with an Indenter must not be shared between threads


def own_parser() -> tuple[Lark, Layout]:
    """The parser of this thread, and the layout by which it reads."""
    if not hasattr(_own, "parser"):
        _own.layout = Layout()
        _own.parser = load_parser(_own.layout)
    return _own.parser, _own.layout


NO_DAY = "0000-00-00"  # in place of a day that could not be read: no calendar has it
Words = dict[int, tuple[str, str]]  # offset of a misspelt word -> its right kind and spelling


def blanked(text: str, start: int, end: int) -> str:
    """The text with blanks for everything between two offsets, so that all else keeps its place."""
    return text[:start] + re.sub(r"[^\n]", " ", text[start:end]) + text[end:]


def _next_word(text: str, start: int) -> int:
    """Where the word after the one at a place begins."""
    return start + len(re.match(r"\S+ *", text[start:])[0])  # type: ignore[index]


def line_of(text: str, error: UnexpectedToken) -> int:
    """The number of the line that is to blame, from 0."""
    return text.count("\n", 0, place_of(text, error))


def place_of(text: str, error: UnexpectedToken) -> int:
    """Where the trouble is: the token; for a missing or unexpected level the line that is to blame."""
    token = error.token
    start = len(text) - 1 if token.start_pos is None or token.type == "$END" else token.start_pos
    if "_INDENT" in error.accepts and not error.accepts - {"_INDENT"}:
        before = text[:start].rstrip()
        return text.rfind("\n", 0, len(before)) + 1 if token.type != "_NL" else start
    if token.type == "_INDENT":
        return int(token.end_pos or 0)
    return start


Mend = tuple[str, Words, bool]  # the text, the words read otherwise, and whether something was left out


@attrs.define(eq=False, repr=False, match_args=False)
class Trouble:
    """One unexpected token: tells the problem, and offers ways to read on, the gentlest first."""

    piece: Piece
    error: UnexpectedToken

    @property
    def text(self) -> str:
        return self.piece.text

    def tell(self) -> list[Mend]:
        token, accepts = self.error.token, self.error.accepts
        start = place_of(self.text, self.error)
        line_start = self.text.rfind("\n", 0, start) + 1
        line_end = self.text.find("\n", start)
        gentle = self._name_it(token, accepts, start, line_start, line_end)
        mends: list[Mend] = list(gentle)
        text_before = self.text[line_start:start]
        if token.type not in ("_INDENT", "_DEDENT", "$END") and text_before.strip():
            mends.append((blanked(self.text, start, line_end), self.piece.mended, True))
            comma = self.text.rfind(",", line_start, start)
            for _ in range(3):
                if comma <= line_start:
                    break
                mends.append((blanked(self.text, comma, line_end), self.piece.mended, True))
                comma = self.text.rfind(",", line_start, comma)
        if line_start > 0:
            mends.append((self._without(line_start, line_end), self.piece.mended, True))
        return mends

    def _without(self, line_start: int, line_end: int) -> str:
        """The text without a line and the deeper lines below it."""
        depth = len(re.match(" *", self.text[line_start:])[0])  # type: ignore[index]
        end = line_end
        for match in LINE.finditer(self.text, line_end):
            if len(match[1]) <= depth:
                break
            end = self.text.find("\n", match.end())
        return blanked(self.text, line_start, end)

    def _without_section(self, line_start: int, line_end: int) -> str:
        """The text without a line that opens a section, and without the lines that were meant to be set in below it."""
        end = line_end
        for match in LINE.finditer(self.text, line_end):
            first = re.match(r"[a-z-]*", self.text[match.end() :])
            if first is None or first[0] in WORDS:
                break
            end = self.text.find("\n", match.end())
        return blanked(self.text, line_start, end)

    def _name_it(self, token: Token, accepts: set[str], start: int, line_start: int, line_end: int) -> Iterator[Mend]:
        piece, text = self.piece, self.text
        line = text[line_start:line_end].strip()
        word = str(token)
        if accepts == {"_INDENT"} and token.type != "_NL":
            at = line_start + len(text[line_start:line_end]) - len(text[line_start:line_end].lstrip())
            piece.report(problems.INDENT_MISSING, at, len(line), found=line)
            yield self._without_section(line_start, line_end), piece.mended, True
        elif token.type == "_INDENT":
            yield from self._deeper(start, line_start, line_end)
        elif line_start == 0 and start == 0:
            yield from self._header(token, word, line_end)
        elif token.type == "_NL" or not word.strip():
            found = text[line_start:start].strip()
            end = line_start + len(text[line_start:start].rstrip())
            piece.report(
                problems.LINE_UNFINISHED,
                end - 1,
                1,
                found=found,
                expected=expected_here(text[line_start:start], accepts),
            )
        elif word.startswith('"') and (said := TEXT.match(text, start)):
            yield from self._text(said[0], accepts, start, text[line_start:start])
        elif word.startswith('"') and token.type in ("QUOTE", "WORD"):
            piece.report(problems.QUOTE_MISSING, start, line_end - start)
        elif set(word) == {"_"}:
            piece.report(problems.BLANK_LEFT, start, len(word))
        elif word[0] == "-" and (amount := self._fitting(accepts & _AMOUNTS, start + 1)):
            piece.report(problems.FIGURE_NEGATIVE, start, 1 + len(amount), found=f"-{amount}", near=amount)
            yield blanked(text, start, start + 1), piece.mended, False
        elif not self._name_left_out(text[line_start:start], accepts, line_start):
            yield from self._word(token, word, accepts, start, line_start)

    def _name_left_out(self, before: str, accepts: set[str], line_start: int) -> bool:
        """Whether the word before was read as a name that is missing in front of it, as in `sets by -1, by -2`; told."""
        said = re.search(r"(?<![\w-])([a-z]+) +$", before)
        if said is None or accepts != {said[1].upper()} or not before[: said.start()].strip():
            return False
        where = f"after `{' '.join(before[: said.start()].split())}`"
        expected = expected_here(before[: said.start()], {"NAME", "TOTAL"}) if accepts == {"BY"} else phrase("NAME")
        start = line_start + said.start()
        self.piece.report(
            problems.LINE_NOT_UNDERSTOOD, start, len(said[1]), found=said[1], where=where, expected=expected
        )
        return True

    def _deeper(self, start: int, line_start: int, line_end: int) -> Iterator[Mend]:
        """Lines below one that can have none: either that one stands too far left, or they too far right."""
        piece, text = self.piece, self.text
        above_end = len(text[:line_start].rstrip())
        above_start = text.rfind("\n", 0, above_end) + 1
        above = text[above_start:above_end]
        depth, deeper = len(above) - len(above.lstrip()), start - line_start
        without_above = blanked(text, above_start, above_end)
        node, after = piece.attempt(without_above, piece.mended) if above_start else (None, self.error)
        if node is not None or (after is not None and place_of(without_above, after) > line_end):
            piece.report(problems.INDENT_UNEVEN, above_start, depth + 1, found=depth, near=str(deeper))
            yield without_above, piece.mended, True
            return
        piece.report(problems.INDENT_UNEXPECTED, start, line_end - start, where=f"`{above.strip()}`")
        end = line_end
        for match in LINE.finditer(text, line_end):
            if len(match[1]) <= depth:
                break
            end = text.find("\n", match.end())
        yield blanked(text, line_start, end), piece.mended, True

    def _header(self, token: Token, word: str, line_end: int) -> Iterator[Mend]:
        if day := like_day(self.piece.source.text, self.piece.offset):
            rest = self.text[len(day) : line_end].partition(",")[0].strip()
            self.piece.report(problems.DAY_UNREADABLE, 0, len(day), found=day, near=f"2026-09-01 {rest}")
            mended = {**self.piece.mended, 0: ("DATE", NO_DAY)}
            yield blanked(self.text, len(word), max(len(word), len(day))), mended, False
            return
        near = nearest(word, [name.lower() for name in DECLARATIONS])
        if near and near[0] != word:
            self.piece.report(problems.WORD_MISSPELT, 0, len(word), found=word, near=or_list(near[:1]))
            yield self.text, {**self.piece.mended, 0: (near[0].upper(), near[0])}, False
        else:
            self.piece.report(problems.NOT_A_DECLARATION, 0, len(word), found=word)

    def _word(self, token: Token, word: str, accepts: set[str], start: int, line_start: int) -> Iterator[Mend]:
        piece, text = self.piece, self.text
        before = text[line_start:start]
        decimal = re.search(r"(\d+),$", before)
        figure = re.search(r"(\d+(?:\.\d+)?) *$", before)
        keywords = [name.lower() for name in accepts if name.lower() in WORDS]
        if decimal and word[0].isdigit():
            near = f"{decimal[1]}.{word}"
            length = len(decimal[0]) + len(word)
            piece.report(
                problems.DECIMAL_COMMA, start - len(decimal[0]), length, found=f"{decimal[1]},{word}", near=near
            )
            yield text[: start - 1] + "." + text[start:], piece.mended, False
        elif figure and word in _UNIT_OF:
            near = f"{figure[1]} {_UNIT_OF[word]}"
            piece.report(problems.UNIT_UNKNOWN, start, len(word), found=word, near=near)
            unit = _UNIT_OF[word]
            if len(unit) <= len(word):
                yield text[:start] + unit.ljust(len(word)) + text[start + len(word) :], piece.mended, False
        elif comma := re.match(r"(\d+),(\d+)", text[start:]):
            piece.report(problems.DECIMAL_COMMA, start, len(comma[0]), found=comma[0], near=f"{comma[1]}.{comma[2]}")
            at = start + len(comma[1])
            yield text[:at] + "." + text[at + 1 :], piece.mended, False
        elif word.isdigit() and accepts & _FIGURES and "INT" not in accepts:
            after = re.match(r" *([A-Za-z]+)", text[start + len(word) :])
            if after and after[1] in _UNIT_OF:
                unit, at = _UNIT_OF[after[1]], start + len(word) + after.start(1)
                piece.report(problems.UNIT_UNKNOWN, at, len(after[1]), found=after[1], near=f"{word} {unit}")
                yield text[:at] + unit.ljust(len(after[1])) + text[at + len(after[1]) :], piece.mended, False
            else:
                expected = expectations(accepts & _FIGURES)
                piece.report(problems.UNIT_MISSING, start, len(word), found=word, expected=expected)
        elif token.type == "WORD" and "NAME" in accepts and re.fullmatch(r"[^\W\d][\w'-]*", word):
            yield from self._name(token, word, start, before)
        elif two := two_times(before, text[start:]):
            length, once = two
            expected = f"{expectations(accepts)}. A time is one figure: `{once}`"
            where, found = f"after `{' '.join(before.split())}`", text[start : start + length]
            piece.report(problems.LINE_NOT_UNDERSTOOD, start, length, found=found, where=where, expected=expected)
            yield blanked(text, start, start + length), piece.mended, False
        elif word == "and" and "_COMMA" in accepts and self._after_comma(_next_word(text, start)):
            yield self._comma_for_and(start)
        elif "_COMMA" in accepts and self._after_comma(start):
            piece.report(problems.COMMA_MISSING, start, len(word), where=f"before `{word}`", instead=f", {word}")
            if text[start - 1] == " ":
                yield text[: start - 1] + "," + text[start:], piece.mended, False
        elif near_words := meant(word, keywords):
            piece.report(problems.WORD_MISSPELT, start, len(word), found=word, near=or_list(near_words))
            yield text, {**piece.mended, start: (near_words[0].upper(), near_words[0])}, False
        elif before.strip() or word not in WORDS or not self._follows_stranger(line_start, len(before)):
            where = f"after `{' '.join(before.split())}`" if before.strip() else "at the start of a line here"
            expected = expected_here(before, accepts, text[line_start : text.find("\n", start)]) + one_name(
                before, word
            )
            piece.report(problems.LINE_NOT_UNDERSTOOD, start, len(word), found=word, where=where, expected=expected)

    def _comma_for_and(self, start: int) -> Mend:
        """Told with what follows the word, a figure with its unit."""
        then = re.match(r"\d[\d.]* *(?:[a-z]+|%)|[^ ,\n]+", self.text[_next_word(self.text, start) :])
        instead = f", {then[0] if then else ''}".rstrip()
        self.piece.report(problems.COMMA_MISSING, start, len("and"), where="where `and` stands", instead=instead)
        return f"{self.text[: start - 1]},   {self.text[start + len('and') :]}", self.piece.mended, False

    def _text(self, said: str, accepts: set[str], start: int, before: str) -> Iterator[Mend]:
        """A text in quotes that stands where none can; one that was meant as a name is read as it."""
        words = [name.lower() for name in accepts if name.lower() in WORDS]
        missing = words[0] if len(words) == 1 and "STRING" in self._after(words[0].upper()) else ""
        end = start + len(said)
        rest = self.text[end : self.text.find("\n", end)]
        expected, name = text_unexpected(before, said, rest, accepts, missing)
        where = f"after `{' '.join(before.split())}`" if before.strip() else "at the start of a line here"
        found = shortened(said)
        self.piece.report(problems.LINE_NOT_UNDERSTOOD, start, len(said), found=found, where=where, expected=expected)
        if before.strip():
            yield self.text[:start] + name.ljust(len(said)) + self.text[end:], self.piece.mended, not name

    def _name(self, token: Token, word: str, start: int, before: str) -> Iterator[Mend]:
        """A name that is not spelt as one: its plain spelling, and where its title goes if it may have one."""
        words = re.match(r'[^",|#\n]+', self.text[start:])
        titled = before.strip() in TITLED
        if words is not None and titled:
            word = words[0].strip()
        near = plain_name(word)
        if re.search(r"\bon\b", before):
            near = _WEEKDAYS.get(near, near)
        title = f', and what people should read in quotes after it, as in `{near} "{word}"`' if titled else ""
        self.piece.report(problems.NAME_NOT_LOWERCASE, start, len(word), found=word, near=near, title=title)
        plain = blanked(self.text, start + len(token), start + len(word))
        yield plain, {**self.piece.mended, start: ("NAME", near)}, False

    def _follows_stranger(self, line_start: int, depth: int) -> bool:
        """Whether the line before it, as deep, could not stand there either: both have lost the line they belong to."""
        before, self.piece.stranger = self.piece.stranger, (line_start, depth)
        return before is not None and before[1] == depth and not self.text[before[0] : line_start].strip()

    def _after_comma(self, start: int) -> bool:
        """Whether what stands here could follow if a comma stood before it."""
        return bool(self._fitting(self._after("_COMMA", ",") - {"WORD", "QUOTE", "_NL"}, start))

    def _fitting(self, could: set[str], start: int) -> str:
        """The words that stand at a place, if they are one of the kinds that could; else none."""
        parser, _ = own_parser()
        patterns = (one.pattern.to_regexp() for one in parser.terminals if one.name in could)
        found = (re.compile(pattern + r"(?![\w-])").match(self.text, start) for pattern in patterns)
        return max((one[0] for one in found if one is not None), key=len, default="")

    def _after(self, terminal: str, word: str = "") -> set[str]:
        """What could follow if such a word stood here."""
        ahead = self.error.interactive_parser.copy()  # type: ignore[no-untyped-call]
        ahead.feed_token(Token(terminal, word or terminal.lower()))
        accepts: set[str] = ahead.accepts()
        return accepts
