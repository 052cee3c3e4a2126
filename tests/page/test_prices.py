"""The page goes by the price list that it was started with."""

from pathlib import Path
from typing import Any

import pytest
from tests.page.painter import Opens
from tests.page.test_scenario_files import send

pytestmark = pytest.mark.usefixtures("_answers_alone")

SELLERS = Path(__file__).parents[2] / "scenarios" / "sellers"


def test_the_answer_is_bought_of_its_sellers(opens: Opens, filled: dict[str, Any]) -> None:
    painter = opens(prices=SELLERS)
    tab = str(painter.browser.get("/").url.path)
    painter.browser.post(f"{tab}ask", data=filled)
    answer = painter.browser.get(f"{tab}answer").text
    assert "by post" in answer or "corner shop" in answer or "market stall" in answer
    saved = painter.browser.post(f"{tab}scenario", data=filled).text
    assert f'prices = "{SELLERS}"' in saved


def test_a_scenario_that_names_a_list_says_by_which_it_is_asked(opens: Opens) -> None:
    painter = opens()
    tab = str(painter.browser.get("/").url.path)
    sent = (SELLERS.parent / "box-or-parcel.toml").read_text(encoding="utf-8")
    shown = " ".join(send(painter.browser, tab, sent).text.split())
    assert "The price list that the file names, sellers, does not come along" in shown
    assert "prices are those of the catalogue." in shown


def test_a_scenario_that_names_another_list_says_which_one_counts(opens: Opens) -> None:
    painter = opens(prices=SELLERS)
    tab = str(painter.browser.get("/").url.path)
    sent = (SELLERS.parent / "box-or-parcel.toml").read_text(encoding="utf-8")
    shown = " ".join(send(painter.browser, tab, sent).text.split())
    assert f"prices are those of {SELLERS}." in shown
    assert "names it again" not in shown
