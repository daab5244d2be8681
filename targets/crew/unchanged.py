"""Whether a build finds everything as the last one left it: known from the bytes of the sources, without what they say."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable

import attrs

from ...compiler.project import Fetch
from .record import Record, is_whole, key, read_record
from .store import Store


@attrs.define
class Inputs:
    """What was read of a project: each file by its path, in the order of reading, with a digest; "" for what is not there."""

    read: Fetch
    digests: dict[str, str] = attrs.field(factory=dict)

    def fetch(self, path: str) -> bytes | None:
        """The bytes of a file, as `read` gives them."""
        raw = self.read(path)
        if path not in self.digests:
            self.digests[path] = _digest(raw)
        return raw


def asked_for(options: Iterable[str | None], paths: Iterable[str]) -> str:
    """Stands for what a build was asked for, and for the files of its project, whatever they hold."""
    return key(*(repr(one) for one in options), "", *paths)


def before(store: Store, inputs: Inputs, asked: str) -> Record | None:
    """The record of the last build, if it was asked for the same and read the same; the overview is there as it was made."""
    record = read_record(store, "")
    if record is None or record.asked != asked:
        return None
    if any(_digest(inputs.fetch(path)) != digest for path, digest in record.inputs):
        return None
    return record if is_whole(store, "", record) else None


def _digest(raw: bytes | None) -> str:
    return "" if raw is None else hashlib.sha256(raw).hexdigest()
