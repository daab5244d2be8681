"""`setwright movements`: the library, one movement of it, and what an athlete can do."""

from collections.abc import Callable
from pathlib import Path

import pytest
from setwright.compiler.pipeline import library_names

CREW = """\
use basics

movement crate-lift "Crate lift"
  pattern hinge
  cue "Close"
  caution "Ask for help."
  how
    | Squat down and stand up.

athlete otto "Otto"
  has floor, step, chair
  has dumbbell 6 kg
  avoids lunge "right knee"
"""


@pytest.fixture
def crew(own_folder: Path) -> Path:
    path = own_folder / "crew.coach"
    path.write_text(CREW, "utf-8")
    return path


def names(out: str) -> list[str]:
    """The names of a list: they stand two blanks in."""
    return [line.split()[0] for line in out.splitlines() if line.startswith("  ") and line[2] != " "]


def test_all_of_the_library_stands_in_the_list_once(run: Callable):
    ran = run("movements")
    assert (ran.code, ran.err) == (0, "")
    assert sorted(names(ran.out)) == sorted(library_names())
    assert "Loaded by a dumbbell, a kettlebell or a filled container." in ran.out


def test_a_pattern_has_every_movement_that_says_it(run: Callable, crew: Path):
    out = run("movements", "hinge", "crew.coach").out
    assert out.splitlines()[0] == "hinge"
    assert {"deadlift", "crate-lift"} <= set(names(out))
    assert "goblet-squat" not in out


def test_one_movement_is_told_in_full(run: Callable):
    out = run("movements", "push-up").out
    assert "  rungs        wall: hands on the wall (needs a wall)" in out
    assert "Ribs down" in out


def test_of_an_athlete_only_what_can_be_done(run: Callable, crew: Path):
    ran = run("movements", "--for", "otto")
    found = names(ran.out)
    assert {"goblet-squat", "chair-stand", "crate-lift"} <= set(found)
    assert not {"split-squat", "step-up", "pull-up", "deadlift"} & set(found)
    assert f"{len(found)} of {len(library_names()) + 1} can be done by Otto" in ran.out


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("step-up", "Otto avoids every movement of the pattern “lunge” (“right knee”)."),
        ("pull-up", "It needs a bar, which is not there."),
        ("goblet-squat", "Otto can do it, with what is there."),
        ("push-up", "Not wall or bench: what they need is not there."),
    ],
)
def test_why_an_athlete_cannot(run: Callable, crew: Path, name: str, told: str):
    assert told in " ".join(run("movements", name, "crew.coach", "--for", "otto").out.split())


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (("sqat",), "Did you mean `squat`"),
        (("xyzzy",), "The patterns are squat, lunge"),
        (("--for", "oto", "crew.coach"), "Did you mean `otto`?"),
        (("pull", "crew.coach", "squat"), "one word too many"),
        (("crw.coach",), "Did you mean `crew.coach`?"),
    ],
)
def test_what_cannot_be_meant_is_refused(run: Callable, crew: Path, typed: tuple[str, ...], told: str):
    ran = run("movements", *typed)
    assert ran.code == 2
    assert told in ran.err
