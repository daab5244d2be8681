"""The fonts of the printed sheets: those of a package, so that a machine without fonts prints the same.

Italics are left out on purpose: they are hard to read for many (RNIB, Clear Print), and emphasis is set semibold.
"""

from __future__ import annotations

import shutil
import tempfile
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from typst import Fonts

_WEIGHTS = ("Regular", "Semibold", "Bold")
# Every weight once: what is not read while its folder is there is not read at all.
_EACH = b'#set text(font: "Source Sans Pro")\na #text(weight: 600)[b] #text(weight: 700)[c]'


def font_files() -> tuple[Path, ...]:
    """The font files, one a weight."""
    import font_source_sans_pro

    folder = Path(str(font_source_sans_pro.__file__)).with_name("files")
    return tuple(folder / f"SourceSansPro-{weight}.otf" for weight in _WEIGHTS)


@cache
def fonts() -> Fonts:
    """The fonts, read. Those of the system are ignored.

    Only folders can be named to typst, and the folder of the package holds each font twice: the files that are meant are
    put into a folder of their own for as long as it takes to read them.
    """
    import typst

    with tempfile.TemporaryDirectory() as folder:
        for path in font_files():
            shutil.copyfile(path, Path(folder, path.name))
        found = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[folder])
        typst.Compiler(input=_EACH, font_paths=found).compile(format="pdf")
    return found
