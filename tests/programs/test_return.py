"""The way back to the boat shed keeps what the scenario promises: four weeks for three pilots, none of it above normal."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from setwright.compiler.clock import session_time
from setwright.compiler.comeback import origin
from setwright.compiler.fitting import Fitting, fit
from setwright.compiler.model import Amrap, Program, Project, Rule
from setwright.compiler.pipeline import Result, compile_path
from setwright.compiler.trim import Version, trim
from setwright.targets import pack

from .conftest import PROGRAMS
from .scenarios import chosen, comes, entries, fitted, starts_that_cannot_be_made

PILOTS = ("joss", "ewa", "bram")


@pytest.fixture(scope="module")
def result() -> Result:
    return compile_path(PROGRAMS / "return", PROGRAMS)  # what it leads back to lies in a folder beside it


@pytest.fixture(scope="module")
def project(result: Result) -> Project:
    return result.project


@pytest.fixture(scope="module")
def programs(project: Project) -> dict[str, Program]:
    return {program.name: program for program in project.programs}


@pytest.fixture(scope="module")
def fittings(project: Project) -> dict[str, Fitting]:
    return {name: fitting for name in PILOTS for fitting in fitted(project, name)}


def lifted(fitting: Fitting, session: str) -> dict[str, Fraction]:
    """What is lifted in the heaviest set of each movement of a session, in kg."""
    return {
        entry.movement.name: max(made.load for _, made in entry.fitted.made if made.load is not None)
        for one in fitting.program.sessions
        if one.name == session
        for entry in one.entries
        if entry.fitted is not None and entry.fitted.made
    }


def test_nothing_is_to_be_told_and_nothing_allowed(result: Result, programs: dict[str, Program]) -> None:
    assert result.diagnostics == ()
    assert programs["boat-shed-return"].allows == ()


def test_four_weeks_back_after_three_without_training(programs: dict[str, Program]) -> None:
    back = programs["boat-shed-return"]
    assert back.returns is not None
    assert (back.returns.after, back.weeks) == (3, 4)
    assert [str(share) for share in back.returns.volume] == ["50%", "70%", "80%", "90%"]
    assert back.returns.normal is programs["boat-shed"]
    assert [one.week for one in back.sessions] == [1, 1, 2, 2, 3, 3, 4, 4]
    for word in ("Alone", "safety bars", "Stop at once", "physician", "chest"):
        assert word in back.rules


def test_all_three_pilots_train_by_it(fittings: dict[str, Fitting]) -> None:
    assert {name: fitting.program.name for name, fitting in fittings.items()} == dict.fromkeys(
        PILOTS, "boat-shed-return"
    )


def test_every_start_can_be_made_and_the_weeks_to_come_hold_nothing_to_tell(project: Project) -> None:
    assert starts_that_cannot_be_made(project) == []
    assert comes(project) == []


@pytest.mark.parametrize("name", PILOTS)
def test_each_does_the_movements_of_the_boat_shed_each_week(
    project: Project, programs: dict[str, Program], fittings: dict[str, Fitting], name: str
) -> None:
    athlete = next(one for one in project.athletes if one.name == name)
    assert chosen(fittings[name]) == chosen(fit(programs["boat-shed"], athlete)) * 4
    assert not any(isinstance(entry.rule, Rule) for entry in entries(fittings[name].program))
    assert not any(
        isinstance(work.target, Amrap) for entry in entries(fittings[name].program) for work in entry.dose.sets
    )


@pytest.mark.parametrize("name", PILOTS)
def test_loads_rise_from_week_to_week_and_stay_below_those_before_the_break(
    project: Project, programs: dict[str, Program], fittings: dict[str, Fitting], name: str
) -> None:
    athlete = next(one for one in project.athletes if one.name == name)
    before = fit(programs["boat-shed"], athlete)
    for session in programs["boat-shed"].sessions:
        weeks = [lifted(fittings[name], f"week-{week}-{session.name}") for week in (1, 2, 3, 4)]
        normal = lifted(before, session.name)
        assert weeks[0]
        for less, more in pairwise([*weeks, normal]):
            assert less.keys() == more.keys()
            assert all(less[movement] <= more[movement] for movement in less)
        lightest = 20  # the empty bar of 45 lb, and no bell is lighter than 12 kg
        for movement, load in weeks[0].items():
            assert load <= max(normal[movement] * Fraction(3, 4), lightest * Fraction(103, 100)), movement


def test_loads_worked_out_by_hand(fittings: dict[str, Fitting]) -> None:
    pound = Fraction(45359237, 100000000)
    joss = [lifted(fittings["joss"], f"week-{week}-squat-day")["overhead-press"] / pound for week in (1, 2, 3, 4)]
    assert joss == [65, 75, 80, 85]  # 90 lb by 75, 85, 90 and 95 %: 67.5, 76.5, 81, 85.5; the bar goes by 5 lb
    bram = [lifted(fittings["bram"], f"week-{week}-squat-day")["kettlebell-squat"] for week in (1, 2, 3, 4)]
    assert bram == [12, 16, 16, 16]  # 20 kg by these: 15, 17, 18 and 19 kg; there are bells of 12 and 16 kg


@pytest.mark.parametrize("name", PILOTS)
def test_sessions_take_less_than_the_hour_and_have_their_short_versions(
    fittings: dict[str, Fitting], name: str
) -> None:
    program = fittings[name].program
    for session in program.sessions:
        assert session_time(program, session) <= 3600
        for short in session.shorts:
            version = trim(program, session, short.limit.base, short.by)
            assert isinstance(version, Version)
            assert version.cuts
    assert {origin(session.name) for session in program.sessions} == {"squat-day", "hinge-day"}


@pytest.mark.parametrize("name", PILOTS)
def test_the_sheet_tells_where_the_shares_come_from_and_when_to_see_a_physician(
    fittings: dict[str, Fitting], name: str
) -> None:
    sheet = pack.pack(fittings[name])[f"{name}-boat-shed-return-handout.md"]
    for told in (
        "You have not trained for 3 weeks.",
        "was written for college athletes; none is published for older people",
        "The shares are your coach's choice.",
        "After an illness, an injury or an operation",
        "| 1 | 50% of normal | 75% of normal |",
        "Do no more than is printed",
    ):
        assert told in sheet
