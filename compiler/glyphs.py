"""Which characters the fonts of the printed sheets can show: known here without the fonts, so that a check stays light.

The table beside this module is made by `python -m tests.accept_glyphs`.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from functools import cache
from pathlib import Path

TABLE = Path(__file__).with_name("glyphs.txt")

# Signs without a shape: they steer how others are shown, and are left out of what is printed.
_SHAPELESS = r"\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufe00-\ufe0f\ufeff"
SHAPELESS = re.compile(f"[{_SHAPELESS}]")
# Signs that another stands for, which looks the same.
STANDS_FOR = str.maketrans({"\u2010": "-", "\u2011": "-"})


@cache
def unprintable() -> re.Pattern[str]:
    """Finds runs of characters for which there is no glyph."""
    ranges = TABLE.read_text("utf-8").split()
    inside = "".join("-".join(f"\\U{int(end, 16):08x}" for end in one.split("-")) for one in ranges)
    return re.compile(rf"[^\s{_SHAPELESS}\u2010\u2011{inside}]+")


def without_glyph(text: str) -> Iterator[tuple[int, int]]:
    """Where characters stand in a text that have no glyph: the start and end of each run."""
    if text.isascii():
        return
    for match in unprintable().finditer(text):
        # An accent written apart from its letter is one with it.
        start = match.start()
        joined = unicodedata.normalize("NFC", text[max(start - 1, 0) : match.end()])
        if len(joined) == 1 and not unprintable().match(joined):
            continue
        yield start, match.end()
