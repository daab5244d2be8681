"""Writes the table of characters that the printed sheets have a glyph for anew: `python -m tests.accept_glyphs`."""

from __future__ import annotations

from fontTools.ttLib import TTFont
from setwright.compiler import glyphs
from setwright.targets.pdf.fonts import font_files

WIDTH = 12  # ranges to a line


def table() -> str:
    """The ranges of code points that every font has of those in which sheets are set, as hexadecimal figures."""
    covered = set.intersection(*(set(TTFont(path).getBestCmap()) for path in font_files()))
    ranges: list[list[int]] = []
    for point in sorted(covered):
        if ranges and ranges[-1][1] == point - 1:
            ranges[-1][1] = point
        else:
            ranges.append([point, point])
    told = [f"{first:x}" if first == last else f"{first:x}-{last:x}" for first, last in ranges]
    return "".join(" ".join(told[start : start + WIDTH]) + "\n" for start in range(0, len(told), WIDTH))


if __name__ == "__main__":
    glyphs.TABLE.write_text(table(), "utf-8")
