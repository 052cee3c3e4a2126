"""A class and pictures planned, in the form: read as a scenario, shown again, faults at fields."""

from decimal import Decimal
from typing import Any

import pytest
from starlette.testclient import TestClient
from tests.page.test_pages import new_tab

from fewtubes.catalogue.files import HeldFile
from fewtubes.catalogue.records import Catalogue, Hazard
from fewtubes.errors import InputError
from fewtubes.page.fields import LABELS
from fewtubes.page.finer_points import opens_planned, planned_words
from fewtubes.page.form import first_values, scenario_of
from fewtubes.page.from_scenario import opened
from fewtubes.page.planned_form import PLANNED_FIELDS
from fewtubes.scenario.class_wish import ClassWish, Pupils, TubesFor
from fewtubes.scenario.picture_wish import PictureWish
from fewtubes.scenario.scenario_text import scenario_text
from fewtubes.scenario.sent_scenario import sent_scenario

pytestmark = pytest.mark.usefixtures("_answers_alone")

HEAD = 'title = "x"\ncurrency = "EUR"\n'
FLOWER = '[[flower]]\nname = "pansy"\narea_cm2 = 31.5\n'
COLOUR = '[[colour]]\nname = "a ground"\nhex = "#c3d6a2"\narea_cm2 = 90\n'


def typed(demo: Catalogue, **fields: str) -> dict[str, Any]:
    return {**first_values(demo), "flower": ["pansy"], **{k: [v] for k, v in fields.items()}}


def test_what_is_filled_in_is_asked(demo: Catalogue) -> None:
    values = typed(
        demo,
        class_painters="12",
        class_pupils="children",
        class_tubes="pans",
        class_pictures="2",
        class_pan="1,8",
        class_levy="€ 2,50",
    )
    scenario = scenario_of(values, demo)
    assert scenario.group == ClassWish(
        12, TubesFor.PANS, Pupils.CHILDREN, 2, pan_millilitres=1.8, levy=Decimal("2.50")
    )
    assert scenario.budget == 30  # 12 × 2.50, not the 25.00 in the field of the budget
    assert scenario.wishes.avoid_hazards == tuple(Hazard)
    assert scenario.wishes.most_in_mix == 2
    said = scenario_of(typed(demo, class_painters="3", class_hazards="yes", avoid="lead"), demo)
    assert said.wishes.avoid_hazards == (Hazard.LEAD,)
    assert said.budget == 25
    assert scenario_of(typed(demo), demo).group is None


def test_pictures_are_planned(demo: Catalogue) -> None:
    values = typed(demo, pictures="20", flower_cm2="30", waste="25", least_puddle_cm2="4,5")
    assert scenario_of(values, demo).picture == PictureWish(
        pictures=20, waste=0.25, least_puddle_cm2=4.5, flower_cm2=30
    )
    assert scenario_of(typed(demo), demo).picture is None
    shared = typed(demo, class_painters="4", class_tubes="shared", waste="10")
    assert scenario_of(shared, demo).picture == PictureWish(pictures=4, waste=0.1)


@pytest.mark.parametrize(
    ("fields", "where", "told"),
    [
        ({"class_painters": "1"}, "class_painters", "it must be a whole number from 2 to 500"),
        ({"class_painters": "2.5"}, "class_painters", "whole"),
        ({"class_painters": "many"}, "class_painters", "many"),
        ({"class_levy": "3"}, "class_levy", "but not how many paint"),
        ({"class_pan": "2"}, "class_pan", "but not how many paint"),
        ({"class_painters": "4", "class_levy": "-2"}, "class_levy", "-2"),
        ({"class_painters": "4", "class_levy": "<b>"}, "class_levy", "give an amount such as 3.50"),
        ({"class_painters": "500", "class_levy": "900000"}, "class_levy", "500 painters"),
        ({"class_painters": "4", "class_pan": "2"}, "class_pan", "one each"),
        ({"class_painters": "4", "class_pupils": "cats"}, "class_pupils", "cats"),
        ({"class_painters": "4", "class_tubes": "none"}, "class_tubes", "none"),
        ({"class_painters": "500", "class_tubes": "shared", "class_pictures": "1000"},
         "class_pictures", "500 painters"),
        ({"class_painters": "500", "class_pictures": "1000"}, "class_pictures", "500 painters"),
        ({"class_painters": "7", "class_pictures": "2", "pictures": "20"},
         "pictures", "7 painters with 2 each make 14; leave it out here"),
        ({"pictures": "0"}, "pictures", "it must be a whole number from 1 to 10,000"),
        ({"flower_cm2": "30"}, "pictures", "is blank, but other figures about them are filled in"),
        ({"pictures": "2", "waste": "1001"}, "waste", "it must be a number from 0 to 1,000"),
        ({"pictures": "2", "colour_cm2": "0"}, "colour_cm2", "above 0"),
    ],
)  # fmt: skip
def test_what_cannot_be_used_is_told_at_its_field(
    demo: Catalogue, fields: dict[str, str], where: str, told: str
) -> None:
    with pytest.raises(InputError) as refused:
        scenario_of(typed(demo, **fields), demo)
    assert [fault.where for fault in refused.value.faults] == [where]
    assert told in refused.value.faults[0].what
    assert where in LABELS


def test_faults_are_shown_where_they_are(browser: TestClient, filled: dict[str, Any]) -> None:
    page = browser.post(
        f"{new_tab(browser)}ask", data={**filled, "class_painters": "1", "class_levy": "<i>"}
    )
    assert page.status_code == 422
    assert '<details id="planned" open>' in page.text
    assert 'id="fault-class_painters-1"' in page.text
    assert 'id="fault-class_levy-1"' in page.text
    assert "<i>" not in page.text


@pytest.mark.parametrize(
    "table",
    [
        "[class]\npainters = 7\nlevy = 3.25\n",
        '[class]\npainters = 7\ntubes = "shared"\npictures = 3\npupils = "children"\n',
        '[class]\npainters = 7\ntubes = "pans"\npan_millilitres = 2.25\npupils = "grown-ups"\n',
        '[wishes]\navoid_hazards = []\n[class]\npainters = 7\npupils = "children"\n',
        '[wishes]\navoid_hazards = ["lead"]\nmost_in_mix = 1\n[class]\npainters = 7\n',
        "[class]\npainters = 7\n[picture]\nwaste = 0.125\n",
        "[class]\npainters = 7\n[picture]\n",
        "[class]\npainters = 7\npictures = 1\n",
        '[class]\npainters = 7\ntubes = "shared"\npictures = 1\n',
        '[class]\npainters = 7\ntubes = "pans"\npictures = 20\n[picture]\nwaste = 0.125\n',
        '[class]\npainters = 7\ntubes = "shared"\n[picture]\nflower_cm2 = 12.5\n',
        "[picture]\npictures = 12\nleast_puddle_cm2 = 0\ncolour_cm2 = 6\nwaste = 0.2\n",
    ],
)
def test_a_scenario_is_opened_asked_and_saved_as_it_was(demo: Catalogue, table: str) -> None:
    budget = "" if "levy" in table else "budget = 40\n"
    file = HeldFile("x.toml", f"{HEAD}{budget}{FLOWER}{COLOUR}{table}".encode())
    scenario, _ = sent_scenario(file, demo)
    found = opened(scenario, demo)
    assert found.notes == ()
    again = scenario_of({**first_values(demo), **found.values}, demo)
    for part in ("budget", "flowers", "wishes", "group", "picture"):
        assert getattr(again, part) == getattr(scenario, part)
    assert scenario_text(again) == scenario_text(scenario)
    assert opens_planned(found.values, [])


def test_what_is_folded_away_tells_what_it_holds(demo: Catalogue) -> None:
    assert planned_words(typed(demo)) == ""
    assert not opens_planned(typed(demo), ["budget"])
    assert opens_planned(typed(demo), ["class_levy"])
    both = typed(demo, class_painters="12", pictures="20")
    assert planned_words(both) == "12 painters and 20 pictures"
    assert set(PLANNED_FIELDS) < set(LABELS)


def test_an_answer_for_a_class_tells_the_cost_a_head(
    browser: TestClient, filled: dict[str, Any]
) -> None:
    tab = new_tab(browser)
    text = browser.post(f"{tab}ask", data={**filled, "class_painters": "5", "class_levy": "9"}).text
    assert "For 5 beginners" in text
    assert "a head" in text
    assert "For whoever leads the class" in text
    assert 'data-title="Left over"' in text
    plan = browser.get(f"{tab}last/plan.json").json()
    assert plan["scenario"]["class"]["painters"] == 5
    handout = browser.get(f"{tab}last/handout.html")
    assert "attachment" in handout.headers["content-disposition"]
    assert "cornflower" in handout.text
    for name in ("handout.html", "for-the-class.csv", "paint.csv"):
        there = browser.get(f"{tab}last/{name}").status_code == 200
        assert there == (f"/last/{name}" in text) == (name != "paint.csv")
    alone = new_tab(browser)
    browser.post(f"{alone}ask", data=filled)
    assert browser.get(f"{alone}last/handout.html").status_code == 404


def test_an_answer_for_many_pictures_tells_the_paint(
    browser: TestClient, filled: dict[str, Any]
) -> None:
    tab = new_tab(browser)
    text = browser.post(f"{tab}ask", data={**filled, "pictures": "8", "budget": "30"}).text
    assert "For 8 pictures, each with every flower" in text.replace("\u00a0", " ")
    assert 'data-title="Lasts for"' in text
