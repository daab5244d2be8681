"""Digits that stand for texts and change with any letter of them, and the file in which a build keeps them."""

from __future__ import annotations

import hashlib

RECORD = ".made.json"  # the file in which a build keeps what it made, beside it


def digest(*parts: str | bytes) -> str:
    """32 hexadecimal digits that change with any letter of the parts."""
    made = hashlib.sha256()
    for part in parts:
        raw = part.encode() if isinstance(part, str) else part
        made.update(b"%d:" % len(raw) + raw)
    return made.hexdigest()[:32]
