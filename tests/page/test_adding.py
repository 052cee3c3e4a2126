"""Fitted tubes go where the page was told to put them: all of them or none, and nowhere else."""

import re
from pathlib import Path
from typing import Any, cast

import pytest
from starlette.applications import Starlette
from starlette.testclient import TestClient
from tests.page.conftest import ORIGIN
from tests.page.painter import Opens, adding, contents

from fewtubes.catalogue.reading import read_catalogue


def test_without_a_catalogue_it_says_how_to_start(opens: Opens) -> None:
    painter = opens()
    text = painter.fit()
    assert "fewtubes page --catalogue my-paints" in text
    assert "Add to my" not in text
    assert painter.post("add", data=adding()).status_code == 404


def test_a_stranger_gets_nothing(opens: Opens, folder: Path) -> None:
    painter = opens(catalogue=folder)
    painter.fit()
    before = contents(folder)
    evil = {"origin": "http://evil.test"}
    for name in ("add", "table", "photograph", "stop", "card/card.pdf"):
        assert painter.post(name, data=adding(), headers=evil).status_code == 403
    with TestClient(cast(Starlette, painter.browser.app), base_url=ORIGIN) as stranger:
        assert stranger.get(painter.place).status_code == 403
    assert contents(folder) == before


def test_tubes_go_into_catalogue_and_box(opens: Opens, folder: Path, box: Path) -> None:
    painter = opens(catalogue=folder, box=box)
    other = painter.browser.get("/").url.path
    assert "Add to my catalogue and box" in painter.fit()
    answer = painter.post("add", data=adding())
    assert answer.status_code == 200, answer.text
    assert "Saved in my-paints and box.toml: 2 tubes." in answer.text
    assert "lightfastness" in answer.text
    catalogue = read_catalogue(folder)
    assert list(catalogue.tubes) == ["my-rose", "sky"]
    assert all(tube.fitted for tube in catalogue.tubes.values())
    assert box.read_text("utf-8") == '[tubes] # mine\nmy-rose = "full"\nsky = "full"\n'
    form = painter.browser.get(painter.place.removesuffix("paints")).text
    mark = r'<select name="tube-my-rose".*?<option value="owned 1.0" selected>'
    assert re.search(mark, form, re.S), "the form knows it at once, and that it is at home"
    assert 'name="box-known" value="my-rose sky"' in form
    assert 'name="tube-sky"' in painter.browser.get(other).text, "other tabs know it as well"


def test_an_answer_from_ones_own_tubes(opens: Opens, folder: Path, box: Path) -> None:
    painter = opens(catalogue=folder, box=box)
    painter.fit()
    painter.post("add", data=adding())
    tab = painter.place.removesuffix("paints")
    form = {
        "budget": "5",
        "currency": "EUR",
        "tolerance": "6",
        "paper": "cotton-white",
        "light": "D65",
        "colour-name": "petal",
        "colour-hex": "#c9a0c0",
        "colour-importance": "1",
        "tube-my-rose": "owned 1.0",
        "tube-sky": "owned 1.0",
        "title": "Mine",
    }
    painter.browser.post(f"{tab}ask", data=form)
    answer = painter.browser.get(f"{tab}answer")
    assert "for these fitted paints" in answer.text


def test_a_name_that_is_taken_needs_a_tick(opens: Opens, folder: Path, box: Path) -> None:
    painter = opens(catalogue=folder, box=box)
    painter.fit()
    painter.post("add", data=adding())
    box.write_text('[tubes]\nmy-rose = "half"\n', encoding="utf-8")
    before = contents(folder)
    refused = painter.post("add", data=adding(**{"name-1": "other"}))
    assert refused.status_code == 422
    assert "tube &#39;my rose&#39;: is in" in refused.text
    assert contents(folder) == before, "not even the other was added"
    assert 'value="other"' in refused.text
    again = painter.post("add", data=adding(replace="yes"))
    assert "Replaced: my rose and sky." in again.text
    assert box.read_text("utf-8") == '[tubes]\nmy-rose = "half"\nsky = "full"\n'


@pytest.mark.parametrize(
    ("form", "sentence"),
    [
        (adding(take=[]), "add: no tube is ticked"),
        (adding(take=["7", "x"]), "add: no tube is ticked"),
        (adding(**{"name-0": " "}), "add: tube 1 has no name"),
        (adding(**{"name-0": "sky"}), "give each tube a name of its own"),
        (adding(**{"name-0": "a\x07"}), "tube &#39;a"),
    ],
)
def test_nothing_half_added(
    opens: Opens, folder: Path, box: Path, form: dict[str, Any], sentence: str
) -> None:
    painter = opens(catalogue=folder, box=box)
    painter.fit()
    before, boxed = contents(folder), box.read_text("utf-8")
    answer = painter.post("add", data=form)
    assert answer.status_code == 422
    assert sentence in answer.text
    assert (contents(folder), box.read_text("utf-8")) == (before, boxed)


def test_a_spoilt_box_keeps_the_catalogue_as_it_is(opens: Opens, folder: Path, box: Path) -> None:
    painter = opens(catalogue=folder, box=box)
    painter.fit()
    before = contents(folder)
    box.write_text('[tubes]\nx = "hal"\n', encoding="utf-8")
    answer = painter.post("add", data=adding())
    assert answer.status_code == 422
    assert "box.toml, tubes" in answer.text
    assert contents(folder) == before


def test_a_full_disk_changes_neither(
    opens: Opens, folder: Path, box: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    painter = opens(catalogue=folder, box=box)
    painter.fit()
    before = contents(folder)

    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("fewtubes.files.writing.put_in_place", full)
    answer = painter.post("add", data=adding())
    assert answer.status_code == 422
    assert "No space left on device" in answer.text
    assert (contents(folder), box.read_text("utf-8")) == (before, "[tubes] # mine\n")


def test_only_the_folder_named_is_written(opens: Opens, folder: Path, tmp_path: Path) -> None:
    painter = opens(catalogue=folder)
    painter.fit()
    other = tmp_path / "other"
    form = adding(catalogue=str(other), folder=str(other), **{"name-0": "../../x"})
    assert painter.post("add", data=form).status_code == 200
    assert {path.name for path in tmp_path.iterdir()} == {"my-paints"}
    assert "x" in read_catalogue(folder).tubes
