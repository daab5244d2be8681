"""Groups of athletes, and groups of groups."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from .model import Group


def members(groups: Iterable[Group], name: str) -> tuple[str, ...]:
    """The athletes that a group holds, itself or by other groups: each once, in the order in which they are first named.

    A name of no group is that of an athlete, alone. A group met again on the way, as in a ring, adds nothing.
    """
    known = {group.name: group for group in groups}
    found: dict[str, None] = {}
    opened: set[str] = set()
    waiting = [name]
    while waiting:
        one = waiting.pop()
        if one not in known:
            found[one] = None
        elif one not in opened:
            opened.add(one)
            waiting.extend(reversed(known[one].members))
    return tuple(found)


def rings(groups: Iterable[Group]) -> Iterator[tuple[str, ...]]:
    """Groups that hold one another in a ring, each ring once: its names, from the group that stands first in the sources."""
    known = {group.name: group for group in groups}
    told: set[frozenset[str]] = set()
    for name in known:
        ring = _way_back(known, name)
        if ring and frozenset(ring) not in told:
            told.add(frozenset(ring))
            yield ring


def _way_back(known: Mapping[str, Group], start: str) -> tuple[str, ...]:
    """The shortest way from a group over its members back to itself; empty where there is none."""
    ways: list[tuple[str, ...]] = [(start,)]
    seen: set[str] = set()
    for way in ways:  # grows while it is gone through
        for member in known[way[-1]].members:
            if member == start:
                return way
            if member in known and member not in seen:
                seen.add(member)
                ways.append((*way, member))
    return ()
