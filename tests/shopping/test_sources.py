"""Where a tube is bought that comes to others; every sum is written out by hand."""

from dataclasses import replace

import pytest
from tests.shopping.conftest import make_scenario
from tests.shopping.test_bought import POST, STALL, TUBES, posed, stocked

from fewtubes.catalogue.records import Catalogue, Offer
from fewtubes.catalogue.sellers import SetPack, TubeSet
from fewtubes.coverage.cache import Cache
from fewtubes.scenario.records import Wishes
from fewtubes.selection.purchase import cheapest_purchase
from fewtubes.shopping.question import Question
from fewtubes.shopping.sources import Source, source_beside


def source(question: Question, tube: str, *others: str) -> Source | None:
    numbers = [question.numbers[id_] for id_ in others]
    return source_beside(question, question.catalogue.tubes[tube], numbers)


def at(found: Source | None) -> tuple[str, str]:
    assert found is not None
    return found.seller.id, "" if found.tube_set is None else found.tube_set.id


def test_it_is_bought_where_all_together_is_cheapest(demo: Catalogue, cache: Cache) -> None:
    offers = {
        "lemon": (Offer(5, 300, "EUR", "stall"), Offer(5, 290, "EUR", "post")),
        "ultramarine": (Offer(5, 600, "EUR", "post"),),
    }
    question = posed(stocked(demo, offers), cache)
    # Alone 3.00 at the stall; by post two of it, for the least order, 5.80 + 4.00.
    assert at(source(question, "lemon")) == ("stall", "")
    # With the ultramarine, delivered anyway, 2.90 + 6.00 + 4.00 against 3.00 + 6.00 + 4.00.
    assert at(source(question, "lemon", "ultramarine")) == ("post", "")
    assert at(source(question, "lemon", "lemon", "ultramarine")) == ("post", "")
    assert at(source(question, "ultramarine", "lemon")) == ("post", "")


def test_it_may_lie_in_a_set(demo: Catalogue, cache: Cache) -> None:
    box = TubeSet("box", "box", "stall", 500, "EUR", tuple(SetPack(id_, 2.0, 1) for id_ in TUBES))
    offers = {
        "lemon": (Offer(5, 450, "EUR", "stall"),),
        "rose": (Offer(5, 900, "EUR", "stall"),),
    }
    question = posed(stocked(demo, offers, box), cache)
    assert at(source(question, "lemon")) == ("stall", "")  # 4.50 against 5.00
    assert at(source(question, "rose")) == ("stall", "box")  # 9.00 against 5.00
    assert at(source(question, "lemon", "rose")) == ("stall", "box")  # the same one box


def test_a_refused_tube_is_told_as_if_it_were_not_and_an_owned_one_has_no_seller(
    demo: Catalogue, cache: Cache
) -> None:
    offers = {
        "lemon": (Offer(5, 700, "EUR", "post"),),
        "cadmium-red": (Offer(5, 450, "EUR", "post"), Offer(5, 460, "EUR", "stall")),
    }
    wishes = Wishes(never=("cadmium-red",), owned=("ultramarine",))
    question = posed(stocked(demo, offers), cache, make_scenario("primrose", wishes=wishes))
    assert at(source(question, "cadmium-red", "lemon")) == ("post", "")
    assert at(source(question, "cadmium-red", "ultramarine")) == ("stall", "")
    assert source(question, "ultramarine", "lemon") is None


def test_what_no_one_seller_has_enough_of_is_told_of_none(demo: Catalogue, cache: Cache) -> None:
    offers = {
        "lemon": (Offer(5, 300, "EUR", "stall", stock=1), Offer(5, 600, "EUR", "post", stock=1)),
    }
    wishes = Wishes(millilitres=10)
    question = posed(stocked(demo, offers), cache, make_scenario("primrose", wishes=wishes))
    assert source(question, "lemon") is None
    assert source(question, "rose") is None  # not sold at all


def test_sellers_who_charge_nothing_are_told(demo: Catalogue, cache: Cache) -> None:
    shop = replace(POST, delivery=0, free_from=None, least_order=0)
    offers = {"lemon": (Offer(5, 300, "EUR", "stall"), Offer(5, 290, "EUR", "post"))}
    plain = replace(stocked(demo, offers), sellers={"stall": STALL, "post": shop})
    question = posed(plain, cache)
    assert question.on_sale is None
    assert at(source(question, "lemon")) == ("post", "")
    unnamed = replace(stocked(demo, {"lemon": (Offer(5, 300, "EUR"),)}), sellers={})
    assert source(posed(unnamed, cache), "lemon") is None


@pytest.mark.parametrize("beside", [(), ("ultramarine",), ("ultramarine", "rose")])
def test_the_integer_program_buys_it_there_too(
    demo: Catalogue, cache: Cache, beside: tuple[str, ...]
) -> None:
    """No two ways of buying the lemon cost the same here, so that its purchase must agree."""
    offers = {
        "lemon": (Offer(5, 331, "EUR", "stall"), Offer(5, 293, "EUR", "post")),
        "ultramarine": (Offer(5, 617, "EUR", "post"),),
        "rose": (Offer(5, 701, "EUR", "stall"), Offer(5, 651, "EUR", "post")),
    }
    question = posed(stocked(demo, offers), cache)
    assert question.on_sale is not None
    palette = tuple(sorted(question.numbers[id_] for id_ in (*beside, "lemon")))
    purchase = cheapest_purchase(question.on_sale.terms, palette)
    assert purchase is not None
    sellers = {
        question.on_sale.offers[number].seller
        for number, _ in purchase.packs
        if question.on_sale.terms.packs[number].tube == question.numbers["lemon"]
    }
    assert {at(source(question, "lemon", *beside))[0]} == sellers
