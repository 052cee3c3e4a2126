"""Buying bit by bit of sellers: deliveries, sets and packs stand in every form of the answer."""

import csv
import io
import json
from dataclasses import replace
from decimal import Decimal

import pytest
from rich.console import Console

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Offer
from fewtubes.catalogue.sellers import Seller, SetPack, TubeSet
from fewtubes.comparison.instalment_findings import Instalments
from fewtubes.comparison.instalment_tables import tubes
from fewtubes.comparison.instalments import instalments
from fewtubes.coverage.cache import Cache
from fewtubes.page.drawn_instalments import drawn_instalments
from fewtubes.report.illustrated.instalments_page import InstalmentsReport
from fewtubes.report.json_values.instalments import instalments_json
from fewtubes.report.sentences.instalment_lines import purchase_lines
from fewtubes.report.sentences.instalments import paid_words
from fewtubes.report.terminal.instalments import print_instalments
from fewtubes.scenario.records import Scenario, Wishes

POST = Seller("post", "by post", 300, 2000, 0, "EUR")
STALL = Seller("stall", "market stall", 0, None, 0, "EUR")
PAIR = TubeSet(
    "pair", "pair of two", "stall", 500, "EUR", (SetPack("lemon", 5, 1), SetPack("magenta", 5, 1))
)


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    return read_catalogue()


@pytest.fixture
def found(demo: Catalogue, shared_cache: Cache) -> Instalments:
    """Return lemon in a set for 5.00 now, and ultramarine for 4.00 and a delivery of 3.00 then."""
    offers = {"ultramarine": (Offer(5, 400, "EUR", "post"),)}
    names = ("lemon", "magenta", "ultramarine")
    catalogue = replace(
        demo,
        tubes={id_: replace(demo.tubes[id_], offers=offers.get(id_, ())) for id_ in names},
        sellers={seller.id: seller for seller in (STALL, POST)},
        sets={"pair": PAIR},
    )
    scenario = Scenario(
        budget=30, currency="EUR", flowers=["primrose"],
        wishes=Wishes(must_have=("lemon", "ultramarine")),
    )  # fmt: skip
    return instalments(catalogue, scenario, sums=[5, 7], order_only=True, cache=shared_cache)


def test_the_lines_of_a_purchase_add_up_to_what_is_paid(found: Instalments) -> None:
    assert [time.cost for time in found.times] == [500, 700]  # 4.00 and the delivery of 3.00
    for time in found.times:
        assert sum(line.price or 0 for line in purchase_lines(time)) == time.cost
    said = [(line.name, line.seller) for line in purchase_lines(found.times[1])]
    assert said == [("ultramarine blue", "by post"), ("delivery (free from 20.00)", "by post")]


def test_the_table_has_sellers_sets_and_deliveries(found: Instalments) -> None:
    rows = [*csv.DictReader(io.StringIO(tubes(found).csv_text()))]
    assert [(row["row"], row["seller"], row["price"]) for row in rows] == [
        ("set", "market stall", "5.00"),
        ("in the set", "market stall", ""),
        ("in the set", "market stall", ""),
        ("pack", "by post", "4.00"),
        ("delivery", "by post", "3.00"),
    ]
    assert sum(Decimal(row["price"] or 0) for row in rows) == Decimal(found.cost) / 100
    assert [row["tube"] for row in rows] == ["", "lemon", "magenta", "ultramarine", ""]
    assert found.tubes()["price"].sum() == pytest.approx(12)


def test_json_tells_each_purchase_by_seller(found: Instalments) -> None:
    values = json.loads(instalments_json(found, fellows={}))
    (stall,), (post,) = [time["purchase"]["sellers"] for time in values["times"]]
    assert (stall["seller"], stall["sets"][0]["price"], stall["delivery"]) == (
        "market stall", "5.00", "0.00",
    )  # fmt: skip
    assert (post["seller"], post["goods"], post["delivery"]) == ("by post", "4.00", "3.00")
    assert values["times"][1]["cost"] == "7.00"


def test_the_terminal_and_the_page_tell_delivery_and_set(found: Instalments) -> None:
    console = Console(width=100, file=io.StringIO(), color_system=None)
    print_instalments(found, console)
    text = console.file.getvalue()  # type: ignore[attr-defined]
    assert "EUR 3.00 of it for deliveries" in " ".join(text.split())
    assert "pair of two (a set)" in text
    assert "delivery (free from 20.00)" in text
    assert "with its own delivery" in " ".join(text.split())
    drawn = drawn_instalments(found)
    assert [(name, price) for _, name, _, price in drawn.steps[1].rows] == [
        ("ultramarine blue", "4.00"), ("by post", "3.00"),
    ]  # fmt: skip
    assert "Delivery (free from 20.00)" in drawn.report
    assert "market stall" in drawn.report


def test_the_order_to_pin_up_says_of_whom_in_what_and_with_what_delivery(
    found: Instalments,
) -> None:
    now, then = (paid_words(time, "EUR") for time in found.times)
    assert now == "EUR 5.00, of market stall, in pair of two"
    assert then == "EUR 7.00, of by post, EUR 3.00 of it for delivery"
    page = InstalmentsReport(found).page()
    assert "of market stall, in pair of two" in page


def test_a_tube_of_a_set_has_no_price_of_its_own(found: Instalments) -> None:
    values = json.loads(instalments_json(found, fellows={}))
    (lemon,), (blue,) = [time["bought"] for time in values["times"]]
    assert (lemon["tube"], lemon["packs"], lemon["cost"]) == ("lemon", [], None)
    assert blue["cost"] == "4.00"
