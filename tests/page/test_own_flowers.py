"""A flower of the painter's own: typed, made from a photograph, changed, asked about, kept."""

import csv
import io
import re
from dataclasses import replace
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from starlette.applications import Starlette
from starlette.testclient import TestClient
from tests.colour.painted_flowers import DEEP, PALE, Painted, painted, photographed

from fewtubes.catalogue.files import HeldFile
from fewtubes.catalogue.flowers import ROLES
from fewtubes.catalogue.records import Catalogue, Role
from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.display import hex_to_lab
from fewtubes.colour.flower_colours import Depth, FlowerColour
from fewtubes.colour.picture_file import decoded
from fewtubes.colour.picture_parts import Standing
from fewtubes.errors import InputError
from fewtubes.page.fields import LABELS, MOST_OWN_FLOWERS
from fewtubes.page.form import scenario_of
from fewtubes.page.memory import question_of
from fewtubes.page.own_flowers import (
    MOST_ROWS,
    FlowerRow,
    TypedFlower,
    flower_fields,
    of_flower,
    typed_flowers,
    with_flowers,
)
from fewtubes.page.photographed_flower import photographed_rows, photographed_words
from fewtubes.page.unpacking import Unpacker
from fewtubes.scenario.flower_file import with_flowers as with_table
from fewtubes.scenario.own_flowers import OwnFlower, OwnSwatch

Filled = dict[str, Any]

BELL = TypedFlower(
    0,
    "my bellflower",
    "2",
    (
        FlowerRow("edge", "#c9b2e6", "petal light"),
        FlowerRow("bell", "#8a5fb0", "petal"),
        FlowerRow("table", "#a08060", "petal", taken=False),
        FlowerRow("leaf", "#4f7a3c", "leaf", "1.5"),
    ),
)
"""Colours of our own invention."""


def form(filled: Filled, *flowers: TypedFlower, **changed: Any) -> dict[str, list[str]]:
    both = {**filled, **flower_fields(flowers), **changed}
    return {key: [*value] if not isinstance(value, str) else [value] for key, value in both.items()}


def faults_of(filled: Filled, demo: Catalogue, *flowers: TypedFlower) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as error:
        scenario_of(form(filled, *flowers), demo)
    return [(fault.where, fault.what) for fault in error.value.faults]


def new_tab(browser: TestClient) -> str:
    return browser.get("/").url.path


@pytest.fixture
def picture(monkeypatch: pytest.MonkeyPatch) -> bytes:
    """Return a photograph, which is unpacked in this process: that is quicker."""
    monkeypatch.setattr(Unpacker, "unpack", lambda _self, data: decoded(data))
    return photographed(painted(Painted("table", side=320)))


def test_a_typed_flower_is_one_flower_of_the_question(filled: Filled, demo: Catalogue) -> None:
    scenario = scenario_of(form(filled, BELL), demo)
    (own,) = scenario.own_flowers
    assert [wish.name for wish in scenario.flowers] == ["cornflower", "my bellflower"]
    assert (own.name, own.importance) == ("my bellflower", 2)
    # Usual importances of the roles, and the one that is typed; the unticked row is left out.
    told = [(one.name, one.role, one.importance) for one in own.swatches]
    assert told == [
        ("edge", Role.PETAL_LIGHT, 2),
        ("bell", Role.PETAL, 3),
        ("leaf", Role.LEAF, 1.5),
    ]
    assert own.swatches[1].lab == tuple(hex_to_lab("#8a5fb0").tolist())


def test_a_flower_alone_will_do(filled: Filled, demo: Catalogue) -> None:
    assert len(scenario_of(form({**filled, "flower": []}, BELL), demo).flowers) == 1
    blank = TypedFlower(1)
    assert len(scenario_of(form({**filled, "flower": []}, BELL, blank), demo).flowers) == 1
    (fault,) = faults_of({**filled, "flower": []}, demo, blank)
    assert fault[0] == "flowers"
    assert "nothing is chosen yet" in fault[1]


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"name": " "}, "the name is blank"),
        ({"name": "cornflower"}, "there is a flower 'cornflower' already"),
        ({"importance": "0"}, "the importance is '0'; it must be a number above 0"),
        ({"rows": ()}, "has no colours; give it one at least"),
        ({"rows": (FlowerRow("a", "blue"),)}, "'a' is 'blue'; a colour is written as #rrggbb"),
        ({"rows": (FlowerRow("a", "#112233", "root"),)}, "the part of 'a' is 'root'"),
        (
            {"rows": (FlowerRow("a", "#112233", "leaf", "x"),)},
            "the weight of 'a' is 'x'; it must be",
        ),
        ({"rows": (FlowerRow("a", "#112233"), FlowerRow("A", "#112244"))}, "the swatch"),
        ({"rows": (FlowerRow("a", "#112233", taken=False),)}, "has no colours"),
    ],
)
def test_faults_are_told_of_their_flower(
    filled: Filled, demo: Catalogue, change: dict[str, Any], told: str
) -> None:
    found = faults_of({**filled, "flower": ["rose, red"]}, demo, replace(BELL, number=3, **change))
    assert {where for where, _ in found} == {"own-flower-3"} <= LABELS.keys()
    assert any(told in what for _, what in found), found


def test_two_flowers_of_one_name(filled: Filled, demo: Catalogue) -> None:
    other = TypedFlower(4, "My  Bellflower", rows=BELL.rows)
    ((where, what),) = faults_of(filled, demo, BELL, other)
    assert where == "own-flower-4"
    assert "is the name of another flower of your own" in what


def test_more_colours_than_allowed(filled: Filled, demo: Catalogue) -> None:
    rows = tuple(FlowerRow(f"colour {n}", "#112233") for n in range(MOST_ROWS + 1))
    ((_, what),) = faults_of(filled, demo, TypedFlower(0, "many", rows=rows))
    assert what == f"has {MOST_ROWS + 1} colours; at most {MOST_ROWS} are allowed here."


def test_what_the_form_holds_comes_back() -> None:
    values = with_flowers({"title": ["x"]}, [BELL])
    assert typed_flowers(values) == (BELL,)
    assert with_flowers(values, []) == {"title": ["x"], "own-flower": []}
    assert typed_flowers({"own-flower": ["99", "-1", "a", "0", "0"]}) == (TypedFlower(0),)


def test_a_flower_of_a_scenario_as_the_form_holds_it(filled: Filled, demo: Catalogue) -> None:
    swatches = [
        OwnSwatch.from_hex("bell", "petal", "#8a5fb0"),
        OwnSwatch.from_hex("l", "leaf", "#4f7a3c", 2),
    ]
    flower = OwnFlower("my bell", tuple(swatches), importance=3)
    (again,) = scenario_of(form(filled, of_flower(2, flower)), demo).own_flowers
    assert (again.name, again.importance) == ("my bell", 3)
    assert [(o.name, o.role, o.lab, o.importance) for o in again.swatches] == [
        (o.name, o.role, o.lab, o.importance) for o in flower.swatches
    ]


def one(lab: tuple[float, float, float], part: int, share: float, **more: Any) -> FlowerColour:
    values = {"depth": Depth.BODY, "standing": Standing.FLOWER, **more}
    return FlowerColour(lab, "#000000", part=part, share=share, **values)


def test_roles_are_suggested() -> None:
    rows = photographed_rows(
        [
            one((80, 20, -10), 0, 0.3, depth=Depth.LIGHTEST),
            one((60, 40, -10), 0, 0.3),
            one((40, 50, -10), 0, 0.3, depth=Depth.DEEPEST),
            one((80, 5, 70), 1, 0.02),
            one((45, -25, 25), 2, 0.1),
            one((30, -20, 20), 2, 0.1, depth=Depth.DEEPEST),
            one((50, 10, 25), 3, 0.05, standing=Standing.UNSURE),
            one((95, 0, 2), 4, 0.5, standing=Standing.BACKGROUND),
        ]
    )
    assert [(row.name, row.role, row.taken) for row in rows] == [
        ("light edge", "petal light", True),
        ("petal", "petal", True),
        ("deep base", "petal shade", True),
        ("centre", "centre", True),
        ("leaf", "leaf", True),
        ("leaf shadow", "leaf shade", True),
        ("centre, perhaps background", "centre", False),
        ("background", "petal", False),
    ]
    assert {row.role for row in rows} <= ROLES.keys()


def test_several_petals_are_told_apart_by_their_hue() -> None:
    found = [one((30, 40, -50), 0, 0.2), one((85, 5, 70), 1, 0.1)]
    assert [row.name for row in photographed_rows(found)] == ["dark violet petal", "yellow petal"]


def test_where_nothing_is_sure_all_is_ticked_but_what_is_behind() -> None:
    found = [
        one((60, 40, 0), 0, 0.5, standing=Standing.UNSURE),
        one((90, 0, 0), 1, 0.3, standing=Standing.BACKGROUND),
    ]
    assert [row.taken for row in photographed_rows(found)] == [True, False]
    assert "tick it if it is not" in photographed_words(found)
    assert "1 colour of the background not ticked" in photographed_words(found)


def shown_rows(page: str) -> list[dict[str, Any]]:
    """Return what the rows of a page hold."""
    rows = re.findall(r'<div class="swatch".*?</div>', page, re.DOTALL)
    return [
        {
            "hex": re.search(r'name="swatch-hex-\d+"[^>]*value="([^"]*)"', row)[1],  # type: ignore[index]
            "name": re.search(r'name="swatch-name-\d+"[^>]*value="([^"]*)"', row)[1],  # type: ignore[index]
            "role": re.search(r"<option selected>([^<]+)", row)[1],  # type: ignore[index]
            "taken": bool(re.search(r'name="swatch-taken-\d+"[^>]* checked', row)),
        }
        for row in rows
    ]


def test_a_flower_from_a_photograph(
    browser: TestClient, app: Starlette, filled: Filled, picture: bytes
) -> None:
    tab = new_tab(browser)
    files = {"photograph": ("my-garden.jpg", picture, "image/jpeg")}
    page = browser.post(f"{tab}flower/photograph", data=filled, files=files).text
    rows = shown_rows(page)
    ends = {row["role"]: hex_to_lab(row["hex"]) for row in rows if row["taken"]}
    # Colours of the picture as it was painted; 2 is the cut-off of tests/colour.
    assert float(delta_e_2000(ends["petal light"], np.array(PALE))) < 2
    assert float(delta_e_2000(ends["petal shade"], np.array(DEEP))) < 2
    assert [row["name"] for row in rows if not row["taken"]][-1:] == ["background"]
    assert "of the background not ticked" in page
    assert re.search(r'value="cornflower" id="flower-\d+"[^>]* checked', page)  # nothing was lost
    assert "background not ticked" not in browser.get(tab).text  # it is said once
    held = app.state.run.tabs.find(tab.split("/")[2])
    assert "photograph" not in held.values
    assert "my-garden" not in repr(held)


@pytest.mark.parametrize(
    ("data", "told"), [(b"", "choose a file first"), (b"no picture", "is not a whole JPEG")]
)
def test_a_photograph_that_is_none(
    browser: TestClient, filled: Filled, picture: bytes, data: bytes, told: str
) -> None:
    files = {"photograph": ("x.jpg", data, "image/jpeg")}
    answer = browser.post(f"{new_tab(browser)}flower/photograph", data=filled, files=files)
    assert answer.status_code == 422
    assert told in answer.text
    assert "own-flower-0" not in answer.text


def test_by_hand_changed_and_taken_out(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    rows = shown_rows(browser.post(f"{tab}flower/new", data=filled).text)
    assert [row["role"] for row in rows] == ["petal light", "petal", "petal shade", "leaf"]
    assert {row["hex"] for row in rows} == {""}
    page = browser.post(f"{tab}flower/row/0", data=form(filled, BELL)).text
    assert [row["name"] for row in shown_rows(page)] == [
        "edge",
        "bell",
        "table",
        "leaf",
        "colour 5",
    ]
    other = TypedFlower(1, "other", rows=(FlowerRow("a", "#112233"),))
    page = browser.post(f"{tab}flower/out/0", data=form(filled, BELL, other)).text
    assert 'value="other"' in page
    assert "my bellflower" not in page
    full = [TypedFlower(n, f"flower {n}", rows=BELL.rows) for n in range(MOST_OWN_FLOWERS)]
    answer = browser.post(f"{tab}flower/new", data=form(filled, *full))
    assert answer.status_code == 422
    assert f"there are {MOST_OWN_FLOWERS} of your own already" in answer.text
    brim = TypedFlower(
        0, "brim", rows=tuple(FlowerRow(f"{n}", "#112233") for n in range(MOST_ROWS))
    )
    assert (
        f"has {MOST_ROWS} colours already"
        in browser.post(f"{tab}flower/row/0", data=form(filled, brim)).text
    )


def test_the_answer_has_it_as_one_flower(
    browser: TestClient, app: Starlette, filled: Filled
) -> None:
    tab = new_tab(browser)
    answer = browser.post(f"{tab}ask", data=form(filled, BELL))
    assert answer.status_code == 200
    page = browser.get(f"{tab}answer").text
    assert "my bellflower" in page
    plan = app.state.run.tabs.find(tab.split("/")[2]).last.answer.plan
    weights: dict[str, int] = {}
    for planned in plan.samples:
        weights[planned.sample.flower] = (
            weights.get(planned.sample.flower, 0) + planned.sample.weight
        )
    # Importance 2 beside 1, whatever number of colours each has.
    assert weights["my bellflower"] == pytest.approx(2 * weights["cornflower"], rel=1e-9)
    back = browser.get(tab).text  # the question is as it was
    assert [row["name"] for row in shown_rows(back)] == ["edge", "bell", "table", "leaf"]
    assert [row["taken"] for row in shown_rows(back)] == [True, True, False, True]


def test_a_fault_stands_beside_its_flower(browser: TestClient, filled: Filled) -> None:
    wrong = TypedFlower(0, "wrong", rows=(FlowerRow("a", "blue"),))
    answer = browser.post(f"{new_tab(browser)}ask", data=form(filled, wrong))
    assert answer.status_code == 422
    assert '<a href="#own-flower-0">Flower 1 of your own</a>' in answer.text
    part = answer.text.split('id="own-flowers"')[1]
    assert "Flower 1 of your own: &#39;a&#39; is &#39;blue&#39;" in part


def test_hostile_names_are_harmless(browser: TestClient, filled: Filled) -> None:
    name = '"><script>alert(1)</script>'
    row = FlowerRow(name, '"><img src=x>', '"><b>', '"><i>')
    page = browser.post(
        f"{new_tab(browser)}flower/row/0", data=form(filled, TypedFlower(0, name, name, (row,)))
    ).text
    assert "<script>alert" not in page
    assert "<img" not in page
    assert "<i>" not in page.split('id="own-flowers"')[1].split("</fieldset>")[0]


def test_kept_as_a_table_that_options_take(
    browser: TestClient, filled: Filled, demo: Catalogue, tmp_path: Any
) -> None:
    tab = new_tab(browser)
    hostile = TypedFlower(1, "=1+1", rows=(FlowerRow("a", "#112233"),))
    answer = browser.post(f"{tab}flower/table", data=form(filled, BELL, hostile))
    assert answer.headers["content-disposition"] == 'attachment; filename="my-flowers.csv"'
    rows = list(csv.DictReader(io.StringIO(answer.text)))
    assert rows[0]["flower"] == "my bellflower"
    assert not [cell for row in rows for cell in row.values() if cell.startswith("=")]
    path = tmp_path / "my-flowers.csv"
    path.write_bytes(answer.content)
    kept = with_table(demo, path).flowers["my bellflower"]
    assert [(s.name, s.role, s.importance) for s in kept.swatches] == [
        ("edge", Role.PETAL_LIGHT, 2),
        ("bell", Role.PETAL, 3),
        ("leaf", Role.LEAF, 1.5),
    ]
    assert kept.swatches[1].lab == tuple(hex_to_lab("#8a5fb0").tolist())
    assert "=1+1" in with_table(demo, path).flowers
    nothing = browser.post(f"{tab}flower/table", data=filled)
    assert nothing.status_code == 422
    assert "no flower is filled in yet" in nothing.text


@pytest.mark.parametrize("name", ["=cmd", "'=cmd", "+1", "a;=1", "'tis"])
def test_a_name_comes_back_from_the_table_as_it_was(
    browser: TestClient, filled: Filled, demo: Catalogue, name: str
) -> None:
    flower = TypedFlower(1, name, rows=(FlowerRow(name, "#112233"), FlowerRow("b", "#445566")))
    answer = browser.post(f"{new_tab(browser)}flower/table", data=form(filled, flower))
    kept = with_table(demo, HeldFile("my-flowers.csv", answer.content)).flowers[name]
    assert [swatch.name for swatch in kept.swatches] == [name, "b"]


def test_what_counts_very_little_is_kept_as_it_is(
    browser: TestClient, filled: Filled, demo: Catalogue
) -> None:
    leaf = TypedFlower(1, "my leaf", rows=(FlowerRow("a", "#112233", importance="0,0000001"),))
    answer = browser.post(f"{new_tab(browser)}flower/table", data=form(filled, leaf))
    kept = with_table(demo, HeldFile("my-flowers.csv", answer.content)).flowers["my leaf"]
    assert kept.swatches[0].importance == Fraction(1, 10_000_000)


@pytest.mark.parametrize("path", ["new", "photograph", "row/0", "out/0", "table"])
def test_strangers_are_refused(stranger: TestClient, path: str) -> None:
    assert stranger.post(f"/tab/x/flower/{path}").status_code == 403


def test_a_tab_that_is_not_there(browser: TestClient) -> None:
    for path in ("new", "photograph", "row/0", "out/0", "table"):
        assert browser.post(f"/tab/none/flower/{path}").status_code == 404


@pytest.mark.parametrize("number", ["8", "-1", "x", "9" * 5000])
def test_a_flower_that_cannot_be(browser: TestClient, filled: Filled, number: str) -> None:
    tab = new_tab(browser)
    for place in ("row", "out"):
        answer = browser.post(f"{tab}flower/{place}/{number}", data=filled)
        assert answer.status_code == 404


def test_saved_as_a_scenario_and_opened_again(browser: TestClient, filled: Filled) -> None:
    saved = browser.post(f"{new_tab(browser)}scenario", data=form(filled, BELL))
    assert saved.status_code == 200
    other = new_tab(browser)
    page = browser.post(f"{other}open", files={"scenario": ("my.toml", saved.content)}).text
    assert "Opened: my.toml." in page
    rows = shown_rows(page)
    told = [(row["name"], row["hex"], row["role"], row["taken"]) for row in rows]
    assert told == [(one.name, one.hex, one.role, True) for one in BELL.counted]
    assert re.search(r'name="swatch-importance-0"[^>]*value="1.5"', page)
    assert re.search(r'name="own-flower-importance-0"[^>]*value="2"', page)


def test_an_earlier_question_has_it_whole() -> None:
    asked = question_of(form({"title": "x"}, BELL, photograph=["a"]), None)
    assert typed_flowers(asked.values) == (BELL,)
    assert "photograph" not in asked.values
