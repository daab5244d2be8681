"""`setwright review` as a coach types it."""

from collections.abc import Callable
from pathlib import Path

import pytest
from setwright.targets.review import charts

from .conftest import Ran

PEOPLE = """
use "hall.coach"

athlete agnes
  born 1950
  starts 2026-06-15
  has band "red"
  has floor, chair, step, door
  follows hall

athlete wilf
  starts 2026-06-15
  has band "red"
  has floor, chair, step, door
  follows hall

group class: agnes, wilf

log agnes on hall

2026-06-15 main, 40 min, rpe 5
  chair-stand 8 8 8
  | {note}
"""


@pytest.fixture
def class_(hall: Path) -> Path:
    (hall.parent / "people.coach").write_text(PEOPLE.format(note="Good."))
    return hall.parent


@pytest.fixture(autouse=True)
def no_pictures(monkeypatch: pytest.MonkeyPatch) -> None:
    """The converter takes a second to start: pictures are tested with the pages."""
    monkeypatch.setattr(charts, "available", lambda: False)


def test_everybody_who_has_a_log(run: Callable[..., Ran], class_: Path) -> None:
    ran = run("review")
    assert ran.code == 0, ran.err
    assert ran.out.startswith("1. Agnes, Hall class: 1 session\n")
    assert "6 files in review: begin with review/review.html" in ran.out
    assert "No log yet" not in ran.out
    assert 'pip install "setwright[review]"' in ran.err
    names = sorted(path.relative_to(class_ / "review").as_posix() for path in (class_ / "review").rglob("*.*"))
    assert names == [
        "agnes/agnes-hall-progress.html", "agnes/agnes-hall-progress.md", "agnes/agnes-hall-review.html",
        "agnes/agnes-hall-review.md", "review.html", "review.md",
    ]  # fmt: skip


def test_a_group_tells_who_has_no_log(run: Callable[..., Ran], class_: Path) -> None:
    ran = run("review", ".", "--for", "class", "--to", "out/june")
    assert (ran.code, "No log yet: Wilf" in ran.out) == (0, True)
    assert (class_ / "out" / "june" / "agnes" / "agnes-hall-review.html").is_file()


def test_files_that_do_not_change_are_left_alone(run: Callable[..., Ran], class_: Path) -> None:
    run("review", ".")
    path = class_ / "review" / "review.html"
    before = path.stat().st_mtime_ns
    assert "already as they should be" in run("review", ".").out
    assert path.stat().st_mtime_ns == before


def test_a_note_of_pain_comes_first(run: Callable[..., Ran], class_: Path) -> None:
    (class_ / "people.coach").write_text(PEOPLE.format(note="Chest pain."))
    assert "no training until a physician agrees" in run("review", ".").out.splitlines()[1]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--for", "agness"), "there is no athlete or group `agness` in .. Did you mean `agnes`?"),
        (("--for", "wilf"), "nobody who is meant has a log in ."),
        (("--program", "hal"), "there is no program `hal` in .. Did you mean `hall`?"),
    ],
)
def test_what_cannot_be_reviewed(words: tuple[str, ...], told: str, run: Callable[..., Ran], class_: Path) -> None:
    ran = run("review", ".", *words)
    assert ran.code == 2
    assert told in ran.err


def test_errors_stop_it(run: Callable[..., Ran], class_: Path) -> None:
    (class_ / "hall.coach").write_text("program hall\n  nonsense\n")
    ran = run("review", ".")
    assert (ran.code, (class_ / "review").exists()) == (1, False)


def test_a_command_loads_no_converter_before_there_is_a_picture_to_draw(
    process: Callable[..., Ran], class_: Path
) -> None:
    code = (
        "import sys; from setwright.targets.command_line import main; code = main(); "
        "print([name for name in sys.modules if name == 'vl_convert']); sys.exit(code)"
    )
    assert process("check", ".", code=code).out.endswith("[]\n")
