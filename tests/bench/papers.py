"""What the sheets for paper cost, against typst that compiles the same files with their values ready.

Both sides do it in processes of their own, as what was set before is set again sooner. It is processor time that is
counted, of all threads: it tells the same on a machine that does something else beside.
"""

from __future__ import annotations

import multiprocessing
import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from multiprocessing.connection import Connection
from pathlib import Path
from statistics import median
from time import process_time
from typing import Literal

from setwright.compiler.disk import files_at
from setwright.compiler.model import Program
from setwright.compiler.person import base_of, compile_person, read
from setwright.compiler.project import load
from setwright.compiler.roster import Roster, shared_texts
from setwright.targets import pdf
from setwright.targets.pdf.compiling import compiled

from .people import write_project
from .trimming import Line

PEOPLE, FEW, CORES, TURNS, WARM = 1000, 40, 2, 5, 5
Side = Literal["ours", "typst"]


def lines() -> Iterator[Line]:
    """One handout, and handout, guide and log of a thousand people."""
    folder = Path(tempfile.mkdtemp())
    try:
        few, many = folder / "few", folder / "many"
        write_project(few, FEW + WARM)
        write_project(many, PEOPLE + WARM * CORES)
        pairs = [(_seconds(few, 1, "ours", one=True), _seconds(few, 1, "typst", one=True)) for _ in range(TURNS)]
        what = "the PDF of one handout / typst, the same file with its values ready"
        yield _ratio(what, [(one / FEW, other / FEW) for one, other in pairs])
        pair = (_seconds(many, CORES, "ours"), _seconds(many, CORES, "typst"))
        yield _ratio(f"PDFs of {PEOPLE:,} people / typst alone, {CORES} processes each", [pair])
    finally:
        shutil.rmtree(folder)


def _ratio(what: str, pairs: list[tuple[float, float]]) -> Line:
    ours, theirs = (median(side) * 1000 for side in zip(*pairs, strict=True))
    return what, median(a / b for a, b in pairs), 1.3, f"{ours:,.0f} ms / {theirs:,.0f} ms, {len(pairs)} turns"


def _seconds(project: Path, cores: int, side: Side, *, one: bool = False) -> float:
    """Seconds of processor time in which all processes together made the PDFs of their people."""
    start = multiprocessing.get_context("spawn")
    pipes = [start.Pipe() for _ in range(cores)]
    workers = [
        start.Process(target=_work, args=(project, (part, cores), side, one, theirs))
        for part, (_, theirs) in enumerate(pipes)
    ]
    for worker in workers:
        worker.start()
    told = [ours.recv() for ours, _ in pipes]
    for worker in workers:
        worker.join()
    assert sum(size for _, size in told) > (FEW if one else PEOPLE) * 10_000
    return sum(seconds for seconds, _ in told)


def _work(project: Path, share: tuple[int, int], side: Side, one: bool, parent: Connection) -> None:
    programs = list(_programs(project, *share))
    ready = [_ready(program, one) for program in programs] if side == "typst" else []
    warm = sum(_made(sheets) for sheets in (_ready(program, one) for program in programs[:WARM]))
    assert warm
    begun = process_time()
    written = sum(
        map(_made, ready[WARM:] if side == "typst" else (_ready(program, one) for program in programs[WARM:]))
    )
    parent.send((process_time() - begun, written))


def _made(sheets: list[tuple[str, str, str]]) -> int:
    return sum(len(compiled(template, data)) for _, template, data in sheets)


def _ready(program: Program, one: bool) -> list[tuple[str, str, str]]:
    """The sheets of a person with their values, or the handout alone."""
    sheets = pdf.ready(program, ())
    return [next(sheets)] if one else list(sheets)


def _programs(project: Path, part: int, parts: int) -> Iterator[Program]:
    """The programs of a share of the people, fitted to them."""
    files = files_at(project)
    roster = Roster(files.fetch)
    base = base_of(read(shared_texts(load(list(files.paths), roster.thin, known=files.paths))))
    for name in list(roster.athletes)[part::parts]:
        for fitting in compile_person(base, roster.pieces(name)).fittings:
            yield fitting.program


if __name__ == "__main__":
    os.environ.setdefault("PYTHONHASHSEED", "0")
    for what, figure, bar, behind in lines():
        sys.stdout.write(f"{what:<72} {figure:>8.4g} {'' if bar is None else bar:>6.4} {behind}\n")
        sys.stdout.flush()
