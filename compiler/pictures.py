"""Pictures that a sheet can bear: PNG (W3C, PNG Specification) and JPEG (ITU-T T.81), known by what is in them.

Only the frame of a file is read, its kind and how many pixels it has, and of a PNG the checksums. SVG is none of them: it can
carry scripts and load other files.
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator

from .model import Picture

ENDINGS = (".png", ".jpg", ".jpeg")
MOST_BYTES = 100_000  # it stands in every page of every pack
MOST_PIXELS = 3_000  # of a side
_PNG = b"\x89PNG\r\n\x1a\n"
_SIZES = frozenset((0xC0, 0xC1, 0xC2))  # the frames of JPEG that browsers and printers know: sequential and progressive
_BARE = frozenset((0x01, *range(0xD0, 0xD9)))  # markers that have no length


def is_picture(path: str) -> bool:
    """Whether a file may be a picture, by its ending."""
    return path.lower().endswith(ENDINGS)


def read_picture(raw: bytes) -> Picture | None:
    """The picture of a file, None where it is no whole PNG or JPEG."""
    try:
        if raw.startswith(_PNG):
            return _png(raw)
        if raw.startswith(b"\xff\xd8"):
            return _jpeg(raw)
    except (struct.error, IndexError):  # it ends too early
        return None
    return None


def _png(raw: bytes) -> Picture | None:
    chunks = list(_chunks(raw))
    kinds = [kind for kind, _ in chunks]
    if kinds[0] != b"IHDR" or kinds[-1] != b"IEND" or b"IDAT" not in kinds or len(chunks[0][1]) != 13:
        return None
    width, height = struct.unpack(">II", chunks[0][1][:8])
    return Picture("png", width, height, raw) if width and height else None


def _chunks(raw: bytes) -> Iterator[tuple[bytes, bytes]]:
    """The parts of a PNG up to its end or to the first that is damaged."""
    at, kind = len(_PNG), b""
    while kind != b"IEND":
        length, kind = struct.unpack_from(">I4s", raw, at)
        content = raw[at + 8 : at + 8 + length]
        (check,) = struct.unpack_from(">I", raw, at + 8 + length)
        if zlib.crc32(kind + content) != check:
            yield b"", b""
            return
        yield kind, content
        at += 12 + length


def _jpeg(raw: bytes) -> Picture | None:
    at = 2
    while raw[at] == 0xFF:
        marker = raw[at + 1]
        if marker == 0xFF or marker in _BARE:
            at += 1 if marker == 0xFF else 2
            continue
        (length,) = struct.unpack_from(">H", raw, at + 2)
        if marker in _SIZES:
            height, width = struct.unpack_from(">HH", raw, at + 5)
            is_whole = width and height and raw.rstrip(b"\0").endswith(b"\xff\xd9")
            return Picture("jpeg", width, height, raw) if is_whole else None
        if marker in (0xDA, 0xD9) or length < 2:  # the picture begins, or ends, before its size was told
            return None
        at += 2 + length
    return None
