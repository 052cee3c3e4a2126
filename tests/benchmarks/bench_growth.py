"""How time grows with the number of tubes, and both exact methods on instances that both prove.

Run it by hand, in the project's folder, on a quiet machine::

    python -m tests.benchmarks.bench_growth

Catalogues of 60, 120 and 240 tubes are made from the demo's profiles with a seed; `shop` runs in
fresh processes, once with an empty cache and once with the one that the first run filled. The plain
integer program gets long enough to prove the smaller instances, in turn with the search in one run.
"""

import argparse
import os
import re
import subprocess
import sys
import tempfile
import time
from dataclasses import replace
from pathlib import Path

from tests.benchmarks.wide_catalogue import make_wide_catalogue

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.scenario.reading import read_scenario
from fewtubes.selection.certificate import Choice
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.program import solve_program
from fewtubes.selection.search import search
from fewtubes.shopping.question import pose

__all__ = ["main"]

FLOWERS = (
    "sweet pea, pink",
    "primrose",
    "bluebell",
    "poppy, field",
    "iris, bearded violet",
    "marigold",
    "cornflower",
    "foxglove",
)
SIZES = (60, 120, 240)
SEED = 1
BUDGETS = (500, 800, 1200)
"""Of the instances for both methods [hundredths]."""

MEBIBYTE_IN_KIB = 1024


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n", 1)[0])
    parser.add_argument("--program-seconds", type=float, default=300.0)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        scenario = folder / "scenario.toml"
        flowers = "".join(f'[[flower]]\nname = "{flower}"\n' for flower in FLOWERS)
        scenario.write_text(f'title = "eight flowers"\ncurrency = "EUR"\nbudget = 18.0\n{flowers}')
        _print_growth(folder, scenario)
        _print_methods(folder, scenario, options.program_seconds)


def _print_growth(folder: Path, scenario: Path) -> None:
    """Print time and memory of `shop` for each size of catalogue."""
    print(f"{'tubes':>5}{'cold, s':>10}{'warm, s':>10}{'peak MiB':>10}")
    for tubes in SIZES:
        catalogue = folder / f"tubes-{tubes}"
        make_wide_catalogue(catalogue, tubes=tubes, seed=SEED)
        cache = folder / f"cache-{tubes}"
        cold, peak, told = _shop(scenario, catalogue, cache)
        warm, _, _ = _shop(scenario, catalogue, cache)
        proven = "proven best" if "Proven best" in told else "not proven"
        covered = re.search(r"Covered:\s+([\d.]+ %)", told)
        print(
            f"{tubes:>5}{cold:>10.1f}{warm:>10.1f}{peak / MEBIBYTE_IN_KIB:>10.0f}"
            f"  {proven}, {covered[1] if covered else '?'}",
            flush=True,
        )


def _shop(scenario: Path, catalogue: Path, cache: Path) -> tuple[float, int, str]:
    """Return time [s], peak memory of the process [KiB, Linux] and what it printed."""
    command = [sys.executable, "-m", "fewtubes", "shop", str(scenario), "--catalogue"]
    environment = os.environ | {"FEWTUBES_CACHE": str(cache)}
    began = time.perf_counter()
    process = subprocess.Popen(  # noqa: S603  # our own command
        [*command, str(catalogue)], env=environment, stdout=subprocess.PIPE, text=True
    )
    told = process.stdout.read() if process.stdout else ""
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(f"shop ended with {process.returncode}")
    return time.perf_counter() - began, usage.ru_maxrss, told


def _print_methods(folder: Path, scenario: Path, program_seconds: float) -> None:
    """Print both methods' time and outcome on the same instances of the demo catalogue."""
    catalogue = read_catalogue()
    asked = read_scenario(scenario, catalogue)
    asked = replace(asked, flowers=asked.flowers[:4])
    question = pose(catalogue, asked, cache=Cache(folder / "cache"), progress=lambda _stage: None)
    print(f"\n{'budget':>6}{'search, s':>11}{'program, s':>12}{'ratio':>8}")
    for budget in BUDGETS:
        instance = replace(question.instance, budget=budget)
        began = time.perf_counter()
        found = search(instance)
        middle = time.perf_counter()
        proved = solve_program(instance, time_limit_s=program_seconds)
        ended = time.perf_counter()
        quick, slow = middle - began, ended - middle
        print(
            f"{budget / 100:>6.2f}{quick:>11.2f}{slow:>12.1f}{slow / quick:>7.0f}x"
            f"  search {_told(found, instance)}; program {_told(proved, instance)}",
            flush=True,
        )


def _told(choice: Choice, instance: ChoiceInstance) -> str:
    """Return status, coverage, number and cost."""
    if not choice.palettes:
        return str(choice.certificate.status)
    palette = choice.palettes[0]
    share = palette.value / sum(instance.weights)
    return (
        f"{choice.certificate.status}: {share:.2%},"
        f" {len(palette.bought)} tubes, {palette.cost / 100:.2f}"
    )


if __name__ == "__main__":
    main()
