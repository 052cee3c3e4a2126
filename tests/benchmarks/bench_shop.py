"""How long the program takes, and how its exact search compares with the plain integer program.

Run it by hand on a quiet machine; it is not a test and pytest does not collect it::

    python tests/benchmarks/bench_shop.py

The command line is timed in fresh processes, `shop` with an empty cache (cold) and with one that
holds all that is needed (warm). The two exact methods are then given the same instances in turn,
in this process, so that whatever else the machine does concerns both. Figures are medians, with
the least and the greatest behind them. Peak memory is what the operating system counted for the
process (resident set); Linux and macOS only.
"""

import argparse
import os
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from decimal import Decimal
from functools import partial
from math import comb
from pathlib import Path
from typing import TypeVar

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.defaults import PROOF_SECONDS
from fewtubes.mixing.recipes import PARTS
from fewtubes.scenario.reading import read_scenario
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Certificate, Choice, Status
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.program import solve_program
from fewtubes.selection.search import search
from fewtubes.shopping.question import Question, pose

__all__ = ["main"]

ROOT = Path(__file__).parents[2]
SPEED_REFERENCE = ROOT / "scenarios" / "cottage-border.toml"

KIBIBYTE = 1024
MEBIBYTE = 1024**2

VARIANTS = ((4.0, 1000), (4.0, 1800), (4.0, 3000), (3.0, 1800), (3.0, 3000))
"""Tolerance [ΔE00] and budget [hundredths] that the two methods are compared at."""

SEARCH_SECONDS = 300.0

T = TypeVar("T")


@dataclass(frozen=True)
class Run:
    """One process: its time [s] and peak memory [bytes]."""

    seconds: float
    peak: int


def main() -> None:
    """Measure and print."""
    options = _options()
    scenario = options.scenario
    today = f"{datetime.now(tz=UTC):%Y-%m-%d}"
    print(f"{today}, Python {platform.python_version()}, {os.cpu_count()} cores")
    print(f"scenario {scenario.name}, medians of {options.repeats} runs (least to greatest)\n")
    _print_processes(scenario, options.repeats)
    with tempfile.TemporaryDirectory() as folder:
        _print_methods(scenario, Cache(Path(folder)), options.repeats, options.program_seconds)


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n", 1)[0])
    parser.add_argument("--scenario", type=Path, default=SPEED_REFERENCE)
    parser.add_argument("--repeats", type=int, default=5)
    parser.add_argument(
        "--program-seconds",
        type=float,
        default=PROOF_SECONDS,
        help="time limit of the integer program",
    )
    return parser.parse_args()


def _print_processes(scenario: Path, repeats: int) -> None:
    """Print time and memory of the commands in fresh processes."""
    shop = ("shop", str(scenario))
    print(f"{'command':<28}{'seconds':>26}{'peak MiB':>10}")
    with tempfile.TemporaryDirectory() as folder:
        report = (*shop, "--report", str(Path(folder, "report.html")))
        for name, arguments, warm in (
            ("fewtubes --help", ("--help",), True),
            ("fewtubes shop, cold", shop, False),
            ("fewtubes shop, warm", shop, True),
            ("the same with --report, warm", report, True),
        ):
            runs = _runs(arguments, repeats, warm=warm)
            peak = statistics.median(run.peak for run in runs) / MEBIBYTE
            print(f"{name:<28}{_spread([run.seconds for run in runs]):>26}{peak:>10.0f}")


def _runs(arguments: Sequence[str], repeats: int, *, warm: bool) -> list[Run]:
    """Run a command repeatedly; warm runs share a cache that an uncounted first run fills."""
    with tempfile.TemporaryDirectory() as folder:
        if warm:
            _run(arguments, Path(folder, "warm"))
        return [
            _run(arguments, Path(folder, "warm" if warm else f"cold-{turn}"))
            for turn in range(repeats)
        ]


def _run(arguments: Sequence[str], cache: Path) -> Run:
    """Run the command line once in a process of its own."""
    environment = os.environ | {"FEWTUBES_CACHE": str(cache)}
    command = [sys.executable, "-m", "fewtubes", *arguments]
    began = time.perf_counter()
    process = subprocess.Popen(command, env=environment, stdout=subprocess.DEVNULL)  # noqa: S603
    _, status, usage = os.wait4(process.pid, 0)
    seconds = time.perf_counter() - began
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(f"{' '.join(command)} ended with {process.returncode}")
    # ru_maxrss is in KiB on Linux and in bytes on macOS.
    return Run(seconds, usage.ru_maxrss * (1 if sys.platform == "darwin" else KIBIBYTE))


def _print_methods(path: Path, cache: Cache, repeats: int, program_seconds: float) -> None:
    """Print what both exact methods make of the same instances."""
    for title, question in _questions(path, cache):
        instance = question.instance
        sets = sum(len(some) for some in instance.minimal_sets)
        print(
            f"\n{title}: {instance.tube_count - len(question.refused)} tubes,"
            f" {len(instance.weights)} colours, {_recipes(question):,} recipes,"
            f" {sets:,} minimal sets"
        )
        found = _timed(partial(search, instance, seconds=SEARCH_SECONDS), repeats)
        proved = _timed(partial(solve_program, instance, time_limit_s=program_seconds), 1)
        for name, (times, choice) in (("exact search", found), ("integer program", proved)):
            print(f"  {name:<18}{_spread(times):>26}  {_told(choice, instance)}")
        print(f"  {_verdict(found[1].certificate, proved[1].certificate)}")


def _questions(path: Path, cache: Cache) -> Iterator[tuple[str, Question]]:
    """Yield the scenario at every tolerance and budget."""
    catalogue = read_catalogue()
    scenario = read_scenario(path, catalogue)
    for tolerance, budget in VARIANTS:
        asked: Scenario = replace(scenario, tolerance=tolerance, budget=Decimal(budget) / 100)
        title = f"tolerance {tolerance:g}, budget {budget / 100:.2f} {scenario.currency}"
        yield title, pose(catalogue, asked, cache=cache, progress=lambda _stage: None)


def _recipes(question: Question) -> int:
    """Return the size of the recipe space over the tubes that the wishes allow."""
    tubes = len(question.tubes) - len(question.refused)
    per_strength = sum(comb(tubes, size) * len(parts) for size, parts in PARTS.items())
    return len(question.space.strengths) * per_strength


def _timed(work: Callable[[], T], repeats: int) -> tuple[list[float], T]:
    """Return the times of the runs [s] and the last result."""
    times = []
    for _ in range(repeats):
        began = time.perf_counter()
        result = work()
        times.append(time.perf_counter() - began)
    return times, result


def _told(choice: Choice, instance: ChoiceInstance) -> str:
    certificate, total = choice.certificate, sum(instance.weights)
    tubes = len(choice.palettes[0].bought) if choice.palettes else 0
    return (
        f"{certificate.status}: {certificate.value / total:.2%} by {tubes} tubes,"
        f" bound {certificate.bound / total:.2%}, {certificate.nodes:,} branches"
    )


def _verdict(first: Certificate, second: Certificate) -> str:
    """Say whether the two agree, as far as both are proven."""
    if first.status is Status.PROVEN and second.status is Status.PROVEN:
        return "both proven and equal" if first.value == second.value else "THEY DISAGREE"
    low, high = max(first.value, second.value), min(first.bound, second.bound)
    return "not both proven; no contradiction" if low <= high else "THEY DISAGREE"


def _spread(seconds: Sequence[float]) -> str:
    """Return the median, and the least and greatest if there are several."""
    middle = statistics.median(seconds)
    if len(seconds) == 1:
        return f"{middle:.2f}"
    return f"{middle:.2f} ({min(seconds):.2f} to {max(seconds):.2f})"


if __name__ == "__main__":
    main()
