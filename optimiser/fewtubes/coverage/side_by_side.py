"""The same work on many chunks, on both cores.

Threads share what they need for nothing but get in each other's way; processes do not, but take
half a second to start. Processes end with the work, also when it is interrupted or killed.
"""

import os
import signal
import sys
import threading
from collections.abc import Callable, Iterable
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from itertools import repeat
from multiprocessing import current_process, get_context, parent_process
from typing import TypeVar

from fewtubes.interruptions import told
from fewtubes.threads import one_thread_per_product

__all__ = ["in_processes", "in_threads", "processes_can_start"]

WORKERS = 2
"""Workers; the machines that this is written for have two cores."""

CHUNKS_AT_ONCE = 16
"""Chunks handed to a process in one go."""

LARGE_BLOCK = 30 * 2**20
"""Larger than any array worked on here [bytes]."""

Shared = TypeVar("Shared")
Chunk = TypeVar("Chunk")
Result = TypeVar("Result")

_shared: list[object] = []
"""In a working process: what all chunks share."""


def in_threads(
    work: Callable[[Shared, Chunk], Result], shared: Shared, chunks: Iterable[Chunk]
) -> list[Result]:
    """Return work(shared, chunk) for each chunk, in order."""
    _keep_freed_memory()
    with one_thread_per_product(), ThreadPoolExecutor(WORKERS) as pool:
        return list(pool.map(lambda chunk: work(shared, chunk), chunks))


def in_processes(
    work: Callable[[Shared, Chunk], Result], shared: Shared, chunks: list[Chunk]
) -> list[Result]:
    """Do the same in processes of their own; in threads if those cannot be started.

    `work` is a function of a module; everything handed over can be pickled.
    """
    pool = ProcessPoolExecutor(
        WORKERS, mp_context=get_context("spawn"), initializer=_begin, initargs=(shared,)
    )
    with told():
        try:
            return list(pool.map(_worked, repeat(work), chunks, chunksize=CHUNKS_AT_ONCE))
        except BrokenProcessPool:
            return in_threads(work, shared, chunks)
        finally:
            pool.shutdown(wait=True, cancel_futures=True)


def processes_can_start() -> bool:
    """Whether this process may start others: not if it is to end with its parent.

    Neither if the program was not read from a file, which the others would have to read again.
    """
    main = sys.modules.get("__main__")
    read_again = getattr(main, "__spec__", None) or getattr(main, "__file__", None)
    return not current_process().daemon and bool(read_again)


def _begin(shared: object) -> None:
    """Make a process ready: its parent alone is interrupted, products are done on one thread."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()
    one_thread_per_product().__enter__()  # for as long as the process lasts
    _keep_freed_memory()
    _shared[:] = [shared]


def _end_with_parent() -> None:
    """End this process when the one that started it is gone, however that ended."""
    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


def _keep_freed_memory() -> None:
    """Let the C library keep what is freed instead of giving it back and asking for it anew.

    glibc raises its limit for that to the largest block freed so far, 32 MiB at most
    (mallopt(3), M_MMAP_THRESHOLD); elsewhere this does nothing.
    """
    block = bytearray(LARGE_BLOCK)
    del block


def _worked(work: Callable[[object, Chunk], Result], chunk: Chunk) -> Result:
    """Return the result for one chunk, in a working process."""
    return work(_shared[0], chunk)
