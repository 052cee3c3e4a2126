"""How long `fewtubes compare` takes on the demo catalogue, cold and warm.

Run it by hand on a quiet machine; it is not a test and pytest does not collect it::

    python tests/benchmarks/bench_compare.py [SCENARIO.toml …]

Each run is a fresh process; cold means an empty cache, warm the same once more. Without arguments
eight flowers of the demo catalogue are asked about, with a budget of 40.
"""

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

__all__ = ["main"]

FLOWERS = (
    "sweet pea, pink",
    "foxglove",
    "delphinium",
    "peony, crimson",
    "marigold",
    "primrose",
    "lavender",
    "rose, yellow",
)


def main(scenarios: Sequence[str]) -> None:
    """Time each scenario and print a line for it."""
    with tempfile.TemporaryDirectory() as folder:
        paths = [Path(scenario) for scenario in scenarios] or [_eight_flowers(Path(folder))]
        for path in paths:
            cache = tempfile.mkdtemp(dir=folder)
            cold, warm = _seconds(path, cache), _seconds(path, cache)
            print(f"{path.name}: cold {cold:.1f} s, warm {warm:.1f} s")


def _eight_flowers(folder: Path) -> Path:
    flowers = "".join(f'[[flower]]\nname = "{name}"\n' for name in FLOWERS)
    path = folder / "eight-flowers.toml"
    path.write_text(
        f'title = "Eight flowers"\ncurrency = "EUR"\nbudget = 40.00\n{flowers}', encoding="utf-8"
    )
    return path


def _seconds(scenario: Path, cache: str) -> float:
    began = time.perf_counter()
    subprocess.run(  # noqa: S603  # this very interpreter, on a file named by whoever runs it
        [sys.executable, "-m", "fewtubes", "compare", str(scenario)],
        check=True,
        stdout=subprocess.DEVNULL,
        env=os.environ | {"FEWTUBES_CACHE": cache},
    )
    return time.perf_counter() - began


if __name__ == "__main__":
    main(sys.argv[1:])
