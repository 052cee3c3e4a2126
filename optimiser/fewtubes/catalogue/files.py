"""A text file of the user's, read so that whatever is wrong with it can be told."""

import stat
from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import shown

__all__ = ["folder_fault", "text_of"]

LARGEST_FILE = 20_000_000
"""Bytes; a hundred times the demo's largest table, and still read within a second or two."""


def text_of(path: Path, collector: FaultCollector) -> str | None:
    """Return the text of a UTF-8 file, without its byte order mark, or None after a fault."""
    name = shown(path.name or str(path))[1:-1]
    data = _bytes_of(path, name, collector)
    if data is None:
        return None
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # `error.object` is what was decoded, without the mark, and `start` counts within it.
        line = error.object[: error.start].count(b"\n") + 1
        value = error.object[error.start]
        collector.note(
            f"{name}, line {line}",
            f"is not UTF-8 text (byte 0x{value:02x}); save the file again with the encoding UTF-8.",
        )
        return None


def folder_fault(folder: Path, holding: str) -> str | None:
    """Return what is wrong with a folder to read from, as a sentence, or None."""
    try:
        mode = folder.stat().st_mode
    except (OSError, ValueError) as error:  # ValueError: a null character in the name
        return f"there is no such folder ({_reason(error)}); name the folder that holds {holding}."
    if not stat.S_ISDIR(mode):
        return f"is not a folder; name the folder that holds {holding}."
    return None


def _bytes_of(path: Path, where: str, collector: FaultCollector) -> bytes | None:
    """Return the bytes of a file of ordinary kind and size, or None after a fault."""
    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            collector.note(where, "is not a file; put the file itself in its place.")
        elif status.st_size > LARGEST_FILE:
            collector.note(where, f"is larger than {LARGEST_FILE:,} bytes; shorten it.")
        else:
            return path.read_bytes()
    except FileNotFoundError:
        collector.note(
            where,
            f"there is no such file in the folder '{path.parent}'; add it or correct the name.",
        )
    except (OSError, ValueError) as error:
        collector.note(where, f"cannot be read ({_reason(error)}); check name and permissions.")
    return None


def _reason(error: OSError | ValueError) -> str:
    """Return the system's own words for an error, e.g. ``Permission denied``."""
    return getattr(error, "strerror", None) or str(error)
