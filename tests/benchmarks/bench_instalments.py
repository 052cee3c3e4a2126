"""How long `fewtubes instalments` takes on the demo, and how its search grows with the sums.

Run it by hand on a quiet machine; it is not a test and pytest does not collect it::

    python -m tests.benchmarks.bench_instalments [SCENARIO.toml …]

With ``--sellers`` the searches are of four sellers with sets, and of the two by post alone, who
charge for each delivery.

Each command is a fresh process; cold means an empty cache, warm the same once more. Without
arguments the twelve flowers of the cottage border are asked about. The searches run in this process
over instances that are made once, and each tells whether its order is proven.
"""

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

from fewtubes.catalogue.price_list import with_prices
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.instalment_terms import terms_of
from fewtubes.coverage.cache import default_cache
from fewtubes.scenario.reading import read_scenario
from fewtubes.selection.instalment_search import search_instalments
from fewtubes.selection.instalments import InstalmentInstance
from fewtubes.shopping.question import pose

__all__ = ["main"]

FOLDER = Path(__file__).parents[2] / "scenarios"

FOUR = ("8", "5", "5", "5")

CASES: tuple[tuple[str, tuple[str, ...], tuple[str, ...]], ...] = (
    ("four, now first", FOUR, ()),
    ("four, all alike", FOUR, ("1", "1", "1", "1")),
    ("four, late first", FOUR, ("1", "2", "3", "4")),
    ("seven", ("3",) * 7, ()),
    ("twelve", ("2",) * 12, ()),
)
"""What they are called, sums, weights."""

BY_POST = ("post-north", "post-south")

SOLD: tuple[tuple[str, tuple[str, ...], tuple[str, ...]], ...] = (
    ("four sellers, three", ("8", "5", "5"), ()),
    ("four sellers, four", FOUR, ()),
    ("four sellers, seven", ("3",) * 7, ()),
    ("by post, three", ("12", "10", "10"), BY_POST),
    ("by post, four", ("12", "8", "8", "8"), BY_POST),
)
"""What they are called, sums, sellers; all of them if none is named."""


def main(scenarios: Sequence[str]) -> None:
    """Time the command cold and warm, and each case, and print a line for each."""
    if scenarios and scenarios[0] == "--sellers":
        _under_terms([Path(name) for name in scenarios[1:]] or [FOLDER / "box-or-parcel.toml"])
        return
    for path in [Path(name) for name in scenarios] or [FOLDER / "cottage-border.toml"]:
        with tempfile.TemporaryDirectory() as cache:
            cold, warm = _command(path, cache), _command(path, cache)
        print(f"{path.name}: sums {', '.join(FOUR)}: cold {cold:.1f} s, warm {warm:.1f} s")
        for name, sums, weights in CASES:
            print(f"  {name:16}  {_search(path, sums, weights)}")


def _under_terms(scenarios: Sequence[Path]) -> None:
    """Time each case of sellers, and print a line for each."""
    for path in scenarios:
        print(path.name)
        for name, sums, sellers in SOLD:
            print(f"  {name:20}  {_search(path, sums, (), sold_by(sellers))}")


def sold_by(sellers: Sequence[str]) -> Catalogue:
    """Return the demo with the price list of sellers, or with what some of them sell."""
    catalogue = with_prices(read_catalogue(), FOLDER / "sellers")
    if not sellers:
        return catalogue
    tubes = {
        id_: replace(tube, offers=tuple(one for one in tube.offers if one.seller in sellers))
        for id_, tube in catalogue.tubes.items()
    }
    sets = {id_: one for id_, one in catalogue.sets.items() if one.seller in sellers}
    return replace(catalogue, tubes=tubes, sets=sets)


def _command(path: Path, cache: str) -> float:
    """Return how long the command takes with the sums of the first case [s]."""
    began = time.perf_counter()
    sums = [word for one in FOUR for word in ("--sum", one)]
    subprocess.run(  # noqa: S603  # this very interpreter, on a file named by whoever runs it
        [sys.executable, "-m", "fewtubes", "instalments", str(path), *sums],
        check=True,
        stdout=subprocess.DEVNULL,
        env=os.environ | {"FEWTUBES_CACHE": cache},
    )
    return time.perf_counter() - began


def _search(
    path: Path, sums: Sequence[str], weights: Sequence[str], sold: Catalogue | None = None
) -> str:
    """Return how long the search alone takes, and what it found, in a line."""
    catalogue = sold or read_catalogue()
    terms = terms_of(sums, weights)
    scenario = replace(
        read_scenario(path, read_catalogue()), budget=sum(map(Decimal, sums), Decimal(0)), shows=""
    )
    question = pose(catalogue, scenario, cache=default_cache(), progress=lambda _stage: None)
    problem = InstalmentInstance(question.instance, terms.money, terms.importances)
    found = search_instalments(problem).certificate
    whole = sum(terms.importances) * sum(question.instance.weights)
    return (
        f"{found.seconds:5.1f} s  {found.status.value}: {found.value / whole:.2%} on average,"
        f" bound {found.bound / whole:.2%}, {found.nodes:,} branches"
    )


if __name__ == "__main__":
    main(sys.argv[1:])
