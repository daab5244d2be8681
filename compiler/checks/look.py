"""How sheets look: the accent, the letterhead and the logo of a program."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

import struct
import zlib
from collections.abc import Callable, Iterator

from ...grammar.diagnostic import Check, Diagnostic
from ..contrast import LEAST_CONTRAST, WHITE, contrast
from ..model import Program
from ..pictures import MOST_BYTES, MOST_PIXELS
from .examples import files, in_program


def _png(width: int = 2, more: bytes = b"") -> bytes:
    """A white picture, two pixels high."""
    parts = {
        b"IHDR": struct.pack(">IIBBBBB", width, 2, 1, 0, 0, 0, 0),
        **({b"tEXt": b"Comment\0" + more} if more else {}),
        b"IDAT": zlib.compress((b"\0" + b"\xff" * -(-width // 8)) * 2),
        b"IEND": b"",
    }
    chunks = (struct.pack(">I", len(part)) + kind + part + _check(kind + part) for kind, part in parts.items())
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunks)


def _check(part: bytes) -> bytes:
    return struct.pack(">I", zlib.crc32(part))


def _with(line: str, picture: bytes | None = None, name: str = "hall.png") -> Callable[[], dict[str, str | bytes]]:
    def made() -> dict[str, str | bytes]:
        return {**files(in_program(line)), **({name: picture} if picture is not None else {})}

    return made


_LOGO = 'logo "hall.png", showing "two larches"'

LOGO_NOT_FOUND = Check(
    code="logo-not-found",
    severity="error",
    title="A logo that is not there",
    message="There is no file `{found}` for the logo.",
    help="Put it into the folder of the project, and write its path from this file.",
    explain="A logo is named by the path of its file, from the file in which the line stands.",
    wrong=_with(_LOGO),
    right=_with(_LOGO, _png()),
)
LOGO_OUTSIDE = Check(
    code="logo-outside-project",
    severity="error",
    title="A logo that lies outside the project",
    message="`{found}` leads out of the project's folder.",
    help="Copy the picture into the folder of the project, and name it there.",
    explain="A project is one folder, so that it can be copied, sent and kept in git as a whole. No file outside it is read.",
    wrong=_with('logo "../hall.png", showing "two larches"'),
    right=_with(_LOGO, _png()),
)
LOGO_NO_PICTURE = Check(
    code="logo-no-picture",
    severity="error",
    title="A logo that is no PNG and no JPEG",
    message="`{found}` is no whole PNG or JPEG.",
    help="Save the picture as PNG, for what is drawn, or as JPEG, for what is photographed.",
    explain="These two can be printed, and carry nothing but a picture. An SVG can carry scripts and load other files, so it is "
    "not taken: save it as PNG, 800 pixels wide. A file counts by what is in it, and its name must end in `.png`, `.jpg` or "
    "`.jpeg`.",
    wrong=_with(_LOGO, b'<svg xmlns="http://www.w3.org/2000/svg"/>'),
    right=_with(_LOGO, _png()),
)
LOGO_TOO_LARGE = Check(
    code="logo-too-large",
    severity="error",
    title="A logo that is too large",
    message="The logo has {what}: more than {most}.",
    help="Save it smaller: 800 pixels are enough for paper.",
    explain="The logo stands within every page of every pack, and the pages go by mail. At 300 dots an inch, 800 pixels are 68 "
    f"mm. A logo has at most {MOST_BYTES // 1000} kB, and at most {MOST_PIXELS:,} pixels a side.",
    wrong=_with(_LOGO, _png(more=b"x" * MOST_BYTES)),
    right=_with(_LOGO, _png(more=b"x")),
)
LOGO_UNTOLD = Check(
    code="logo-untold",
    severity="warning",
    title="Nothing says what a logo shows",
    message="Nothing says what the logo shows to whoever cannot see it.",
    help='Write it behind the file: `logo "hall.png", showing "two larches"`.',
    explain="Some have their sheets read aloud. What the logo shows, or the letterhead beside it, is what they hear.",
    wrong=_with('logo "hall.png"', _png()),
    right=_with('logo "hall.png"\nletterhead "The hall in Larch Street"', _png()),
)
ACCENT_NO_COLOUR = Check(
    code="accent-no-colour",
    severity="error",
    title="An accent that is no colour",
    message="`{found}` is no colour.",
    help='Write six figures of red, green and blue in quotes, such as `"#1f5c4a"`, or {names}.',
    explain="A colour is `#` and six hexadecimal figures, two each for red, green and blue; or one of a few names.",
    wrong=in_program('accent "#1f5c4"'),
    right=in_program('accent "#1f5c4a"'),
)
ACCENT_PALE = Check(
    code="accent-pale",
    severity="error",
    title="An accent that is too pale to read",
    message="The accent has a contrast of {ratio} to 1 on white paper, and text needs 4.5 to 1.",
    help="Take a darker colour, such as `{darker}`.",
    explain="Titles stand in the accent. W3C's Web Content Accessibility Guidelines 2.2 ask for a contrast of 4.5 to 1 (success "
    "criterion 1.4.3), and so that a copier keeps it, it should be darker still.",
    wrong=in_program('accent "#e0a030"'),
    right=in_program("accent green"),
)  # fmt: skip


def find_accent_pale(program: Program) -> Iterator[Diagnostic]:
    look = program.look
    if not look.accent or look.accent_span is None:
        return
    ratio = contrast(look.accent, WHITE)
    if ratio < LEAST_CONTRAST:
        told = f"{int(ratio * 100) / 100:g}"  # never rounded up to what would be enough
        yield ACCENT_PALE.at(look.accent_span, ratio=told, darker=_darker(look.accent))


def _darker(colour: str) -> str:
    """The same hue, as dark as it takes."""
    parts = [int(colour[at : at + 2], 16) for at in (1, 3, 5)]
    for share in range(95, 0, -5):
        made = "#" + "".join(f"{part * share // 100:02x}" for part in parts)
        if contrast(made, WHITE) >= LEAST_CONTRAST:
            return made
    return "#000000"


def find_logo_untold(program: Program) -> Iterator[Diagnostic]:
    look = program.look
    if look.logo is not None and look.logo_span is not None and not look.shows and not look.letterhead:
        yield LOGO_UNTOLD.at(look.logo_span)


CHECKS: tuple[Check, ...] = (
    LOGO_NOT_FOUND, LOGO_OUTSIDE, LOGO_NO_PICTURE, LOGO_TOO_LARGE, LOGO_UNTOLD, ACCENT_NO_COLOUR, ACCENT_PALE,
)  # fmt: skip
