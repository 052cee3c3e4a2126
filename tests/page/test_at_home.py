"""The box at home on the page: marked, asked about, saved to its file and to no other."""

import re
import stat
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any, cast

import pytest
from starlette.applications import Starlette
from starlette.testclient import TestClient
from tests.page.conftest import ORIGIN, TOKEN, InlineJob

from fewtubes.catalogue.records import Catalogue
from fewtubes.errors import InputError
from fewtubes.page.app import make_app
from fewtubes.page.assortment import Assortment
from fewtubes.page.at_home import HomeFile, home_values, marked_box, wish_of
from fewtubes.page.job import Job
from fewtubes.page.settings import Settings
from fewtubes.scenario.box_file import read_box
from fewtubes.scenario.home_box import BoxAtHome

BOX = """\
title = "My tin"
[tubes]
magenta = "half" # a gift
ultramarine = 0.6
lemon = "empty"
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "home" / "box.toml"
    path.parent.mkdir()
    path.write_text(BOX, encoding="utf-8")
    return path


@pytest.fixture
def boxed(
    demo: Catalogue, settings: Settings, assortment: Assortment, path: Path
) -> Iterator[TestClient]:
    """Return a browser of a page that was started with the box."""
    app = make_app(
        replace(settings, box=path),
        demo,
        assortment,
        begin=lambda task: cast(Job, InlineJob(task)),
    )
    with TestClient(app, base_url=ORIGIN, headers={"origin": ORIGIN}) as client:
        client.get(f"/open/{TOKEN}", follow_redirects=False)
        yield client


def marked(text: str) -> dict[str, str]:
    """Return what is chosen of each tube that is not left without a wish."""
    selects = re.findall(r'<select name="tube-([^"]+)".*?</select>', text, re.S)
    parts = re.findall(r'<select name="tube-[^"]+".*?</select>', text, re.S)
    chosen = (re.search(r'<option value="([^"]*)" selected>', part) for part in parts)
    pairs = zip(selects, chosen, strict=True)
    return {tube: found[1] for tube, found in pairs if found and found[1]}


def form_of(text: str, **changes: str) -> dict[str, str]:
    """Return the form as it would be sent, with other marks."""
    known = re.search(r'name="box-known" value="([^"]*)"', text)
    assert known is not None
    marks = {f"tube-{tube}": value for tube, value in marked(text).items()}
    return {"box-known": known[1], **marks, **changes}


def save(client: TestClient, tab: str, form: dict[str, str]) -> str:
    """Save and return the page that follows."""
    done = client.post(f"{tab}at-home", data=form)
    assert done.status_code == 200, done.text
    return done.text


def test_its_tubes_are_marked_and_how_full(boxed: TestClient) -> None:
    text = boxed.get("/").text
    assert marked(text) == {
        "magenta": "owned 0.5",
        "ultramarine": "owned 0.6",
        "lemon": "owned 0.0",
    }
    assert ">at home: half full</option>" in text
    assert ">at home: 60 % full</option>" in text
    assert "(2 marked)" in text, "an empty tube is not there to paint with"


def test_without_a_box_the_page_is_as_before(browser: TestClient) -> None:
    text = browser.get("/").text
    assert "at home" not in text
    assert ">I own it</option>" in text
    assert browser.post(f"{browser.get('/').url.path}at-home", data={}).status_code == 404


def test_saving_changes_what_was_changed_and_keeps_remarks(boxed: TestClient, path: Path) -> None:
    page = boxed.get("/")
    form = form_of(
        page.text,
        **{"tube-ultramarine": "", "tube-lemon": "owned 1.0", "tube-sepia": "owned 0.1"},
    )
    del form["tube-sepia"]
    form["tube-warm-black"] = "owned 0.1"
    text = save(boxed, page.url.path, form)
    assert path.read_text(encoding="utf-8") == (
        'title = "My tin"\n[tubes]\nmagenta = "half" # a gift\nlemon = "full"\n'
        'warm-black = "nearly empty"\n'
    )
    assert "Saved in box.toml: 3 tubes." in text
    assert set(marked(text)) == {"magenta", "lemon", "warm-black"}
    assert [file.name for file in path.parent.iterdir()] == ["box.toml"]


def test_the_file_changes_only_when_it_is_saved(
    boxed: TestClient, path: Path, filled: dict[str, Any]
) -> None:
    page = boxed.get("/")
    asked = boxed.post(
        f"{page.url.path}ask", data={**filled, **form_of(page.text, **{"tube-magenta": ""})}
    )
    assert asked.status_code == 200
    assert path.read_text(encoding="utf-8") == BOX


def test_an_answer_names_the_tubes_at_home(boxed: TestClient, filled: dict[str, Any]) -> None:
    page = boxed.get("/")
    form = {**filled, **form_of(page.text, **{"tube-ultramarine": "owned 0.1"})}
    boxed.post(f"{page.url.path}ask", data=form)
    text = boxed.get(f"{page.url.path}answer").text
    names = "magenta (quinacridone) (half full) and ultramarine blue (nearly empty)"
    assert f"in the box at home {names}" in text
    assert "Running low at home, to be bought again soon: ultramarine blue, from EUR" in text
    plan = boxed.get(f"{page.url.path}last/plan.json").json()
    left = {tube["id"]: tube["left"] for tube in plan["tubes"] if tube["owned"]}
    assert left == {"magenta": 0.5, "ultramarine": 0.1}


def test_what_came_in_from_elsewhere_is_not_lost(boxed: TestClient, path: Path) -> None:
    page = boxed.get("/")
    path.write_text(BOX + "warm-yellow = 0.4\n", encoding="utf-8")  # by hand, meanwhile
    text = save(boxed, page.url.path, form_of(page.text, **{"tube-magenta": ""}))
    assert '\nultramarine = 0.6\nlemon = "empty"\nwarm-yellow = 0.4\n' in path.read_text("utf-8")
    assert "magenta" not in path.read_text("utf-8")
    assert "Saved in box.toml: 3 tubes." in text


def test_a_tube_wished_for_or_refused_stays_in_the_box(boxed: TestClient, path: Path) -> None:
    page = boxed.get("/")
    form = form_of(page.text, **{"tube-magenta": "never", "tube-ultramarine": "must_have"})
    save(boxed, page.url.path, form)
    assert path.read_text(encoding="utf-8") == BOX


@pytest.mark.parametrize("forged", ["owned 7", "owned nan", "owned -1", "owned x", "<b>", "owned"])
def test_forged_marks_change_nothing(boxed: TestClient, path: Path, forged: str) -> None:
    page = boxed.get("/")
    save(boxed, page.url.path, form_of(page.text, **{"tube-magenta": forged}))
    assert path.read_text(encoding="utf-8") == BOX


def test_no_other_file_can_be_named(boxed: TestClient, path: Path) -> None:
    page = boxed.get("/")
    other = path.parent / "other.toml"
    form = form_of(page.text, box=str(other), path=str(other), **{"tube-magenta": ""})
    save(boxed, page.url.path, form)
    assert not other.exists()
    for method in ("GET", "PUT"):
        assert boxed.request(method, f"{page.url.path}at-home").status_code in (404, 405)


def test_a_stranger_cannot_save(boxed: TestClient, path: Path) -> None:
    page = boxed.get("/")
    form = form_of(page.text, **{"tube-magenta": ""})
    place = f"{page.url.path}at-home"
    assert boxed.post(place, data=form, headers={"origin": "http://evil.test"}).status_code == 403
    with TestClient(cast(Starlette, boxed.app), base_url=ORIGIN) as stranger:
        stranger.headers["origin"] = ORIGIN
        assert stranger.post(place, data=form).status_code == 403
    assert path.read_text(encoding="utf-8") == BOX


def test_a_file_that_was_spoilt_meanwhile_is_told_and_left(boxed: TestClient, path: Path) -> None:
    page = boxed.get("/")
    path.write_text('[tubes]\nmagenta = "hal"\n', encoding="utf-8")
    done = boxed.post(f"{page.url.path}at-home", data=form_of(page.text))
    assert done.status_code == 422
    assert "box.toml, tubes, magenta: is &#39;hal&#39;; allowed: &#39;full&#39;" in done.text
    assert path.read_text(encoding="utf-8") == '[tubes]\nmagenta = "hal"\n'
    assert marked(boxed.get("/").text)["magenta"] == "owned 0.5", "as it was last"


def test_a_folder_that_cannot_be_written_to_is_told(
    boxed: TestClient, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("fewtubes.files.writing._replace_all", full)
    page = boxed.get("/")
    done = boxed.post(f"{page.url.path}at-home", data=form_of(page.text, **{"tube-magenta": ""}))
    assert done.status_code == 422
    assert "No space left on device" in done.text
    assert path.read_text(encoding="utf-8") == BOX


def test_a_link_stays_a_link(demo: Catalogue, path: Path, tmp_path: Path) -> None:
    link = tmp_path / "link.toml"
    link.symlink_to(path)
    HomeFile(link, demo).put(["warm-yellow"], 0.5)
    assert stat.S_ISLNK(link.lstat().st_mode)
    assert read_box(path).left("warm-yellow") == 0.5


def test_a_tube_new_to_the_catalogue_can_be_put_in(demo: Catalogue, path: Path) -> None:
    before = replace(demo, tubes={k: t for k, t in demo.tubes.items() if k != "warm-yellow"})
    home = HomeFile(path, before)
    assert home.put(["warm-yellow"], catalogue=demo).left("warm-yellow") == 1.0
    assert home.box.at_hand == ("magenta", "ultramarine", "warm-yellow")


def test_a_page_with_a_faulty_box_does_not_begin(demo: Catalogue, path: Path) -> None:
    path.write_text("[tubes]\nmagnta = 1\n", encoding="utf-8")
    with pytest.raises(InputError, match="Did you mean 'magenta'"):
        HomeFile(path, demo)


def test_marks_make_the_box_that_is_asked_about(demo: Catalogue) -> None:
    box = BoxAtHome({"magenta": 0.5, "lemon": 0.0, "ultramarine": 1.0}, title="tin")
    values = {**home_values(box), "tube-magenta": ["never"], "tube-warm-black": ["owned 0.25"]}
    assert marked_box(values, box, demo) == box.with_tubes(["warm-black"], 0.25)
    assert marked_box(values, None, demo) == BoxAtHome()
    assert [wish_of(values, tube) for tube in ("magenta", "lemon", "ultramarine", "sepia")] == [
        "never",
        "",
        "owned",
        "",
    ]
