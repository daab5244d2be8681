"""The coach's overview of a crew, put together from the records of its packs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .record import Record, Written, read_record, write_folder
from .store import Store


def write_overview(store: Store, before: Record | None, names: tuple[str, ...], without: Mapping[str, str]) -> Written:
    """Writes the overview of the people who were meant; `without` says of some why they have no pack."""
    rows: list[dict[str, Any]] = []
    for name in names:
        record = read_record(store, name) if name not in without else None
        rows += record.rows if record is not None else [{"name": name, "title": name, "program": without.get(name, "")}]
    text = "".join(f"- {row['title']}: {row['program']}\n" for row in rows)
    return write_folder(store, "", before, {"overview.md": text})
