"""Results kept on disk from run to run.

A file's name is the digest of everything its content follows from, so that an edit of the
catalogue, or another version of the program, finds nothing and computes anew. A file begins with
the digest of its name and the rest, so that damage is noticed, and a file under another's name.
The folder may be deleted at any time; a file that cannot be read or written, is damaged, or is no
ordinary file, is as good as none.
"""

import contextlib
import hashlib
import os
import re
import tempfile
import time
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from fewtubes import __version__
from fewtubes.coverage.packed_arrays import packed, unpacked
from fewtubes.files.interruptions import held
from fewtubes.files.regular_files import is_ours, read_regular

__all__ = ["FORMAT", "MOST_BYTES", "Arrays", "Cache", "cache_of", "default_cache"]

FORMAT = 3
"""Raised when the same digest would stand for another content."""

SEAL_BYTES = 32
"""Length of the SHA-256 digest at the head of a file."""

MOST_BYTES = 2**28
"""Longest file that is written or read; a hundred times what the demo catalogue needs."""

ENVIRONMENT_VARIABLE = "FEWTUBES_CACHE"

UNFINISHED = re.compile(r"[a-z]+-[a-z0-9_]{8}\.part")
"""The name of a file that is being written, as `tempfile` makes it."""

ABANDONED_SECONDS = 3600
"""Age from which an unfinished file was left by a run that was cut off; writing takes seconds."""

Arrays = Mapping[str, npt.NDArray[Any]]


@dataclass(frozen=True)
class Cache:
    """A folder of results, or nothing (`folder` None), which remembers nothing."""

    folder: Path | None = None
    """Made when it is first needed; None remembers nothing."""

    def __post_init__(self) -> None:
        if self.folder is not None:
            object.__setattr__(self, "folder", Path(self.folder))

    def load(self, kind: str, basis: Arrays) -> dict[str, npt.NDArray[Any]] | None:
        """Return the arrays stored for this basis, or None.

        They are those of a file that this program sealed. Whether they are what the caller stored,
        names, shapes and types, the caller looks at itself.
        """
        if self.folder is None:
            return None
        path = self._path(self.folder, kind, basis)
        data = read_regular(path, most=MOST_BYTES)
        if data is None:
            return None
        body = memoryview(data)[SEAL_BYTES:]
        if data[:SEAL_BYTES] != _seal(path.name, body):
            return None
        return unpacked(body)

    def store(self, kind: str, basis: Arrays, content: Arrays) -> None:
        """Keep arrays for this basis; a folder that cannot be written is passed over."""
        if self.folder is None:
            return
        target = self._path(self.folder, kind, basis)
        body = packed(content)
        if SEAL_BYTES + len(body) > MOST_BYTES:
            return
        with (
            held(),
            contextlib.suppress(OSError, ValueError),
        ):  # ValueError: a null character in its name
            self.folder.mkdir(parents=True, exist_ok=True)
            _tidy(self.folder)
            handle, name = tempfile.mkstemp(dir=self.folder, prefix=f"{kind}-", suffix=".part")
            try:
                with os.fdopen(handle, "wb") as file:
                    file.write(_seal(target.name, body))
                    file.write(body)
                Path(name).replace(target)
            finally:
                Path(name).unlink(missing_ok=True)

    @staticmethod
    def _path(folder: Path, kind: str, basis: Arrays) -> Path:
        """Return the file for a basis."""
        digest = hashlib.sha256(f"{FORMAT} {__version__} {kind}".encode())
        for name in sorted(basis):
            array = np.ascontiguousarray(basis[name])
            digest.update(f"|{name} {array.dtype.str} {array.shape}|".encode())
            digest.update(array.tobytes())
        return folder / f"{kind}-{digest.hexdigest()[:32]}.cache"


def _seal(name: str, body: bytes | memoryview) -> bytes:
    """Return the digest of a file's name, which tells what it follows from, and its content."""
    digest = hashlib.sha256(f"{name}\n".encode())
    digest.update(body)
    return digest.digest()


def _tidy(folder: Path) -> None:
    """Remove unfinished files of runs that were cut off."""
    oldest = time.time() - ABANDONED_SECONDS
    with os.scandir(folder) as entries:
        for entry in entries:
            with contextlib.suppress(OSError):
                found = entry.stat(follow_symlinks=False)
                if UNFINISHED.fullmatch(entry.name) and is_ours(found) and found.st_mtime < oldest:
                    Path(entry.path).unlink()


def cache_of(cache: Cache | str | os.PathLike[str] | None) -> Cache:
    """Return a cache, also from the folder it is in; one that remembers nothing for None."""
    if cache is None:
        return Cache()
    return cache if isinstance(cache, Cache) else Cache(Path(cache))


def default_cache() -> Cache:
    """Return the user's cache: the folder in FEWTUBES_CACHE, or the platform's usual place.

    Where the system does not tell whose home it is, there is no usual place and no cache.
    """
    import platformdirs

    chosen = os.environ.get(ENVIRONMENT_VARIABLE)
    if chosen:
        return Cache(Path(chosen))
    usual = Path(platformdirs.user_cache_dir("fewtubes"))
    return Cache(usual if usual.is_absolute() else None)
