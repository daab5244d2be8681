"""By which programs an athlete trains: those that are followed, else logged, else the only one there is."""

from __future__ import annotations

import pytest
from setwright.compiler.pipeline import Result, compile_texts
from setwright.compiler.training import in_training, trains_by, who_trains

PROGRAM = """
program {name}
  revision {revision}
  session main
    block legs
      must chair-stand 3 x 10
        advance reps by 1 to 15
"""
LOG = """
log {athlete} on {program}

2026-06-17 main, 20 min
  chair-stand 10 10 10
"""


def compiled(programs: str, athletes: str, logs: str = "") -> Result:
    text = "use basics\n"
    for program in programs.split():
        name, _, revision = program.partition("@")
        text += PROGRAM.format(name=name, revision=revision or 1)
    text += athletes
    for log in logs.split():
        athlete, program = log.split(":")
        text += LOG.format(athlete=athlete, program=program)
    return compile_texts({"all.coach": text})


@pytest.mark.parametrize(
    ("programs", "says", "logs", "found"),
    [
        ("hall", "", "", "hall@1"),
        ("hall home", "", "", ""),
        ("hall home", "", "maren:home", "home@1"),
        ("hall home", "", "maren:home maren:hall maren:home", "home@1 hall@1"),
        ("hall home", "follows hall", "maren:home", "hall@1"),
        ("hall home", "follows home and hall", "", "home@1 hall@1"),
        ("hall home shed", "follows shed, hall", "", "shed@1 hall@1"),
        ("hall@2 home hall@1 hall@3", "follows hall", "", "hall@3"),
        ("hall@2 hall@1", "", "", "hall@2"),
        ("hall home", "follows hall\n  follows home", "", "hall@1 home@1"),
        ("hall home", "follows hall, hall", "", "hall@1"),
    ],
)
def test_trains_by(programs: str, says: str, logs: str, found: str) -> None:
    project = compiled(programs, f"athlete maren\n  born 1962\n  {says}\n", logs).project
    (maren,) = project.athletes
    assert " ".join(f"{one.name}@{one.revision}" for one in trains_by(project, maren)) == found


def test_who_trains_by_each_program_in_the_order_of_the_source() -> None:
    project = compiled(
        "hall@1 home hall@2",
        "athlete agnes\n  follows hall\nathlete wilf\n  follows home, hall\nathlete kamal\n  born 1950\n",
    ).project
    trains = {(one.name, one.revision): [athlete.name for athlete in who] for one, who in in_training(project)}
    assert trains == {("hall", 2): ["agnes", "wilf"], ("home", 1): ["wilf"]}
    for program in project.programs:  # an earlier revision is that of the same people
        assert [one.name for one in who_trains(project, program)] == trains[
            program.name, 2 if program.name == "hall" else 1
        ]


def test_a_program_that_cannot_be_seen_is_told_with_the_nearest_one() -> None:
    result = compiled("hall-class home-ten", "athlete maren\n  follows hall-clas and home-ten\n  has chair\n")
    (found,) = result.diagnostics
    assert (found.code, found.span.text) == ("name-unknown", "hall-clas")
    assert "`hall-class`" in (found.help or "")
    assert result.project.athletes[0].follows == ("home-ten",)
