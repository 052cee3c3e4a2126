"""Small questions with two sellers and sets, against trying every palette and every purchase.

Origin of every expected answer: `oracle.py`, and purchases that are counted here by their own sums,
one by one: so many of each pack and set, all of them of small stock, so that none is left out.
"""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from random import Random

import numpy as np
import pytest
from tests.exhaustive.agreement import disagreements
from tests.exhaustive.draws import draw_question
from tests.exhaustive.oracle import Prices

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Offer
from fewtubes.catalogue.sellers import Seller, SetPack, TubeSet
from fewtubes.coverage.cache import Cache
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Method

STOCK = 3
"""Of each pack."""

MOST_OFFERS = 7
"""Four counts of each are tried: 4^7 = 16,384 ways, times those of the sets."""

MOST_TUBES = 5

MILLILITRES = 5.0


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    return read_catalogue()


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Cache:
    return Cache(tmp_path_factory.mktemp("sellers"))


def drawn(seed: int, demo: Catalogue) -> tuple[Catalogue, Scenario]:
    """Return a question of few tubes at two sellers, with two sets; the same for the same seed."""
    random = Random(f"sellers {seed}")  # noqa: S311  # drawing test cases
    catalogue, scenario = draw_question(seed, demo)
    ids = list(catalogue.tubes)[:MOST_TUBES]
    wishes = scenario.wishes
    listed = {
        key: tuple(id_ for id_ in getattr(wishes, key) if id_ in ids)
        for key in ("owned", "must_have", "never")
    }
    wishes = replace(
        wishes,
        millilitres=random.choice([0.0, 0.0, 8.0]),
        owned=listed["owned"],
        must_have=listed["must_have"],
        never=listed["never"],
    )
    sellers = {
        name: Seller(
            name,
            name,
            delivery=random.choice([0, 250, 490]),
            free_from=random.choice([None, 1200]),
            least_order=random.choice([0, 0, 700]),
            currency="EUR",
        )
        for name in ("north", "south")
    }
    offers: dict[str, tuple[Offer, ...]] = {}
    spare = MOST_OFFERS - len(ids)
    for id_ in ids:
        both = spare > 0 and random.random() < 0.6
        spare -= both
        at = ["north", "south"] if both else [random.choice(["north", "south", ""])]
        offers[id_] = tuple(_offer(random, seller) for seller in at)
    tubes = {id_: replace(catalogue.tubes[id_], offers=offers[id_]) for id_ in ids}
    sets = {f"set-{n}": _set(random, f"set-{n}", ids) for n in (1, 2)}
    return (
        replace(catalogue, tubes=tubes, sellers=sellers, sets=sets),
        replace(scenario, wishes=wishes, group=None),
    )


def _offer(random: Random, seller: str) -> Offer:
    price = random.randint(150, 600)
    more = random.choice([None, price - random.randint(0, 120)])
    return Offer(MILLILITRES, price, "EUR", seller, STOCK, more)


def _set(random: Random, name: str, ids: list[str]) -> TubeSet:
    held = random.sample(ids, min(len(ids), random.choice([2, 3])))
    packs = tuple(
        SetPack(id_, random.choice([2.0, MILLILITRES]), random.choice([1, 1, 2])) for id_ in held
    )
    seller = random.choice(["north", "south"])
    return TubeSet(name, name, seller, random.randint(300, 900), "EUR", packs, stock=1)


def prices_of(catalogue: Catalogue, scenario: Scenario) -> Prices:
    """Return what tubes cost together, by looking at every purchase there is."""
    wishes = scenario.wishes
    barred = {*wishes.owned, *wishes.never}
    avoided = set(wishes.avoid_hazards)
    for id_, tube in catalogue.tubes.items():
        held = {hazard for pigment, _ in tube.pigments for hazard in pigment.hazards}
        floor = wishes.lightfastness_floor
        if held & avoided or (floor is not None and tube.lightfastness > floor):
            barred.add(id_)
    packs = [
        (id_, offer)
        for id_, tube in catalogue.tubes.items()
        if id_ not in barred
        for offer in tube.offers
    ]
    sets = [
        one
        for one in catalogue.sets.values()
        if not any(
            set(pigment.hazards) & avoided
            for pack in one.packs
            for pigment, _ in catalogue.tubes[pack.tube].pigments
        )
    ]
    bought = list(_purchases(catalogue, packs, sets))
    ids = list(catalogue.tubes)
    costs = np.array([cost for cost, _ in bought])
    paint = np.array([[held[id_][0] for id_ in ids] for _, held in bought])
    count = np.array([[held[id_][1] for id_ in ids] for _, held in bought])

    def price(tubes: frozenset[str]) -> int | None:
        wanted = [ids.index(id_) for id_ in tubes]
        enough = (paint[:, wanted] >= wishes.millilitres) & (count[:, wanted] >= 1)
        found = costs[enough.all(axis=1)]
        return int(found.min()) if len(found) else None

    return price


def _purchases(
    catalogue: Catalogue, packs: list[tuple[str, Offer]], sets: list[TubeSet]
) -> Iterator[tuple[int, dict[str, tuple[float, int]]]]:
    """Yield what each purchase costs that is sold at all, and what it holds of each tube."""
    ranges = [range(STOCK + 1)] * len(packs) + [range(2)] * len(sets)
    for counts in product(*ranges):
        goods: dict[str, int] = {}
        held = dict.fromkeys(catalogue.tubes, (0.0, 0))
        for (id_, offer), n in zip(packs, counts, strict=False):
            if n:
                several = offer.price if offer.price_of_more is None else offer.price_of_more
                paid = offer.price if n == 1 else n * several
                goods[offer.seller] = goods.get(offer.seller, 0) + paid
                held[id_] = (held[id_][0] + n * offer.ml, held[id_][1] + n)
        for one, n in zip(sets, counts[len(packs) :], strict=True):
            if n:
                goods[one.seller] = goods.get(one.seller, 0) + one.price
                for pack in one.packs:
                    ml, tubes = held[pack.tube]
                    held[pack.tube] = (ml + pack.count * pack.ml, tubes + pack.count)
        cost = _paid(catalogue, goods)
        if cost is not None:
            yield cost, held


def _paid(catalogue: Catalogue, goods: dict[str, int]) -> int | None:
    """Return the price of goods by seller with the deliveries; None below a least order."""
    total = 0
    for name, price in goods.items():
        total += price
        if name:
            seller = catalogue.sellers[name]
            if price < seller.least_order:
                return None
            if seller.free_from is None or price < seller.free_from:
                total += seller.delivery
    return total


@pytest.mark.parametrize("seed", range(0, 300, 20))
def test_search_gives_the_answer_of_trying_everything(
    seed: int, demo: Catalogue, cache: Cache
) -> None:
    catalogue, scenario = drawn(seed, demo)
    prices = prices_of(catalogue, scenario)
    found = disagreements(catalogue, scenario, method=Method.SEARCH, cache=cache, prices=prices)
    assert found == []


@pytest.mark.parametrize("seed", range(5, 100, 30))
def test_program_gives_the_answer_of_trying_everything(
    seed: int, demo: Catalogue, cache: Cache
) -> None:
    catalogue, scenario = drawn(seed, demo)
    prices = prices_of(catalogue, scenario)
    found = disagreements(catalogue, scenario, method=Method.BOTH, cache=cache, prices=prices)
    assert found == []
