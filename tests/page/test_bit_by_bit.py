"""Buying bit by bit, asked on the page beside an answer: by the library, remembered, put right."""

import csv
import io
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient
from tests.page.conftest import ORIGIN, TOKEN
from tests.page.test_asides import EndlessAside, InlineAside, client, escaped, listed
from tests.page.test_pages import new_tab

from fewtubes.catalogue.price_list import with_prices
from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.instalments import instalments
from fewtubes.coverage.cache import Cache
from fewtubes.errors import InputError
from fewtubes.page.amounts import read_amount
from fewtubes.page.assortment import Assortment
from fewtubes.page.form import scenario_of
from fewtubes.page.memory import question_of
from fewtubes.page.remembered import asked_besides
from fewtubes.page.settings import Settings
from fewtubes.page.sums_form import MOST_TYPED, NONE_GIVEN, sums_asked
from fewtubes.report.answer_files import instalment_files
from fewtubes.report.illustrated.instalments_page import InstalmentsReport
from fewtubes.report.sentences.instalments import answer_sentence, title_words
from fewtubes.tables.spreadsheet import Spreadsheet

pytestmark = pytest.mark.usefixtures("_answers_alone")

Filled = dict[str, Any]

SELLERS = Path(__file__).parents[2] / "scenarios" / "sellers"


@pytest.fixture
def painter(demo: Catalogue, settings: Settings, assortment: Assortment) -> Iterator[TestClient]:
    with client(demo, settings, assortment, InlineAside) as browser:
        browser.get(f"/open/{TOKEN}", follow_redirects=False)
        yield browser


@pytest.fixture
def waiting(demo: Catalogue, settings: Settings, assortment: Assortment) -> Iterator[TestClient]:
    with client(demo, settings, assortment, EndlessAside) as browser:
        browser.get(f"/open/{TOKEN}", follow_redirects=False)
        yield browser


def answered(painter: TestClient, filled: Filled) -> str:
    tab = new_tab(painter)
    painter.post(f"{tab}ask", data=filled)
    return tab


def sums(*typed: str) -> dict[str, list[str]]:
    return {"sum": [*typed, *([""] * (MOST_TYPED - len(typed)))]}


def test_what_to_buy_when(
    painter: TestClient, demo: Catalogue, settings: Settings, filled: Filled
) -> None:
    tab = answered(painter, filled)
    form = painter.get(f"{tab}answer").text
    assert form.count('name="sum"') == MOST_TYPED
    page = painter.post(f"{tab}instalments", data=sums("4", "", "3,50 €", "EUR 2"))
    assert page.url.path == f"{tab}instalments"
    assert page.status_code == 200
    cache = Cache(settings.cache)
    found = instalments(
        demo, scenario_of(listed(filled), demo), sums=["4", "3.50", "2"], cache=cache
    )
    text = escaped(page.text).replace("\u00a0", " ")
    assert answer_sentence(found) in text
    for place in range(len(found.times)):
        assert title_words(found, place) in text
    for spreadsheet in ("comma", "semicolon"):
        painter.post(f"{tab}spreadsheet/instalments", data={"spreadsheet": spreadsheet})
        got = painter.get(f"{tab}found/instalments/instalments.csv")
        assert got.headers["content-type"].startswith("text/csv")
        expected = instalment_files(found, Spreadsheet(spreadsheet))["instalments.csv"]
        assert got.content == expected.encode()
    report = painter.get(f"{tab}found/instalments/report.html")
    assert report.headers["content-type"].startswith("text/html")
    assert "attachment" in report.headers["content-disposition"]
    assert len(report.text) == pytest.approx(len(InstalmentsReport(found).page()), rel=0.01)
    assert painter.get(f"{tab}found/instalments/instalments.json").json()["sums"] == [
        "4.00", "3.50", "2.00",
    ]  # fmt: skip
    inks = painter.get(f"{tab}instalments/inks.css")
    assert inks.headers["content-type"].startswith("text/css")
    assert "--ground:#" in inks.text
    rows = list(csv.DictReader(io.StringIO(expected), delimiter=";"))
    assert len(rows) == len(found.purchases)


def test_what_the_table_holds_is_told_as_it_is(
    painter: TestClient,
    demo: Catalogue,
    settings: Settings,
    assortment: Assortment,
    filled: Filled,
) -> None:
    """Under sellers' terms its rows are those of the purchases."""
    tab = answered(painter, filled)
    page = painter.post(f"{tab}instalments", data=sums("4", "4")).text
    assert "</a> a row for each tube, in the order of buying</li>" in page
    priced = replace(settings, prices=(SELLERS,))
    with client(with_prices(demo, SELLERS), priced, assortment, InlineAside) as browser:
        browser.get(f"/open/{TOKEN}", follow_redirects=False)
        tab = answered(browser, filled)
        page = browser.post(f"{tab}instalments", data=sums("9", "9")).text
        assert "</a> a row for each pack, set and delivery, with its seller</li>" in page
        table = browser.get(f"{tab}found/instalments/instalments.csv").text
    rows = list(csv.DictReader(io.StringIO(table)))
    assert rows
    assert all(row["row"] and row["seller"] for row in rows)


UNFIT = (
    (("abc",), "sum-1", "Now: is &#39;abc&#39;; give an amount such as 8.00."),
    (("4", "-1"), "sum-2", "Then, 2: is &#39;-1&#39;; it must be from 0 to 1,000,000."),
    (("4", "", "1.234,5"), "sum-3", "leave out signs between thousands"),
    (("4", "1.005"), "sum-2", "at most two decimals"),
    (("", " "), "sum-1", NONE_GIVEN),
    (("0", "0"), "sum-1", "all sums are 0, which buys nothing; give one above 0."),
    (("900000", "900000"), "sum-1", "all of them together"),
    (("<script>alert(1)</script>",), "sum-1", "&lt;script&gt;"),
    (("nan", "1e2"), "sum-1", "nan"),
)
"""What is typed, the field at which something is told of it, and what."""


def test_sums_that_cannot_be_used_are_told_at_their_field(
    painter: TestClient, filled: Filled
) -> None:
    tab = answered(painter, filled)
    for typed, field, told in UNFIT:
        page = painter.post(f"{tab}instalments", data=sums(*typed))
        assert page.status_code == 422
        start = page.text.index(f'id="fault-{field}"')
        assert told in page.text[start : start + 300]
        assert f'aria-describedby="fault-{field}"' in page.text
        assert "<script>alert" not in page.text
        again = painter.get(f"{tab}instalments")  # said once; what was typed stays
        assert again.status_code == 200
        assert 'id="fault-' not in again.text


def test_no_more_sums_than_fields_are_taken() -> None:
    with pytest.raises(InputError, match="more than the 6 that this page takes"):
        sums_asked({"sum": ["1"] * 7}, "EUR")


def test_there_is_nothing_to_ask_without_an_answer(painter: TestClient) -> None:
    tab = new_tab(painter)
    assert painter.post(f"{tab}instalments", data=sums("4")).status_code == 404
    assert painter.get(f"{tab}instalments").url.path == tab
    assert painter.get("/tab/none/instalments").status_code == 404
    assert painter.get(f"{tab}found/instalments/report.html").status_code == 404
    assert painter.get(f"{tab}instalments/inks.css").text == ""


def test_it_is_followed_and_stopped(waiting: TestClient, filled: Filled) -> None:
    tab = answered(waiting, filled)
    page = waiting.post(f"{tab}instalments", data=sums("4", "4"))
    assert page.url.path == f"{tab}aside/work"
    assert "Choosing what to buy when" in page.text
    stopped = waiting.post(f"{tab}aside/stop")
    assert stopped.url.path == f"{tab}instalments"
    assert "Stopped; nothing was changed." in stopped.text
    assert 'value="4"' in stopped.text


def test_demands_that_clash_are_told(painter: TestClient, filled: Filled) -> None:
    tab = answered(painter, {**filled, "tube-magenta": "must_have"})
    page = painter.post(f"{tab}instalments", data=sums("0.50"))
    assert page.url.path == f"{tab}instalments"
    assert "the demands cannot all be met" in page.text
    assert "The budget here is all sums together." in page.text


def test_an_answer_to_another_question_is_called_so(painter: TestClient, filled: Filled) -> None:
    tab = answered(painter, filled)
    told = "This was asked before your last answer"
    assert told not in painter.post(f"{tab}instalments", data=sums("4", "4")).text
    painter.post(f"{tab}ask", data={**filled, "budget": "9"})  # money alone is no other question
    assert told not in painter.get(f"{tab}instalments").text
    painter.post(f"{tab}ask", data={**filled, "flower": ["primrose"]})
    assert told in painter.get(f"{tab}instalments").text


def test_sums_stay_with_the_question(
    demo: Catalogue, settings: Settings, assortment: Assortment, filled: Filled, tmp_path: Any
) -> None:
    """They are remembered, opened and saved with it, and the same question is listed once."""
    from dataclasses import replace

    with client(demo, replace(settings, data=tmp_path), assortment, InlineAside) as painter:
        painter.get(f"/open/{TOKEN}", follow_redirects=False)
        tab = answered(painter, filled)
        painter.post(f"{tab}instalments", data=sums("4", "3"))
        form = painter.get(tab).text
        assert '<input type="hidden" name="sum" value="4">' in form
        other = new_tab(painter)
        listed_there = painter.get(other).text
        assert listed_there.count('name="question"') == 1
        assert "bit by bit with 4 + 3" in listed_there
        key = listed_there.split('name="question" value="')[1].split('"')[0]
        painter.post(f"{other}earlier", data={"question": key})
        opened = painter.get(other).text
        assert '<input type="hidden" name="sum" value="3">' in opened
        saved = painter.post(f"{other}scenario", data={**filled, **sums("4", "3")}).text
        assert saved.startswith("# bit by bit: fewtubes instalments --sum 4 --sum 3\n")


def test_sums_that_cannot_be_used_are_not_saved() -> None:
    values = {"sum": ["4", "x"], "currency": ["EUR"], "trials": ["tell"]}
    assert asked_besides(values) == "# asked with: fewtubes shop --how-sure\n"
    assert asked_besides({"currency": ["EUR"]}) == ""


def test_the_same_question_with_other_sums_is_the_same() -> None:
    one = question_of({"title": ["a"], "sum": ["4"]}, None)
    assert one.key == question_of({"title": ["a"], "sum": ["5"]}, None).key
    assert one.key != question_of({"title": ["b"], "sum": ["4"]}, None).key


@pytest.mark.parametrize("typed", ["8", "8,00", "€8", "8 €", "eur 8", "8.0"])
def test_amounts_are_read_as_they_are_written(typed: str) -> None:
    amount, fault = read_amount(typed, "EUR", lambda _amount: None, such_as="8.00")
    assert amount == 8
    assert not fault


def test_the_origin_of_the_form_is_looked_at(painter: TestClient, filled: Filled) -> None:
    tab = answered(painter, filled)
    foreign = {"origin": ORIGIN.replace("127", "128")}
    assert painter.post(f"{tab}instalments", data=sums("4"), headers=foreign).status_code == 403
