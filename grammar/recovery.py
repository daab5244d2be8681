"""One declaration read, however broken: each problem told, the line mended or left out, and the reading begun again."""

from __future__ import annotations

from collections.abc import Iterator

import attrs
from lark import UnexpectedToken
from lark.indenter import DedentError

from . import problems
from .diagnostic import Check, Diagnostic
from .nodes import Declaration
from .source import Source, Span
from .trouble import LINE, Trouble, Words, blanked, line_of, own_parser, place_of

# Told only of lines of which nothing else was told: they may be what is left of the first slip.
_MAY_FOLLOW = (problems.LINE_NOT_UNDERSTOOD, problems.LINE_UNFINISHED, problems.INDENT_UNEVEN)


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
        node, error = self.attempt(self.text, self.mended)
        if node is None and error is None:  # with the lines at odd depths there is no reading on
            for place in self.snapped:
                self._drop(self.text.rfind("\n", 0, place) + 1)
            node, error = self.attempt(self.text, self.mended)
        budget = 2_000_000 + 3 * len(self.text)
        while error is not None:
            if self.parsed > budget or len(self.told) >= 250:
                self.report(problems.TOO_MANY, error.token.start_pos or 0, len(error.token), found=len(self.told))
                return None, self.told, True
            snapped = self._snap(error)
            if snapped is not None:
                node, error = snapped
                continue
            mends = Trouble(self, error).tell()
            for text, mended, damages in mends:
                node, after = self.attempt(text, mended)
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
            self.report(problems.INDENT_UNEVEN, line_start, depth + 1, found=depth, near=str(level))
        return node, self.told, self.damaged

    def _snap(self, error: UnexpectedToken) -> tuple[Declaration | None, UnexpectedToken] | None:
        """Where reading stops at a line that stood at an odd depth: the next try, at the first level that leads on."""
        line_start = self.text.rfind("\n", 0, place_of(self.text, error)) + 1
        found = LINE.match(self.text, line_start)
        if found is None or found.end() not in self.snapped:
            return None
        tried, depth = self.snapped, len(found[1])
        for level in (depth - 1, depth + 1, depth - 3, depth + 3):
            if level > 0 and level != tried[found.end()]:
                self.snapped = {**tried, found.end(): level}
                node, after = self.attempt(self.text, self.mended)
                if node is not None or (after is not None and self._beyond(after, error, same_line=False)):
                    return node, after  # type: ignore[return-value]
        self.snapped = tried
        return None

    def _beyond(self, after: UnexpectedToken, error: UnexpectedToken, *, same_line: bool) -> bool:
        """Whether reading went on: past the line, or on the same line past the word where only that was mended."""
        if same_line:
            return place_of(self.text, after) > place_of(self.text, error)
        return line_of(self.text, after) > line_of(self.text, error)

    def attempt(self, text: str, mended: Words) -> tuple[Declaration | None, UnexpectedToken | None]:
        parser, layout = own_parser()
        layout.mended, layout.snapped = mended, self.snapped
        try:
            node: Declaration = parser.parse(text)  # type: ignore[assignment]
        except UnexpectedToken as error:
            self.parsed += place_of(text, error)
            return None, error
        except DedentError:  # what was left out took the level with it to which a line goes back
            return None, None
        return node, None

    def report(self, check: Check, start: int, length: int, **facts: str | int) -> None:
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
                    self.report(problems.NESTED_TOO_DEEP, line_start + depth, 1, limit=problems.LIMIT_DEPTH)
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
                    self.report(problems.INDENT_UNEVEN, start, above + 1, found=above, near=str(depth))
                    for stray, _ in lines_at[first:number]:
                        self._drop(stray)
                    levels = [*open_levels, depth]
                    first_at[depth] = number
                    continue
                nearest_two = sorted(sorted(levels[1:] or [2], key=lambda level: abs(level - depth))[:2])
                self.report(
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
