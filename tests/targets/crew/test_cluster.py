"""The same packs from the workers of a Dask cluster, one of which is lost on the way."""

import json
import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import vl_convert
from distributed import LocalCluster
from setwright.targets.crew import record

from .conftest import crew_text, files

PEOPLE = tuple(f"athlete-{number}" for number in range(400))


@pytest.fixture
def cluster() -> Iterator[LocalCluster]:
    with LocalCluster(
        n_workers=3, threads_per_worker=1, processes=True, dashboard_address=None, silence_logs=50
    ) as running:
        yield running


def test_a_worker_is_killed_and_nothing_is_lost(build: Callable, cluster: LocalCluster):
    Path("crew.coach").write_text(crew_text(PEOPLE))
    killed: list[int] = []

    def kill() -> None:
        deadline = time.monotonic() + 60
        while len(list(Path("sheets").glob("*/.made.json"))) < 30 and time.monotonic() < deadline:
            time.sleep(0.01)
        killed.append(next(iter(cluster.workers.values())).pid)
        os.kill(killed[0], signal.SIGKILL)

    killer = threading.Thread(target=kill)
    killer.start()
    ran = build("--for", "crew", "--scheduler", cluster.scheduler_address)
    killer.join()
    assert killed and ran.code == 0
    assert f"{len(PEOPLE)} packs" in ran.out
    assert build("--for", "crew", "--to", "here").code == 0
    assert files("sheets") == files("here")


def test_a_scheduler_that_is_lost(build: Callable, tmp_path: Path):
    Path("crew.coach").write_text(crew_text(PEOPLE))
    place = tmp_path / "scheduler.json"
    command = [sys.executable, "-m", "distributed.cli.dask_scheduler", "--port", "0", "--no-dashboard"]
    scheduler = subprocess.Popen([*command, "--scheduler-file", place], stderr=subprocess.DEVNULL)
    command = [sys.executable, "-m", "distributed.cli.dask_worker", "--nthreads", "1", "--no-nanny", "--no-dashboard"]
    worker = subprocess.Popen(
        [*command, "--death-timeout", "30", "--scheduler-file", place], stderr=subprocess.DEVNULL, cwd=tmp_path
    )

    def kill() -> None:
        deadline = time.monotonic() + 60
        while not list(Path("sheets").glob("*/.made.json")) and time.monotonic() < deadline:
            time.sleep(0.01)
        scheduler.kill()

    killer = threading.Thread(target=kill)
    try:
        deadline = time.monotonic() + 60
        while not place.exists():
            assert time.monotonic() < deadline
            time.sleep(0.05)
        address = json.loads(place.read_text())["address"]
        killer.start()
        ran = build("--for", "crew", "--scheduler", address)
        killer.join()
    finally:
        scheduler.kill()
        worker.kill()
        scheduler.wait()
        worker.wait()
    assert ran.code == 2
    assert f"the scheduler at {address} was lost" in ran.err and "Traceback" not in ran.err
    assert build("--for", "crew").code == 0


def test_workers_get_the_logo(build: Callable, cluster: LocalCluster):
    """They read no file of the project."""
    svg = '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>'
    Path("hall.png").write_bytes(vl_convert.svg_to_png(svg))
    text = Path("hall.coach").read_text()
    Path("hall.coach").write_text(text.replace("  category legs", '  logo "hall.png", showing "a"\n  category legs', 1))
    assert build("--for", "crew", "--scheduler", cluster.scheduler_address).code == 0
    assert "data:image/png;base64," in Path("sheets/maren/maren-hall-handout.html").read_text()
    assert build("--for", "crew", "--to", "here").code == 0
    assert files("sheets") == files("here")


def test_a_second_build_of_a_cluster_writes_nothing(build: Callable, cluster: LocalCluster):
    first = build("--for", "crew", "--scheduler", cluster.scheduler_address)
    made = files("sheets")
    second = build("--for", "crew", "--scheduler", cluster.scheduler_address)
    assert (first.code, second.code) == (0, 0)
    assert "as they should be" in second.out and "maren" not in second.out
    assert files("sheets") == made


def test_errors_of_an_athlete_come_back(build: Callable, cluster: LocalCluster):
    text = crew_text()
    Path("crew.coach").write_text(text.replace("begins goblet-squat", "begins goblet-sqat", 1))
    ran = build("--for", "crew", "--scheduler", cluster.scheduler_address)
    assert ran.code == 1
    assert "crew.coach:9:" in ran.err and "because of errors: maren" in ran.out


def test_workers_with_another_setwright(build: Callable, cluster: LocalCluster, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr("setwright.targets.command_line.crew.edition", lambda: "0.0 other")
    assert record.edition() != "0.0 other"
    ran = build("--for", "crew", "--scheduler", cluster.scheduler_address)
    assert ran.code == 2
    assert "another Setwright" in ran.err
    assert not Path("sheets").exists()


def test_no_scheduler_there(build: Callable, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr("setwright.targets.crew.workers.PATIENCE", 1)
    ran = build("--for", "crew", "--scheduler", "tcp://127.0.0.1:9")
    assert ran.code == 2
    assert "no Dask scheduler answers at tcp://127.0.0.1:9" in ran.err


def test_an_address_that_is_none(build: Callable):
    ran = build("--for", "crew", "--scheduler", "nowhere")
    assert ran.code == 2
    assert "nowhere" in ran.err


def test_a_cluster_without_workers(build: Callable, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr("setwright.targets.crew.workers.PATIENCE", 1)
    with LocalCluster(n_workers=0, dashboard_address=None, silence_logs=50) as empty:
        ran = build("--for", "crew", "--scheduler", empty.scheduler_address)
    assert ran.code == 2
    assert "has no workers" in ran.err
