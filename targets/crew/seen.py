"""The packs of a folder as they lie there, looked at by another core while this one reads what it needs to make them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import islice

from .beside import beside
from .outcome import Outcome, as_it_was
from .store import open_store

MOST = 5000  # packs of which what they were made from is kept in memory
Seen = Callable[[], Mapping[str, Outcome] | None]


def look(to: str, *, elsewhere: bool) -> Seen:
    """Those that are as they were made, by name; None where each is to be looked at on its own, of many or `elsewhere`."""
    if elsewhere or "://" in to:
        return lambda: None
    store = open_store(to)
    names = list(islice(store.folders(), MOST + 1))
    if not names or len(names) > MOST:
        return lambda: None
    return beside(lambda: {name: one for name in names if (one := as_it_was(store, name)) is not None})
