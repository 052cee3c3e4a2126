"""Tubes, flowers, swatches, papers and lights whose names cannot be told apart are faults."""

import unicodedata
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.faults import faults_of_catalogue

from fewtubes.catalogue.reading import read_catalogue

Change = Callable[[str, str, str], None]

SINCE = "since capitals, spaces and signs that do not show tell no names apart"


def told(folder: Path) -> list[str]:
    return [str(fault) for fault in faults_of_catalogue(folder)]


def test_two_tubes_of_one_name(folder: Path, change: Change) -> None:
    change("tubes.csv", ",Lemon,", ",Deep blue,")
    assert told(folder) == [
        "tubes.csv, row 3: the name 'Deep blue' is already in row 2; give each a name of its own."
    ]


@pytest.mark.parametrize("name", ["deep blue", "Deep  Blue", "Deep blue\ufe0f", "Ｄeep blue"])
def test_tubes_whose_names_look_alike(folder: Path, change: Change, name: str) -> None:
    change("tubes.csv", ",Lemon,", f",{name},")
    (fault,) = told(folder)
    assert fault.startswith("tubes.csv, row 3: the name '")
    assert fault.endswith(
        f" cannot be told from 'Deep blue' in row 2, {SINCE}; write both the same way, or rename"
        " one."
    )


def test_flowers_whose_names_look_alike(folder: Path, change: Change) -> None:
    change("flowers.csv", "primrose,", "Cornflower,")
    assert told(folder) == [
        "flowers.csv, row 4: the flower 'Cornflower' cannot be told from 'cornflower' in row 2,"
        f" {SINCE}; write both the same way, or rename one."
    ]


def test_swatches_whose_names_look_alike(folder: Path, change: Change) -> None:
    change("flowers.csv", "heart", "Ray")
    assert told(folder) == [
        f"flowers.csv, row 3: the swatch 'Ray' cannot be told from 'ray' in row 2, {SINCE}; write"
        " both the same way, or rename one."
    ]


def test_flowers_may_share_a_swatch_name(folder: Path, change: Change) -> None:
    change("flowers.csv", "face", "ray")
    assert told(folder) == []


@pytest.mark.parametrize(
    ("table", "thing"), [("papers.csv", "the paper's name"), ("lights.csv", "the light's name")]
)
def test_papers_and_lights_of_one_name(folder: Path, table: str, thing: str) -> None:
    path = folder / table
    header, *rows = path.read_text(encoding="utf-8").splitlines()
    twice = [*rows, *(f"twin{row[row.index(',') :]}" for row in rows)]
    path.write_text("\n".join([header, *twice]), encoding="utf-8")
    (fault,) = told(folder)
    assert f"{thing} '" in fault
    assert fault.endswith("is already in row 2; give each a name of its own.")


def test_one_name_in_two_forms_of_unicode_is_one_flower(folder: Path) -> None:
    rows = ["rosé,a,petal,50,10,-50,1", "rosé,b,leaf,50,-10,50,1"]
    text = "\n".join(
        [
            "flower,swatch,role,L,a,b,importance",
            unicodedata.normalize("NFC", rows[0]),
            unicodedata.normalize("NFD", rows[1]),
        ]
    )
    (folder / "flowers.csv").write_text(text, encoding="utf-8")
    (flower,) = read_catalogue(folder).flowers.values()
    assert flower.name == unicodedata.normalize("NFC", "rosé")
    assert [swatch.name for swatch in flower.swatches] == ["a", "b"]
