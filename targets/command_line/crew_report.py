"""What a build for people did: who got what, what changed, and what was found."""

from __future__ import annotations

import argparse
import hashlib
import sys
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from operator import itemgetter
from typing import Any, Generic, TextIO, TypeVar

import attrs

from ...grammar.diagnostic import Diagnostic
from ..crew.outcome import Outcome
from ..crew.record import Told, read_record
from ..crew.store import Store
from .terminal import counted, result_stream

MOST_NAMES = 20  # files or people that are named one by one
MOST_OF_ONE = 3  # changed files of one person that are named one by one
MOST_ROWS = 1000  # people whose rows of the overview are kept in memory
MOST_FINDINGS = 100  # findings that are told, when a person reads them


Thing = TypeVar("Thing")


# The findings of a person from those that are kept, as they are told of the sources of today.
Finding = Callable[[str, Iterable[Told]], Iterable[Diagnostic]]


@attrs.define
class First(Generic[Thing]):
    """The first few of many things by their keys, and how many there are: no more is kept."""

    most: int | None
    kept: dict[tuple[int, ...], Thing] = attrs.field(factory=dict)
    count: int = 0

    def add(self, key: tuple[int, ...], thing: Thing) -> None:
        self.count += 1
        self.kept[key] = thing
        if self.most is not None and len(self.kept) > 4 * self.most:
            self.kept = {key: self.kept[key] for key in sorted(self.kept)[: self.most]}

    def __iter__(self) -> Iterator[Thing]:
        return (self.kept[key] for key in sorted(self.kept)[: self.most])

    @property
    def more(self) -> int:
        """How many there are beyond those."""
        return self.count - (self.count if self.most is None else min(self.count, self.most))


@attrs.define
class Report:
    """What became of everybody; `everything` keeps all findings, for another program."""

    names: tuple[str, ...]
    everything: bool
    place: dict[str, int] = attrs.field(init=False)
    became: Counter[str] = attrs.field(factory=Counter)
    changes: First[str] = attrs.field(factory=lambda: First(MOST_NAMES))  # lines
    same: int = 0
    touched: list[str] = attrs.field(factory=list)  # files that somebody else had changed
    found: First[tuple[str, Told]] = attrs.field(init=False)  # name of the person, and a finding
    shared: dict[str, tuple[int, str, Told]] = attrs.field(factory=dict)  # findings in what all share, each once
    rows: dict[str, tuple[Mapping[str, Any], ...]] = attrs.field(factory=dict)  # of the overview, of a few people
    without: dict[str, Outcome] = attrs.field(factory=dict)  # those who have no pack
    overview: tuple[str, ...] = ()
    _stamp: int = 0

    def __attrs_post_init__(self) -> None:
        self.place = {name: number for number, name in enumerate(self.names)}
        self.found = First(None if self.everything else MOST_FINDINGS)

    def add(self, outcome: Outcome) -> None:
        """Takes note of one person."""
        place = self.place[outcome.name]
        self.became[outcome.what] += 1
        self.same += outcome.same
        lines = [f"{outcome.name}/{name}" for name in outcome.changed]
        if len(lines) > MOST_OF_ONE:
            lines = [f"{outcome.name}: {counted(len(lines), 'file')}"]
        lines += [f"{outcome.name}/{name}  (taken away)" for name in outcome.removed]
        self.touched += [f"{outcome.name}/{name}" for name in outcome.touched]
        for number, line in enumerate(lines):
            self.changes.add((place, number), line)
        for number, finding in enumerate(outcome.findings):
            self._find(outcome.name, (int(finding[1] != "error"), place, number), finding)
        if outcome.rows and len(self.names) <= MOST_ROWS:
            self.rows[outcome.name] = outcome.rows
        if outcome.what in ("failed", "none"):
            self.without[outcome.name] = outcome
        stamp = hashlib.sha256(f"{place} {outcome.name} {outcome.what == 'none'} {outcome.made_from}".encode())
        self._stamp ^= int.from_bytes(stamp.digest()[:16])

    def _find(self, name: str, key: tuple[int, ...], finding: Told) -> None:
        """A finding in what all share is told once, with the first person of whom it is told."""
        if isinstance(finding[4][0], int) or finding[1] == "error":
            self.found.add(key, (name, finding))
            return
        about = f"{finding[0]} {finding[4]}"
        if about not in self.shared or key[1] < self.shared[about][0]:
            self.shared[about] = (key[1], name, finding)

    @property
    def failed(self) -> bool:
        """Whether errors kept somebody from their pack."""
        return bool(self.became["failed"])

    @property
    def fingerprint(self) -> str:
        """Stands for what everybody's pack was made from, in whatever order it was told."""
        return f"{len(self.names)}-{self._stamp:032x}"

    def findings(self, finding: Finding) -> Iterator[Diagnostic]:
        """The findings, as many as are told, in the order of the people."""
        some = [(place, name, finding) for place, name, finding in self.shared.values()]
        some += [(self.place[name], name, finding) for name, finding in self.found]
        for _, name, one in sorted(some, key=itemgetter(0)):
            yield from finding(name, [one])


def tell(report: Report, options: argparse.Namespace, store: Store) -> None:
    """Where the packs are, which files changed, and who has none."""
    stream = result_stream(options)
    if report.found.more:
        print(f"({counted(report.found.more, 'more finding')}: `setwright check` tells all)", file=sys.stderr)
    packs = report.became["made"] + report.became["kept"]
    print(f"{counted(packs, 'pack')} in {options.to}", file=stream)
    _people("was changed by hand, or by a build that was stopped, and is made anew", report.touched, stream)
    for line in report.changes:
        print(f"  {line}", file=stream)
    if report.changes.more:
        print(f"  and {report.changes.more:,} more", file=stream)
    for name in report.overview:
        print(f"  {name}", file=stream)
    if report.same:
        print(f"  ({counted(report.same, 'file')} already as they should be)", file=stream)
    without = sorted(report.without.values(), key=lambda one: report.place[one.name])
    _people("without a pack, because of errors", [one.name for one in without if one.what == "failed"], stream)
    _people("in no program that was asked for", [one.name for one in without if one.what == "none"], stream)
    stale = [one.name for one in without if read_record(store, one.name) is not None]
    _people("an earlier pack stays as it was", stale, stream)
    others = [one for one in store.folders() if one not in report.place and read_record(store, one) is not None]
    _people("not asked for, left as they are", others, stream)


def _people(what: str, names: list[str], stream: TextIO | None) -> None:
    if names:
        more = f" and {len(names) - MOST_NAMES:,} more" if len(names) > MOST_NAMES else ""
        print(f"{what}: {', '.join(names[:MOST_NAMES])}{more}", file=stream)
