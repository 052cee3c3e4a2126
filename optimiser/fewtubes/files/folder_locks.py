"""Locks, so that only one run at a time works in a folder.

The folder itself is locked (flock(2)), so that nothing is left behind, and the system gives the
lock back when a run ends, however it ends. Whoever holds the lock knows that what an earlier run
left there is of nobody any more.
"""

import contextlib
import errno
import os
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

if sys.platform != "win32":
    import fcntl

__all__ = ["locked"]

PATIENCE = 30.0
"""Time to wait for another run; writing a set takes less than one [s]."""

LOOK_SECONDS = 0.02
"""Between two looks whether a lock is free [s]."""


@contextlib.contextmanager
def locked(folders: Iterable[Path], *, waiting: Callable[[], None]) -> Iterator[frozenset[Path]]:
    """Lock folders; wait for other runs.

    Parameters
    ----------
    folders
        Full paths without links.
    waiting
        Called again and again while waiting; may raise.

    Yields
    ------
    The folders that are locked: not those of a system or disk that knows no such locks.

    Raises
    ------
    OSError
        If another run did not end in time.
    """
    until = time.monotonic() + PATIENCE
    ordered = sorted(set(folders))  # the same order everywhere, so that no two wait for each other
    with contextlib.ExitStack() as stack:
        yield frozenset(
            folder
            for folder in ordered
            if stack.enter_context(_locked(folder, until=until, waiting=waiting))
        )


@contextlib.contextmanager
def _locked(folder: Path, *, until: float, waiting: Callable[[], None]) -> Iterator[bool]:
    while True:
        try:
            handle = os.open(folder, os.O_RDONLY)
        except OSError:  # not there, not to be read, or a system that opens no folders
            yield False
            return
        try:
            taken = _take(handle)
            if taken is not None and (not taken or _is(folder, handle)):
                yield taken
                return
        finally:
            os.close(handle)  # gives the lock back
        waiting()
        if time.monotonic() > until:
            raise OSError(errno.EBUSY, "another run is writing there and does not end")
        time.sleep(LOOK_SECONDS)


def _take(handle: int) -> bool | None:
    """Lock an open folder; return None if another run holds it, False if there are no locks."""
    if sys.platform == "win32":
        return False
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return None
    except OSError:
        return False
    return True


def _is(folder: Path, handle: int) -> bool:
    """Whether the folder is still the opened one, and was not removed or replaced meanwhile."""
    try:
        return os.path.samestat(folder.stat(), os.fstat(handle))
    except FileNotFoundError:
        return False
