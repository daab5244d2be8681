"""How far a long build is, on a terminal alone."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator

from ..crew.outcome import Outcome

FEW = 10  # people who are built before anybody could read a bar


def watched(partitions: Iterable[list[Outcome]], people: int) -> Iterator[Outcome]:
    """The outcomes one by one, with a bar on the error output while they come."""
    if people <= FEW or sys.stderr is None or not sys.stderr.isatty():
        for outcomes in partitions:
            yield from outcomes
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

    columns = (TextColumn("packs"), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    with Progress(*columns, console=Console(file=sys.stderr), transient=True) as progress:
        task = progress.add_task("packs", total=people)
        for outcomes in partitions:
            progress.advance(task, len(outcomes))
            yield from outcomes
