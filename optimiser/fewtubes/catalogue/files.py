"""Reads a text file, and tells whatever is wrong with it."""

import stat
from dataclasses import dataclass
from os import PathLike
from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import shown

__all__ = [
    "UTF_16",
    "HeldFile",
    "Source",
    "bytes_of",
    "folder_fault",
    "shown_name",
    "source_of",
    "text_of",
]

UTF_16 = (b"\xff\xfe", b"\xfe\xff")
"""Byte order marks of UTF-16; one of UTF-32 begins with the first."""

LOOKED_AT = 64
"""Bytes of a file in which every second one is null if it is UTF-16 of plain letters."""


@dataclass(frozen=True)
class HeldFile:
    """A file that is in memory and on no disk, such as one that a browser sent."""

    name: str
    """As whoever sent it named it."""
    content: bytes


Source = Path | HeldFile
"""Where a text is read from."""


def source_of(source: str | PathLike[str] | HeldFile) -> Source:
    """Return a name as a path, and what is in memory as it is."""
    return source if isinstance(source, HeldFile) else Path(source)


def text_of(
    path: Source, collector: FaultCollector, *, largest: int, where: str | None = None
) -> str | None:
    """Return the text of a UTF-8 file, without its byte order mark, or None after a fault.

    Parameters
    ----------
    path
        The file.
    collector
        Takes the fault.
    largest
        Bytes allowed.
    where
        What the fault is told of; the file's name if left out.
    """
    name = where or shown_name(path)
    data = bytes_of(path, name, collector, largest)
    if data is None:
        return None
    if _is_utf_16(data):
        collector.note(name, "is in UTF-16 or UTF-32; save it again with the encoding UTF-8.")
        return None
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # `error.object` is what was decoded, without the mark, and `start` counts within it.
        before = error.object[: error.start].replace(b"\r\n", b"\n").replace(b"\r", b"\n")
        line, value = before.count(b"\n") + 1, error.object[error.start]
        collector.note(
            f"{name}, line {line}",
            f"is not UTF-8 text (byte 0x{value:02x}); save the file again with the encoding UTF-8.",
        )
        return None


def shown_name(path: Source) -> str:
    """Return the name of a file as a fault is told of it."""
    return shown(path.name or ("file" if isinstance(path, HeldFile) else str(path)))[1:-1]


def folder_fault(folder: Path, holding: str) -> str | None:
    """Return what is wrong with a folder to read from, as a sentence, or None."""
    try:
        mode = folder.stat().st_mode
    except (OSError, ValueError) as error:  # ValueError: a null character in the name
        return f"there is no such folder ({_reason(error)}); name the folder that holds {holding}."
    if not stat.S_ISDIR(mode):
        return f"is not a folder; name the folder that holds {holding}."
    return None


def bytes_of(path: Source, where: str, collector: FaultCollector, largest: int) -> bytes | None:
    """Return the bytes of a file of ordinary kind and size, or None after a fault."""
    if isinstance(path, HeldFile):
        if len(path.content) <= largest:
            return path.content
        collector.note(where, _too_large(len(path.content), largest))
        return None
    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            collector.note(where, "is not a file; put the file itself in its place.")
        elif status.st_size > largest:
            collector.note(where, _too_large(status.st_size, largest))
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


def _too_large(size: int, largest: int) -> str:
    return f"has {size:,} bytes; at most {largest:,} are allowed, so shorten it."


def _is_utf_16(data: bytes) -> bool:
    """Return whether a file is UTF-16 or UTF-32, with its mark or without."""
    start = data[:LOOKED_AT]
    return data.startswith(UTF_16) or (
        len(start) > 1 and not (any(start[::2]) and any(start[1::2]))
    )


def _reason(error: OSError | ValueError) -> str:
    """Return the system's own words for an error, e.g. ``Permission denied``."""
    return getattr(error, "strerror", None) or str(error)
