"""What each pack was made from: kept beside it, so that a later build makes anew only what would change.

Findings are kept as they were told, each place as the piece of text in which it stands: an athlete who only moved in a file
is not compiled again, and is told with today's lines.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Container, Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

import attrs

from ... import __version__
from ...compiler.fingerprint import RECORD, digest
from .store import UNFINISHED, Kept, Store

# A finding as plain values: code, severity, message, help, place, and further places with their words.
Told = list[Any]


@attrs.frozen
class Record:
    """What a folder holds, what it was made from, and what is to be told again when it is not made anew."""

    made_from: str
    files: dict[str, tuple[int, str]]  # size and SHA-256 of each by name
    findings: list[Told] = attrs.field(factory=list)
    rows: list[dict[str, Any]] = attrs.field(factory=list)  # of the coach's overview
    # Of the folder of all, where the next build may go by it: what was asked for, by whom, and the files that were read.
    asked: str = ""
    names: list[str] = attrs.field(factory=list)
    inputs: list[list[str]] = attrs.field(factory=list)  # path and digest


def read_record(store: Store, folder: str) -> Record | None:
    """The record of a folder, None where there is none that can be read."""
    raw = store.read(_named(folder))
    if raw is None:
        return None
    try:
        kept = json.loads(raw)
        files = {name: (int(size), sha) for name, (size, sha) in kept["files"].items()}
        more = (str(kept.get("asked", "")), list(kept.get("names", ())), list(kept.get("inputs", ())))
        return Record(str(kept["made_from"]), files, list(kept["findings"]), list(kept["rows"]), *more)
    except (ValueError, KeyError, TypeError, AttributeError):
        return None


def write_record(store: Store, folder: str, record: Record) -> None:
    """Keeps a record in its folder, the same bytes for the same record."""
    kept = {
        name: value for name, value in attrs.asdict(record).items() if value or name not in ("asked", "names", "inputs")
    }
    text = json.dumps(kept, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    store.write(_named(folder), f"{text}\n".encode())


def _named(folder: str) -> str:
    return f"{folder}/{RECORD}" if folder else RECORD


def is_whole(store: Store, folder: str, record: Record) -> bool:
    """Whether all files of a record are there as they were made.

    Files that are younger than their record are read; of the others the size is enough.
    """
    there = store.listing(folder)
    if RECORD not in there or any(name.startswith(UNFINISHED) for name in there):
        return False
    since = there[RECORD].written
    return all(
        name in there and is_as_made(store, _join(folder, name), there[name], made, since)
        for name, made in record.files.items()
    )


def is_as_made(store: Store, name: str, kept: Kept, made: tuple[int, str], since: int | None) -> bool:
    """Whether a file is as it was made; one that is older than its record is not read."""
    if kept.size != made[0]:
        return False
    if since is None or kept.written is None or kept.written <= since:
        return True
    return hashlib.sha256(store.read(name) or b"").hexdigest() == made[1]


def _join(folder: str, name: str) -> str:
    return f"{folder}/{name}" if folder else name


@attrs.frozen
class Written:
    """What became of a folder: its record's files, and the names of those that are new or changed, and that are gone.

    `touched` are those of the changed that were not as the record has them: somebody else had changed them.
    """

    files: dict[str, tuple[int, str]]
    changed: tuple[str, ...]
    removed: tuple[str, ...]
    touched: tuple[str, ...] = ()


def write_folder(store: Store, folder: str, before: Record | None, contents: Mapping[str, str | bytes]) -> Written:
    """Writes what is different, and takes away what an earlier build made and this one does not, or left unfinished.

    Each file is the old or the new one at any moment.
    """
    there = store.listing(folder)
    files: dict[str, tuple[int, str]] = {}
    changed: list[str] = []
    touched: list[str] = []
    for name, text in contents.items():
        content = text.encode() if isinstance(text, str) else text
        files[name] = (len(content), hashlib.sha256(content).hexdigest())
        known = there.get(name)
        if known is None or known.size != len(content) or store.read(_join(folder, name)) != content:
            if known is not None and before is not None and is_touched(store, _join(folder, name), known, before, name):
                touched.append(name)
            store.write(_join(folder, name), content)
            changed.append(name)
    gone = tidy(store, folder, there, before, contents)
    return Written(files, tuple(changed), gone, tuple(touched))


def is_touched(store: Store, path: str, known: Kept, before: Record, name: str) -> bool:
    """Whether a file that the record names is another than the one that was made."""
    return name in before.files and not is_as_made(store, path, known, before.files[name], 0)


def tidy(
    store: Store, folder: str, there: Mapping[str, Kept], before: Record | None, made: Container[str]
) -> tuple[str, ...]:
    """Takes away what an earlier build made and this one does not, which it names, and what was left unfinished."""
    gone = [name for name in (before.files if before else ()) if name in there and name not in made]
    for name in [*gone, *(name for name in there if name.startswith(UNFINISHED))]:
        store.remove(_join(folder, name))
    return tuple(gone)


# What a build depends on beside the sources


@cache
def edition() -> str:
    """The version of Setwright and a digest of all its files: another template makes another pack."""
    root = Path(__file__).resolve().parents[2]
    made = hashlib.sha256()
    for top in ("grammar", "compiler", "targets", "programs"):
        for name in sorted(_ours(root, top)):
            with open(f"{root}/{name}", "rb", buffering=0) as file:
                made.update(name.encode() + b"\0" + file.readall())
    return f"{__version__} {made.hexdigest()[:16]}"


def _ours(root: Path, folder: str) -> Iterator[str]:
    """The files that we wrote below a folder, by their paths from the root."""
    with os.scandir(root / folder) as entries:
        for one in entries:
            name = f"{folder}/{one.name}"
            if one.name.endswith(_OURS) and one.is_file():
                yield name
            elif one.name != "__pycache__" and one.is_dir():
                yield from _ours(root, name)


_OURS = (".py", ".jinja", ".css", ".js", ".typ", ".txt", ".coach", ".json", ".lark")


def key(*parts: str | bytes) -> str:
    """What stands for all that something is made from, the edition of Setwright among it."""
    return digest(edition(), *parts)
