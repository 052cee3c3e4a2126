"""Digests of the files written by one run, so that files of different runs can be told apart.

`plan.json` and `compare.json` name the SHA-256 of every other file of their run. If a run was
killed while its files changed places, one of the digests is not that of the file beside it.
"""

import hashlib
import json
import os
from collections.abc import Mapping
from pathlib import Path

from fewtubes.files.real_path import real_path
from fewtubes.files.regular_files import read_regular

__all__ = ["KEY", "NAMING", "digests", "paths_from", "strangers"]

KEY = "fellow_files_sha256"

NAMING = "plan.json"
"""The file that is looked at for the digests of its fellows."""

MOST_BYTES = 2**26
"""Longest file that is looked at; the longest shopping list takes a hundredth."""


def digests(fellows: Mapping[str, str | bytes]) -> dict[str, dict[str, str]]:
    """Return the key with the digests of files by name; nothing if there are none."""
    if not fellows:
        return {}
    return {KEY: {name: _digest(_as_bytes(content)) for name, content in fellows.items()}}


def paths_from(
    folder: Path, files: Mapping[Path, Mapping[str, bytes | str]]
) -> dict[str, bytes | str]:
    """Return files by their path from a folder, with ``/``; left out where there is no way."""
    found: dict[str, bytes | str] = {}
    for other, contents in files.items():
        try:
            way = Path(os.path.relpath(real_path(other), real_path(folder))).as_posix()
            way.encode("utf-8")
        except (OSError, ValueError):  # on another drive, no folder at all, a name that is no text
            continue
        start = "" if way == "." else f"{way}/"
        found |= {f"{start}{name}": content for name, content in contents.items()}
    return found


def strangers(folder: Path) -> tuple[str, ...]:
    """Return the files of a folder that are not those that its `plan.json` names.

    Only files right in the folder are looked at; one that is gone is no stranger.
    """
    data = read_regular(folder / NAMING, most=MOST_BYTES)
    try:
        named = None if data is None else json.loads(data)[KEY]
    except (ValueError, TypeError, KeyError, RecursionError):
        return ()
    if not isinstance(named, dict):
        return ()
    return tuple(name for name, told in named.items() if _is_strange(folder, name, told))


def _is_strange(folder: Path, name: str, told: object) -> bool:
    if name in {"", ".", ".."} or Path(name).name != name:
        return False
    data = read_regular(folder / name, most=MOST_BYTES)
    return data is not None and _digest(data) != told


def _as_bytes(content: str | bytes) -> bytes:
    return content.encode("utf-8") if isinstance(content, str) else content


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
