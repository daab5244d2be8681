"""Groups of groups: who is in them, and rings."""

from __future__ import annotations

import pytest
from setwright.compiler.groups import members, rings
from setwright.compiler.model import Group

from ..generate import NOWHERE


def groups(**held: str) -> tuple[Group, ...]:
    return tuple(Group(name, name, tuple(names.split()), span=NOWHERE) for name, names in held.items())


@pytest.mark.parametrize(
    ("held", "name", "found"),
    [
        ({"crew": "maren otto"}, "crew", "maren otto"),
        ({"crew": "maren otto"}, "otto", "otto"),  # an athlete is a crew of one
        ({"all": "north south", "north": "maren otto", "south": "piet otto"}, "all", "maren otto piet"),
        ({"all": "hana north maren", "north": "maren otto"}, "all", "hana maren otto"),
        ({"crew": "maren crew otto"}, "crew", "maren otto"),
        ({"crew": "maren watch", "watch": "crew piet"}, "crew", "maren piet"),
        ({"crew": "maren watch", "watch": "crew piet"}, "watch", "maren piet"),
    ],
)
def test_members_come_once_in_the_order_in_which_they_are_named(held: dict[str, str], name: str, found: str) -> None:
    assert members(groups(**held), name) == tuple(found.split())


def test_a_long_chain_of_groups_does_not_go_too_deep() -> None:
    chain = {f"g{n}": f"g{n + 1} athlete{n}" for n in range(5000)}
    assert len(members(groups(**chain), "g0")) == 5001


@pytest.mark.parametrize(
    ("held", "found"),
    [
        ({"crew": "maren"}, []),
        ({"crew": "crew"}, ["crew"]),
        ({"crew": "watch", "watch": "crew"}, ["crew watch"]),
        (
            {"all": "crew", "crew": "watch", "watch": "crew"},
            ["crew watch"],
        ),  # what only leads to a ring holds not itself
        ({"a": "b c", "b": "a", "c": "a"}, ["a b", "c a"]),
        ({"a": "a b", "b": "b"}, ["a", "b"]),
    ],
)
def test_rings(held: dict[str, str], found: list[str]) -> None:
    assert [" ".join(ring) for ring in rings(groups(**held))] == found
