"""One declaration read, however broken: each problem told, the line mended or left out, and the reading begun again."""

from __future__ import annotations

import re
import threading
from collections.abc import Iterator

import attrs
from lark import Lark, Token, UnexpectedToken
from lark.indenter import DedentError

from . import problems
from .diagnostic import Check, Diagnostic, nearest, or_list
from .hints import TEXT, TITLED, expected_here, one_name, plain_name, shortened, text_unexpected, two_times
from .nodes import Declaration
from .phrases import WORDS, expectations, phrase
from .source import Source, Span
from .tables import Layout, load_parser

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
# Told only of lines of which nothing else was told: they may be what is left of the first slip.
_MAY_FOLLOW = (problems.LINE_NOT_UNDERSTOOD, problems.LINE_UNFINISHED, problems.INDENT_UNEVEN)
_FIGURES = {"TIME", "MASS", "LENGTH", "VOLUME", "PERCENT"}
_WEEKDAYS = {"monday": "mon", "tuesday": "tue", "wednesday": "wed", "thursday": "thu", "friday": "fri"}
_WEEKDAYS |= {"saturday": "sat", "sunday": "sun"}
DECLARATIONS = {"USE", "MOVEMENT", "PROGRAM", "BLOCK", "ATHLETE", "GROUP", "LOG", "DATE"}

_own = threading.local()  # Lark's parser with an Indenter must not be shared between threads


def _parser() -> tuple[Lark, Layout]:
    if not hasattr(_own, "parser"):
        _own.layout = Layout()
        _own.parser = load_parser(_own.layout)
    return _own.parser, _own.layout


Words = dict[int, tuple[str, str]]  # offset of a misspelt word -> its right kind and spelling


@attrs.define(eq=False, repr=False, match_args=False)
class Piece:
    """One declaration on its way to a tree: its text as mended so far, and what was told of it."""

    source: Source
    offset: int
    text: str
    told: list[Diagnostic] = attrs.field(factory=list)
    mended: Words = attrs.field(factory=dict)
    damaged: bool = False
    said: set[tuple[str, int]] = attrs.field(factory=set)  # codes told, with their lines: a second one there follows
    stranger: tuple[int, int] | None = None  # start and depth of the last line that could not stand where it stood
    snapped: dict[int, int] = attrs.field(factory=dict)  # where a line's text begins -> the depth at which it was meant
    muted: frozenset[int] = frozenset()  # lines of which something was told that explains the rest
    parsed: int = 0  # characters parsed so far, to stop in time

    def read(self) -> tuple[Declaration | None, list[Diagnostic], bool]:
        if not self._levels():
            return None, self.told, True
        node, error = self._try(self.text, self.mended)
        if node is None and error is None:  # with the lines at odd depths there is no reading on
            for place in self.snapped:
                self._drop(self.text.rfind("\n", 0, place) + 1)
            node, error = self._try(self.text, self.mended)
        budget = 2_000_000 + 3 * len(self.text)
        while error is not None:
            if self.parsed > budget or len(self.told) >= 250:
                self._tell(problems.TOO_MANY, error.token.start_pos or 0, len(error.token), found=len(self.told))
                return None, self.told, True
            snapped = self._snap(error)
            if snapped is not None:
                node, error = snapped
                continue
            mends = _Trouble(self, error).tell()
            for text, mended, damages in mends:
                node, after = self._try(text, mended)
                if node is None and after is None:
                    continue
                if after is None or self._beyond(after, error, same_line=not damages):
                    self.text, self.mended, error = text, mended, after
                    self.damaged |= damages
                    break
            else:
                return None, self.told, True
        for place, level in self.snapped.items():
            line_start = self.text.rfind("\n", 0, place) + 1
            depth = place - line_start
            self._tell(problems.INDENT_UNEVEN, line_start, depth + 1, found=depth, near=str(level))
        return node, self.told, self.damaged

    def _snap(self, error: UnexpectedToken) -> tuple[Declaration | None, UnexpectedToken] | None:
        """Where reading stops at a line that stood at an odd depth: the next try, at the first level that leads on."""
        line_start = self.text.rfind("\n", 0, _place(self.text, error)) + 1
        found = LINE.match(self.text, line_start)
        if found is None or found.end() not in self.snapped:
            return None
        tried, depth = self.snapped, len(found[1])
        for level in (depth - 1, depth + 1, depth - 3, depth + 3):
            if level > 0 and level != tried[found.end()]:
                self.snapped = {**tried, found.end(): level}
                node, after = self._try(self.text, self.mended)
                if node is not None or (after is not None and self._beyond(after, error, same_line=False)):
                    return node, after  # type: ignore[return-value]
        self.snapped = tried
        return None

    def _beyond(self, after: UnexpectedToken, error: UnexpectedToken, *, same_line: bool) -> bool:
        """Whether reading went on: past the line, or on the same line past the word where only that was mended."""
        if same_line:
            return _place(self.text, after) > _place(self.text, error)
        return _line_of(self.text, after) > _line_of(self.text, error)

    def _try(self, text: str, mended: Words) -> tuple[Declaration | None, UnexpectedToken | None]:
        parser, layout = _parser()
        layout.mended, layout.snapped = mended, self.snapped
        try:
            node: Declaration = parser.parse(text)  # type: ignore[assignment]
        except UnexpectedToken as error:
            self.parsed += _place(text, error)
            return None, error
        except DedentError:  # what was left out took the level with it to which a line goes back
            return None, None
        return node, None

    def _tell(self, check: Check, start: int, length: int, **facts: str | int) -> None:
        begin = self.offset + start
        line = self.source.text.count("\n", 0, begin)
        if line in self.muted or (check.code, line) in self.said:
            return
        if check in _MAY_FOLLOW and any(told == line for _, told in self.said):
            return
        self.said.add((check.code, line))
        span = Span(self.source, begin, min(begin + length, len(self.source.text)))
        self.told.append(check.at(span, labels=(), **facts))

    def _levels(self) -> bool:
        """Sees to it that every line begins at a level that is open; False when nothing is left to read."""
        levels = [0]
        first_at: dict[int, int] = {}  # the first line of each open level
        lines_at = [(match.start(), len(match[1])) for match in LINE.finditer(self.text)]
        skip_below: int | None = None
        odd = [place for place in lines_at if place[1] % 2]
        if odd and 4 * len(odd) <= len(lines_at) and len(odd) <= 8:
            # Nearly all lines are set in by twos: those that are not were meant one to the left or to the right.
            self.snapped = dict(_snapped(lines_at))
            lines_at = [place for place in lines_at if not place[1] % 2]
        for number, (line_start, depth) in enumerate(lines_at):
            if skip_below is not None and depth > skip_below:
                self._drop(line_start)
                continue
            skip_below = None
            if depth > levels[-1]:
                if len(levels) > problems.LIMIT_DEPTH:
                    self._tell(problems.NESTED_TOO_DEEP, line_start + depth, 1, limit=problems.LIMIT_DEPTH)
                    return False
                levels.append(depth)
                first_at[depth] = number
                continue
            open_levels = [level for level in levels if level <= depth]
            if open_levels[-1] != depth:
                above = levels[len(open_levels)]
                first = first_at[above]
                after = [level for _, level in lines_at[number + 1 :]]
                if number - first + _strays([*open_levels, depth], after) < 1 + _strays(levels, after, skip=depth):
                    # The line before was the odd one: its neighbours stand where this one does.
                    start = lines_at[first][0]
                    self._tell(problems.INDENT_UNEVEN, start, above + 1, found=above, near=str(depth))
                    for stray, _ in lines_at[first:number]:
                        self._drop(stray)
                    levels = [*open_levels, depth]
                    first_at[depth] = number
                    continue
                nearest_two = sorted(sorted(levels[1:] or [2], key=lambda level: abs(level - depth))[:2])
                self._tell(
                    problems.INDENT_UNEVEN, line_start, depth + 1, found=depth, near=" or ".join(map(str, nearest_two))
                )
                skip_below = depth
                self._drop(line_start)
                continue
            levels = open_levels
        return True

    def _drop(self, start: int) -> None:
        self.text = blanked(self.text, start, self.text.find("\n", start))
        self.damaged = True


def _snapped(lines_at: list[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """Where the text of each line at an odd depth begins, and the open level nearest to it."""
    levels = [0]
    for line_start, depth in lines_at:
        if depth % 2:
            yield line_start + depth, min(levels[1:] or [depth + 1], key=lambda level: abs(level - depth))
        else:
            levels = [*(level for level in levels if level < depth), depth]


def _strays(levels: list[int], depths: list[int], skip: int | None = None) -> int:
    """How many of the next lines would stand between two levels or be left out with one, if these levels were open."""
    strays = 0
    for depth in depths[:60]:
        if skip is not None and depth > skip:
            strays += 1
            continue
        skip = None
        if depth > levels[-1]:
            levels = [*levels, depth]
            continue
        levels = [level for level in levels if level <= depth]
        if levels[-1] != depth:
            strays, skip = strays + 1, depth
    return strays


def blanked(text: str, start: int, end: int) -> str:
    """The text with blanks for everything between two offsets, so that all else keeps its place."""
    return text[:start] + re.sub(r"[^\n]", " ", text[start:end]) + text[end:]


def _next_word(text: str, start: int) -> int:
    """Where the word after the one at a place begins."""
    return start + len(re.match(r"\S+ *", text[start:])[0])  # type: ignore[index]


def _line_of(text: str, error: UnexpectedToken) -> int:
    return text.count("\n", 0, _place(text, error))


def _place(text: str, error: UnexpectedToken) -> int:
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
class _Trouble:
    """One unexpected token: tells the problem, and offers ways to read on, the gentlest first."""

    piece: Piece
    error: UnexpectedToken

    @property
    def text(self) -> str:
        return self.piece.text

    def tell(self) -> list[Mend]:
        token, accepts = self.error.token, self.error.accepts
        start = _place(self.text, self.error)
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
            piece._tell(problems.INDENT_MISSING, at, len(line), found=line)
            yield self._without_section(line_start, line_end), piece.mended, True
        elif token.type == "_INDENT":
            yield from self._deeper(start, line_start, line_end)
        elif line_start == 0 and start == 0:
            yield from self._header(token, word, line_end)
        elif token.type == "_NL" or not word.strip():
            found = text[line_start:start].strip()
            end = line_start + len(text[line_start:start].rstrip())
            piece._tell(
                problems.LINE_UNFINISHED,
                end - 1,
                1,
                found=found,
                expected=expected_here(text[line_start:start], accepts),
            )
        elif word.startswith('"') and (said := TEXT.match(text, start)):
            yield from self._text(said[0], accepts, start, text[line_start:start])
        elif word.startswith('"') and token.type in ("QUOTE", "WORD"):
            piece._tell(problems.QUOTE_MISSING, start, line_end - start)
        elif set(word) == {"_"}:
            piece._tell(problems.BLANK_LEFT, start, len(word))
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
        self.piece._tell(
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
        node, after = piece._try(without_above, piece.mended) if above_start else (None, self.error)
        if node is not None or (after is not None and _place(without_above, after) > line_end):
            piece._tell(problems.INDENT_UNEVEN, above_start, depth + 1, found=depth, near=str(deeper))
            yield without_above, piece.mended, True
            return
        piece._tell(problems.INDENT_UNEXPECTED, start, line_end - start, where=f"`{above.strip()}`")
        end = line_end
        for match in LINE.finditer(text, line_end):
            if len(match[1]) <= depth:
                break
            end = text.find("\n", match.end())
        yield blanked(text, line_start, end), piece.mended, True

    def _header(self, token: Token, word: str, line_end: int) -> Iterator[Mend]:
        near = nearest(word, [name.lower() for name in DECLARATIONS])
        if near and near[0] != word:
            self.piece._tell(problems.WORD_MISSPELT, 0, len(word), found=word, near=or_list(near[:1]))
            yield self.text, {**self.piece.mended, 0: (near[0].upper(), near[0])}, False
        else:
            self.piece._tell(problems.NOT_A_DECLARATION, 0, len(word), found=word)

    def _word(self, token: Token, word: str, accepts: set[str], start: int, line_start: int) -> Iterator[Mend]:
        piece, text = self.piece, self.text
        before = text[line_start:start]
        decimal = re.search(r"(\d+),$", before)
        figure = re.search(r"(\d+(?:\.\d+)?) *$", before)
        keywords = [name.lower() for name in accepts if name.lower() in WORDS]
        if decimal and word[0].isdigit():
            near = f"{decimal[1]}.{word}"
            length = len(decimal[0]) + len(word)
            piece._tell(
                problems.DECIMAL_COMMA, start - len(decimal[0]), length, found=f"{decimal[1]},{word}", near=near
            )
            yield text[: start - 1] + "." + text[start:], piece.mended, False
        elif figure and word in _UNIT_OF:
            near = f"{figure[1]} {_UNIT_OF[word]}"
            piece._tell(problems.UNIT_UNKNOWN, start, len(word), found=word, near=near)
            unit = _UNIT_OF[word]
            if len(unit) <= len(word):
                yield text[:start] + unit.ljust(len(word)) + text[start + len(word) :], piece.mended, False
        elif comma := re.match(r"(\d+),(\d+)", text[start:]):
            piece._tell(problems.DECIMAL_COMMA, start, len(comma[0]), found=comma[0], near=f"{comma[1]}.{comma[2]}")
            at = start + len(comma[1])
            yield text[:at] + "." + text[at + 1 :], piece.mended, False
        elif word.isdigit() and accepts & _FIGURES and "INT" not in accepts:
            after = re.match(r" *([A-Za-z]+)", text[start + len(word) :])
            if after and after[1] in _UNIT_OF:
                unit, at = _UNIT_OF[after[1]], start + len(word) + after.start(1)
                piece._tell(problems.UNIT_UNKNOWN, at, len(after[1]), found=after[1], near=f"{word} {unit}")
                yield text[:at] + unit.ljust(len(after[1])) + text[at + len(after[1]) :], piece.mended, False
            else:
                expected = expectations(accepts & _FIGURES)
                piece._tell(problems.UNIT_MISSING, start, len(word), found=word, expected=expected)
        elif token.type == "WORD" and "NAME" in accepts and re.fullmatch(r"[^\W\d][\w'-]*", word):
            yield from self._name(token, word, start, before)
        elif two := two_times(before, text[start:]):
            length, once = two
            expected = f"{expectations(accepts)}. A time is one figure: `{once}`"
            where, found = f"after `{' '.join(before.split())}`", text[start : start + length]
            piece._tell(problems.LINE_NOT_UNDERSTOOD, start, length, found=found, where=where, expected=expected)
            yield blanked(text, start, start + length), piece.mended, False
        elif word == "and" and "_COMMA" in accepts and self._after_comma(_next_word(text, start)):
            yield self._comma_for_and(start)
        elif "_COMMA" in accepts and self._after_comma(start):
            piece._tell(problems.COMMA_MISSING, start, len(word), where=f"before `{word}`", instead=f", {word}")
            if text[start - 1] == " ":
                yield text[: start - 1] + "," + text[start:], piece.mended, False
        elif near_words := nearest(word, keywords):
            piece._tell(problems.WORD_MISSPELT, start, len(word), found=word, near=or_list(near_words))
            yield text, {**piece.mended, start: (near_words[0].upper(), near_words[0])}, False
        elif before.strip() or word not in WORDS or not self._follows_stranger(line_start, len(before)):
            where = f"after `{' '.join(before.split())}`" if before.strip() else "at the start of a line here"
            expected = expected_here(before, accepts, text[line_start : text.find("\n", start)]) + one_name(
                before, word
            )
            piece._tell(problems.LINE_NOT_UNDERSTOOD, start, len(word), found=word, where=where, expected=expected)

    def _comma_for_and(self, start: int) -> Mend:
        """Told with what follows the word, a figure with its unit."""
        then = re.match(r"\d[\d.]* *(?:[a-z]+|%)|[^ ,\n]+", self.text[_next_word(self.text, start) :])
        instead = f", {then[0] if then else ''}".rstrip()
        self.piece._tell(problems.COMMA_MISSING, start, len("and"), where="where `and` stands", instead=instead)
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
        self.piece._tell(problems.LINE_NOT_UNDERSTOOD, start, len(said), found=found, where=where, expected=expected)
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
        self.piece._tell(problems.NAME_NOT_LOWERCASE, start, len(word), found=word, near=near, title=title)
        plain = blanked(self.text, start + len(token), start + len(word))
        yield plain, {**self.piece.mended, start: ("NAME", near)}, False

    def _follows_stranger(self, line_start: int, depth: int) -> bool:
        """Whether the line before it, as deep, could not stand there either: both have lost the line they belong to."""
        before, self.piece.stranger = self.piece.stranger, (line_start, depth)
        return before is not None and before[1] == depth and not self.text[before[0] : line_start].strip()

    def _after_comma(self, start: int) -> bool:
        """Whether what stands here could follow if a comma stood before it."""
        parser, _ = _parser()
        could = self._after("_COMMA", ",") - {"WORD", "QUOTE", "_NL"}
        return any(
            re.compile(terminal.pattern.to_regexp() + r"(?![\w-])").match(self.text, start)
            for terminal in parser.terminals
            if terminal.name in could
        )

    def _after(self, terminal: str, word: str = "") -> set[str]:
        """What could follow if such a word stood here."""
        ahead = self.error.interactive_parser.copy()  # type: ignore[no-untyped-call]
        ahead.feed_token(Token(terminal, word or terminal.lower()))
        accepts: set[str] = ahead.accepts()
        return accepts
