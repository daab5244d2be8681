"""PDFs read back: their words, the sizes and colours of letters, and their tags."""

from __future__ import annotations

import io
from collections.abc import Iterator
from typing import Any

import attrs
import pdfplumber
import pikepdf
import pypdf


def told(text: str) -> str:
    """A text without its spaces and without the places where a line may end: how a text is broken is no matter."""
    return "".join(text.replace("\u200b", "").split())


def text_of(made: bytes) -> str:
    """All words of a PDF, in the order in which they are read, without spaces and without what runs along on every page."""
    return told("".join(text for text, kind in _marked(made) if kind != "Artifact"))


def _marked(made: bytes) -> Iterator[tuple[str, str]]:
    """Each stretch of text with the kind of its mark: what stands in no part of the document is an artifact."""
    reader = pypdf.PdfReader(io.BytesIO(made))
    for page in reader.pages:
        kinds: list[str] = []
        found: list[tuple[str, str]] = []

        def before(operator: bytes, operands: Any, *_: Any, kinds: list[str] = kinds) -> None:
            if operator in (b"BMC", b"BDC"):
                kinds.append(str(operands[0]).removeprefix("/"))
            elif operator == b"EMC":
                kinds.pop()

        def text(part: str, *_: Any, kinds: list[str] = kinds, found: list[tuple[str, str]] = found) -> None:
            found.append((part, "Artifact" if "Artifact" in kinds else "Content"))

        page.extract_text(visitor_operand_before=before, visitor_text=text)
        yield from found


def pages(made: bytes) -> int:
    return len(pypdf.PdfReader(io.BytesIO(made)).pages)


def page_sizes(made: bytes) -> list[tuple[float, float]]:
    boxes = [page.mediabox for page in pypdf.PdfReader(io.BytesIO(made)).pages]
    return [(float(box.width), float(box.height)) for box in boxes]


def rectangles(made: bytes) -> list[tuple[float, float]]:
    """Width and height of every rectangle that is drawn and not filled."""
    with pdfplumber.open(io.BytesIO(made)) as document:
        return [(one["width"], one["height"]) for page in document.pages for one in page.rects if not one["fill"]]


@attrs.frozen
class Letter:
    """A letter: its size in points, its colour as a grey or as red, green and blue from 0 to 1, and where it stands."""

    text: str
    size: float
    colour: tuple[float, ...]
    font: str
    page: int
    box: tuple[float, float, float, float]  # left, top, right, bottom, from the upper left corner


def letters(made: bytes) -> list[Letter]:
    with pdfplumber.open(io.BytesIO(made)) as document:
        return [
            Letter(
                one["text"],
                one["size"],
                tuple(one["non_stroking_color"]),
                one["fontname"],
                page.page_number,
                (one["x0"], one["top"], one["x1"], one["bottom"]),
            )
            for page in document.pages
            for one in page.chars
        ]


@attrs.frozen
class Tag:
    """A part of the document as a screen reader meets it."""

    kind: str
    alt: str
    scope: str
    children: tuple[Tag, ...]

    def all(self, *kinds: str) -> Iterator[Tag]:
        """This part and those below it, in their order, of some kinds."""
        if self.kind in kinds or not kinds:
            yield self
        for child in self.children:
            yield from child.all(*kinds)


@attrs.frozen
class Described:
    """What a PDF says of itself, and its tags."""

    title: str
    language: str
    conforms: str
    root: Tag


def described(made: bytes) -> Described:
    with pikepdf.open(io.BytesIO(made)) as document:
        root = document.Root
        with document.open_metadata() as metadata:
            part = str(metadata.get("pdfuaid:part", ""))
            title = str(metadata.get("dc:title", ""))
        assert bool(root.MarkInfo.Marked) and bool(root.ViewerPreferences.DisplayDocTitle)
        (tag,) = _tags(root.StructTreeRoot.K)
        return Described(title, str(root.Lang), part, tag)


def _tags(node: Any) -> list[Tag]:
    if isinstance(node, pikepdf.Array):
        return [tag for child in node for tag in _tags(child)]
    if not isinstance(node, pikepdf.Dictionary) or "/S" not in node:
        return []
    scope = ""
    attributes = node.get("/A")
    for one in attributes if isinstance(attributes, pikepdf.Array) else [attributes]:
        if isinstance(one, pikepdf.Dictionary) and "/Scope" in one:
            scope = str(one.Scope).removeprefix("/")
    below = _tags(node.K) if "/K" in node else []
    return [Tag(str(node.S).removeprefix("/"), str(node.get("/Alt", "")), scope, tuple(below))]
