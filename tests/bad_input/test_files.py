"""Files and folders that cannot be read or written."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

SMALL = "use basics\n"


@pytest.fixture
def starter(tmp_path: Path, setwright: Callable) -> Path:
    """A program that builds."""
    assert setwright("new", "hall").code == 0
    return tmp_path / "hall.coach"


def test_no_such_file(setwright: Callable, starter: Path):
    answer = setwright("check", "hal.coach")
    answer.told("hal.coach", "Did you mean `hall.coach`?")
    assert answer.code == 2
    answer = setwright("check", "hall")
    answer.told("Did you mean `hall.coach`?")
    assert answer.code == 2


def test_a_folder_without_sources(tmp_path: Path, setwright: Callable):
    (tmp_path / "empty").mkdir()
    (tmp_path / "empty/readme.txt").write_text("nothing")
    answer = setwright("check", "empty")
    answer.told("empty", ".coach")
    assert answer.code == 2


def test_a_folder_with_the_name_of_a_source(tmp_path: Path, setwright: Callable, starter: Path):
    (tmp_path / "x.coach").mkdir()
    answer = setwright("check", "x.coach")
    answer.told("x.coach")
    assert answer.code == 2
    assert setwright("check", ".").code == 0
    starter.write_text('use "x.coach"\n' + starter.read_text("utf-8"), "utf-8")
    answer = setwright("check", "hall.coach")
    answer.told("hall.coach:1:5", "x.coach")
    assert answer.code == 1


def test_a_place_that_is_no_file(setwright: Callable):
    for place in ("/dev/null", "/dev/zero"):
        answer = setwright("check", place)
        answer.told(place)
        assert answer.code == 2


def test_a_pipe_that_nobody_writes_to(tmp_path: Path, setwright: Callable):
    os.mkfifo(tmp_path / "pipe.coach")
    answer = setwright("check", "pipe.coach")
    answer.told("pipe.coach")
    assert answer.code == 2


def test_an_unreadable_file(tmp_path: Path, setwright: Callable, starter: Path):
    """As root everything may be read but this: a file of the kernel that refuses to be."""
    unreadable = Path("/proc/self/mem")
    if not unreadable.exists():
        pytest.skip("no /proc here")
    answer = setwright("check", str(unreadable))
    answer.told("mem cannot be read")
    assert answer.code == 2


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_file_without_permission(setwright: Callable, starter: Path):
    starter.chmod(0)
    answer = setwright("check", "hall.coach")
    answer.told("hall.coach", "permission denied")
    assert answer.code == 2


def test_a_link_that_leads_nowhere(tmp_path: Path, setwright: Callable):
    (tmp_path / "lost.coach").symlink_to("nowhere")
    answer = setwright("check", "lost.coach")
    answer.told("lost.coach")
    assert answer.code == 2


def test_a_link_out_of_the_project(tmp_path: Path, setwright: Callable):
    (tmp_path / "project").mkdir()
    (tmp_path / "secret.coach").write_text(SMALL)
    (tmp_path / "project/link.coach").symlink_to("../secret.coach")
    (tmp_path / "project/main.coach").write_text('use "link.coach"\n')
    answer = setwright("check", "project/main.coach", "--project", "project")
    answer.told("main.coach:1:5", "outside")
    assert answer.code == 1
    answer = setwright("check", "project")
    answer.told("outside")
    assert answer.code in (1, 2)


@pytest.mark.parametrize("written", ["../secret.coach", "/etc/hostname", "a/../../secret.coach", "..\\\\secret.coach"])
def test_a_path_out_of_the_project(tmp_path: Path, setwright: Callable, written: str):
    (tmp_path / "project").mkdir()
    (tmp_path / "secret.coach").write_text("a secret\n")
    (tmp_path / "project/main.coach").write_text(f'use "{written}"\n')
    answer = setwright("check", "project/main.coach", "--project", "project")
    answer.told("main.coach:1:5", "outside")
    assert answer.code == 1
    assert "a secret" not in answer.text


@pytest.mark.parametrize("written", ["", " ", "x" * 5_000, "a\0b", ".", "./", "nowhere.coach"])
def test_a_use_of_what_is_not_there(tmp_path: Path, setwright: Callable, written: str):
    (tmp_path / "main.coach").write_text(f'use "{written}"\n')
    answer = setwright("check", "main.coach")
    answer.told("main.coach:1:")
    assert answer.code == 1


def test_files_that_use_each_other(tmp_path: Path, setwright: Callable):
    (tmp_path / "a.coach").write_text('use "b.coach"\n')
    (tmp_path / "b.coach").write_text('use "a.coach"\n')
    answer = setwright("check", "a.coach")
    answer.told("coach:1:5", "use-cycle")
    assert answer.code == 1


def test_a_file_that_uses_itself(tmp_path: Path, setwright: Callable):
    (tmp_path / "a.coach").write_text('use "a.coach"\n')
    answer = setwright("check", "a.coach")
    answer.told("a.coach:1:5", "use-cycle")
    assert answer.code == 1


def test_a_chain_of_two_thousand_files(tmp_path: Path, setwright: Callable):
    for number in range(2_000):
        (tmp_path / f"{number}.coach").write_text(f'use "{number + 1}.coach"\n')
    (tmp_path / "2000.coach").write_text(SMALL)
    assert setwright("check", "0.coach").code in (0, 1)


def test_a_file_in_place_of_the_output_folder(tmp_path: Path, setwright: Callable, starter: Path):
    (tmp_path / "out").write_text("mine")
    for place in ("out", "out/deeper"):
        answer = setwright("build", "hall.coach", "--to", place)
        answer.told("out")
        assert answer.code == 2
    assert (tmp_path / "out").read_text() == "mine"


def test_a_file_in_place_of_the_folder_of_a_new_program(tmp_path: Path, setwright: Callable):
    (tmp_path / "out").write_text("mine")
    answer = setwright("new", "hall", "--to", "out")
    answer.told("out")
    assert answer.code == 2


def test_an_output_folder_that_takes_nothing(setwright: Callable, starter: Path):
    """Nobody may write below /proc, not even root."""
    answer = setwright("build", "hall.coach", "--to", "/proc/sheets")
    answer.told("/proc")
    assert answer.code == 2
    assert len(answer.text.splitlines()) == 1


def test_a_folder_in_place_of_a_sheet(tmp_path: Path, setwright: Callable, starter: Path):
    assert setwright("build", "hall.coach", "--to", "out").code == 0
    sheet = next(path for path in sorted((tmp_path / "out").rglob("*")) if path.is_file())
    sheet.unlink()
    sheet.mkdir()
    before = sorted((tmp_path / "out").rglob("*"))
    answer = setwright("build", "hall.coach", "--to", "out")
    answer.told(sheet.name)
    assert answer.code == 2
    assert sorted((tmp_path / "out").rglob("*")) == before


def test_names_that_are_no_text(tmp_path: Path, setwright: Callable):
    name = os.fsencode(tmp_path) + b"/\xff.coach"
    with open(name, "w", encoding="utf-8") as file:
        file.write("nonsense\n")
    answer = setwright("check", ".")
    answer.told(".coach:1:1")
    assert answer.code == 1


@pytest.mark.parametrize("name", ["a\nb.coach", "a\x1b[31m.coach", "ä ö.coach", "-x.coach", "[x].coach"])
def test_names_that_are_odd(tmp_path: Path, setwright: Callable, name: str):
    (tmp_path / name).write_text("nonsense\n")
    answer = setwright("check", "--", name)
    assert answer.code == 1
    assert "\x1b" not in answer.text
