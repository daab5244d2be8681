"""A build that is killed, or stopped, at any moment leaves whole files, and the next one finishes it."""

import os
import signal
import time
from collections.abc import Callable
from pathlib import Path
from random import Random

import pytest
from setwright.targets.crew.store import UNFINISHED

from .conftest import crew_text, files, process

PEOPLE = tuple(f"athlete-{number}" for number in range(30))
KILLS = 100


def built(to: str, load: int) -> tuple[dict[str, bytes], float]:
    """All that a whole build makes of a crew that begins with a load, and how long it takes."""
    Path("crew.coach").write_text(crew_text(PEOPLE, load))
    start = time.monotonic()
    running = process("--for", "crew", "--to", to)
    running.communicate(timeout=120)
    assert running.returncode == 0
    return files(to), time.monotonic() - start


def test_killed_at_any_moment(crew: Path):
    """The crew changes from one load to the other and back; each build is killed somewhere on its way."""
    one, _ = built("one", 8)
    other, took = built("other", 10)
    assert one.keys() == other.keys() and one != other
    random, seen = Random(4), set()
    for kill in range(KILLS):
        Path("crew.coach").write_text(crew_text(PEOPLE, 8 if kill % 2 else 10))
        jobs = ("--jobs", "2") if kill % 4 == 3 else ()
        running = process("--for", "crew", "--to", "sheets", *jobs)
        time.sleep(random.uniform(0.2, 1) * took)
        if kill % 8 == 7:
            running.kill()  # the processes that it started have to notice
        else:
            os.killpg(running.pid, signal.SIGKILL)
        running.communicate(timeout=60)
        found = files("sheets") if Path("sheets").exists() else {}
        for name, content in found.items():
            assert Path(name).name.startswith(UNFINISHED) or content in (one[name], other[name]), (kill, name)
        seen.add(len(found))
    assert len(seen) > 1  # not all of them came too early or too late
    assert built("sheets", 8)[0] == one
    assert built("sheets", 10)[0] == other


def test_processes_end_with_the_one_that_started_them(crew: Path):
    Path("crew.coach").write_text(crew_text(tuple(f"athlete-{number}" for number in range(200))))
    running = process("--for", "crew", "--jobs", "2")
    deadline = time.monotonic() + 60
    while not list(Path("sheets").glob("*/*.html")):
        assert time.monotonic() < deadline and running.poll() is None
        time.sleep(0.02)
    group = running.pid
    running.kill()
    running.wait(60)
    while True:
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            break
        assert time.monotonic() < deadline
        time.sleep(0.05)


@pytest.mark.parametrize("jobs", ["1", "2"])
def test_ctrl_c_leaves_whole_files_and_says_so(crew: Path, build: Callable, jobs: str):
    Path("crew.coach").write_text(crew_text(tuple(f"athlete-{number}" for number in range(120))))
    running = process("--for", "crew", "--jobs", jobs)
    deadline = time.monotonic() + 60
    while not list(Path("sheets").glob("*/.made.json")):
        assert time.monotonic() < deadline and running.poll() is None
        time.sleep(0.02)
    os.killpg(running.pid, signal.SIGINT)  # as a terminal does
    told = running.communicate(timeout=60)[1]
    assert running.returncode == 130
    assert "stopped. Every file is whole" in told and "Traceback" not in told
    # An interrupt can come between the making of an unfinished file and its removal: the next build tidies it away.
    stopped = {name: one for name, one in files("sheets").items() if not Path(name).name.startswith(UNFINISHED)}
    assert build("--for", "crew").code == 0
    assert not list(Path("sheets").rglob(f"{UNFINISHED}*"))
    assert build("--for", "crew", "--to", "whole").code == 0
    whole = files("whole")
    assert files("sheets") == whole
    assert all(whole[name] == content for name, content in stopped.items())
