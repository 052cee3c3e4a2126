"""The shopping list of the report by seller: it adds up, and says why a delivery is free."""

import re
from dataclasses import replace
from html import unescape

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Offer
from fewtubes.catalogue.sellers import Seller, SetPack, TubeSet
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.palette import shopping_section
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.shopping.shop import Limits, shop

HOSTILE = "stall <script>alert(1)</script>"
STALL = Seller("stall", HOSTILE, 0, None, 0, "EUR")
POST = Seller("post", "by post", 390, 2000, 500, "EUR")
TUBES = ("lemon", "ultramarine", "magenta", "yellow-ochre", "warm-red")
PAIR = TubeSet(
    "pair", "a pair", "post", 600, "EUR", (SetPack("magenta", 5, 1), SetPack("yellow-ochre", 5, 2))
)


def said(markup: str) -> str:
    bare = re.sub(r"<svg.*?</svg>", " ", markup, flags=re.DOTALL)
    text = unescape(re.sub(r"<[^>]+>", " ", bare)).replace("\u00a0", " ")
    return " ".join(text.split())


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    """Return five tubes; ultramarine at the stall, the rest by post, two of them in a set too."""
    demo = read_catalogue()
    offers = {
        "ultramarine": (Offer(5, 310, "EUR", "stall"),),
        "lemon": (Offer(5, 450, "EUR", "post"),),
        "warm-red": (Offer(5, 500, "EUR", "post"),),
        "magenta": (Offer(5, 620, "EUR", "post"),),
        "yellow-ochre": (),
    }
    return replace(
        demo,
        tubes={id_: replace(demo.tubes[id_], offers=offers[id_]) for id_ in TUBES},
        sellers={"stall": STALL, "post": POST},
        sets={"pair": PAIR},
    )


def section(demo: Catalogue, cache: Cache, *must_have: str, budget: int = 40) -> str:
    """Return the shopping list of a scenario in which these tubes must be had and no others."""
    wishes = Wishes(must_have=must_have, never=tuple(set(TUBES) - set(must_have)))
    scenario = Scenario(budget=budget, currency="EUR", flowers=["primrose"], wishes=wishes)
    plan = shop(demo, scenario, limits=Limits(seconds=10), cache=cache)
    basis = Basis(plan, optics_for(demo, scenario.paper, scenario.light, cache))
    return str(shopping_section(basis))


def test_goods_delivery_and_sums_add_up(demo: Catalogue, shared_cache: Cache) -> None:
    """By post 4.50 and 6.00 for the set that is cheaper than magenta alone, 3.90 for the way."""
    markup = section(demo, shared_cache, "ultramarine", "lemon", "magenta")
    text = said(markup)
    assert "by post lemon yellow" in text
    assert "Goods 10.50" in text
    assert "Delivery, free from EUR 20.00: EUR 9.50 short of it 3.90" in text
    assert "by post, together 14.40" in text
    assert "Total 2 packs and 1 set 17.50" in text
    assert "<script" not in markup


def test_a_set_tells_what_is_in_it_with_a_box_to_tick(demo: Catalogue, shared_cache: Cache) -> None:
    markup = section(demo, shared_cache, "ultramarine", "lemon", "magenta")
    text = said(markup)
    assert "A pair (a set) 1 set 6.00" in text
    assert re.search(r"magenta \(quinacridone\) PR122 I , excellent 1 × 5 ml in the set", text)
    assert re.search(r"yellow ochre[^()]* \(not needed\) .* 2 × 5 ml in the set", text)
    assert "A pair also holds yellow ochre (the wishes keep it out of use)." in text
    assert markup.count('class="tick"') == 5  # two packs, the set and two tubes in it


def test_why_a_delivery_is_free_is_told(demo: Catalogue, shared_cache: Cache) -> None:
    """By post 4.50 + 5.00 + 6.00 are 15.50, and four packs more of lemon would be too dear."""
    cheap = replace(demo, sellers={"stall": STALL, "post": replace(POST, free_from=1500)})
    text = said(section(cheap, shared_cache, "ultramarine", "lemon", "magenta", "warm-red"))
    told = "Delivery, free from EUR 15.00: the goods come to EUR 15.50, so EUR 3.90 is saved 0.00"
    assert told in text
    assert "by post, together 15.50" in text
    assert "Goods" not in text


def test_one_seller_alone_has_no_sum_of_its_own(demo: Catalogue, shared_cache: Cache) -> None:
    text = said(section(demo, shared_cache, "ultramarine"))
    assert "together" not in text
    assert "Delivery" not in text
    assert "Total 1 pack 3.10" in text


def test_without_sellers_the_list_is_as_ever(demo: Catalogue, shared_cache: Cache) -> None:
    plain = {
        id_: replace(tube, offers=tuple(replace(one, seller="") for one in tube.offers))
        for id_, tube in demo.tubes.items()
    }
    alone = replace(demo, tubes=plain, sellers={}, sets={})
    markup = section(alone, shared_cache, "ultramarine", "lemon")
    assert "parcels" not in markup
    assert "Prices as in the catalogue." in markup
