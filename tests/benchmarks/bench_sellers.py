"""How long the choice takes under the terms of four sellers, beside the same one without terms.

Run it by hand on a quiet machine; it is not a test and pytest does not collect it::

    python -m tests.benchmarks.bench_sellers [--budgets 18 25 …] [--program]

The demo's 72 tubes and the twelve flowers of the cottage border; sellers, packs, prices, sets and
charges are invented here, drawn from a fixed seed: three packs of each tube, at two or three of the
sellers each, delivery that is free from a sum, least orders, and four sets of six.
"""

import argparse
import random
from dataclasses import replace
from pathlib import Path

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.coverage.cache import default_cache
from fewtubes.scenario.reading import read_scenario
from fewtubes.selection.certificate import Certificate
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.program import solve_program
from fewtubes.selection.search import search
from fewtubes.selection.terms import Need, PackOnSale, SellerTerms, SetOnSale, Terms
from fewtubes.selection.tube_packs import least_prices
from fewtubes.shopping.question import Question, pose

__all__ = ["main"]

SCENARIO = Path(__file__).parents[2] / "scenarios" / "cottage-border.toml"

SELLERS = (
    SellerTerms(delivery=390, free_from=3000, least_order=0),
    SellerTerms(delivery=490, free_from=2500, least_order=1000),
    SellerTerms(delivery=250, free_from=None, least_order=0),
    SellerTerms(delivery=590, free_from=2000, least_order=800),
)
"""Invented; hundredths of the currency."""

SIZES = ((5_000, 1.0), (10_000, 1.7), (15_000, 2.3))
"""What a pack holds [thousandths of a millilitre], and its price beside that of the smallest."""

SOLD_BY = 0.65
"""Share of the packs that a seller has."""

SETS = 4
IN_A_SET = 6

BUDGETS = (1200, 1800, 2500, 3000, 4000)

PROGRAM_SECONDS = 120.0


def main() -> None:
    """Solve at each budget and print a line for each."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\\n", 1)[0])
    parser.add_argument("--budgets", type=int, nargs="+", default=BUDGETS)
    parser.add_argument("--program", action="store_true", help="also by the integer program")
    parser.add_argument("--seconds", type=float, default=60.0)
    asked = parser.parse_args()
    catalogue = read_catalogue()
    scenario = read_scenario(SCENARIO, catalogue)
    question = pose(catalogue, scenario, cache=default_cache(), progress=lambda _stage: None)
    terms = invented_terms(question)
    for budget in asked.budgets:
        plain = replace(question.instance, budget=budget)
        found = search(plain, seconds=asked.seconds).certificate
        print(f"{budget / 100:6.2f}  plain    {_line(found)}")
        instance = _under(plain, terms)
        choice = search(instance, seconds=asked.seconds)
        first = choice.palettes[0] if choice.palettes else None
        print(f"        sellers  {_line(choice.certificate)}, costs {first and first.cost}")
        if asked.program:
            again = solve_program(instance, time_limit_s=PROGRAM_SECONDS, start=first)
            print(f"        program  {_line(again.certificate)}")


def _under(instance: ChoiceInstance, terms: Terms) -> ChoiceInstance:
    """Return the choice under terms; what is ruled out stays so."""
    fresh = replace(terms)  # nothing worked out before
    prices = [
        known if known > instance.budget else least
        for known, least in zip(instance.prices, least_prices(fresh), strict=True)
    ]
    return replace(instance, terms=fresh, prices=tuple(prices))


def invented_terms(question: Question) -> Terms:
    """Return terms for the tubes that a question lets be bought."""
    rng = random.Random(12)  # noqa: S311  # invents prices
    buyable = [n for n, tube in enumerate(question.tubes) if tube.id not in question.refused]
    packs = [
        PackOnSale(
            tube=tube,
            seller=seller,
            amount=amount,
            price=round(question.cost(question.tubes[tube]) * factor * rng.uniform(0.8, 1.25)),
            price_of_more=None,
        )
        for tube in buyable
        for seller in range(len(SELLERS))
        for amount, factor in SIZES
        if rng.random() < SOLD_BY
    ]
    packs = [
        replace(pack, price_of_more=round(0.9 * pack.price)) if rng.random() < 0.2 else pack
        for pack in packs
    ]
    sets = []
    for number in range(SETS):
        held = sorted(rng.sample(buyable, IN_A_SET))
        price = sum(question.cost(question.tubes[tube]) for tube in held)
        sets.append(
            SetOnSale(
                seller=number % len(SELLERS),
                price=round(0.6 * price),
                holds=tuple((tube, 1, 5_000) for tube in held),
            )
        )
    needs = (Need(),) * len(question.tubes)
    return Terms(SELLERS, tuple(packs), tuple(sets), needs)


def _line(found: Certificate) -> str:
    return (
        f"{found.seconds:6.2f} s  {found.status.value}: value {found.value:,}, bound"
        f" {found.bound:,}, {found.nodes:,} branches"
    )


if __name__ == "__main__":
    main()
