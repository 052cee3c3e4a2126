"""How long the choice takes where pictures are planned and money is short.

Run it by hand on a quiet machine; it is not a test and pytest does not collect it::

    python -m tests.benchmarks.bench_paint [--ask 12,60,12 …] [--without] [--seconds S]

The first flowers of the cottage border, so many pictures, a budget in the currency. ``--without``
leaves out the bound by what the paint costs at least. Processor time is told beside the clock's.
"""

import argparse
import time
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.coverage.cache import default_cache
from fewtubes.scenario.picture_wish import PictureWish
from fewtubes.scenario.reading import read_scenario
from fewtubes.selection.search import search
from fewtubes.shopping.question import pose

__all__ = ["main"]

SCENARIO = Path(__file__).parents[2] / "scenarios" / "cottage-border.toml"

ASKED = ("5,60,12", "12,60,12", "12,60,20")
"""Flowers, pictures, budget."""


def main() -> None:
    """Answer each question and print a line for it."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n", 1)[0])
    parser.add_argument("--ask", nargs="+", default=ASKED, metavar="FLOWERS,PICTURES,BUDGET")
    parser.add_argument("--without", action="store_true", help="without the bound by paint")
    parser.add_argument("--seconds", type=float, default=300.0)
    asked = parser.parse_args()
    catalogue = read_catalogue()
    border = read_scenario(SCENARIO, catalogue)
    for question in asked.ask:
        flowers, pictures, budget = map(int, question.split(","))
        scenario = replace(
            border,
            flowers=border.flowers[:flowers],
            picture=PictureWish(pictures),
            budget=Decimal(budget),
        )
        posed = pose(catalogue, scenario, cache=default_cache(), progress=lambda _stage: None)
        instance = posed.instance
        if asked.without and instance.terms is not None:
            instance = replace(instance, terms=replace(instance.terms, least_paint=None))
        began = time.process_time()
        found = search(instance, seconds=asked.seconds).certificate
        total = sum(instance.weights)
        print(
            f"{question:>9}  {found.seconds:6.1f} s, {time.process_time() - began:6.1f} s of"
            f" processor: {found.status.value}: {found.value / total:.2%}, bound"
            f" {found.bound / total:.2%}, {found.nodes:,} branches"
        )


if __name__ == "__main__":
    main()
