"""A question saved as a scenario's file, and opened from one."""

import re
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from starlette.applications import Starlette
from starlette.testclient import TestClient
from tests.page.painter import Opens
from tests.page.test_pages import new_tab

from fewtubes.catalogue.files import HeldFile
from fewtubes.catalogue.records import Catalogue
from fewtubes.mixing.recipes import STRENGTHS, RecipeSpace
from fewtubes.page.form import first_values, scenario_of
from fewtubes.page.from_scenario import ROUNDED, opened
from fewtubes.page.own_flowers import MOST_ROWS
from fewtubes.page.own_rows import MOST_COLOURS
from fewtubes.scenario.reading import read_scenario, scenario_files
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.sent_scenario import sent_scenario

pytestmark = pytest.mark.usefixtures("_answers_alone")

ROOT = Path(__file__).parents[2]
FILES = [path for path in scenario_files(ROOT / "scenarios") if not path.stem.startswith("own")]
"""Without those whose measurement or whole flowers a form cannot hold."""


LEFT_OUT = {"prices"}
"""What a form asks nothing of; a price list that a file names is named again when it is saved."""


def parts(scenario: Scenario) -> dict[str, Any]:
    """Return what a form can hold of a scenario; it lists flowers as the catalogue does."""
    values = {key: value for key, value in vars(scenario).items() if key not in LEFT_OUT}
    values["flowers"] = {(wish.name, wish.importance, wish.area_cm2) for wish in scenario.flowers}
    values["own_colours"] = [
        (one.name, one.importance, one.lab, one.area_cm2) for one in scenario.own_colours
    ]
    wishes = dict(vars(scenario.wishes))
    values["wishes"] = {
        key: set(value) if isinstance(value, tuple) else value for key, value in wishes.items()
    }
    return values


def send(browser: TestClient, tab: str, text: str, name: str = "sent.toml") -> Any:
    return browser.post(f"{tab}open", files={"scenario": (name, text.encode("utf-8"))})


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_form_holds_every_demo_scenario(path: Path, demo: Catalogue) -> None:
    scenario = read_scenario(path, demo)
    found = opened(scenario, demo)
    again = scenario_of({**first_values(demo), **found.values}, demo)
    assert parts(again) == parts(scenario)
    assert found.notes == ()


@pytest.mark.parametrize(
    "wash", ["0.01", "0.0221", "0.0222", "0.123", "0.125", "0.3", "0.71", "0.99", "1"]
)
def test_a_wash_that_no_form_names_rules_out_the_same_ones(demo: Catalogue, wash: str) -> None:
    asked = f'[[flower]]\nname = "pansy"\n[wishes]\nthinnest_wash = {wash}\n'
    text = f'title = "x"\ncurrency = "EUR"\nbudget = 1\n{asked}'
    scenario, _ = sent_scenario(HeldFile("x.toml", text.encode()), demo)
    values = opened(scenario, demo).values
    offered = ["", *(repr(strength) for strength in STRENGTHS[:-1])]
    assert next(iter(values.get("thinnest_wash", [""]))) in offered
    again = scenario_of({**first_values(demo), **values}, demo)
    taken = [one.wishes.thinnest_wash for one in (scenario, again)]
    first, second = map(RecipeSpace.no_thinner_than, taken)
    assert first.strengths == second.strengths


@pytest.mark.parametrize("most", [1, 2, 3])
def test_how_many_tubes_a_mix_holds_is_kept(demo: Catalogue, most: int) -> None:
    asked = f'[[flower]]\nname = "pansy"\n[wishes]\nmost_in_mix = {most}\n'
    text = f'title = "x"\ncurrency = "EUR"\nbudget = 1\n{asked}'
    scenario, _ = sent_scenario(HeldFile("x.toml", text.encode()), demo)
    values = opened(scenario, demo).values
    again = scenario_of({**first_values(demo), **values}, demo)
    assert again.wishes.most_in_mix == scenario.wishes.most_in_mix == most


def test_colours_beyond_a_screen_are_told(demo: Catalogue) -> None:
    text = 'title = "x"\ncurrency = "EUR"\nbudget = 1\n[[colour]]\nname = "c"\nlab = [50, 3, 4]\n'
    scenario, _ = sent_scenario(HeldFile("x.toml", text.encode()), demo)
    assert opened(scenario, demo).notes == (ROUNDED,)


def test_a_question_is_saved_and_opened_again(
    browser: TestClient, demo: Catalogue, filled: dict[str, Any], tmp_path: Path
) -> None:
    tab = new_tab(browser)
    form = {
        **filled,
        "title": "Blue & green",
        "shows": "  For </textarea> the wall,\r\nblue first  ",
        "tolerance": "3,5",
        "colour-name": ["glaze"],
        "colour-hex": ["#5f86a8"],
        "colour-importance": ["2"],
        "tube-lemon": "owned",
        "tube-magenta": "never",
        "thinnest_wash": "0.25",
        "most_in_mix": "2",
    }
    saved = browser.post(f"{tab}scenario", data=form)
    assert saved.headers["content-disposition"] == 'attachment; filename="blue-green.toml"'
    path = tmp_path / "saved.toml"
    path.write_bytes(saved.content)
    scenario = read_scenario(path, demo)
    assert scenario.wishes.owned == ("lemon",)
    assert scenario.wishes.most_in_mix == 2
    assert scenario.shows == "For </textarea> the wall, blue first"
    other = new_tab(browser)
    text = send(browser, other, saved.text).text
    assert "Opened: sent.toml." in text
    assert 'value="3.5"' in text
    assert ">For &lt;/textarea&gt; the wall, blue first</textarea>" in text
    assert browser.post(f"{other}scenario", data=sendable(text)).content == saved.content


def sendable(text: str) -> dict[str, Any]:
    """Return the form of a page as a browser would send it."""
    form = text[text.index('id="question"') : text.index("</form>", text.index('id="question"'))]
    form = re.sub(r"<template.*?</template>", "", form, flags=re.S)
    sent: dict[str, list[str]] = {}
    for tag in re.findall(r"<input[^>]*>", form):
        name, value = re.search(r' name="([^"]+)"', tag), re.search(r' value="([^"]*)"', tag)
        if name and ('type="checkbox"' not in tag or " checked" in tag):
            sent.setdefault(name[1], []).append((value[1] if value else "").replace("&amp;", "&"))
    for field, typed in re.findall(r'<textarea name="([^"]+)"[^>]*>(.*?)</textarea>', form, re.S):
        sent[field] = [unescape(typed)]
    for field, options in re.findall(r'<select name="([^"]+)".*?>(.*?)</select>', form, re.S):
        choice = r'<option(?: value="([^"]*)")?{}>([^<]*)'
        chosen = re.search(choice.format(" selected"), options) or re.search(
            choice.format(""), options
        )
        assert chosen is not None
        sent[field] = [chosen[2] if chosen[1] is None else chosen[1]]
    return sent


def test_a_faulty_question_is_not_saved(browser: TestClient, filled: dict[str, Any]) -> None:
    tab = new_tab(browser)
    answer = browser.post(f"{tab}scenario", data={**filled, "budget": "much"})
    assert answer.status_code == 422
    assert '<a href="#budget">Budget</a>' in answer.text


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("title =", "is not TOML"),
        ('title = "x"\ncurrency = "EUR"\nbudget = 3\n[[flower]]\nname = "pansi"\n', "pansy"),
        ('[[colour]]\nname = "a"\nreflectance = "/etc/passwd"\n', "did not come along"),
        (
            'title = "x"\ncurrency = "EUR"\nbudget = 3\n[[flower]]\nname = "mine"\n'
            + "".join(
                f'[[flower.swatch]]\nname = "b{n}"\nrole = "leaf"\nhex = "#446633"\n'
                for n in range(MOST_ROWS + 1)
            ),
            f"'mine' has more colours than the {MOST_ROWS} that this page takes",
        ),
        (
            'title = "x"\ncurrency = "EUR"\nbudget = 3\n'
            + "".join(
                f'[[colour]]\nname = "c{n}"\nhex = "#446633"\n' for n in range(MOST_COLOURS + 1)
            ),
            f"more colours of your own than the {MOST_COLOURS} that this page takes",
        ),
        ('title = "<script>alert(1)</script>"\nno_key = 3\n', "unknown key"),
    ],
)
def test_a_faulty_file_is_told_and_the_form_stays(
    browser: TestClient, app: Starlette, text: str, told: str
) -> None:
    tab = new_tab(browser)
    held = app.state.run.tabs.find(tab.split("/")[2])
    before = held.values
    answer = send(browser, tab, text, name="<b>.toml")
    assert answer.status_code == 422
    assert told in answer.text.replace("&#39;", "'")
    assert "<script>alert" not in answer.text
    assert "<b>.toml" not in answer.text
    assert held.values == before
    assert re.search(r'<details class="earlier" id="earlier" open>', answer.text)


def test_no_file_chosen(browser: TestClient) -> None:
    answer = browser.post(f"{new_tab(browser)}open", data={"x": "y"})
    assert answer.status_code == 422
    assert "none is chosen" in answer.text


def test_a_scenario_of_others_does_not_fill_the_box_at_home(
    opens: Opens, tmp_path: Path, filled: dict[str, Any]
) -> None:
    painter = opens(data=tmp_path)
    browser = painter.browser
    tab = new_tab(browser)
    text = 'title = "x"\ncurrency = "EUR"\nbudget = 3\nowned = ["lemon"]\nbox = "b.toml"\n'
    page = send(browser, tab, f'{text}[[flower]]\nname = "pansy"\n').text
    assert "does not come along" in page
    assert '<option value="owned" selected>I own it, for this question' in page
    browser.post(f"{tab}ask", data={**filled, "tube-lemon": "owned", "box-known": ""})
    assert (
        not (tmp_path / "box.toml").exists() or "lemon" not in (tmp_path / "box.toml").read_text()
    )


@pytest.mark.parametrize(
    ("asked", "options"),
    [
        ({}, ""),
        ({"puddling": "flower", "trials": ""}, ""),
        ({"puddling": "sitting"}, "--one-sitting"),
        ({"trials": "steadiest-near"}, "--steadiest --within 0.01"),
        ({"puddling": "colour", "trials": "tell"}, "--nearest-each --how-sure"),
    ],
)
def test_what_no_scenario_holds_stands_in_a_remark(
    browser: TestClient, filled: dict[str, Any], asked: dict[str, str], options: str
) -> None:
    tab = new_tab(browser)
    text = browser.post(f"{tab}scenario", data={**filled, **asked}).text
    remark = f"# asked with: fewtubes shop {options}\n" if options else ""
    assert text.startswith(f'{remark}title = "One flower"\n')


def test_a_price_list_is_named_again_and_not_looked_at(browser: TestClient) -> None:
    head = 'title = "x"\ncurrency = "EUR"\nbudget = 9\nprices = "my <b>sellers"\n'
    tab = new_tab(browser)
    text = send(browser, tab, f'{head}[[flower]]\nname = "pansy"\n').text
    assert "The price list that the file names, " in text
    assert "A file that you save names it again." in text
    assert "<b>" not in text
    saved = browser.post(f"{tab}scenario", data=sendable(text)).text
    assert 'prices = "my <b>sellers"' in unescape(saved)  # the test sends signs as they stand
