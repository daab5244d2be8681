"""Who builds the partitions: this process, processes of this machine, or the workers of a Dask cluster.

Each takes partitions as they are needed and gives outcomes as they come, so that only a few are in memory at once.
"""

from __future__ import annotations

import gc
import logging
import os
import signal
from collections.abc import Iterable, Iterator
from concurrent.futures import CancelledError
from contextlib import contextmanager
from itertools import islice
from threading import Thread
from typing import TYPE_CHECKING, Any

from .beside import can_split
from .outcome import OtherEdition, Outcome, Shared, Wanted
from .record import edition

if TYPE_CHECKING:
    from concurrent.futures import Future, ProcessPoolExecutor

PATIENCE = 20  # seconds to wait for a cluster to answer
Partition = tuple[Wanted, ...]


class Unbuildable(Exception):
    """Nobody is there to build: the sentence that says why."""


def here(shared: Shared, partitions: Iterable[Partition]) -> Iterator[list[Outcome]]:
    """One partition after another in this process."""
    from .partition import build_partition

    for people in partitions:
        yield build_partition(shared, people)


# Processes of this machine


def in_processes(shared: Shared, partitions: Iterable[Partition], jobs: int) -> Iterator[list[Outcome]]:
    """As many partitions at once as there are jobs, each in a process of its own; they start at once."""
    import multiprocessing
    from concurrent.futures import ProcessPoolExecutor

    from . import partition  # noqa: F401 (a process that is split off has it already)

    # Split off, a process has all modules already.
    start = multiprocessing.get_context("fork" if can_split() else "spawn")
    waiting = iter(partitions)
    pool = ProcessPoolExecutor(jobs, start, _begin, (shared,))
    with _interrupts_held():
        running = {pool.submit(_in_process, people) for people in islice(waiting, 2 * jobs)}
    return _as_they_come(pool, running, waiting)


def _as_they_come(
    pool: ProcessPoolExecutor, running: set[Future[list[Outcome]]], waiting: Iterator[Partition]
) -> Iterator[list[Outcome]]:
    from concurrent.futures import FIRST_COMPLETED, wait
    from concurrent.futures.process import BrokenProcessPool

    with pool:
        try:
            while running:
                done, running = wait(running, return_when=FIRST_COMPLETED)
                running |= {pool.submit(_in_process, people) for people in islice(waiting, len(done))}
                for one in done:
                    yield one.result()
        except BrokenProcessPool:
            raise Unbuildable(
                "a process that built packs was ended from outside, perhaps for want of memory. What it had finished is "
                "kept: run the build again, with fewer --jobs if need be."
            ) from None
        except BaseException:
            pool.shutdown(wait=True, cancel_futures=True)
            raise


@contextmanager
def _interrupts_held() -> Iterator[None]:
    """Lets Ctrl-C wait while processes start: they keep that, where a system has it, and so do not complain of it."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


_shared: Shared | None = None


def _begin(shared: Shared) -> None:
    """Readies a process that builds: it keeps what all share, and ends when the one that started it is gone."""
    from multiprocessing import parent_process
    from multiprocessing.connection import wait

    global _shared  # noqa: PLW0603 (a process of its own, which serves one build)
    _shared = shared
    gc.set_threshold(100_000, 20, 20)  # as the process that it was started by has it
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C reaches all processes: the first one ends the others
    parent = parent_process()
    assert parent is not None
    Thread(target=lambda: (wait([parent.sentinel]), os._exit(1)), daemon=True).start()


def _in_process(people: Partition) -> list[Outcome]:
    from .partition import build_partition

    assert _shared is not None
    return build_partition(_shared, people)


# A cluster


def on_cluster(shared: Shared, partitions: Iterable[Partition], address: str) -> Iterator[list[Outcome]]:
    """Partitions on the workers of the Dask cluster whose scheduler is at the address.

    The work of a worker that is lost is done by another. What all share is a task of its own, not data that lies on some
    workers: with them it would be gone.
    """
    from .partition import build_partition

    distributed = _distributed()
    with _client(distributed, address) as client:
        ready = _ready(client, address, shared)
        base = client.submit(_same, shared, pure=False)
        waiting = iter(partitions)

        def submitted(count: int) -> list[Any]:
            return [client.submit(build_partition, base, people, pure=False) for people in islice(waiting, count)]

        running = distributed.as_completed(submitted(4 * ready), loop=client.loop)
        for one in running:
            outcomes = _result(distributed, one, address)
            running.update(submitted(1))
            one.release()
            yield outcomes


def _same(shared: Shared) -> Shared:
    return shared


def _distributed() -> Any:
    try:
        import distributed
    except ImportError:
        raise Unbuildable("--scheduler needs Dask: pip install 'setwright[cluster]'.") from None
    logging.getLogger("distributed.client").setLevel(logging.CRITICAL)  # what is lost is told in a sentence
    return distributed


def _client(distributed: Any, address: str) -> Any:
    try:
        return distributed.Client(address, timeout=PATIENCE, set_as_default=False)
    except (OSError, ValueError, TimeoutError):
        raise Unbuildable(
            f"no Dask scheduler answers at {address}. Start one with `dask scheduler`, and give the address that it prints."
        ) from None


def _ready(client: Any, address: str, shared: Shared) -> int:
    """How many partitions the workers can build at once; raises where there is no worker, or one with another Setwright."""
    try:
        client.wait_for_workers(1, timeout=PATIENCE)
    except TimeoutError:
        raise Unbuildable(
            f"the scheduler at {address} has no workers. Start some with `dask worker {address}`."
        ) from None
    try:
        editions = client.run(edition)
    except ModuleNotFoundError:
        raise Unbuildable(
            f"the workers at {address} have no Setwright: install this version of it where they run."
        ) from None
    other = sorted({one for one in editions.values() if one != shared.edition})
    if other:
        raise Unbuildable(_other(address, shared.edition, other[0]))
    return sum(client.nthreads().values()) or 1


def _result(distributed: Any, future: Any, address: str) -> list[Outcome]:
    try:
        outcomes: list[Outcome] = future.result()
    except OtherEdition as other:
        raise Unbuildable(_other(address, edition(), str(other))) from None
    except CancelledError:
        raise Unbuildable(
            f"the scheduler at {address} was lost. What was finished is kept: start one anew, and run the build again."
        ) from None
    except distributed.KilledWorker:
        raise Unbuildable(
            "the workers that built one and the same few people were lost again and again, perhaps for want of memory. "
            "What was finished is kept: run the build again."
        ) from None
    return outcomes


def _other(address: str, ours: str, theirs: str) -> str:
    return f"the workers at {address} have another Setwright ({theirs}; here it is {ours}): install the same on all."


def cores() -> int:
    """The cores that this process may use."""
    allowed = getattr(os, "sched_getaffinity", None)  # not on every system
    return len(allowed(0)) if allowed is not None else os.cpu_count() or 1
