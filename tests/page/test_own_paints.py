"""A painter's own paints on the page: swatches sent, fitted and shown."""

import tempfile
from dataclasses import replace
from typing import cast

import pytest
from starlette.applications import Starlette
from tests.card.painted import PaintedCard
from tests.page.painter import SWATCHES, EndlessFit, Opens

from fewtubes.card.layout_file import read_layout
from fewtubes.card.layout_text import layout_text
from fewtubes.catalogue.files import HeldFile


def test_a_table_is_fitted_and_shown_beside_its_swatches(opens: Opens) -> None:
    text = opens().fit()
    assert "2 tubes fitted to my.csv" in text
    assert text.count("<svg viewBox") == 4, "a pair a swatch"
    assert 'fill="#b3204f"/><rect' in text, "what was sent is what is shown as seen"
    assert "my rose (PV19)" in text
    assert "Nine in ten of its mixes are within ΔE00" in text
    assert "A fit is an estimate" in text
    assert "leave it in a window" in text
    assert "<b>sky</b>" not in text
    assert "&lt;b&gt;sky&lt;/b&gt;" in text


def test_what_was_fitted_can_be_taken_away(opens: Opens) -> None:
    painter = opens()
    assert painter.get("/fitted-tubes.csv").status_code == 404, "nothing is fitted yet"
    painter.fit()
    table = painter.get("/fitted-tubes.csv")
    assert table.headers["content-disposition"] == 'attachment; filename="fitted-tubes.csv"'
    assert [line.split(",")[0] for line in table.text.splitlines()] == [
        "tube",
        "my rose",
        "<b>sky</b>",
    ]
    assert len(painter.get("/fitted-swatches.csv").text.splitlines()) == 5
    assert painter.get("/passwords.csv").status_code == 404


@pytest.mark.parametrize(
    ("table", "sentence"),
    [
        ("tube,strength,hex\nrose,1,#b3204f\n", "my.csv: has no row for the bare paper"),
        (SWATCHES.replace("#b3204f", "pink"), "my.csv, row 3: hex is &#39;pink&#39;"),
        ("", "swatches: no table is chosen"),
        ("tube;strength\n", "my.csv: holds a header but no rows"),
        (SWATCHES.replace("my rose,,0.25,#e2a3b4\n", ""), "my rose"),
        (SWATCHES.replace("#e2a3b4", "#5a0a20"), "my rose"),
    ],
)
def test_faults_are_told_and_what_was_fitted_stays(opens: Opens, table: str, sentence: str) -> None:
    painter = opens()
    painter.fit()
    painter.post("table", files={"swatches": ("my.csv", table.encode())})
    answer = painter.post("table", files={"swatches": ("my.csv", table.encode())})
    assert "Something is to be put right" in answer.text
    assert sentence in answer.text
    assert "2 tubes fitted to my.csv" in answer.text
    assert "Something is to be put right" not in painter.get().text, "said once"


def test_a_photographed_card(opens: Opens, card: PaintedCard) -> None:
    painter = opens()
    files = {
        "photograph": ("card.jpg", card.photographs[0], "image/jpeg"),
        "layout": ("card-layout.toml", layout_text(card.card).encode()),
    }
    answer = painter.post("photograph", data={"names": "my own; PB29 + PV19\n"}, files=files)
    assert "2 tubes fitted to card.jpg" in answer.text
    assert "my own (PB29 + PV19)" in answer.text, "as typed"
    assert card.card.sheets[0].rows[1].name in answer.text, "as the layout has it"
    assert read_layout(HeldFile("x.toml", layout_text(card.card).encode())) == card.card


def test_a_photograph_that_is_none(opens: Opens) -> None:
    painter = opens()
    files = {"photograph": ("x.png", b"nothing", "image/png")}
    answer = painter.post("photograph", data={"names": "kept; PV19"}, files=files)
    assert answer.status_code == 422
    assert "photograph: is not a whole JPEG, PNG or WebP picture" in answer.text
    assert ">kept; PV19</textarea>" in answer.text, "what was typed is kept"
    assert painter.post("photograph", data={}).status_code == 422


def test_no_card_touches_the_disk_or_is_kept(
    opens: Opens, card: PaintedCard, monkeypatch: pytest.MonkeyPatch
) -> None:
    def opened(*_: object, **__: object) -> None:
        raise AssertionError("the photograph was written to the disk")

    painter = opens(EndlessFit)
    for name in ("TemporaryFile", "NamedTemporaryFile", "TemporaryDirectory", "mkstemp"):
        monkeypatch.setattr(tempfile, name, opened)
    data = card.photographs[0] + bytes(3_000_000)  # more than any parser keeps in memory unasked
    files = {
        "photograph": ("card.jpg", data, "image/jpeg"),
        "layout": ("card-layout.toml", layout_text(card.card).encode()),
    }
    assert painter.post("photograph", data={}, files=files).status_code == 200
    run = cast(Starlette, painter.browser.app).state.run
    held = run.tabs.find(painter.place.split("/")[2])
    assert set(held.fit_values) == set(), "no file is among what was typed"
    assert run.photographs.acquire(blocking=False), "its place is given back"
    run.photographs.release()


def test_far_too_large_a_photograph(opens: Opens) -> None:
    files = {"photograph": ("x.png", bytes(11 * 1024 * 1024), "image/png")}
    assert opens().post("photograph", files=files).status_code == 413
    files = {"swatches": ("x.csv", bytes(2 * 1024 * 1024), "text/csv")}
    assert opens().post("table", files=files).status_code == 413


def test_a_fit_is_followed_and_stopped(opens: Opens) -> None:
    painter = opens(EndlessFit)
    files = {"swatches": ("my.csv", SWATCHES.encode())}
    assert "fitting tube 1 of 2" in painter.post("table", files=files).text
    assert painter.get("/progress").json()["state"] == "running"
    assert "Your swatches are being fitted" in painter.get().text
    assert "Stopped; nothing was changed." in painter.post("stop").text
    assert [fit.stops for fit in painter.fits] == [1]
    assert painter.get("/progress").json()["state"] == "done"


def test_one_fit_a_tab_and_few_at_a_time(opens: Opens) -> None:
    painter = opens(EndlessFit)
    files = {"swatches": ("my.csv", SWATCHES.encode())}
    for _ in range(2):
        painter.post("table", files=files)
    assert [fit.stops for fit in painter.fits] == [1, 0]
    for _ in range(4):
        place = f"{painter.browser.get('/').url.path}paints"
        told = painter.browser.post(f"{place}/table", files=files).text
    assert "Other tabs keep this machine busy" in told
    assert len(painter.fits) == 5


def test_no_such_tab(opens: Opens) -> None:
    painter = replace(opens(), place="/tab/none/paints")
    for name in ("", "/work", "/fitted-tubes.csv", "/progress"):
        assert painter.get(name).status_code == 404
    for name in ("table", "photograph", "stop", "add", "card/card.pdf"):
        assert painter.post(name, data={}).status_code == 404
