"""The coach's overview of a crew, put together from the records of its packs, and never all of it in memory."""

from __future__ import annotations

import hashlib
import json
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from functools import partial
from itertools import islice
from pathlib import Path
from typing import Any

from ..overview import Row, Rows, as_json, from_json, render_overview
from .beside import beside
from .record import Record, Written, is_as_made, is_touched, read_record, tidy
from .store import Store

MOST_IN_MEMORY = 1000  # rows
KnownRows = Mapping[str, Iterable[Mapping[str, Any]]]  # by the name of the athlete


def write_overview(
    store: Store, before: Record | None, names: Iterable[str], known: KnownRows, without: Mapping[str, Row]
) -> Written:
    """Writes the overview of the people who were meant; `without` are the rows of those who have no pack.

    `known` are rows of some of the others; what is not among them stands in the records of the packs.
    """
    with tempfile.TemporaryDirectory() as folder:
        rows = _again(_rows(store, names, known, without), Path(folder) / "rows")
        files: dict[str, tuple[int, str]] = {}
        changed, touched = [], []
        there = store.listing("")
        pieces = render_overview(rows)
        writing = {name: beside(partial(_write, Path(folder) / name, text)) for name, text in pieces.items()}
        for name, written in writing.items():
            made = Path(folder) / name
            files[name] = written()
            if name not in there or not is_as_made(store, name, there[name], files[name], 0):
                if name in there and before is not None and is_touched(store, name, there[name], before, name):
                    touched.append(name)
                store.place(name, made)
                changed.append(name)
        return Written(files, tuple(changed), tidy(store, "", there, before, files), tuple(touched))


def _rows(
    store: Store, names: Iterable[str], known: KnownRows, without: Mapping[str, Row]
) -> Iterator[Mapping[str, Any]]:
    for name in names:
        if name in without:
            yield as_json(without[name])
        elif name in known:
            yield from known[name]
        elif (record := read_record(store, name)) is not None:
            yield from record.rows


def _again(rows: Iterator[Mapping[str, Any]], path: Path) -> Rows:
    """The rows, as often as they are asked for; of more than are kept in memory the rest lies in a file."""
    first = [from_json(row) for row in islice(rows, MOST_IN_MEMORY)]
    with path.open("w", encoding="utf-8") as file:
        file.writelines(f"{json.dumps(row)}\n" for row in rows)

    def again() -> Iterator[Row]:
        yield from first
        with path.open(encoding="utf-8") as file:
            yield from (from_json(json.loads(line)) for line in file)

    return again


def _write(path: Path, pieces: Iterable[str]) -> tuple[int, str]:
    """Writes a text that comes in pieces; its size and SHA-256."""
    size, digest = 0, hashlib.sha256()
    with path.open("wb") as file:
        for piece in pieces:
            content = piece.encode()
            file.write(content)
            digest.update(content)
            size += len(content)
    return size, digest.hexdigest()
