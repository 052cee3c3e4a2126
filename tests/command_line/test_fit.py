"""``fewtubes fit``: what it asks, tells and writes."""

import csv
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from fewtubes.catalogue.reading import read_catalogue, read_unfinished
from fewtubes.catalogue.records import Catalogue
from fewtubes.command_line.main import app
from fewtubes.keeping.kept_catalogue import KeptCatalogue, looked_through

ROSE = "my rose,PV19,1,,#b3204f\nmy rose,PV19,0.5,,#c85d80\nmy rose,PV19,0.25,,#e2a3b4\n"
BLUE = "my blue,,1,,#1d3f86\nmy blue,,0.25,,#8aa3cf\n"
HEADER = "tube,pigments,strength,over,hex\npaper,,,,#f3efe4\n"


@pytest.fixture
def swatches(tmp_path: Path) -> Path:
    path = tmp_path / "swatches.csv"
    path.write_text(HEADER + ROSE + BLUE, encoding="utf-8")
    return path


def _run(*words: object) -> Result:
    return CliRunner().invoke(app, ["fit", *map(str, words)])


def _one_line(result: Result) -> str:
    return " ".join(result.output.split())


def test_without_a_place_it_only_tells(swatches: Path) -> None:
    result = _run(swatches)
    assert result.exit_code == 0
    told = _one_line(result)
    assert told.startswith("2 tubes fitted to swatches.csv")
    for words in (
        "my rose (PV19)",
        "nine in ten of its mixes would then be within about ΔE00",
        "What would help most: paint",
        "A fit is an estimate",
        "cover half of it, and leave it in a window for some months",
    ):
        assert words in told
    assert [path.name for path in swatches.parent.iterdir()] == ["swatches.csv"]


def test_it_begins_a_catalogue_and_adds_to_it(swatches: Path, tmp_path: Path) -> None:
    folder = tmp_path / "mine"
    result = _run(swatches, "--into", folder, "--out", tmp_path / "told")
    assert result.exit_code == 0
    told = _one_line(result)
    assert "my rose is added as my-rose." in told
    assert "The catalogue is new and has no flowers yet" in told
    tubes = read_unfinished(folder, "mine").tubes
    assert {id_: tube.fitted for id_, tube in tubes.items()} == {"my-rose": True, "my-blue": True}
    with (tmp_path / "told" / "fitted-swatches.csv").open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert [row["strength"] for row in rows] == ["1", "0.5", "0.25", "1", "0.25"]
    assert (tmp_path / "told" / "fitted-tubes.csv").exists()


def test_a_tube_gives_way_only_if_that_is_said(swatches: Path, tmp_path: Path) -> None:
    folder = tmp_path / "mine"
    assert _run(swatches, "--into", folder).exit_code == 0
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    again = _run(swatches, "--into", folder)
    assert again.exit_code == 2
    assert "tube 'my rose': is in" in again.output
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before
    darker = tmp_path / "darker.csv"
    darker.write_text(HEADER + ROSE.replace("#b3204f", "#8d1040"), encoding="utf-8")
    replaced = _run(darker, "--into", folder, "--replace")
    assert replaced.exit_code == 0
    assert "my rose is replaced as my-rose." in _one_line(replaced)
    tubes = read_unfinished(folder, "mine").tubes
    assert set(tubes) == {"my-rose", "my-blue"}
    assert (folder / "spectra.csv").read_bytes() != before["spectra.csv"]


def test_another_sheet_on_the_same_paper_takes_the_paper_that_is_there(tmp_path: Path) -> None:
    folder = tmp_path / "mine"
    cream = "paper,,,,#efe6cf\n"
    for name, rows in (("a.csv", ROSE), ("b.csv", BLUE)):
        path = tmp_path / name
        path.write_text(HEADER.replace("paper,,,,#f3efe4\n", cream) + rows, encoding="utf-8")
        assert _run(path, "--into", folder).exit_code == 0
    papers = read_unfinished(folder, "mine").papers
    assert [id_ for id_ in papers if id_ not in read_catalogue().papers] == ["swatch-paper"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["SWATCHES", "SWATCHES"], "SWATCHES: name one table"),
        (["SWATCHES", "card.jpg", "--layout", "l.toml"], "SWATCHES: name either a table or"),
        (["card.jpg"], "--layout: is needed for a picture"),
        (["card.jpg", "--layout", "l.toml", "--colour-noise", "2"], "--colour-noise: is of a"),
        (["card.jpg", "--layout", "none.toml"], "none.toml: there is no such file"),
        (["SWATCHES", "--layout", "l.toml"], "--layout: is of a card; leave it out for a table."),
        (["SWATCHES", "--names", "a"], "--names: is of a card"),
        (["SWATCHES", "--hand", "0"], "--hand: is 0; it must be above 0 and at most 1"),
        (["SWATCHES", "--colour-noise", "0"], "--colour-noise: is 0; it must be from 0.05 to 10"),
        (["SWATCHES", "--seed", "-1"], "--seed: is -1"),
        (["card.jpg", "--layout", "l.toml", "--light", "A"], "--light: colours of a picture are"),
        (["SWATCHES", "--light", "A"], "--light: colours of a screen are those of daylight"),
        (["SWATCHES", "--light", "moon"], "--light: the light 'moon'"),
        (["SWATCHES", "--paper", "moon"], "--paper: the paper 'moon'"),
        (["none.csv"], "none.csv: there is no such file"),
        (["mine.xlsx"], "mine.xlsx: is a workbook; save the sheet of swatches as CSV"),
        (["SWATCHES", "--catalogue", "nowhere"], "nowhere: there is no such folder"),
    ],
)  # fmt: skip
def test_what_does_not_go_together(
    swatches: Path, tmp_path: Path, words: list[str], told: str
) -> None:
    given = [str(swatches) if word == "SWATCHES" else word for word in words]
    result = _run(*given, "--into", tmp_path / "mine")
    assert result.exit_code == 2, result.output
    assert told in result.output
    assert "Traceback" not in result.output
    assert not (tmp_path / "mine").exists()


def test_a_fault_in_the_swatches_adds_nothing(swatches: Path, tmp_path: Path) -> None:
    text = swatches.read_text(encoding="utf-8")
    swatches.write_text(text.replace("#e2a3b4", "#500010"), encoding="utf-8")
    result = _run(swatches, "--into", tmp_path / "mine")
    assert result.exit_code == 2
    assert (
        "swatches.csv, row 5: 'my rose' has a wash of strength 0.25 that is darker" in result.output
    )
    assert not (tmp_path / "mine").exists()


def test_a_contrasty_picture_is_told(swatches: Path) -> None:
    assert "black darker than any dry surface" not in _one_line(_run(swatches))
    with swatches.open("a", encoding="utf-8") as file:
        file.write("black line,,,,#2b2a2c\n")  # L* 17; a surface alone reflects 4 %, L* 24
    assert "black darker than any dry surface" in _one_line(_run(swatches))


def test_another_paper_is_told_with_what_to_do(swatches: Path, tmp_path: Path) -> None:
    text = swatches.read_text(encoding="utf-8").replace("paper,,,,#f3efe4", "paper,,,,#f8ece6")
    swatches.write_text(text, encoding="utf-8")
    told = _one_line(_run(swatches, "--into", tmp_path / "mine"))
    assert (
        'The paper is in it as swatch-paper. For recipes on it write paper = "swatch-paper"' in told
    )
    assert "swatch-paper" in read_unfinished(tmp_path / "mine", "mine").papers


def test_a_noisier_table_is_less_sure(swatches: Path, tmp_path: Path) -> None:
    def spread(noise: float) -> float:
        folder = tmp_path / f"{noise}"
        assert _run(swatches, "--colour-noise", noise, "--out", folder).exit_code == 0
        with (folder / "fitted-tubes.csv").open(encoding="utf-8") as file:
            return sum(float(row["nine_in_ten_within"]) for row in csv.DictReader(file))

    assert spread(1.0) < spread(5.0)


def test_what_another_run_wrote_meanwhile_is_not_lost(
    swatches: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another fit is written into the catalogue after this one has read it."""
    folder = tmp_path / "mine"
    swatches.write_text(HEADER + BLUE, encoding="utf-8")
    assert _run(swatches, "--into", folder).exit_code == 0
    note = "my-blue,my blue,1,from another run\n"

    def slowly(kept: KeptCatalogue) -> Catalogue:
        (folder / "tubes.csv").write_text("tube,name,strength,note\n" + note, encoding="utf-8")
        return looked_through(kept)

    monkeypatch.setattr("fewtubes.keeping.fitted_tubes.looked_through", slowly)
    swatches.write_text(HEADER + ROSE, encoding="utf-8")
    result = _run(swatches, "--into", folder)
    assert result.exit_code == 2
    assert "tubes.csv changed while this was worked out" in _one_line(result)
    assert (folder / "tubes.csv").read_text(encoding="utf-8").endswith(note)
    assert "my-rose" not in (folder / "pigments.csv").read_text(encoding="utf-8")


def test_a_name_that_is_taken_is_told_before_anything_is_fitted(
    swatches: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "mine"
    assert _run(swatches, "--into", folder).exit_code == 0

    def fit(*_asked: object, **_options: object) -> None:
        pytest.fail("time was spent on a fit that cannot be kept")

    monkeypatch.setattr("fewtubes.fitting.fit.fit", fit)
    result = _run(swatches, "--into", folder)
    assert result.exit_code == 2
    assert "tube 'my rose': is in" in _one_line(result)
