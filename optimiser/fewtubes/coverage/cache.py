"""Results kept on disk from run to run.

A file's name is the digest of everything its content follows from, so that an edit of the
catalogue, or another version of the program, finds nothing and computes anew. A file begins with
the digest of the rest, so that damage is noticed. The folder may be deleted at any time; a file
that cannot be read or written, or is damaged, is as good as none.
"""

import contextlib
import hashlib
import io
import os
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from fewtubes import __version__

__all__ = ["FORMAT", "Cache", "default_cache"]

FORMAT = 3
"""Raised when the same digest would stand for another content."""

SEAL_BYTES = 32
"""Length of the SHA-256 digest at the head of a file."""

ENVIRONMENT_VARIABLE = "FEWTUBES_CACHE"

Arrays = Mapping[str, npt.NDArray[Any]]


@dataclass(frozen=True)
class Cache:
    """A folder of results, or nothing (`folder` None), which remembers nothing."""

    folder: Path | None = None

    def load(self, kind: str, basis: Arrays) -> dict[str, npt.NDArray[Any]] | None:
        """Return the arrays stored for this basis, or None."""
        if self.folder is None:
            return None
        try:
            data = self._path(self.folder, kind, basis).read_bytes()
        except OSError:
            return None
        seal, body = data[:SEAL_BYTES], data[SEAL_BYTES:]
        if seal != hashlib.sha256(body).digest():
            return None
        with np.load(io.BytesIO(body), allow_pickle=False) as stored:
            return {name: stored[name] for name in stored.files}

    def store(self, kind: str, basis: Arrays, content: Arrays) -> None:
        """Keep arrays for this basis; a folder that cannot be written is passed over."""
        if self.folder is None:
            return
        target = self._path(self.folder, kind, basis)
        body = io.BytesIO()
        np.savez(body, **content)  # type: ignore[arg-type]  # names differ from its own keywords
        with contextlib.suppress(OSError):
            self.folder.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(dir=self.folder, prefix=f"{kind}-", suffix=".part")
            try:
                with os.fdopen(handle, "wb") as file:
                    file.write(hashlib.sha256(body.getbuffer()).digest())
                    file.write(body.getbuffer())
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


def default_cache() -> Cache:
    """Return the user's cache: the folder in FEWTUBES_CACHE, or the platform's usual place."""
    import platformdirs  # noqa: PLC0415

    chosen = os.environ.get(ENVIRONMENT_VARIABLE)
    return Cache(Path(chosen) if chosen else Path(platformdirs.user_cache_dir("fewtubes")))
