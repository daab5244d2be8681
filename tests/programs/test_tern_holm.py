"""The store-room program fits the time that the scenario gives it, and its logs are of its sessions."""

from fractions import Fraction
from pathlib import Path

import pytest
from setwright.compiler.clock import session_time
from setwright.compiler.implements import makeable_loads
from setwright.compiler.model import Program, Project, Session
from setwright.compiler.pipeline import compile_path
from setwright.compiler.training import trains_by
from setwright.compiler.trim import Infeasible, Version, trim

from .scenarios import movements, starts_that_cannot_be_made, without_a_rule

FOLDER = Path(__file__).resolve().parents[2] / "programs" / "tern-holm"


@pytest.fixture(scope="module")
def project() -> Project:
    return compile_path(FOLDER).project


def _main(project: Project, revision: int) -> tuple[Program, Session]:
    (program,) = (one for one in project.programs if one.revision == revision)
    (session,) = (one for one in program.sessions if one.name == "main")
    return program, session


def test_the_main_session_takes_what_it_takes_by_hand(project: Project) -> None:
    program, session = _main(project, 3)
    warm_up = 120 + 30 + 30 + 30
    legs = (3 * 54 + 2 * 60) + (3 * 24 + 2 * 60) + (2 * 48 + 60)
    circuit = 3 * (27 + 15 + 48) + 2 * 30
    hinge_and_heels = (3 * 32 + 2 * 45) + (2 * 36 + 60)
    last = (2 * 40 + 15) + (3 * 24 + 2 * 60) + (2 * 40 + 20)
    wind_down = 60 + 60
    changes = 14 * 45
    by_hand = warm_up + legs + circuit + hinge_and_heels + last + wind_down + changes
    assert session_time(program, session) == by_hand == 43 * 60 + 45


@pytest.mark.parametrize("revision", [2, 3])
def test_both_revisions_fit_an_hour_and_need_their_short_versions(project: Project, revision: int) -> None:
    program, session = _main(project, revision)
    assert session.within is not None
    assert session_time(program, session) <= session.within.base == 3600
    for short in session.shorts:
        version = trim(program, session, short.limit.base, short.by)
        assert isinstance(version, Version), short
        assert version.seconds <= short.limit.base
        assert version.cuts


def test_less_than_the_musts_need_is_told_as_impossible(project: Project) -> None:
    program, session = _main(project, 3)
    assert isinstance(trim(program, session, session.shorts[-1].limit.base / 2, "movements"), Infeasible)


def test_nine_athletes_and_four_logs(project: Project) -> None:
    (crew,) = project.groups
    assert len(crew.members) == 9
    assert set(crew.members) == {athlete.name for athlete in project.athletes}
    ages = {2026 - athlete.born for athlete in project.athletes if athlete.born is not None}
    assert (min(ages), max(ages)) == (24, 71)
    assert {log.athlete for log in project.logs} == {"maren", "piet", "tomas", "birgit"}


def test_nothing_is_to_be_told_and_everybody_follows_the_newest_revision() -> None:
    result = compile_path(FOLDER)
    assert result.diagnostics == ()
    for athlete in result.project.athletes:
        assert [(one.name, one.revision) for one in trains_by(result.project, athlete)] == [("winter-store-room", 3)]


def test_every_start_and_every_load_of_a_log_can_be_made(project: Project) -> None:
    assert starts_that_cannot_be_made(project) == []
    athletes = {athlete.name: athlete for athlete in project.athletes}
    known = {name: movement for program in project.programs for name, movement in movements(program).items()}
    for log in project.logs:
        for session in log.sessions:
            for entry in session.entries:
                if entry.load is not None:
                    loads = makeable_loads(athletes[log.athlete], known[entry.movement])
                    near = min(abs(load - entry.load.base) for load in loads)
                    assert near <= Fraction(1, 10), (log.athlete, session.date, entry.movement)  # a can is told roundly


def test_each_alternative_goes_on_by_a_rule_of_its_own(project: Project) -> None:
    program, _ = _main(project, 3)
    assert without_a_rule(program) == []


def test_the_logs_tell_of_weeks_of_sessions_on_the_athletes_days(project: Project) -> None:
    athletes = {athlete.name: athlete for athlete in project.athletes}
    for log in project.logs:
        dates = [session.date for session in log.sessions]
        assert dates == sorted(set(dates)), log.athlete
        main = [session for session in log.sessions if session.session == "main"]
        assert len(main) >= 18, log.athlete
        days = {day.date.strftime("%a").lower() for day in main}
        assert days == set(athletes[log.athlete].days), log.athlete
        assert min(dates) >= (athletes[log.athlete].starts or min(dates))


def test_the_one_who_runs_out_of_time_takes_longer_than_planned_every_time(project: Project) -> None:
    program, session = _main(project, 3)
    planned = session_time(program, session)
    (log,) = (one for one in project.logs if one.athlete == "tomas")
    for logged in log.sessions:
        if logged.session != "main":
            continue
        limit = planned if logged.short is None else logged.short.base
        assert logged.took is not None
        assert logged.took.base > limit, logged.date
