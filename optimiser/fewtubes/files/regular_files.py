"""Reads ordinary files and nothing else that may stand in their place.

A pipe, a device, a folder or a file beyond all measure must neither hang the program nor fill its
memory.
"""

import contextlib
import os
import stat
from pathlib import Path

__all__ = ["is_ours", "read_regular"]

WITHOUT_WAITING = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0)
"""Opening a pipe that nobody writes to returns at once, and no other program inherits the file."""

BINARY = getattr(os, "O_BINARY", 0)
"""Where the system would otherwise change line ends."""


def read_regular(path: Path, *, most: int) -> bytes | None:
    """Return the content of an ordinary file; None if it is none, too long or not to be read.

    Parameters
    ----------
    path
        A link is followed.
    most
        Longest content taken [bytes].
    """
    try:
        handle = os.open(path, os.O_RDONLY | WITHOUT_WAITING | BINARY)
    except (OSError, ValueError):  # ValueError: a null character in the name
        return None
    with contextlib.suppress(OSError), os.fdopen(handle, "rb") as file:
        found = os.fstat(handle)
        if stat.S_ISREG(found.st_mode) and found.st_size <= most:
            content = file.read(most + 1)
            return content if len(content) <= most else None
    return None


def is_ours(found: os.stat_result) -> bool:
    """Whether an ordinary file belongs to who runs this program, where the system tells."""
    mine = not hasattr(os, "geteuid") or found.st_uid == os.geteuid()
    return stat.S_ISREG(found.st_mode) and mine
