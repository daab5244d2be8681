"""The sources of a project as files on a disk."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import attrs

from .fingerprint import RECORD
from .log_files.table import ENDINGS, MOST_BYTES
from .project import OUTSIDE, Fetch


class Unreadable(Exception):
    """A path that holds no sources, or cannot be read: the sentence to tell."""


@attrs.frozen(eq=False, repr=False, match_args=False)
class Files:
    """The paths of sources in their project, how they are read, and under which names they are told."""

    paths: tuple[str, ...]
    fetch: Fetch
    shown: Callable[[str], str]


def files_at(path: Path, project: Path | None = None) -> Files:
    """A file, or all `.coach` files below a folder. Raises Unreadable."""
    if not path.exists():
        raise Unreadable(f"There is nothing at {path}.")
    root = (project or _project_of(path)).resolve()
    paths = [one for one in (_below(path) if path.is_dir() else [path]) if one.is_file()]
    if path.name.lower().endswith(ENDINGS) and paths == [path]:
        raise Unreadable(f"{path} is a table: name the folder in which it stands, or a source that uses it.")
    if not any(one.suffix == ".coach" or one == path for one in paths):
        raise Unreadable(f"There is no .coach file in {path}.")
    inside = [one.resolve() for one in paths]
    for one in inside:
        if not one.is_relative_to(root):
            raise Unreadable(f"{one} lies outside the project's folder {root}.")

    def fetch(relative: str) -> bytes | None:
        try:
            real = (root / relative).resolve()
            if not real.is_relative_to(root):
                return OUTSIDE
            if not real.is_file():
                return None
        except (OSError, ValueError):  # no file can have such a name
            return None
        return _read(real)

    here = Path.cwd()

    def shown(relative: str) -> str:
        return (
            os.path.relpath(root / relative, here) if (root / relative).is_relative_to(here) else str(root / relative)
        )

    return Files(tuple(one.relative_to(root).as_posix() for one in inside), fetch, shown)


def _below(folder: Path) -> list[Path]:
    """All sources, and all files that may be logs as tables, below a folder. Blank logs among what was built are none."""
    found: list[Path] = []
    for at, _, names in os.walk(folder):
        built = RECORD in names
        found += [
            Path(at, name)
            for name in names
            if name.endswith(".coach") or (not built and name.lower().endswith(ENDINGS))
        ]
    return sorted(found)


def _read(path: Path) -> bytes:
    from ..grammar.problems import LIMIT_CHARACTERS

    most = MOST_BYTES if path.name.lower().endswith(ENDINGS) else LIMIT_CHARACTERS
    try:
        with path.open("rb") as file:
            return file.read(most + 1)
    except OSError as error:
        raise Unreadable(f"{path} cannot be read: {(error.strerror or str(error)).lower()}.") from error


def _project_of(path: Path) -> Path:
    """The folder given; for a file the nearest folder above it that git keeps, else its own."""
    if path.is_dir():
        return path
    folder = path.resolve().parent
    return next((one for one in (folder, *folder.parents) if (one / ".git").exists()), folder)
