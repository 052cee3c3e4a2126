"""Writes a set of files again and again, each time cut off at the next step; a program of its own.

    python cut_off.py PLACE SIGNAL before|after SET [SIGNAL2 SET2]

The steps are all calls of this process that give or take names or flush to the disk. For each of
them, one after the other, a child process makes the folder ``PLACE/<step>`` with earlier files in
it, writes SET and sends itself SIGNAL just before or after that step. With a second signal, and if
that left a mixture, it then writes SET2 cut off in the same way at each of its own steps, in
``PLACE/<step>-<step>``. A file
``<step>.written`` tells that the writer was told that all files are in their places.
"""

import hashlib
import json
import os
import signal
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from fewtubes.files.writing import write_together

STEPS = ("fsync", "link", "mkdir", "replace", "rmdir", "unlink")
"""Functions of `os` that leave another state on the disk."""


def as_set(word: str) -> dict[str, dict[str, str]]:
    """Return for each folder the files of a set, `plan.json` with the digests of its fellows."""
    files = {"list.csv": f"{word} list", "recipes.csv": f"{word} recipes"}
    digests = {name: hashlib.sha256(text.encode()).hexdigest() for name, text in files.items()}
    plan = json.dumps({"of": word, "fellow_files_sha256": digests})
    return {"out": files | {"plan.json": plan}, "pictures": {"bloom.svg": f"{word} bloom"}}


SETS: Mapping[str, Mapping[str, Mapping[str, str]]] = {
    "old": as_set("old"),
    "new": as_set("new"),
    "why": {"out": {"why.csv": "why"}, "pictures": {"why.svg": "why"}},
    "other": {"out": {"why.csv": "why"}},
    "other picture": {"pictures": {"why.svg": "why"}},
}


def wrapped(step: int, number: int, when: str) -> Callable[[Callable[..., Any]], Any]:
    """Return what makes functions send the signal at the step, counted over all of them."""
    count = iter(range(1_000_000))

    def wrap(function: Callable[..., Any]) -> Callable[..., Any]:
        def counted(*args: Any, **kwargs: Any) -> Any:
            here = next(count) == step
            if here and when == "before":
                os.kill(os.getpid(), number)
            try:
                return function(*args, **kwargs)
            finally:
                if here and when == "after":
                    os.kill(os.getpid(), number)

        return counted

    return wrap


def written_in_child(place: Path, name: str, step: int, number: int, when: str) -> int:
    """Write a set in a child process; return what `os.waitpid` says of how it ended."""
    child = os.fork()
    if child:
        return os.waitpid(child, 0)[1]
    wrap = wrapped(step, number, when)
    for function in STEPS:
        setattr(os, function, wrap(getattr(os, function)))
    code = 0
    try:
        write_together(
            {place / folder: files for folder, files in SETS[name].items()},
            written=lambda: Path(f"{place}.written").touch(),
        )
    except KeyboardInterrupt:
        code = 128 + signal.SIGINT
    finally:
        os._exit(code)


def unflushed(fd: Any) -> None:
    """Stand for `os.fsync`: a kill needs no disk, and the disk takes its time."""


def main() -> None:
    """Do as the arguments say; print a line a step: its name and how the last child ended."""
    os.fsync = unflushed
    place, number, when, name = Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3], sys.argv[4]
    second = sys.argv[5:]
    for step in range(1_000):
        ended = cut_off(place / str(step), name, step, number, when)
        if not second:
            print(step, ended)
        for further in range(1_000 if second and is_mixed(place / str(step)) else 0):
            again = place / f"{step}-{further}"
            cut_off(again, name, step, number, when)
            then = written_in_child(again, second[1], further, int(second[0]), when)
            print(f"{step}-{further}", then)
            if not then:
                break
        if not ended:
            return


def is_mixed(place: Path) -> bool:
    """Whether some but not all files are those of the new set."""
    names = [(folder, file) for folder, files in SETS["new"].items() for file in files]
    new = [
        (place / folder / file).read_text(encoding="utf-8") == SETS["new"][folder][file]
        for folder, file in names
    ]
    return any(new) and not all(new)


def cut_off(place: Path, name: str, step: int, number: int, when: str) -> int:
    """Write the earlier files, and then the set in a child; return how that ended."""
    for folder, files in SETS["old"].items():
        (place / folder).mkdir(parents=True)
        for file, content in files.items():
            (place / folder / file).write_text(content, encoding="utf-8")
    return written_in_child(place, name, step, number, when)


if __name__ == "__main__":
    main()
