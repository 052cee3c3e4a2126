"""What is filled in about a painter's own paints: points on a photograph, names, a card."""

import numpy as np
import pytest
from tests.card.painted import QUICK, PaintedCard
from tests.card.photographed import Shot, photographed
from tests.page.painter import Opens, unpacked_here

from fewtubes.card.arrangement import arranged_card
from fewtubes.card.finding import found_sheet
from fewtubes.card.homography import projected
from fewtubes.card.layout_file import read_layout
from fewtubes.card.picture import unpacked
from fewtubes.catalogue.files import HeldFile


def test_points_on_a_photograph(opens: Opens, card: PaintedCard) -> None:
    painter = opens()
    straight = photographed(card.sheets[0], Shot(width=QUICK.width, tilt=0.0))
    values = straight_points(card, straight)
    answer = painter.post(
        "photograph", data=values, files={"photograph": ("desk.jpg", straight, "image/jpeg")}
    )
    assert "1 tube fitted to desk.jpg" in answer.text, answer.text
    assert "pointed (PV19)" in answer.text
    assert answer.text.count('class="pointed"') == 5, "three swatches, paper, and the pattern"


def straight_points(card: PaintedCard, photograph: bytes) -> dict[str, list[str]]:
    """Return points on the first row, found by the reading of the whole card."""
    shot = unpacked(photograph, "x")
    sheet, matrix = found_sheet(shot.pixels, card.card, "x")
    boxes = sheet.rows[0].boxes[:3]
    places = [box.rectangle for box in boxes] + [boxes[0].white[0]]
    middles = [(r.left + r.width / 2, r.top + r.height / 2) for r in places]
    rows, columns = shot.pixels.shape[:2]
    shares = projected(matrix, np.array(middles)) / (columns, rows)
    return {
        "point-tube": ["pointed"] * 3 + [""],
        "point-pigments": ["PV19"] + [""] * 3,
        "point-kind": ["1", "0.5", "0.25", "white"],
        "point-x": [f"{x:.5f}" for x in shares[:, 0]],
        "point-y": [f"{y:.5f}" for y in shares[:, 1]],
    }


POINTS = {
    "point-tube": ["rose", ""],
    "point-pigments": ["", ""],
    "point-kind": ["1", "white"],
    "point-x": ["0.5", "0.1"],
    "point-y": ["0.5", "0.1"],
}


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"point-x": ["1.5", "0.1"]}, "points, point 1: is &#39;1.5&#39;"),
        ({"point-y": ["0.5", "nan"]}, "points, point 2: is &#39;nan&#39;"),
        ({"point-kind": ["strong", "white"]}, "points, point 1: is &#39;strong&#39;"),
        ({"point-kind": ["1", "black"]}, "points: there is none on bare paper"),
        ({"point-kind": ["black", "white"]}, "points: there is none on a swatch"),
        ({"point-tube": ["", ""]}, "points, point 1: has no name of its tube."),
        ({"point-pigments": ["rouge", ""]}, "points, point 1: &#39;rouge&#39; is not a Colour"),
        ({key: [] for key in POINTS}, "layout: is not chosen"),
    ],
)
def test_points_that_cannot_be(
    opens: Opens, monkeypatch: pytest.MonkeyPatch, change: dict[str, list[str]], sentence: str
) -> None:
    painter = opens()
    pixels = unpacked_here(monkeypatch)
    files = {"photograph": ("x.png", pixels, "image/png")}
    answer = painter.post("photograph", data={**POINTS, **change}, files=files)
    assert answer.status_code == 422
    assert sentence in answer.text
    assert not painter.fits, "nothing was begun"


def test_a_layout_that_is_none(opens: Opens, monkeypatch: pytest.MonkeyPatch) -> None:
    files = {
        "photograph": ("x.png", unpacked_here(monkeypatch), "image/png"),
        "layout": ("my.toml", b"unit = 7"),
    }
    answer = opens().post("photograph", data={}, files=files)
    assert answer.status_code == 422
    assert "my.toml, unit" in answer.text


def test_a_card_to_print(opens: Opens) -> None:
    painter = opens()
    form = {"card-names": "my rose; PV19\nsky", "paper-size": "Letter"}
    pdf = painter.post("card/card.pdf", data=form)
    assert pdf.headers["content-type"] == "application/pdf"
    assert pdf.content.startswith(b"%PDF-")
    text = painter.post("card/card-layout.toml", data=form).content
    layout = read_layout(HeldFile("x.toml", text))
    assert layout == arranged_card("Letter", ["my rose", "sky"]).with_names([], [("PV19",)])
    blank = read_layout(HeldFile("x.toml", painter.post("card/card-layout.toml").content))
    assert [row.name for row in blank.sheets[0].rows] == [""] * 8


@pytest.mark.parametrize(
    ("form", "sentence"),
    [
        ({"card-names": "a\na"}, "names: &#39;a&#39; stands there more than once"),
        ({"card-names": "a; red"}, "names, line 1: &#39;red&#39; is not a Colour Index name"),
        ({"card-names": "\n".join(map(str, range(97)))}, "names: are 97; at most 96"),
        ({"paper-size": "A0"}, "paper size: "),
    ],
)
def test_a_card_that_cannot_be(opens: Opens, form: dict[str, str], sentence: str) -> None:
    answer = opens().post("card/card.pdf", data=form)
    assert answer.status_code == 422
    assert sentence in answer.text
