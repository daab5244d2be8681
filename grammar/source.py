"""Source texts and places in them."""

from __future__ import annotations

import attrs


@attrs.frozen(eq=False)
class Source:
    """One text of the coach: the name by which people know it (a path as given), and its characters.

    Where it is only a part of a file, `before` is the number of lines that stand before it there: lines are told as those
    of the file.
    """

    name: str
    text: str = attrs.field(repr=False)
    before: int = 0

    def position(self, offset: int) -> tuple[int, int]:
        """Line and column of an offset, both counted from 1, columns in code points."""
        line_start = self.text.rfind("\n", 0, offset) + 1
        return self.before + self.text.count("\n", 0, offset) + 1, offset - line_start + 1

    def told(self, line: int, column: int, written: str) -> str:
        """How a place is told to people; `written` is the text of its line."""
        return f"{self.name}:{line}:{column}"

    def line(self, number: int) -> str:
        """The text of a line, counted from 1, without its end."""
        return self.text.split("\n", number - self.before)[number - self.before - 1]


@attrs.frozen
class Span:
    """A stretch of a source: offsets in code points, the end excluded."""

    source: Source
    start: int
    end: int

    @property
    def text(self) -> str:
        """The characters of the stretch."""
        return self.source.text[self.start : self.end]

    @property
    def line(self) -> int:
        """The line, counted from 1, on which the stretch begins."""
        return self.source.position(self.start)[0]

    def __str__(self) -> str:
        line, column = self.source.position(self.start)
        return self.source.told(line, column, self.source.line(line))
