"""Commands as a coach types them, within the test's process or in one of their own."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import attrs
import pytest
from setwright.targets.command_line import main

PROGRAM = """\
use basics

program hall "Hall class"
  revision {revision}, 2026-06-14
  for "The Tuesday class"
  category legs required, counts squat and lunge
  category push required
  category pull required
  session main "Main session", 2 a week
    within 60 min
    block strength "Strength"
      must chair-stand 3 x 8
        advance reps by 1 to 12
      must push-up 3 x 8
        advance reps by 1 to 12
      must band-row 3 x 8
        advance reps by 1 to 12
      key  step-up 2 x 8 each side
        advance reps by 1 to 12
      do   curl-up 3 x 8
        advance reps by 1 to 12
      may  heel-raise 3 x 12
        advance reps by 1 to 20
"""


@attrs.frozen
class Ran:
    """What a command did: exit code, standard output, error output."""

    code: int
    out: str
    err: str


@pytest.fixture(autouse=True)
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Every test works in an empty folder, without the colours of the terminal that runs it."""
    folder = tmp_path / "own"
    folder.mkdir()
    monkeypatch.chdir(folder)
    for name in ("NO_COLOR", "SETWRIGHT_DEBUG", "FORCE_COLOR"):
        monkeypatch.delenv(name, raising=False)
    return folder


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Callable[..., Ran]:
    """Run a command in this process."""

    def run_command(*words: str) -> Ran:
        code = main(words)
        captured = capsys.readouterr()
        return Ran(code, captured.out, captured.err)

    return run_command


@pytest.fixture
def process() -> Callable[..., Ran]:
    """Run a command as a process of its own."""

    def run_process(*words: str, code: str = "", **environment: str) -> Ran:
        script = code or "import sys; from setwright.targets.command_line import main; sys.exit(main())"
        done = subprocess.run(
            [sys.executable, "-c", script, *words],
            env={**os.environ, **environment},
            capture_output=True,
            encoding="utf-8",
            timeout=60,
            check=False,
        )
        return Ran(done.returncode, done.stdout, done.stderr)

    return run_process


@pytest.fixture
def hall(own_folder: Path) -> Path:
    """A good program."""
    path = own_folder / "hall.coach"
    path.write_text(PROGRAM.format(revision=1))
    return path


@pytest.fixture
def revisions(own_folder: Path) -> Path:
    """A folder with two revisions of one program."""
    for number in (1, 2):
        (own_folder / f"hall-{number}.coach").write_text(PROGRAM.format(revision=number))
    return own_folder
