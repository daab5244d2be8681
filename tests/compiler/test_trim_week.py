"""Categories of the week in short versions: `at least 2 a week` holds over all sessions together."""

from fractions import Fraction

import pytest
from setwright.compiler.model import Program
from setwright.compiler.trim import Infeasible, Version, binding_categories, limits, trim

from ..generate import block, category, dose, entry, movement, program, session
from .test_trim import BOTH


def working(name: str, *patterns: str, **how_often):
    """A session with one long `must` and a `may` of 30 s for each pattern."""
    return session(
        block(
            entry("must", movement("press", "push"), dose(1, "60 s")),
            *(entry("may", movement(pattern, pattern), dose(2, "30 s")) for pattern in patterns),
        ),
        name=name,
        **how_often,
    )


def week(*sessions, at_least: int, required=False) -> Program:
    asked = category("balance", required=required, at_least=at_least)
    return program(*sessions, categories=(asked,), rest="30 s", change="60 s")


def bound(made: Program) -> list[str]:
    return [one.name for one in made.sessions if binding_categories(made, one)]


def test_the_first_sessions_that_hold_it_are_bound_until_the_week_has_enough():
    three = (
        working("first", "balance"),
        working("none", "squat"),
        working("second", "balance"),
        working("third", "balance"),
    )
    assert bound(week(*three, at_least=1)) == ["first"]
    assert bound(week(*three, at_least=2)) == ["first", "second"]
    assert bound(week(*three, at_least=3)) == ["first", "second", "third"]


def test_a_session_counts_as_often_as_it_is_held():
    twice, daily = working("twice", "balance", per_week=2), working("days", "balance", days=("mon", "tue", "wed"))
    once = working("once", "balance")
    assert bound(week(twice, once, at_least=2)) == ["twice"]
    assert bound(week(twice, once, at_least=3)) == ["twice", "once"]
    assert bound(week(daily, once, at_least=3)) == ["days"]


def test_a_week_that_cannot_have_enough_binds_all_that_it_has():
    assert bound(week(working("first", "balance"), working("second", "squat"), at_least=2)) == ["first"]


def test_a_category_that_is_required_too_binds_every_session():
    assert bound(week(working("first", "balance"), working("second", "balance"), at_least=1, required=True)) == [
        "first",
        "second",
    ]


def test_a_warm_up_does_not_count():
    warm = session(block(entry("do", movement("stand", "balance"), dose(1, "30 s")), kind="warm-up"), name="warm")
    assert bound(week(warm, working("second", "balance"), at_least=1)) == ["second"]


def test_the_bound_session_keeps_it_and_the_free_one_does_not():
    made = week(working("first", "squat", "balance"), working("second", "squat", "balance"), at_least=1)
    first, second = (trim(made, one, Fraction(150), "sets") for one in made.sessions)  # 60 + 60 + 30
    assert isinstance(first, Version) and first.kept == (1, 0, 1)
    assert isinstance(second, Version) and second.kept == (1, 1, 0)


def test_what_holds_up_a_session_is_told():
    made = week(working("first", "balance"), working("second", "balance"), at_least=1)
    first, second = (trim(made, one, Fraction(149), "sets") for one in made.sessions)
    assert isinstance(first, Infeasible)
    assert first.smallest.kept == (1, 1) and first.smallest.seconds == 150
    assert first.categories == made.categories
    assert isinstance(second, Version) and second.kept == (1, 0)


@pytest.mark.parametrize("by", BOTH)
@pytest.mark.parametrize("asked", [1, 2, 3, 4])
def test_the_week_never_falls_below_the_number_however_its_sessions_are_shortened(by, asked):
    sessions = (
        working("first", "balance", "squat", per_week=2),
        working("second", "squat", "balance", "balance"),
        working("third", "balance"),
    )
    made = week(*sessions, at_least=asked)

    def fewest(one) -> int:
        """How often a week the session has balance work, in the worst of all its best versions."""
        names = [each.movement.name for each in one.entries]
        kept = [{name for name, sets in zip(names, each.kept, strict=True) if sets} for each in limits(made, one, by)]
        return (one.per_week or 1) * min("balance" in version for version in kept)

    assert sum(map(fewest, sessions)) >= asked
