"""The class at the hall and its ten minutes at home keep what the scenario promises."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from setwright.compiler.clock import session_time
from setwright.compiler.guidelines import BALANCE_DAYS
from setwright.compiler.model import Program, Project
from setwright.compiler.pipeline import Result
from setwright.compiler.training import trains_by
from setwright.compiler.trim import Version, trim
from setwright.compiler.week import BALANCE, days_a_week, sessions_with

from .scenarios import chosen, comes, entries, fitted, movements, starts_that_cannot_be_made, without_a_rule


@pytest.fixture(scope="module")
def result(scenario: Callable[[str], Result]) -> Result:
    return scenario("larch-street")


@pytest.fixture(scope="module")
def project(result: Result) -> Project:
    return result.project


def program(project: Project, name: str) -> Program:
    return next(one for one in project.programs if one.name == name)


def test_nothing_is_to_be_told_and_one_advice_is_allowed_in_sight(result: Result) -> None:
    assert result.diagnostics == ()
    allowed = [allow.code for one in result.project.programs for allow in one.allows]
    assert allowed == ["strength-minutes-few"]


def test_four_of_the_class_from_68_to_91_read_large_print(project: Project) -> None:
    assert project.groups[0].members == ("agnes", "wilf", "dorothea", "kamal")
    ages = {2026 - one.born for one in project.athletes if one.born is not None}
    assert (min(ages), max(ages)) == (68, 91)
    assert all("large" in one.prints for one in project.athletes)
    assert not any(one.alone for one in project.athletes)


def test_everybody_follows_the_class_and_the_ten_minutes(project: Project) -> None:
    for one in project.athletes:
        assert [program.name for program in trains_by(project, one)] == ["hall-class", "home-ten"]


def test_two_classes_a_week_and_three_times_ten_minutes(project: Project) -> None:
    (hall,) = program(project, "hall-class").sessions
    (home,) = program(project, "home-ten").sessions
    assert hall.per_week == 2
    assert home.per_week == 3
    assert not set(hall.days) & set(home.days)
    assert home.within is not None
    assert home.within.base == 600
    assert session_time(program(project, "home-ten"), home) <= 600


def test_balance_on_as_many_days_as_are_advised_even_without_the_class(project: Project) -> None:
    home = sessions_with(program(project, "home-ten"), (BALANCE,))
    both = [*home, *sessions_with(program(project, "hall-class"), (BALANCE,))]
    assert days_a_week(home) >= BALANCE_DAYS
    assert days_a_week(both) == 5


@pytest.mark.parametrize("name", ["hall-class", "home-ten"])
def test_short_versions_fit_and_keep_every_category(project: Project, name: str) -> None:
    of = program(project, name)
    for session in of.sessions:
        assert session.shorts
        for short in session.shorts:
            version = trim(of, session, short.limit.base, short.by)
            assert isinstance(version, Version)
            assert version.cuts


def test_at_home_there_are_only_a_chair_a_wall_and_a_band(project: Project) -> None:
    for movement in movements(program(project, "home-ten")).values():
        assert set(movement.needs) <= {"chair", "wall"}, movement.name
        assert set(movement.loaded_by) <= {"band"}, movement.name


def test_each_of_them_does_every_must_and_all_that_is_required(project: Project) -> None:
    for one in project.athletes:
        for fitting in fitted(project, one.name):
            for choice in fitting.choices:
                assert choice.chosen is not None or choice.written.priority != "must", (one.name, choice.written)
            for category in fitting.program.categories:
                held = any(category.holds(entry.movement) for entry in entries(fitting.program))
                assert held or not category.required, (one.name, category.name)


def test_no_two_of_them_get_the_same_class_or_the_same_ten_minutes(project: Project) -> None:
    everybody = [tuple(map(chosen, fitted(project, one.name))) for one in project.athletes]
    for place in (0, 1):
        sheets = {tuple(both[place]) for both in everybody}
        assert len(sheets) == 4


def test_wilf_does_nothing_on_the_floor_and_the_class_has_something_there(project: Project) -> None:
    hall, home = fitted(project, "wilf")
    assert any("floor" in entry.movement.needs for entry in entries(hall.written))
    for entry in (*entries(hall.program), *entries(home.program)):
        assert "floor" not in entry.movement.needs
        assert not any("floor" in rung.needs for rung in entry.movement.rungs), entry.movement.name


def test_dorothea_stays_on_her_chair(project: Project) -> None:
    anywhere = {"band-pull-apart", "shoulder-rolls"}  # done sitting or standing
    for fitting in fitted(project, "dorothea"):
        for entry in entries(fitting.program):
            rung = next((one for one in entry.movement.rungs if entry.fitted and one.name == entry.fitted.rung), None)
            needs = {*entry.movement.needs, *(rung.needs if rung is not None else ())}
            assert "chair" in needs or entry.movement.name in anywhere, entry.movement.name
    assert {entry.fitted.instead_of.name for entry in entries(next(fitted(project, "dorothea")).program)
            if entry.fitted is not None and entry.fitted.instead_of is not None} >= {
        "step-up", "push-up", "glute-bridge", "single-leg-stand"
    }  # fmt: skip


def test_agnes_lifts_nothing_above_her_head(project: Project) -> None:
    names = dict(chosen(next(fitted(project, "agnes"))))
    assert "seated-press" not in names
    assert "band-press" in names


def test_no_two_of_them_avoid_the_same_and_none_begins_on_the_same_rungs(project: Project) -> None:
    assert len({frozenset(one.movement for one in who.avoids) for who in project.athletes}) == 4
    rungs = {frozenset((start.movement, start.rung) for start in who.begins if start.rung) for who in project.athletes}
    assert len(rungs) == 4


def test_each_alternative_goes_on_by_a_rule_of_its_own(project: Project) -> None:
    assert [name for one in project.programs for name in without_a_rule(one)] == []


def test_every_start_can_be_made_and_the_weeks_to_come_hold_nothing_to_tell(project: Project) -> None:
    assert starts_that_cannot_be_made(project) == []
    assert comes(project) == []


@pytest.mark.parametrize("name", ["hall-class", "home-ten"])
def test_the_sheets_tell_when_to_stop_and_to_ask_a_physician(project: Project, name: str) -> None:
    rules = program(project, name).rules
    for word in ("Stop", "chest", "dizzy", "breath", "physician"):
        assert word in rules
