"""`setwright build`: which programs, which files, and when none."""

from collections.abc import Callable
from pathlib import Path

import pytest
from setwright.targets import sheets


def files(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_all_sheets_are_written_and_named(run: Callable, hall: Path):
    ran = run("build", "hall.coach")
    assert (ran.code, ran.err) == (0, "")
    written = files(Path("sheets"))
    assert written
    assert "hall, revision 1" in ran.out
    assert all(name in ran.out for name in written)


def test_the_same_source_gives_the_same_bytes_and_nothing_is_written_again(run: Callable, hall: Path):
    run("build", "hall.coach", "--to", "a")
    run("build", "hall.coach", "--to", "b")
    assert files(Path("a")) == files(Path("b"))
    times = {path: path.stat().st_mtime_ns for path in Path("a").rglob("*")}
    ran = run("build", "hall.coach", "--to", "a")
    assert "already as they should be" in ran.out
    assert {path: path.stat().st_mtime_ns for path in Path("a").rglob("*")} == times


def test_errors_write_nothing_and_leave_what_was_there(run: Callable, hall: Path):
    run("build", "hall.coach")
    before = files(Path("sheets"))
    hall.write_text(hall.read_text("utf-8").replace("3 x 8\n", "3 x eight\n", 1), "utf-8")
    ran = run("build", "hall.coach")
    assert ran.code == 1
    assert "hall.coach:12:28" in ran.err
    assert "nothing is written" in ran.err
    assert files(Path("sheets")) == before
    assert run("build", "hall.coach", "--to", "other").code == 1
    assert not Path("other").exists()


def test_whoever_a_program_does_not_fit_keeps_its_sheets_from_nobody(run: Callable, hall: Path):
    hall.write_text(hall.read_text("utf-8") + '\nathlete maren "Maren"\n  has floor\n', "utf-8")
    ran = run("build", "hall.coach")
    assert ran.code == 1
    assert "must-impossible" in ran.err and "nothing is written" not in ran.err
    assert "hall-handout.html" in files(Path("sheets"))


def test_a_sheet_that_cannot_be_made_writes_nothing(run: Callable, hall: Path, monkeypatch: pytest.MonkeyPatch):
    def fail(*_: object) -> None:
        raise RuntimeError("a fault")

    monkeypatch.setattr(sheets, "build", fail)
    ran = run("build", "hall.coach")
    assert ran.code == 3
    assert not Path("sheets").exists()


def test_the_newest_revision_is_built(run: Callable, revisions: Path):
    assert "hall, revision 2:" in run("build", ".").out


def test_a_revision_can_be_asked_for(run: Callable, revisions: Path):
    assert "hall, revision 1:" in run("build", ".", "--revision", "1", "--to", "../out").out
    ran = run("build", ".", "--revision", "7", "--to", "../out")
    assert ran.code == 2
    assert "only 1, 2" in ran.err


def test_a_file_that_only_uses_a_program_declares_none(run: Callable, hall: Path):
    Path("crew.coach").write_text('use "hall.coach"\n')
    ran = run("build", "crew.coach")
    assert ran.code == 2
    assert "--program hall" in ran.err
    assert run("build", "crew.coach", "--program", "hall").code == 0


def test_each_of_several_programs_has_a_folder(run: Callable, hall: Path):
    Path("home.coach").write_text(hall.read_text("utf-8").replace("program hall", "program home"))
    assert run("build", ".", "--program", "home", "--to", "../one").code == 0
    assert run("build", ".", "--to", "../all").code == 0
    assert {path.name for path in Path("../all").iterdir()} == {"hall", "home"}
    ran = run("build", ".", "--program", "hom")
    assert ran.code == 2
    assert "Did you mean `home`?" in ran.err


def test_a_folder_that_holds_its_own_sheets_builds_again(run: Callable, hall: Path):
    assert run("build", ".").code == 0
    ran = run("build", ".")
    assert (ran.code, ran.err) == (0, "")
    assert run("check", ".").out == "1 file: nothing to report.\n"
