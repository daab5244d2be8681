"""Where packs are kept: whole files, on a disk and at addresses that fsspec knows."""

import os
from collections.abc import Callable
from pathlib import Path

import fsspec
import pytest
from setwright.targets.crew.record import is_whole, read_record
from setwright.targets.crew.store import UNFINISHED, Remote, open_store

from .conftest import files


@pytest.fixture(params=["folder", "file", "memory", "moved"])
def address(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    if request.param == "memory":
        fsspec.filesystem("memory").store.clear()
        return "memory://packs"
    return str(tmp_path / "out") if request.param == "folder" else f"file://{tmp_path / 'out'}"


def opened(address: str, request: pytest.FixtureRequest):
    return Remote(address) if "moved" in request.node.name else open_store(address)


def test_what_is_written_is_read_again(address: str, request: pytest.FixtureRequest, tmp_path: Path):
    store = opened(address, request)
    assert store.read("maren/a.html") is None
    assert store.listing("maren") == {} and list(store.folders()) == []
    store.write("maren/a.html", b"old")
    store.write("maren/a.html", b"new")
    (tmp_path / "large").write_bytes(b"large")
    store.place("overview.html", tmp_path / "large")
    assert store.read("maren/a.html") == b"new" and store.read("overview.html") == b"large"
    assert {name: kept.size for name, kept in store.listing("maren").items()} == {"a.html": 3}
    assert list(store.folders()) == ["maren"]
    store.remove("maren/a.html")
    store.remove("maren/a.html")
    assert store.listing("maren") == {}


def test_a_crew_is_built_to_an_address(build: Callable, tmp_path: Path):
    assert build("--for", "crew", "--to", "here").code == 0
    fsspec.filesystem("memory").store.clear()
    assert build("--for", "crew", "--to", "memory://packs").code == 0
    memory = fsspec.filesystem("memory")
    there = {path.removeprefix("/packs/"): memory.cat_file(path) for path in memory.find("/packs")}
    assert there == files("here")
    again = build("--for", "crew", "--to", "memory://packs")
    assert "(30 files already as they should be)" in again.out and "maren" not in again.out
    assert build("--for", "crew", "--to", f"file://{tmp_path}/there").code == 0
    assert files(tmp_path / "there") == files("here")


def test_what_a_stopped_build_left_behind_is_taken_away(build: Callable):
    build("--for", "crew")
    made = files("sheets")
    Path(f"sheets/maren/{UNFINISHED}1-1").write_bytes(b"half")
    Path(f"sheets/{UNFINISHED}1-2").write_bytes(b"half")
    build("--for", "crew")
    assert files("sheets") == made


def test_a_changed_file_keeps_its_permissions(build: Callable):
    build("--for", "maren")
    path = Path("sheets/maren/maren-hall-log.txt")
    path.chmod(0o600)
    path.write_text("changed")
    build("--for", "maren")
    assert path.stat().st_mode & 0o777 == 0o600 and path.read_text() != "changed"


def test_a_folder_that_cannot_be_written(build: Callable, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.delenv("SETWRIGHT_DEBUG")
    Path("taken").write_text("a file")
    ran = build("--for", "maren", "--to", "taken")
    assert ran.code == 2
    assert "taken" in ran.err and Path("taken").read_text() == "a file"


def test_a_folder_stands_where_a_file_should_be(build: Callable, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.delenv("SETWRIGHT_DEBUG")
    Path("sheets/maren/maren-hall-log.txt").mkdir(parents=True)
    ran = build("--for", "maren")
    assert ran.code == 2
    assert "maren-hall-log.txt: is a directory" in ran.err
    assert not list(Path("sheets").rglob(f"{UNFINISHED}*"))


def test_a_failure_while_writing_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    store = open_store(str(tmp_path / "out"))
    store.write("maren/a.html", b"old")

    def refused(source: str, target: str) -> None:
        raise PermissionError(13, "in use", target)

    monkeypatch.setattr(os, "replace", refused)
    with pytest.raises(PermissionError):
        store.write("maren/a.html", b"new")
    assert files(tmp_path / "out") == {"maren/a.html": b"old"}


def test_a_record_tells_when_a_file_is_not_as_it_was_made(build: Callable):
    build("--for", "maren")
    store = open_store("sheets")
    record = read_record(store, "maren")
    assert record is not None and is_whole(store, "maren", record)
    Path("sheets/maren/maren-hall-log.txt").write_text("short")
    assert not is_whole(store, "maren", record)


@pytest.mark.parametrize("address", ["nowhere://packs", "s3 ://packs"])
def test_an_address_that_nobody_knows(build: Callable, address: str):
    ran = build("--for", "maren", "--to", address)
    assert ran.code == 2
    assert address in ran.err and "setwright[cluster]" in ran.err


def test_a_file_where_the_packs_should_go_is_named(build: Callable, capsys: pytest.CaptureFixture[str]):
    Path("sheets").write_text("a file\n")
    with pytest.raises(NotADirectoryError) as refused:
        open_store(os.path.abspath("sheets")).read("maren/.made.json")
    assert refused.value.filename == os.path.abspath("sheets")
    ran = build("--for", "crew")
    assert ran.code == 2
    assert ran.err.splitlines()[-1].endswith("sheets: this is a file, and a folder is wanted here.")
    assert ".made.json" not in ran.err


def test_a_folder_that_cannot_be_written_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    def refuse(path: str, *_: object) -> int:
        raise PermissionError(13, "Permission denied", path)

    store = open_store(str(tmp_path / "sheets"))
    monkeypatch.setattr("setwright.targets.crew.store.os.open", refuse)
    with pytest.raises(PermissionError) as refused:
        store.write("maren/a.md", b"text")
    assert refused.value.filename == str(tmp_path / "sheets" / "maren")
