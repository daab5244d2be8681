"""Files written whole or not at all: what stood there before stays until everything new is safely on the disk."""

from __future__ import annotations

import errno
import os
import tempfile
from collections.abc import Iterable, Mapping
from pathlib import Path

import attrs


@attrs.frozen
class Written:
    """What writing did: names of files that are new or changed, and of files that were already so."""

    changed: tuple[str, ...]
    unchanged: tuple[str, ...]


def write_files(folder: Path, contents: Mapping[str, str | bytes]) -> Written:
    """Write all files into the folder, made where it is missing, or raise OSError and leave everything as it was.

    Names are relative to the folder, with `/` between parts; text is written as UTF-8 with its line ends as they are.
    """
    encoded = {name: text.encode() if isinstance(text, str) else text for name, text in contents.items()}
    before = {name: _content(folder / name) for name in encoded}
    new = {name: content for name, content in encoded.items() if content != before[name]}
    made: list[Path] = []
    ready: dict[str, Path] = {}
    placed: list[str] = []
    try:
        for path in _missing_folders({(folder / name).parent for name in new} | {folder}):
            _make(path)
            made.append(path)
        for name, content in new.items():
            ready[name] = _beside(folder / name, content)
        for name, temporary in ready.items():
            os.replace(temporary, folder / name)
            placed.append(name)
    except BaseException:
        _remove([temporary for name, temporary in ready.items() if name not in placed])
        _restore({folder / name: before[name] for name in placed})
        for path in reversed(made):
            path.rmdir()
        raise
    return Written(tuple(new), tuple(name for name in encoded if name not in new))


def write_new(path: Path, content: str) -> None:
    """Write a file that must not be there yet; raises FileExistsError where something is."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with open(path, "xb") as file:
        try:
            file.write(content.encode())
            file.flush()
        except BaseException:
            path.unlink()
            raise


def unwritable(folder: Path, error: OSError) -> OSError:
    """What the system refused, told of the folder that somebody named, not of a file that was to be made in it."""
    for place in (folder, *folder.parents):
        if place.exists() and not place.is_dir():
            return NotADirectoryError(errno.ENOTDIR, "this is a file, and a folder is wanted here", str(place))
    reason = (error.strerror or str(error)).lower()
    return OSError(error.errno, f"nothing can be written into this folder ({reason})", str(folder))


def _content(path: Path) -> bytes | None:
    """The bytes of a file, None where there is none."""
    return path.read_bytes() if path.is_file() else None


def _missing_folders(folders: Iterable[Path]) -> list[Path]:
    """The folders that are to be made, each after the one that holds it."""
    missing = {path for folder in folders for path in (folder, *folder.parents) if not path.is_dir()}
    return sorted(missing, key=lambda path: len(path.parts))


def _make(path: Path) -> None:
    try:
        path.mkdir()
    except OSError as error:
        raise unwritable(path if path.exists() else path.parent, error) from None


def _beside(target: Path, content: bytes) -> Path:
    """A finished temporary file in the folder of its target, readable by whom the target's folder lets read."""
    if target.is_dir():
        raise IsADirectoryError(21, "a folder stands where the file should be", str(target))
    try:
        descriptor, name = tempfile.mkstemp(prefix=".setwright-", dir=target.parent)
    except OSError as error:
        raise unwritable(target.parent, error) from None
    temporary = Path(name)
    try:
        with open(descriptor, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())  # some file systems tell only now that the disk is full
        temporary.chmod(target.stat().st_mode & 0o777 if target.exists() else 0o666 & ~_umask())
    except BaseException:
        _remove([temporary])
        raise
    return temporary


def _umask() -> int:
    """The permissions that new files do without; asking for them means setting them for a moment."""
    mask = os.umask(0o022)
    os.umask(mask)
    return mask


def _restore(before: Mapping[Path, bytes | None]) -> None:
    """Put back what stood there before, now that the space of the unused new files is free again."""
    for target, content in before.items():
        if content is None:
            _remove([target])
        else:
            os.replace(_beside(target, content), target)


def _remove(paths: Iterable[Path]) -> None:
    for path in paths:
        path.unlink(missing_ok=True)
