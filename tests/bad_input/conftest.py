"""Every bad input goes through a process of its own, as a coach would give it."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import attrs
import pytest

COMMAND = "import sys; from setwright.targets.command_line import main; sys.exit(main())"
# Two seconds are meant for each of them; a busy machine may take its time.
TIMEOUT = 30


@attrs.frozen
class Answer:
    """What a command answered: its exit code, all that it printed, and the diagnostics among it."""

    code: int
    text: str

    def told(self, *words: str) -> None:
        """The answer is no traceback, and holds all the words."""
        assert "Traceback" not in self.text
        assert "a fault of Setwright" not in self.text
        for word in words:
            assert word in self.text


@pytest.fixture
def setwright(tmp_path: Path) -> Callable[..., Answer]:
    """Run a command in the test's own folder; standard output and error output in one text."""

    def run(*words: str, clean: bool = True) -> Answer:
        done = subprocess.run(
            [sys.executable, "-c", COMMAND, *words],
            cwd=tmp_path,
            env={name: value for name, value in os.environ.items() if not name.startswith("SETWRIGHT_")},
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            encoding="utf-8",
            errors="backslashreplace",
            timeout=TIMEOUT,
            check=False,
        )
        answer = Answer(done.returncode, done.stdout)
        if clean:
            answer.told()
        return answer

    return run


@pytest.fixture
def check(tmp_path: Path, setwright: Callable[..., Answer]) -> Callable[..., Answer]:
    """Check one source, given as text or bytes."""

    def run(source: str | bytes) -> Answer:
        (tmp_path / "bad.coach").write_bytes(source.encode() if isinstance(source, str) else source)
        return setwright("check", "bad.coach")

    return run
