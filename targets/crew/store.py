"""Where packs are kept: a folder, or an address that fsspec knows; every file is there whole, the old or the new one."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import suppress
from functools import lru_cache
from importlib import import_module
from itertools import count
from pathlib import Path
from typing import Any, BinaryIO, NamedTuple, Protocol

import attrs

from ..writing import unwritable

# Begins the names of files that are being written; one that stays is what a stopped build left behind.
UNFINISHED = ".setwright-"


_EXTRA = " Packs at an address need an extra: pip install 'setwright[cluster]'."


class Unreachable(Exception):
    """A place that cannot be opened: the sentence that says why."""


class Kept(NamedTuple):
    """A file as it lies there: its bytes, and when it was last written, where the place tells that."""

    size: int
    written: int | None


class Store(Protocol):
    """Files by names relative to one place, `/` between the parts."""

    def listing(self, folder: str) -> dict[str, Kept]:
        """The files of a folder by name, those that are unfinished among them; none where there is no such folder."""

    def folders(self) -> Iterator[str]:
        """The names of the folders at the top."""

    def read(self, name: str) -> bytes | None:
        """The bytes of a file, None where there is none."""

    def write(self, name: str, content: bytes) -> None:
        """Writes a file in place of any that was there, made with its folder where that is missing."""

    def place(self, name: str, file: Path) -> None:
        """Writes what a file of this machine holds, which may be more than fits into memory."""

    def remove(self, name: str) -> None:
        """Takes a file away, if it is there."""


@lru_cache(maxsize=4)
def open_store(address: str) -> Store:
    """The store at a path or an address such as `s3://bucket/packs`."""
    scheme, mark, rest = address.partition("://")
    if not mark:
        return Folder(Path(address))
    if scheme in ("file", "local"):
        return Folder(Path(rest))
    return Remote(address)


@attrs.frozen
class Folder:
    """A folder of this machine, or one that all machines of a cluster share."""

    root: Path

    def listing(self, folder: str) -> dict[str, Kept]:
        try:
            with os.scandir(f"{self.root}/{folder}") as entries:
                found = [(one.name, one.stat()) for one in entries if one.is_file()]
        except (FileNotFoundError, NotADirectoryError):
            return {}
        return {name: Kept(about.st_size, about.st_mtime_ns) for name, about in found}

    def folders(self) -> Iterator[str]:
        if self.root.is_dir():
            with os.scandir(self.root) as entries:
                yield from sorted(one.name for one in entries if one.is_dir())

    def read(self, name: str) -> bytes | None:
        try:
            with open(f"{self.root}/{name}", "rb", buffering=0) as file:
                return file.readall()
        except FileNotFoundError:
            return None
        except NotADirectoryError as error:
            raise unwritable((self.root / name).parent, error) from None

    def write(self, name: str, content: bytes) -> None:
        self._replace(f"{self.root}/{name}", lambda file: file.write(content))

    def place(self, name: str, file: Path) -> None:
        def copy(new: BinaryIO) -> None:
            with file.open("rb") as made:
                shutil.copyfileobj(made, new)

        self._replace(f"{self.root}/{name}", copy)

    def _replace(self, target: str, fill: Callable[[BinaryIO], object]) -> None:
        # Not forced to the disk: a build can be made again, and what a power cut may leave of a file does not have the size
        # that the record tells, so that the next build makes it anew. Forcing it would double the time of a build.
        for _ in range(3):
            unfinished = _beside(target, fill)
            try:
                os.replace(unfinished, target)
                return
            except FileNotFoundError:  # another build in the same folder took it for one left behind
                continue
            except OSError as error:
                _unlink(unfinished)
                raise OSError(error.errno, error.strerror, target) from None
            except BaseException:
                _unlink(unfinished)
                raise
        raise FileNotFoundError(2, "another build is writing into this folder", target)

    def remove(self, name: str) -> None:
        (self.root / name).unlink(missing_ok=True)


_numbers = count()


def _beside(target: str, fill: Callable[[BinaryIO], object]) -> str:
    """A finished file in the folder of its target, readable by whom the folder, or the file before it, lets read."""
    folder = os.path.dirname(target)
    while True:
        path = f"{folder}/{UNFINISHED}{os.getpid()}-{next(_numbers)}"
        try:
            descriptor = os.open(path, _NEW, 0o666)
            break
        except FileExistsError:  # of a build on another machine
            continue
        except FileNotFoundError:
            _make(folder)
        except OSError as error:
            raise unwritable(Path(folder), error) from None
    try:
        with open(descriptor, "wb") as file:
            fill(file)
        with suppress(FileNotFoundError):
            os.chmod(path, os.stat(target).st_mode & 0o777)
    except BaseException:
        _unlink(path)
        raise
    return path


def _make(folder: str) -> None:
    try:
        os.makedirs(folder, exist_ok=True)
    except OSError as error:
        raise unwritable(Path(folder), error) from None


_NEW = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)


def _unlink(path: str) -> None:
    with suppress(FileNotFoundError):
        os.unlink(path)


# Places where a file that is put there appears whole, once all of it has arrived.
_WHOLE = {"s3", "s3a", "gs", "gcs", "abfs", "abfss", "az", "adl", "oci", "memory"}


class Remote:
    """A place that fsspec knows. When a file was written is not asked for: not every such place can tell."""

    def __init__(self, address: str) -> None:
        try:
            files, root = import_module("fsspec.core").url_to_fs(address)  # an extra of its own
        except (ImportError, ValueError) as error:
            raise Unreachable(f"{address} cannot be opened: {str(error).rstrip('.')}.{_EXTRA}") from None
        self.files: Any = files
        self.root = root.rstrip("/")
        self.whole = address.partition("://")[0] in _WHOLE

    def listing(self, folder: str) -> dict[str, Kept]:
        try:
            found = self.files.ls(f"{self.root}/{folder}", detail=True, refresh=True)
        except (FileNotFoundError, NotADirectoryError):
            return {}
        return {_last(one["name"]): Kept(one["size"], None) for one in found if one["type"] == "file"}

    def folders(self) -> Iterator[str]:
        try:
            found = self.files.ls(self.root, detail=True, refresh=True)
        except FileNotFoundError:
            return
        yield from sorted(_last(one["name"]) for one in found if one["type"] == "directory")

    def read(self, name: str) -> bytes | None:
        try:
            content: bytes = self.files.cat_file(f"{self.root}/{name}")
        except FileNotFoundError:
            return None
        return content

    def write(self, name: str, content: bytes) -> None:
        self._put(name, lambda path: self.files.pipe_file(path, content))

    def place(self, name: str, file: Path) -> None:
        self._put(name, lambda path: self.files.put_file(str(file), path))

    def _put(self, name: str, put: Callable[[str], object]) -> None:
        target = f"{self.root}/{name}"
        folder, _, last = target.rpartition("/")
        self.files.makedirs(folder, exist_ok=True)
        unfinished = target if self.whole else f"{folder}/{UNFINISHED}{os.getpid()}-{last}"
        put(unfinished)
        if not self.whole:
            self.files.mv(unfinished, target)

    def remove(self, name: str) -> None:
        with suppress(FileNotFoundError):
            self.files.rm_file(f"{self.root}/{name}")


def _last(path: str) -> str:
    return path.rstrip("/").rpartition("/")[2]
