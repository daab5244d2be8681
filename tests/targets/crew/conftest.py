"""A small crew, and builds of it."""

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
  revision 1, 2026-06-14
  category legs required, counts squat and lunge
  category push required
  session main "Main session", 2 a week
    within 60 min
    short 15 min by sets
    block strength "Strength"
      must goblet-squat 3 x 8
        advance reps by 1 to 12, then load restarting reps
        else chair-stand 3 x 12
          advance reps by 1 to 20
      must push-up 3 x 8
        advance reps by 1 to 12
      may  heel-raise 3 x 12
        advance reps by 1 to 20
"""
ATHLETE = """\
athlete {name} "{title}"
  born 1980
  starts 2026-06-15 on mon, thu
  has kettlebell {load} kg, 16 kg
  has floor, chair, wall
  begins goblet-squat at {load} kg

"""
WITHOUT = ("--without", "pdf")  # one kind of files more would only be slower; what is in them is tested elsewhere
NAMES = ("maren", "otto", "ines")


def crew_text(names: tuple[str, ...] = NAMES, load: int = 8) -> str:
    """The file of a crew."""
    people = "".join(ATHLETE.format(name=name, title=name.capitalize(), load=load) for name in names)
    return f'use basics\nuse "hall.coach"\n\n{people}group crew: {", ".join(names)}\n'


@attrs.frozen
class Ran:
    """What a command did: exit code, standard output, error output."""

    code: int
    out: str
    err: str


@pytest.fixture(autouse=True)
def crew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of a project with a crew, in which the test works."""
    folder = tmp_path / "hall"
    folder.mkdir()
    (folder / "hall.coach").write_text(PROGRAM)
    (folder / "crew.coach").write_text(crew_text())
    monkeypatch.chdir(folder)
    monkeypatch.setenv("SETWRIGHT_DEBUG", "1")
    return folder


@pytest.fixture
def build(capsys: pytest.CaptureFixture[str]) -> Callable[..., Ran]:
    """Builds this folder in this process."""

    def run(*words: str) -> Ran:
        code = main(["build", ".", *WITHOUT, *words])
        captured = capsys.readouterr()
        return Ran(code, captured.out, captured.err)

    return run


def process(*words: str, **environment: str) -> "subprocess.Popen[str]":
    """A build of this folder as a process of its own."""
    script = "import sys; from setwright.targets.command_line import console; console()"
    return subprocess.Popen(
        [sys.executable, "-c", script, "build", ".", *WITHOUT, *words],
        env={**os.environ, **environment},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        encoding="utf-8",
        start_new_session=True,
    )


def files(folder: Path | str) -> dict[str, bytes]:
    """All files below a folder, records among them."""
    root = Path(folder)
    return {path.relative_to(root).as_posix(): path.read_bytes() for path in root.rglob("*") if path.is_file()}
