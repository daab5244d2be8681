"""What goes wrong outside the source: one plain sentence each, and never a traceback."""

import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from setwright.targets import command_line
from setwright.targets.command_line import check, main

COMMAND = "import sys; from setwright.targets.command_line import main; sys.exit(main())"


def raising(error: BaseException) -> Callable[[object], int]:
    def run(_: object) -> int:
        raise error

    return run


def test_ctrl_c(run: Callable, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(check, "run", raising(KeyboardInterrupt()))
    ran = run("check", "x.coach")
    assert (ran.code, ran.out, ran.err) == (130, "", "setwright: stopped.\n")


def test_no_memory(run: Callable, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(check, "run", raising(MemoryError()))
    ran = run("check", "x.coach")
    assert ran.code == 2
    assert "memory" in ran.err


def test_what_the_system_refuses_is_told_with_its_place(run: Callable, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(check, "run", raising(OSError(28, "No space left on device", "sheets/x.html")))
    ran = run("check", "x.coach")
    assert (ran.code, ran.err) == (2, "setwright: sheets/x.html: no space left on device.\n")


def test_a_fault_of_ours_asks_for_a_report(run: Callable, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(check, "run", raising(ValueError("inside")))
    ran = run("check", "x.coach")
    assert ran.code == 3
    assert "Please report it" in ran.err
    assert "SETWRIGHT_DEBUG=1" in ran.err
    assert "Traceback" not in ran.err


def test_the_traceback_of_a_fault_can_be_asked_for(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv(command_line.DEBUG, "1")
    monkeypatch.setattr(check, "run", raising(ValueError("inside")))
    with pytest.raises(ValueError, match="inside"):
        main(["check", "x.coach"])


def test_a_reader_that_has_seen_enough(hall: Path):
    """As in `setwright completion bash | head -1`, but with the reader gone before the first line."""
    reader, writer = os.pipe()
    os.close(reader)
    done = subprocess.run(
        [sys.executable, "-c", COMMAND, "completion", "bash"],
        stdout=writer,
        stderr=subprocess.PIPE,
        encoding="utf-8",
        timeout=60,
        check=False,
    )
    os.close(writer)
    assert (done.returncode, done.stderr) == (128 + signal.SIGPIPE, "")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no /dev/full here")
@pytest.mark.parametrize("buffered", ["", "1"])
def test_an_output_on_a_full_disk(hall: Path, buffered: str):
    with open("/dev/full", "w", encoding="utf-8") as full:
        done = subprocess.run(
            [sys.executable, "-c", COMMAND, "check", "hall.coach"],
            env={**os.environ, "PYTHONUNBUFFERED": buffered},
            stdout=full,
            stderr=subprocess.PIPE,
            encoding="utf-8",
            timeout=60,
            check=False,
        )
    assert done.returncode == 2
    assert done.stderr == "setwright: the output could not be written: no space left on device.\n"


def test_an_output_that_is_closed(hall: Path):
    done = subprocess.run(
        f"'{sys.executable}' -c '{COMMAND}' check hall.coach >&- 2>&-", shell=True, timeout=60, check=False
    )
    assert done.returncode == 0


def test_an_output_that_knows_ascii_alone(process: Callable, hall: Path):
    hall.write_text(hall.read_text("utf-8").replace("3 x 8\n", "3 x „acht“\n", 1), "utf-8")
    ran = process("check", "hall.coach", PYTHONIOENCODING="ascii")
    assert ran.code == 1
    assert "hall.coach:12:" in ran.out
    assert "Traceback" not in ran.err
