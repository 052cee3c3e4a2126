"""A form is as large as its catalogue, and no larger."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any, cast
from urllib.parse import urlencode

import pytest
from starlette.testclient import TestClient

from fewtubes.catalogue.records import Catalogue
from fewtubes.page.app import make_app
from fewtubes.page.assortment import Assortment
from fewtubes.page.fields import MOST_OWN_FLOWERS
from fewtubes.page.form_size import form_size
from fewtubes.page.job import Job, State
from fewtubes.page.own_flowers import MOST_ROWS, FlowerRow, TypedFlower, flower_fields
from fewtubes.page.own_rows import MOST_COLOURS
from fewtubes.page.settings import Settings
from fewtubes.page.worker import Task

MANY = 3000
"""Flowers, and tubes; three times as many fields as Starlette and the standard library like."""

LONG_NAME = "花" * 190
"""Nearly as long as a name may be (200 signs); 570 bytes, 1,710 as a browser encodes them."""


class Asked:
    """Work that was begun, and never ends."""

    state = State.RUNNING

    def __init__(self, task: Task) -> None:
        self.task = task

    def stop(self) -> None:
        """Do nothing: nothing goes on."""


@pytest.fixture(scope="module")
def large(demo: Catalogue) -> Catalogue:
    flower, tube = demo.flowers["cornflower"], demo.tubes["lemon"]
    flowers = [replace(flower, name=f"{LONG_NAME} {number}") for number in range(MANY)]
    tubes = [replace(tube, id=f"tube-{number}") for number in range(MANY)]
    return replace(
        demo,
        flowers={flower.name: flower for flower in flowers},
        tubes={tube.id: tube for tube in tubes},
    )


@pytest.fixture
def asked() -> list[Asked]:
    """Return the list that the work is added to."""
    return []


@pytest.fixture
def painter(
    large: Catalogue, settings: Settings, assortment: Assortment, asked: list[Asked]
) -> Iterator[TestClient]:
    """Return the painter's browser, in front of a large catalogue."""

    def begin(task: Task) -> Job:
        asked.append(Asked(task))
        return cast(Job, asked[-1])

    app = make_app(settings, large, assortment, begin=begin)
    origin = f"http://127.0.0.1:{settings.port}"
    with TestClient(app, base_url=origin, headers={"origin": origin}) as client:
        client.get(f"/open/{settings.token}", follow_redirects=False)
        client.follow_redirects = False
        yield client


def own_flowers() -> list[TypedFlower]:
    """Return as many flowers of one's own as there may be, each with all its colours."""
    rows = tuple(
        FlowerRow(f"{LONG_NAME} {number}", "#112233", "petal shade", "1.25")
        for number in range(MOST_ROWS)
    )
    return [
        TypedFlower(number, f"{LONG_NAME} mine {number}"[:200], "1.25", rows)
        for number in range(MOST_OWN_FLOWERS)
    ]


def full_form(large: Catalogue, filled: dict[str, Any]) -> dict[str, Any]:
    """Return a form in which nothing is left blank."""
    return {
        **filled,
        "flower": list(large.flowers),
        **{f"importance-{place}": "12.345" for place in range(MANY)},
        **{f"tube-{id_}": "never" for id_ in large.tubes},
        "colour-name": [f"{LONG_NAME} own {number}" for number in range(MOST_COLOURS)],
        "colour-hex": ["#112233"] * MOST_COLOURS,
        "colour-importance": ["1.25"] * MOST_COLOURS,
        **flower_fields(own_flowers()),
    }


@pytest.mark.parametrize("with_photograph", [False, True])
def test_a_full_form_of_a_large_catalogue_is_taken(
    painter: TestClient,
    large: Catalogue,
    filled: dict[str, Any],
    asked: list[Asked],
    with_photograph: bool,
) -> None:
    tab = painter.get("/").headers["location"]
    # An empty file makes the client send the form in parts, as browsers do with a photograph.
    files = {"photograph": ("", b"")} if with_photograph else None
    answer = painter.post(f"{tab}ask", data=full_form(large, filled), files=files)
    assert answer.status_code == 303
    scenario = asked[0].task.scenario
    assert len(scenario.wishes.never) == MANY
    assert len(scenario.flowers) == MANY + MOST_OWN_FLOWERS
    assert len(scenario.own_colours) == MOST_COLOURS


def test_a_form_has_no_more_than_its_catalogue(
    painter: TestClient, large: Catalogue, demo: Catalogue
) -> None:
    most = form_size(large)
    assert most.fields > 3 * MANY > form_size(demo).fields
    tab = painter.get("/").headers["location"]
    many = urlencode([("title", "a")] * (most.fields + 1))
    kind = {"content-type": "application/x-www-form-urlencoded"}
    answer = painter.post(f"{tab}ask", content=many, headers=kind)
    assert answer.status_code == 422
    assert "cannot be read as a form" in answer.text
    assert painter.post(f"{tab}ask", data={"title": "a" * most.bytes}).status_code == 413


def test_a_form_that_breaks_off_is_none(painter: TestClient) -> None:
    tab = painter.get("/").headers["location"]
    part = b'--x\r\nContent-Disposition: form-data; name="photograph"; filename="a"\r\n\r\nabc'
    kind = {"content-type": "multipart/form-data; boundary=x"}
    answer = painter.post(f"{tab}photograph", content=part, headers=kind)
    assert answer.status_code == 422
    assert "cannot be read as a form" in answer.text
    assert "none is chosen" not in answer.text


def test_half_a_character_is_no_form(painter: TestClient) -> None:
    """``+2AA-`` is U+D800 alone, in UTF-7 (RFC 2152); no page could show it."""
    tab = painter.get("/").headers["location"]
    part = b'--x\r\nContent-Disposition: form-data; name="title"\r\n\r\n+2AA-\r\n--x--\r\n'
    kind = {"content-type": "multipart/form-data; boundary=x; charset=utf-7"}
    answer = painter.post(f"{tab}flower/new", content=part, headers=kind)
    assert answer.status_code == 422
    assert "cannot be read as a form" in answer.text
