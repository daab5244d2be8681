"""The folder of a coach's own templates, read and looked over before anything is made."""

from __future__ import annotations

from pathlib import Path

from ...grammar.diagnostic import or_list
from ..templates import ENDING, OURS, PART, REPLACED, Templates
from .terminal import Refusal, suggestion

MOST_BYTES, MOST_FILES = 1_000_000, 100


def templates_at(folder: str | None) -> Templates:
    """The templates of a folder; ours where none is named. Raises Refusal."""
    if folder is None:
        return OURS
    try:
        paths = sorted(path for path in Path(folder).iterdir() if path.name.endswith(ENDING) and path.is_file())
        texts = tuple((path.name, _text(path)) for path in paths[: MOST_FILES + 1])
    except OSError as error:
        raise Refusal(f"{folder} cannot be read: {(error.strerror or str(error)).lower()}.") from None
    if not texts:
        raise Refusal(f"there is no template in {folder}. A template is called {or_list(REPLACED)}.")
    if len(texts) > MOST_FILES:
        raise Refusal(f"there are more than {MOST_FILES} templates in {folder}.")
    for name, _ in texts:
        if name not in REPLACED and not name.startswith(PART):
            known = suggestion(name, REPLACED)
            raise Refusal(f"{folder}/{name} replaces nothing. {known} A part of others begins with `{PART}`.")
    return Templates(Path(folder).as_posix(), texts)


def _text(path: Path) -> str:
    raw = path.read_bytes()
    if len(raw) > MOST_BYTES:
        raise Refusal(f"{path} is larger than {MOST_BYTES // 1_000_000} MB.")
    try:
        return raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError:
        raise Refusal(f"{path} is not written in UTF-8.") from None
