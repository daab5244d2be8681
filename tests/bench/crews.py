"""Packs of many people: what a build costs beside the rendering of its templates, a second one, and ten times the people.

The floor renders the same templates as often, in as many processes, with values that were ready before the clock started,
each of them in full. A second floor, without a bar, keeps what a build keeps because it is the same on the sheets of many
people (`Once` and `kept` in `targets/sheet.py`).
All is wall time of whole processes, and of the floor that of its rendering alone.
"""

import multiprocessing
import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from functools import partial
from multiprocessing.connection import Connection
from pathlib import Path
from statistics import median
from time import perf_counter

from setwright.compiler.disk import files_at
from setwright.compiler.project import load
from setwright.compiler.roster import Roster, shared_texts
from setwright.targets import handout, log_sheet, short, web_log
from setwright.targets.crew.outcome import Shared, Wanted
from setwright.targets.crew.partition import build_partition
from setwright.targets.crew.record import edition
from setwright.targets.printing import KINDS, Printing
from setwright.targets.sheet import html_environment, markdown_environment

from .people import ROOT, write_project
from .processes import CLEAN, installed
from .trimming import Line

PEOPLE, MORE, CORES, TURNS = 1000, 10_000, 2, 3
# A small process starts the build: what a process has used counts as used by what it starts.
BUILD = """\
import resource, subprocess, sys, time
command = "from setwright.targets.command_line import console; console()"
start = time.perf_counter()
code = subprocess.run([sys.executable, "-c", command, *sys.argv[1:]], stdout=subprocess.DEVNULL).returncode
print("took", time.perf_counter() - start, "peak", resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
sys.exit(code)
"""


def lines() -> Iterator[Line]:
    """The figures of a crew of a thousand, and of one of ten thousand."""
    folder = Path(tempfile.mkdtemp())
    try:
        yield from _measured(folder)
    finally:
        shutil.rmtree(folder)


def _measured(folder: Path) -> Iterator[Line]:
    python, _ = installed(ROOT, folder)
    project = folder / "crew"
    write_project(project, PEOPLE)
    turns = [_turn(python, project, folder / f"packs-{number}") for number in range(TURNS)]
    first, again, changed, floor, keeping, peak = (list(side) for side in zip(*turns, strict=True))
    what = f"{PEOPLE:,} athletes' packs"
    yield _ratio(f"{what} / rendering alone, {CORES} processes each", first, floor, 1.5)
    yield _ratio("the same / rendering alone, which keeps what a build keeps", first, keeping, None)
    yield _ratio(f"{what} again, nothing changed / the first time", again, first, 1 / 20)
    yield _ratio(f"{what} again, one athlete changed / the first time", changed, first, 1 / 15)
    large = folder / "organisation"
    write_project(large, MORE)
    seconds, memory = build(python, large, folder / "more")
    usual = median(first)
    yield f"{MORE:,} athletes' packs / {what}", seconds / usual, 10.5, f"{seconds:,.1f} s / {usual:,.1f} s"
    megabytes = [one / 1024 for one in (memory, median(peak))]
    yield (
        "the largest process of it / the same",
        memory / median(peak),
        1.3,
        " / ".join(f"{one:,.0f} MB" for one in megabytes),
    )


def _ratio(what: str, ours: list[float], theirs: list[float], bar: float | None) -> Line:
    a, b = median(ours), median(theirs)
    ratio = median(one / other for one, other in zip(ours, theirs, strict=True))
    return what, ratio, bar, f"{a * 1000:,.0f} ms / {b * 1000:,.0f} ms, {len(ours)} turns"


def _turn(python: Path, project: Path, packs: Path) -> tuple[float, float, float, float, float, float]:
    """Seconds of a first build, a second, one with an athlete changed, and of both floors; kilobytes of the largest process."""
    first, peak = build(python, project, packs)
    again, _ = build(python, project, packs)
    path = project / "club-001.coach"
    text = path.read_text("utf-8")
    path.write_text(re.sub(r"body \d+ kg", f"body {50 + len(packs.name)}.5 kg", text, count=1), "utf-8")
    changed, _ = build(python, project, packs)
    path.write_text(text, "utf-8")
    return first, again, changed, floor(project), floor(project, keeping=True), peak


def build(python: Path, project: Path, packs: Path) -> tuple[float, int]:
    """Seconds of a build for everybody as a process of its own, and kilobytes of its largest process."""
    words = ["build", str(project), "--for", "all", "--to", str(packs), "--jobs", str(CORES)]
    words += ["--without", "tables,pdf,phone,calendar"]
    done = subprocess.run(
        [str(python), "-c", BUILD, *words],
        env=CLEAN,
        check=False,
        capture_output=True,
        encoding="utf-8",
    )
    assert done.returncode == 0, done.stderr[-2000:]
    _, seconds, _, peak = done.stdout.split()
    return float(seconds), int(peak)


# The floor


def floor(project: Path, *, keeping: bool = False) -> float:
    """Seconds to render everybody's templates in processes that have all values ready.

    With `keeping` they keep what is the same on many sheets.
    """
    start = multiprocessing.get_context("spawn")
    pipes = [start.Pipe() for _ in range(CORES)]
    workers = [
        start.Process(target=_render, args=(project, part, theirs, keeping)) for part, (_, theirs) in enumerate(pipes)
    ]
    for worker in workers:
        worker.start()
    for ours, _ in pipes:
        ours.recv()  # it is ready
    begun = perf_counter()
    for ours, _ in pipes:
        ours.send(None)
    written = sum(ours.recv() for ours, _ in pipes)
    seconds = perf_counter() - begun
    for worker in workers:
        worker.join()
    assert written > PEOPLE * 1000
    return seconds


def _render(project: Path, part: int, parent: Connection, keeping: bool) -> None:
    import gc

    gc.set_threshold(100_000, 20, 20)  # as in the processes of a build
    ready = _ready(project, part)
    if not keeping:
        _keep_nothing()
    for fill, template, values in ready[:20]:
        fill(template, values)  # templates are compiled, as in a process that builds already
    gc.collect()
    gc.freeze()
    parent.send(None)
    parent.recv()
    parent.send(sum(len(fill(template, values)) for fill, template, values in ready))


def _keep_nothing() -> None:
    """From now on this process renders every piece anew."""
    for environment in (html_environment(), markdown_environment()):
        environment.globals["once"] = partial(_each_time, environment.globals["once"].finished)
        environment.filters["prose"] = environment.filters["prose"].__wrapped__
    markdown_environment().finalize = markdown_environment().finalize.__wrapped__


def _each_time(finished: Callable[[str], str], macro: Callable[..., str], *values: object) -> str:
    """A piece of a sheet, filled in as often as it is asked for."""
    return finished(macro(*values))


def _ready(project: Path, part: int) -> list[tuple[Callable[..., str], str, object]]:
    """Every template of a share of the people, with its values."""
    files = files_at(project)
    roster = Roster(files.fetch)
    texts = shared_texts(load(list(files.paths), roster.fetch))
    names = list(roster.athletes)[part::CORES]
    kept: list[tuple[Callable[..., str], str, object]] = []
    for target in (handout, short, log_sheet, web_log):
        for name in ("fill_html", "fill_markdown", "fill_text"):
            if hasattr(target, name):
                setattr(target, name, _keeping(getattr(target, name), kept))
    with tempfile.TemporaryDirectory() as nowhere:
        shared = Shared(texts, "floor", nowhere, None, None, edition(), Printing(without=KINDS))
        build_partition(shared, [Wanted(name, roster.pieces(name)) for name in names])
    return kept


def _keeping(fill: Callable[..., str], kept: list[tuple[Callable[..., str], str, object]]) -> Callable[..., str]:
    def keep(template: str, values: object, *_: object) -> str:
        kept.append((fill, template, values))
        return ""

    return keep


if __name__ == "__main__":
    os.environ.setdefault("PYTHONHASHSEED", "0")
    for what, figure, bar, behind in lines():
        sys.stdout.write(f"{what:<72} {figure:>8.4g} {'' if bar is None else bar:>6.4} {behind}\n")
        sys.stdout.flush()
