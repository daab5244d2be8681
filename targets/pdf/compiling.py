"""Templates of typst filled in: plain values go in as JSON, a tagged PDF comes out, the same bytes for the same values."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from .fonts import fonts

_FOLDER = Path(__file__).parent
_SHARED = "style.typ"


@cache
def templates(name: str) -> Mapping[str, bytes]:
    """A template and what it takes from others, by file name."""
    return {"main.typ": (_FOLDER / f"{name}.typ").read_bytes(), _SHARED: (_FOLDER / _SHARED).read_bytes()}


def compiled(name: str, data: str) -> bytes:
    """The PDF of a template with its values, tagged as PDF/UA-1 (ISO 14289-1) asks; when it was made is not in it.

    A compiler serves one thread and one document. It sees the files beside this one, and no packages.
    """
    import typst  # only where a PDF is written

    here = str(_FOLDER)
    files = dict(templates(name))
    compiler = typst.Compiler(files, here, fonts(), package_path=here, package_cache_path=here)  # type: ignore[type-var]
    made = compiler.compile(format="pdf", pdf_standards="ua-1", timestamp=0, sys_inputs={"data": data})
    assert isinstance(made, bytes)
    return made
