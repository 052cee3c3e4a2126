"""The page goes by the price list that it was started with, or by the one chosen of several."""

from pathlib import Path
from typing import Any

import pytest
from tests.page.painter import Opens
from tests.page.test_scenario_files import send, sendable
from typer.testing import CliRunner

from fewtubes.catalogue.price_list import with_prices
from fewtubes.catalogue.records import Catalogue
from fewtubes.command_line.main import app
from fewtubes.coverage.cache import Cache
from fewtubes.page.form import scenario_of
from fewtubes.page.settings import Settings
from fewtubes.report.plan_files import plan_files
from fewtubes.shopping.shop import shop

pytestmark = pytest.mark.usefixtures("_answers_alone")

SELLERS = Path(__file__).parents[2] / "scenarios" / "sellers"

FRANCS = "tube,ml,price,currency\nultramarine,5,3.10,CHF\nlemon,5,2.90,CHF\n"
"""A list of our own invention, in another currency."""


@pytest.fixture
def francs(tmp_path: Path) -> Path:
    """Return the folder of a second price list."""
    folder = tmp_path / "in francs"
    folder.mkdir()
    (folder / "offers.csv").write_text(FRANCS, encoding="utf-8")
    return folder


def test_the_answer_is_bought_of_its_sellers(opens: Opens, filled: dict[str, Any]) -> None:
    painter = opens(prices=(SELLERS,))
    tab = str(painter.browser.get("/").url.path)
    painter.browser.post(f"{tab}ask", data=filled)
    answer = painter.browser.get(f"{tab}answer").text
    assert "by post" in answer or "corner shop" in answer or "market stall" in answer
    assert f"prices from: {SELLERS}" in answer
    assert 'name="price-list"' not in painter.browser.get(tab).text
    saved = painter.browser.post(f"{tab}scenario", data=filled).text
    assert f'prices = "{SELLERS}"' in saved


def test_one_of_several_lists_is_chosen(
    opens: Opens, demo: Catalogue, settings: Settings, filled: dict[str, Any], francs: Path
) -> None:
    painter = opens(prices=(SELLERS, francs))
    tab = str(painter.browser.get("/").url.path)
    asked = painter.browser.get(tab).text
    assert ">sellers</option>" in asked
    assert ">in francs</option>" in asked
    assert ">CHF</option>" in asked
    assert ", from EUR" not in asked
    form = {**filled, "currency": "CHF", "price-list": str(francs)}
    painter.browser.post(f"{tab}ask", data=form)
    values = {key: text if isinstance(text, list) else [text] for key, text in form.items()}
    priced = with_prices(demo, francs)
    plan = shop(priced, scenario_of(values, priced), cache=Cache(settings.cache))
    assert plan.bought
    written = painter.browser.get(f"{tab}last/shopping-list.csv").text
    assert written == plan_files(plan)["shopping-list.csv"]
    assert f'prices = "{francs}"' in painter.browser.post(f"{tab}scenario", data=form).text


def test_answers_by_two_lists_stand_side_by_side(
    opens: Opens, filled: dict[str, Any], francs: Path
) -> None:
    browser = opens(prices=(SELLERS, francs)).browser
    tab = str(browser.get("/").url.path)
    browser.post(f"{tab}ask", data=filled)
    browser.post(f"{tab}keep")
    browser.post(f"{tab}ask", data={**filled, "currency": "CHF", "price-list": str(francs)})
    text = browser.get(f"{tab}compare").text
    row = text[text.index(">Prices ") :]
    assert "<td>sellers</td>" in row  # as the form offers them
    assert "<td>in francs</td>" in row


def test_a_currency_that_the_list_does_not_have_is_told(
    opens: Opens, filled: dict[str, Any], francs: Path
) -> None:
    browser = opens(prices=(SELLERS, francs)).browser
    tab = str(browser.get("/").url.path)
    answer = browser.post(f"{tab}ask", data={**filled, "currency": "CHF"})
    assert answer.status_code == 422
    assert '<a href="#currency">Currency</a>' in answer.text


def test_a_scenario_that_names_a_list_says_by_which_it_is_asked(opens: Opens) -> None:
    painter = opens()
    tab = str(painter.browser.get("/").url.path)
    sent = (SELLERS.parent / "box-or-parcel.toml").read_text(encoding="utf-8")
    shown = " ".join(send(painter.browser, tab, sent).text.split())
    assert "The price list that the file names, sellers, does not come along" in shown
    assert "prices are those of the catalogue." in shown


def test_a_list_of_the_name_that_a_scenario_has_is_taken(opens: Opens, francs: Path) -> None:
    painter = opens(prices=(francs, SELLERS))
    tab = str(painter.browser.get("/").url.path)
    sent = (SELLERS.parent / "box-or-parcel.toml").read_text(encoding="utf-8")
    page = send(painter.browser, tab, sent).text
    assert "Prices are those of sellers, as the file names it." in page
    assert sendable(page)["price-list"] == [str(SELLERS)]


def test_a_scenario_that_names_another_list_says_which_one_counts(
    opens: Opens, francs: Path
) -> None:
    painter = opens(prices=(SELLERS, francs))
    tab = str(painter.browser.get("/").url.path)
    sent = (SELLERS.parent / "box-or-parcel.toml").read_text(encoding="utf-8")
    other = send(painter.browser, tab, sent.replace('"sellers"', '"elsewhere"')).text
    assert "prices are those of sellers." in " ".join(other.split())
    assert "names it again" not in other


def test_an_earlier_question_says_that_its_list_is_not_here(
    opens: Opens, filled: dict[str, Any], francs: Path, tmp_path: Path
) -> None:
    data = tmp_path / "data"
    browser = opens(prices=(SELLERS, francs), data=data).browser
    tab = str(browser.get("/").url.path)
    form = {**filled, "currency": "CHF", "price-list": str(francs)}
    browser.post(f"{tab}ask", data=form)
    later = opens(data=data).browser
    tab = str(later.get("/").url.path)
    key = later.get(tab).text.split('name="question" value="')[1].split('"')[0]
    opened = later.post(f"{tab}earlier", data={"question": key}).text
    assert f"Its price list, {francs}, is not here: prices are those of the catalogue." in opened


def test_faults_of_a_further_list_are_told_before_anything_is_served(francs: Path) -> None:
    (francs / "offers.csv").write_text(FRANCS.replace("3.10", "much"), encoding="utf-8")
    named = ["--prices", str(SELLERS), "--prices", str(francs)]
    result = CliRunner().invoke(app, ["page", "--no-browser", *named])
    assert result.exit_code == 2
    assert "row 2" in result.output
    assert "The page is at" not in result.output
