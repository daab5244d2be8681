"""A build that finds everything as the last one left it: it goes by the bytes of the files, and misses nothing."""

from collections.abc import Callable
from pathlib import Path

import pytest
from setwright.targets.command_line import crew as command
from setwright.targets.crew import beside as beside_module
from setwright.targets.crew.beside import beside

from .conftest import NAMES, crew_text

Change = Callable[[], object]


@pytest.fixture
def readings(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """One for each time that the sources are parsed."""
    found: list[str] = []
    load = command.load

    def counted(*words: object, **more: object) -> object:
        found.append("read")
        return load(*words, **more)

    monkeypatch.setattr(command, "load", counted)
    return found


def test_nothing_is_parsed_where_nothing_changed(build: Callable, readings: list[str]):
    first = build("--for", "crew")
    readings.clear()
    again = build("--for", "crew")
    assert not readings
    assert again.code == 0
    assert again.err == first.err
    assert "3 packs in sheets" in again.out and "already as they should be" in again.out


def _text(path: str, more: str) -> Change:
    return lambda: Path(path).write_text(Path(path).read_text() + more)


CHANGES = {
    "a word of an athlete": lambda: Path("crew.coach").write_text(crew_text(load=12)),
    "a blank line": _text("crew.coach", "\n"),
    "a word of the program": _text("hall.coach", "# said more\n"),
    "a new file": lambda: Path("more.coach").write_text("use basics\n"),
    "a file that is gone": lambda: Path("notes.coach").unlink(),
    "a sheet by another hand": _text("sheets/otto/otto-hall-log.txt", "-"),
    "a sheet that is gone": lambda: Path("sheets/otto/otto-hall-log.txt").unlink(),
    "an overview by another hand": _text("sheets/overview.md", "-"),
    "a record that is gone": lambda: Path("sheets/ines/.made.json").unlink(),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_whatever_is_changed_is_read(build: Callable, readings: list[str], change: Change):
    Path("notes.coach").write_text("use basics\n")
    build("--for", "crew")
    change()
    readings.clear()
    assert build("--for", "crew").code == 0
    assert readings


@pytest.mark.parametrize("words", [("--for", "otto"), ("--for", "crew", "--without", "tables"), ("--for", "all")])
def test_what_is_asked_for_otherwise_is_read(build: Callable, readings: list[str], words: tuple[str, ...]):
    build("--for", "crew")
    readings.clear()
    assert build(*words).code == 0
    assert readings


def test_errors_are_told_again(build: Callable):
    Path("crew.coach").write_text(
        crew_text() + "\nathlete bad\n  has floor\n  avoids goblet-squat, chair-stand, push-up\n"
    )
    first = build("--for", "all")
    assert first.code == 1
    again = build("--for", "all")
    assert (again.code, again.err) == (1, first.err)


def test_a_build_for_others_in_between_is_seen(build: Callable, readings: list[str]):
    """The second overwrites what the first knows of everybody; the third goes by nothing that is no longer so."""
    build("--for", "crew")
    build("--for", "otto")
    Path("crew.coach").write_text(crew_text(load=12))
    build("--for", "otto")
    Path("crew.coach").write_text(crew_text())
    assert build("--for", "crew").code == 0
    texts = {name: Path(f"sheets/{name}/{name}-hall-handout.md").read_text() for name in NAMES}
    assert all("8 kg" in text for text in texts.values())


# What another core does meanwhile


def test_work_beside_gives_what_it_gives() -> None:
    assert beside(lambda: {"a": [1, 2]})() == {"a": [1, 2]}


def test_work_that_fails_beside_is_done_here(capfd: pytest.CaptureFixture[str]) -> None:
    here: list[int] = []

    def work() -> int:
        here.append(1)
        if len(here) < 2:
            raise ValueError
        return len(here)

    here_first = beside(work)
    here.append(1)  # the other process has a copy from before
    assert here_first() == 2
    assert capfd.readouterr() == ("", "")


def test_where_none_can_be_split_off_it_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(beside_module, "can_split", lambda: False)
    done: list[int] = []
    later = beside(lambda: done.append(1))
    assert not done
    later()
    assert done == [1]
