"""The starter program."""

from collections.abc import Callable
from pathlib import Path

import pytest


def test_a_new_program_has_no_finding_and_builds(run: Callable, own_folder: Path):
    assert run("new", "winter-strength").code == 0
    text = (own_folder / "winter-strength.coach").read_text("utf-8")
    assert "program winter-strength\n" in text
    assert "starter" not in text
    ran = run("check", "winter-strength.coach")
    assert (ran.code, ran.out) == (0, "1 file: nothing to report.\n")
    assert run("build", "winter-strength.coach").code == 0


def test_a_new_program_can_go_into_another_folder(run: Callable, own_folder: Path):
    assert run("new", "hall.coach", "--to", "deep/er").code == 0
    assert (own_folder / "deep/er/hall.coach").is_file()


def test_nothing_is_overwritten(run: Callable, own_folder: Path):
    (own_folder / "mine.coach").write_text("mine")
    (own_folder / "folder.coach").mkdir()
    for name in ("mine", "folder"):
        ran = run("new", name)
        assert ran.code == 2
        assert "exists already" in ran.err
    assert (own_folder / "mine.coach").read_text() == "mine"


@pytest.mark.parametrize(
    ("name", "answer"),
    [
        ("Winter Strength", "`winter-strength`"),
        ("winter_2", "`winter-2`"),
        ("7-weeks", "`weeks`"),
        ("a/b", "--to a"),
        ("..", "is not a name"),
        ("", "is not a name"),
        ("é", "is not a name"),
    ],
)
def test_a_wrong_name_is_told_with_a_right_one(run: Callable, own_folder: Path, name: str, answer: str):
    ran = run("new", name)
    assert ran.code == 2
    assert answer in ran.err
    assert list(own_folder.iterdir()) == []


def test_a_name_too_long_for_the_disk(run: Callable):
    ran = run("new", "a" * 300)
    assert ran.code == 2
    assert "too long" in ran.err
