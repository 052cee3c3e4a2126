"""Where a path leads once every link is followed."""

import os
from pathlib import Path

__all__ = ["real_path"]


def real_path(path: Path) -> Path:
    """Return a path with links followed, absolute; a link that leads back to itself stays as it is.

    `pathlib.Path.resolve` raises RuntimeError over such a link before Python 3.13.
    """
    return Path(os.path.realpath(path))
