"""Processes for what must be stoppable; none of them outlives the page."""

import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from multiprocessing import resource_tracker
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess

__all__ = ["begun", "ended"]

GRACE = 2.0
"""Time for a process to end once told to, before it is killed [s]."""


def begun(work: Callable[..., None], *given: object) -> tuple[BaseProcess, Connection]:
    """Begin work in a process of its own.

    Parameters
    ----------
    work
        A function of a module; it is called with what is given and the other end of the
        connection, which it closes.

    Returns
    -------
    :
        The process and this end of the connection.
    """
    spawning = multiprocessing.get_context("spawn")  # a fork would share threads and sockets
    here, there = spawning.Pipe()
    process = spawning.Process(target=_entered, args=(work, *given, there), daemon=True)
    try:
        with _keyboard_held_off():
            process.start()
    except BaseException:
        here.close()
        raise
    finally:
        there.close()
    return process, here


def ended(process: BaseProcess) -> None:
    """End a process; returns when it is gone."""
    process.terminate()
    process.join(GRACE)
    if process.is_alive():
        process.kill()
    process.join()


def _entered(work: Callable[..., None], *given: object) -> None:
    """Do the work; a keyboard's interruption is left to the process that started this one."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()
    work(*given)


def _end_with_parent() -> None:
    """End this process when the one that started it is gone, however that ended."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


@contextmanager
def _keyboard_held_off() -> Iterator[None]:
    """Hold the keyboard's interruption off from what is started meanwhile.

    A process inherits the signals that its starter's thread has blocked (POSIX, exec); without
    that an interruption that comes while it still imports ends in a traceback.
    """
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    resource_tracker.ensure_running()  # if it were started meanwhile, that would lift the block
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
