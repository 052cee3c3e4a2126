"""Where no sum buys anything it is told why, by what the price list and the wishes say."""

from dataclasses import replace
from pathlib import Path

from fewtubes.catalogue.price_list import with_prices
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.comparison.instalment_findings import Instalments
from fewtubes.comparison.instalments import instalments
from fewtubes.coverage.cache import Cache
from fewtubes.report.sentences.instalments import answer_sentence
from fewtubes.report.sentences.nothing_bought import why_nothing_sentence
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.selection.certificate import Status

SELLERS = """\
seller,name,delivery,free_from,least_order,currency,note
north,north,1.95,,{},EUR,
south,south,1.50,,{},EUR,
"""

OFFERS = "tube,ml,price,currency,seller,stock\nlemon,5,3.30,EUR,north,{0}\nrose,5,3,EUR,south,{0}\n"

NO_TUBE = "no tube that the wishes allow to be bought is for sale in EUR"

NO_USE = "Why nothing: no tube that budget and wishes allow would bring more."


def found(
    folder: Path,
    cache: Cache,
    *,
    stock: str = "",
    least: tuple[str, str] = ("", ""),
    wishes: Wishes | None = None,
) -> Instalments:
    """Return what twice 10 euro buy for a daffodil of two sellers, with their least orders."""
    (folder / "offers.csv").write_text(OFFERS.format(stock), encoding="utf-8")
    (folder / "sellers.csv").write_text(SELLERS.format(*least), encoding="utf-8")
    asked = Scenario(budget=20, currency="EUR", flowers=["daffodil"], wishes=wishes or Wishes())
    tables = with_prices(read_catalogue(), folder)
    return instalments(tables, asked, sums=[10, 10], cache=cache)


def test_least_orders_above_all_the_money_are_told(tmp_path: Path, shared_cache: Cache) -> None:
    """The smaller of 50 and 40 euro is above the 20 that there are."""
    nothing = found(tmp_path, shared_cache, least=("50", "40"))
    why = (
        "Why nothing: no seller takes an order below EUR 40.00, and all sums together are"
        " EUR 20.00."
    )
    assert why_nothing_sentence(nothing) == why
    assert answer_sentence(nothing).startswith("Nothing to buy; ")
    assert answer_sentence(nothing).endswith(f" {why}")


def test_a_least_order_of_all_the_money_is_none_above_it(
    tmp_path: Path, shared_cache: Cache
) -> None:
    """No 20 euro can be spent on what costs 3 and is of no use, but north would take them."""
    rose = Wishes(never=("lemon",))
    nothing = found(tmp_path, shared_cache, least=("20", "40"), wishes=rose)
    assert why_nothing_sentence(nothing) == NO_USE
    nothing = found(tmp_path, shared_cache, least=("20.01", "40"), wishes=rose)
    assert "no seller takes an order below EUR 20.01, and" in why_nothing_sentence(nothing)


def test_too_little_in_stock_is_told(tmp_path: Path, shared_cache: Cache) -> None:
    """Before the least orders, which would be no help."""
    nothing = found(tmp_path, shared_cache, stock="0", least=("50", "40"))
    assert why_nothing_sentence(nothing) == f"Why nothing: {NO_TUBE} with enough in stock."


def test_what_may_be_bought_may_not_be_for_sale(tmp_path: Path, shared_cache: Cache) -> None:
    """The list has lemon and rose alone."""
    nothing = found(tmp_path, shared_cache, wishes=Wishes(never=("lemon", "rose")))
    assert why_nothing_sentence(nothing) == f"Why nothing: {NO_TUBE}."


def test_where_the_wishes_refuse_all_that_is_told(tmp_path: Path, shared_cache: Cache) -> None:
    everything = Wishes(never=tuple(read_catalogue().tubes))
    nothing = found(tmp_path, shared_cache, wishes=everything)
    said = "Why nothing: the wishes refuse every tube that is not owned."
    assert why_nothing_sentence(nothing) == said


def test_what_is_owned_does_for_all(tmp_path: Path, shared_cache: Cache) -> None:
    """The demo catalogue covers a daffodil, so that all of its tubes do."""
    nothing = found(tmp_path, shared_cache, wishes=Wishes(owned=tuple(read_catalogue().tubes)))
    said = "Why nothing: what need not be bought does for all of it."
    assert why_nothing_sentence(nothing) == said


def test_what_is_no_use_is_told_as_far_as_proven(tmp_path: Path, shared_cache: Cache) -> None:
    """Rose alone makes no yellow; nobody has a least order."""
    nothing = found(tmp_path, shared_cache, wishes=Wishes(never=("lemon",)))
    assert why_nothing_sentence(nothing) == NO_USE
    certificate = replace(nothing.certificate, status=Status.STOPPED, bound=10**9)
    stopped = why_nothing_sentence(replace(nothing, certificate=certificate))
    assert "that there is none is not proven" in stopped


def test_nothing_is_told_of_what_is_bought(tmp_path: Path, shared_cache: Cache) -> None:
    bought = found(tmp_path, shared_cache)
    assert bought.purchases
    assert why_nothing_sentence(bought) == ""
    assert "Why nothing" not in answer_sentence(bought)
