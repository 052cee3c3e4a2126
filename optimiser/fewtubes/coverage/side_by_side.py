"""Work on many chunks, shared among several cores.

Threads share what they need for nothing but get in each other's way; processes do not, but take
half a second to start. Processes end with the work, also when it is interrupted or killed. Only a
few chunks are under way at a time, so that neither they nor their results pile up.
"""

import os
import signal
import sys
import threading
from collections import deque
from collections.abc import Callable, Generator, Iterable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor, ThreadPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager, suppress
from multiprocessing import current_process, get_context, parent_process
from typing import TYPE_CHECKING, Any, TypeVar

from fewtubes.files.interruptions import held, told
from fewtubes.threads import one_thread_per_product

if TYPE_CHECKING:
    from multiprocessing.queues import SimpleQueue

__all__ = ["AHEAD", "deaf", "in_processes", "in_threads", "processes_can_start"]

CHUNKS_AT_ONCE = 16
"""Chunks handed to a process in one go, so that handing over does not count."""

LARGE_BLOCK = 30 * 2**20
"""Larger than any array worked on here [bytes]."""

AHEAD = 4
"""Pieces of work under way for each worker: enough that none waits for the next."""

Shared = TypeVar("Shared")
Chunk = TypeVar("Chunk")
Result = TypeVar("Result")

_shared: list[object] = []
"""In a working process: what all chunks share."""


def in_threads(
    work: Callable[[Shared, Chunk], Result],
    shared: Shared,
    chunks: Iterable[Chunk],
    *,
    workers: int,
) -> Generator[Result, None, None]:
    """Yield work(shared, chunk) for each chunk, in order, whatever the number of workers."""
    _keep_freed_memory()
    with one_thread_per_product(), ThreadPoolExecutor(workers) as pool:
        yield from _in_order(
            lambda chunk: pool.submit(work, shared, chunk), chunks, ahead=AHEAD * workers
        )


def in_processes(
    work: Callable[[Shared, Chunk], Result],
    shared: Shared,
    chunks: Sequence[Chunk],
    *,
    workers: int,
) -> Generator[Result, None, None]:
    """Do the same in processes of their own; in threads if those cannot be kept going.

    `work` is a function of a module; everything handed over can be pickled.
    """
    context = get_context("spawn")
    handed = context.SimpleQueue()
    pool = ProcessPoolExecutor(workers, context, initializer=_begin, initargs=(handed,))
    done = 0
    with told():
        try:
            with held(), deaf():
                ready = [pool.submit(_ready) for _ in range(workers)]  # starts all of them
            # In a thread, since a process that dies before it has taken all would be waited for.
            threading.Thread(target=_hand_over, args=(handed, shared, workers), daemon=True).start()
            for one in ready:
                one.result()
            starts = range(0, len(chunks), CHUNKS_AT_ONCE)
            handfuls = (chunks[start : start + CHUNKS_AT_ONCE] for start in starts)
            results_in_order = _in_order(
                lambda some: pool.submit(_worked, work, some), handfuls, ahead=AHEAD * workers
            )
            for results in results_in_order:
                for result in results:
                    done += 1
                    yield result
        except BrokenProcessPool:
            yield from in_threads(work, shared, chunks[done:], workers=workers)
        finally:
            pool.shutdown(wait=True, cancel_futures=True)
            handed.close()  # lets go whoever still hands over, if a process died


def _in_order(
    submit: Callable[[Chunk], "Future[Result]"], chunks: Iterable[Chunk], *, ahead: int
) -> Iterator[Result]:
    """Yield the results in order, a few chunks ahead; leave no work behind if it is broken off."""
    waiting: deque[Future[Result]] = deque()
    try:
        for chunk in chunks:
            waiting.append(submit(chunk))
            if len(waiting) >= ahead:
                yield waiting.popleft().result()
        while waiting:
            yield waiting.popleft().result()
    finally:
        for future in waiting:
            future.cancel()


@contextmanager
def deaf() -> Iterator[None]:
    """Let processes that are started meanwhile never hear of an interrupt.

    What a thread blocks stays so in a process that it starts (POSIX, fork and exec), where else an
    interrupt could come before it is told to leave them to its parent. What tracks resources would
    unblock it; so it is started before.
    """
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    from multiprocessing import resource_tracker  # POSIX only

    resource_tracker.ensure_running()
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def processes_can_start() -> bool:
    """Whether this process may start others: not if it is to end with its parent.

    Neither if the program was not read from a file, which the others would have to read again.
    """
    main = sys.modules.get("__main__")
    read_again = getattr(main, "__spec__", None) or getattr(main, "__file__", None)
    return not current_process().daemon and bool(read_again)


def _hand_over(handed: "SimpleQueue[object]", shared: object, workers: int) -> None:
    """Hand all processes what they share, until they are gone."""
    with suppress(OSError, ValueError):
        for _ in range(workers):
            handed.put(shared)


def _begin(handed: "SimpleQueue[object]") -> None:
    """Make a process ready: its parent alone is interrupted, products are done on one thread."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()
    one_thread_per_product().__enter__()  # for as long as the process lasts
    _keep_freed_memory()
    _shared[:] = [handed.get()]


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


def _ready() -> None:
    """Do nothing, once the process is ready."""


def _worked(work: Callable[[Any, Chunk], Result], chunks: Sequence[Chunk]) -> list[Result]:
    """Return the results for some chunks, in a working process."""
    return [work(_shared[0], chunk) for chunk in chunks]
