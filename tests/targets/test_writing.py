"""Files are written whole or not at all."""

import errno
import os
import stat
from pathlib import Path

import pytest
from setwright.targets.writing import Written, write_files, write_new


def names(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def test_files_are_written_with_their_folders(tmp_path: Path):
    written = write_files(tmp_path / "a" / "b", {"one.html": "é\n", "c/two.bin": b"\x00"})
    assert written == Written(("one.html", "c/two.bin"), ())
    assert (tmp_path / "a/b/one.html").read_bytes() == b"\xc3\xa9\n"
    assert (tmp_path / "a/b/c/two.bin").read_bytes() == b"\x00"


def test_unchanged_files_are_not_touched(tmp_path: Path):
    write_files(tmp_path, {"same": "1", "other": "2"})
    os.utime(tmp_path / "same", (1, 1))
    assert write_files(tmp_path, {"same": "1", "other": "3"}) == Written(("other",), ("same",))
    assert (tmp_path / "same").stat().st_mtime == 1


def test_new_files_may_be_read_as_the_user_has_it(tmp_path: Path):
    old = os.umask(0o027)
    try:
        write_files(tmp_path, {"new": "1"})
    finally:
        os.umask(old)
    assert stat.S_IMODE((tmp_path / "new").stat().st_mode) == 0o640


def test_a_changed_file_keeps_its_permissions(tmp_path: Path):
    write_files(tmp_path, {"file": "1"})
    (tmp_path / "file").chmod(0o600)
    write_files(tmp_path, {"file": "2"})
    assert stat.S_IMODE((tmp_path / "file").stat().st_mode) == 0o600


def test_a_link_is_replaced_and_what_it_points_at_stays(tmp_path: Path):
    (tmp_path / "far").write_text("far")
    (tmp_path / "out").mkdir()
    (tmp_path / "out/file").symlink_to(tmp_path / "far")
    write_files(tmp_path / "out", {"file": "near"})
    assert (tmp_path / "far").read_text() == "far"
    assert (tmp_path / "out/file").read_text() == "near"


def failing(call: int, monkeypatch: pytest.MonkeyPatch, error: BaseException) -> None:
    """Let one call of os.replace fail, counted from 1."""
    replace, calls = os.replace, [0]

    def replacement(source: str, target: str) -> None:
        calls[0] += 1
        if calls[0] == call:
            raise error
        replace(source, target)

    monkeypatch.setattr(os, "replace", replacement)


@pytest.mark.parametrize("error", [OSError(errno.EACCES, "in use"), KeyboardInterrupt()], ids=["error", "interrupt"])
@pytest.mark.parametrize("call", [1, 2, 3])
def test_a_failure_at_any_file_leaves_all_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: int, error: BaseException
):
    write_files(tmp_path, {"a": "old a", "c": "old c"})
    failing(call, monkeypatch, error)
    with pytest.raises(type(error)):
        write_files(tmp_path, {"a": "new a", "b": "new b", "c": "new c"})
    assert {name: (tmp_path / name).read_text() for name in names(tmp_path)} == {"a": "old a", "c": "old c"}


def test_a_full_disk_leaves_all_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    write_files(tmp_path / "out", {"a": "old"})
    calls = []

    def full(descriptor: int) -> None:
        calls.append(descriptor)
        if len(calls) == 2:
            raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        write_files(tmp_path / "out", {"a": "new", "b": "new", "deep/er/c": "new"})
    assert names(tmp_path) == {"out/a"}
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["a"]
    assert (tmp_path / "out/a").read_text() == "old"


def test_all_contents_are_made_before_the_first_is_written(tmp_path: Path):
    with pytest.raises(UnicodeEncodeError):
        write_files(tmp_path / "out", {"good": "text", "bad": "\ud800"})
    assert not (tmp_path / "out").exists()


def test_a_file_in_place_of_the_folder(tmp_path: Path):
    (tmp_path / "out").write_text("mine")
    with pytest.raises(OSError, match="out"):
        write_files(tmp_path / "out", {"deep/file": "1"})
    assert (tmp_path / "out").read_text() == "mine"


def test_a_folder_in_place_of_a_file(tmp_path: Path):
    (tmp_path / "b").mkdir()
    with pytest.raises(IsADirectoryError):
        write_files(tmp_path, {"a": "1", "b": "2"})
    assert names(tmp_path) == set()


def test_a_new_file_never_replaces_one(tmp_path: Path):
    write_new(tmp_path / "deep/file", "1")
    with pytest.raises(FileExistsError):
        write_new(tmp_path / "deep/file", "2")
    assert (tmp_path / "deep/file").read_text() == "1"


def test_a_file_where_the_folder_should_be_is_named(tmp_path: Path):
    (tmp_path / "sheets").write_text("a file\n")
    with pytest.raises(NotADirectoryError) as refused:
        write_files(tmp_path / "sheets" / "below", {"a.md": "text"})
    assert (refused.value.filename, refused.value.strerror) == (
        str(tmp_path / "sheets"),
        "this is a file, and a folder is wanted here",
    )


def test_a_folder_that_cannot_be_written_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    def refuse(**_: object) -> None:
        raise PermissionError(13, "Permission denied", str(tmp_path / ".setwright-1"))

    monkeypatch.setattr("tempfile.mkstemp", refuse)
    with pytest.raises(PermissionError) as refused:
        write_files(tmp_path, {"a.md": "text"})
    assert refused.value.filename == str(tmp_path)
    assert refused.value.strerror == "nothing can be written into this folder (permission denied)"
