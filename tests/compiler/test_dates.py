"""The days of sessions: those that are said, every day, or the athlete's own in turn."""

from datetime import date

import attrs
import pytest
from setwright.compiler.dates import held
from setwright.compiler.model import Athlete, Program

from ..generate import NOWHERE, program, session

STARTS = date(2026, 6, 18)  # a Thursday


def made(*often: int | tuple[str, ...] | None, days: tuple[str, ...] = (), weeks: int | None = 2) -> Program:
    sessions = [
        attrs.evolve(
            session(),
            name=f"s{number}",
            per_week=one if isinstance(one, int) else None,
            days=one if isinstance(one, tuple) else (),
        )
        for number, one in enumerate(often)
    ]
    athlete = Athlete("ina", "Ina", starts=STARTS, days=days, span=NOWHERE)
    return attrs.evolve(program(*sessions), weeks=weeks, athlete=athlete)


@pytest.mark.parametrize(
    ("often", "days", "told"),
    [
        ((("mon", "fri"),), (), [("mon", "fri")]),
        ((7,), (), [("mon", "tue", "wed", "thu", "fri", "sat", "sun")]),
        ((1, 1), ("fri", "tue"), [("tue",), ("fri",)]),
        ((2, 1), ("mon", "wed", "fri"), [("mon", "fri"), ("wed",)]),
        ((1, 2), ("mon", "wed", "fri"), [("mon",), ("wed", "fri")]),
        ((2, 2), ("mon", "tue", "thu", "sat"), [("mon", "thu"), ("tue", "sat")]),
        ((2, 2), ("mon", "tue", "thu"), []),
        ((None,), ("mon",), []),
        ((3,), (), []),
        ((1, ("sun",), 7), ("mon",), [("mon",), ("sun",), ("mon", "tue", "wed", "thu", "fri", "sat", "sun")]),
    ],
)
def test_days(often: tuple[int | tuple[str, ...] | None, ...], days: tuple[str, ...], told: list[tuple[str, ...]]):
    assert [one.days for one in held(made(*often, days=days))] == told


def test_first_and_last_lie_in_weeks_from_the_day_of_the_start():
    (one,) = held(made(("wed", "thu")))
    assert (one.first, one.last) == (date(2026, 6, 18), date(2026, 7, 1))
    assert list(one.in_week(STARTS, 2)) == [date(2026, 6, 25), date(2026, 7, 1)]
    assert list(one.in_week(STARTS, 3)) == []
    assert held(made(("wed",), weeks=None))[0].last is None


def test_a_session_of_one_week_is_held_in_that_week_alone():
    whole = made(1, 1, days=("thu",))
    alone = attrs.evolve(
        whole, sessions=tuple(attrs.evolve(one, week=number) for number, one in enumerate(whole.sessions, start=1))
    )
    assert [(one.first, one.last) for one in held(alone)] == [
        (date(2026, 6, 18), date(2026, 6, 18)),
        (date(2026, 6, 25), date(2026, 6, 25)),
    ]


def test_nobody_knows_days_without_a_first_one():
    whole = made(("mon",))
    assert held(attrs.evolve(whole, athlete=None)) == ()
    assert held(attrs.evolve(whole, athlete=attrs.evolve(whole.athlete, starts=None))) == ()
