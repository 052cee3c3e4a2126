"""How long `fewtubes batch` takes for many scenarios, against as many single cold runs.

Run it by hand on a quiet machine; it is not a test and pytest does not collect it::

    python -m tests.benchmarks.bench_batch [--scenarios 100] [--single 10] [--keep FOLDER]

The scenarios are drawn from the flowers of the demo by a seed, three to nine each, with budgets
from 8 to 30, and written to a folder of their own. A single cold run is `shop --no-cache --out` in
a fresh process; ten of them, evenly spread over the scenarios, are timed and their mean stands for
all, unless `--single` says otherwise (0: every one). The batch is one fresh process with an empty
cache. Both write the same results, and whether they do is looked at. Where the machine is not quiet
the time that processors were busy with it tells more than the clock, so both are printed.
"""

import argparse
import os
import random
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

from tests.benchmarks.drawn_scenarios import write_scenarios
from tests.timed_files import without_seconds

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.workers import worker_count

__all__ = ["main"]

SEED = 20_261_126


def main(arguments: Sequence[str]) -> None:
    """Time single runs and a batch, and print the ratio."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("--scenarios", type=int, default=100)
    parser.add_argument("--single", type=int, default=10)
    parser.add_argument("--keep", type=Path, default=None)
    asked = parser.parse_args(arguments)
    with tempfile.TemporaryDirectory() as made:
        work = asked.keep or Path(made)
        folder = work / "scenarios"
        flowers = list(read_catalogue().flowers)
        paths = write_scenarios(folder, flowers, count=asked.scenarios, rng=random.Random(SEED))  # noqa: S311
        step = max(1, len(paths) // (asked.single or len(paths)))
        chosen = paths[::step][: asked.single or None]
        batch = _run(["batch", str(folder), "--out", str(work / "batch")], work / "cache")
        singles = [
            _run(
                ["shop", str(path), "--no-cache", "--out", str(work / "single" / path.stem)],
                work / "unused",
            )
            for path in chosen
        ]
        same = sum(_same(work / "batch" / it.stem, work / "single" / it.stem) for it in chosen)
    each = [sum(one[place] for one in singles) / len(singles) for place in (0, 1)]
    print(f"{len(paths)} scenarios, {worker_count()} processors")
    for place, what in enumerate(("clock", "busy")):
        total = each[place] * len(paths)
        print(
            f"  {what}: batch {batch[place]:.1f} s; {len(singles)} single runs {each[place]:.2f} s"
            f" each, so {total:.0f} s for all: {total / batch[place]:.1f} times"
        )
    print(f"  {same} of {len(chosen)} have the same files, but for the seconds in plan.json")


def _run(arguments: Sequence[str], cache: Path) -> tuple[float, float]:
    """Return how long a command takes, and how long processors were busy with it [s]."""
    before, began = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run(  # noqa: S603  # this very interpreter, on files made here
        [sys.executable, "-m", "fewtubes", *arguments],
        check=True,
        stdout=subprocess.DEVNULL,
        env=os.environ | {"FEWTUBES_CACHE": str(cache)},
    )
    taken, after = time.perf_counter() - began, resource.getrusage(resource.RUSAGE_CHILDREN)
    busy = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return taken, busy


def _same(one: Path, other: Path) -> bool:
    """Whether two folders hold the same files but for the seconds that a proof took."""
    names = sorted(path.name for path in other.iterdir())
    return names == sorted(path.name for path in one.iterdir()) and all(
        without_seconds((one / name).read_bytes()) == without_seconds((other / name).read_bytes())
        for name in names
    )


if __name__ == "__main__":
    main(sys.argv[1:])
