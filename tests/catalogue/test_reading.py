"""A sound catalogue is read as its tables say."""

import shutil
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from tests.faults import faults_of_catalogue

from fewtubes.catalogue.reading import TABLE_COLUMNS, read_catalogue
from fewtubes.catalogue.records import Hazard, Lightfastness, Offer, Role, Swatch, Trait

Change = Callable[[str, str, str], None]


def test_every_table_is_read(folder: Path) -> None:
    catalogue = read_catalogue(folder)
    # Origin of all figures here: the rows of small_catalogue, read by eye.
    assert catalogue.label == str(folder)
    assert list(catalogue.pigments) == ["blue", "yellow", "sea"]
    assert list(catalogue.tubes) == ["deep-blue", "lemon", "leaf-green"]
    assert list(catalogue.flowers) == ["cornflower", "primrose"]
    assert list(catalogue.papers) == ["plain"]
    assert list(catalogue.lights) == ["E"]


def test_a_pigment_is_read(folder: Path) -> None:
    sea = read_catalogue(folder).pigments["sea"]
    assert (sea.code, sea.name, sea.chemical_class) == ("PG50", "small sea green", "spinel")
    assert sea.lightfastness is Lightfastness.I
    assert (sea.blue_wool, sea.staining, sea.granulating) == (8, Trait.NO, Trait.SLIGHT)
    assert (sea.hazards, sea.hazard_note) == ((Hazard.COBALT,), "Do not breathe the dust.")
    # 0.8 below 570 nm (bands 380 … 560 are 19), 2.5 from there on (17 bands).
    np.testing.assert_array_equal(sea.K, [0.8] * 19 + [2.5] * 17)
    np.testing.assert_array_equal(sea.S, [0.4] * 36)


def test_a_blank_blue_wool_is_unknown(folder: Path) -> None:
    assert read_catalogue(folder).pigments["yellow"].blue_wool is None


def test_a_tube_is_read(folder: Path) -> None:
    tube = read_catalogue(folder).tubes["leaf-green"]
    assert [(pigment.id, share) for pigment, share in tube.pigments] == [
        ("yellow", 0.6),
        ("sea", 0.4),
    ]
    assert (tube.name, tube.strength) == ("Leaf green", 0.9)
    assert tube.offers == (Offer(5.0, 420, "EUR"), Offer(5.0, 375, "GBP"))
    assert tube.lightfastness is Lightfastness.II  # the worse of yellow's II and sea's I


def test_a_flower_is_read(folder: Path) -> None:
    assert read_catalogue(folder).flowers["cornflower"].swatches == (
        Swatch("ray", Role.PETAL, (42.0, 10.0, -50.0), 2.0),
        Swatch("heart", Role.CENTRE, (30.0, 15.0, -40.0), 1.0),
    )


def test_arrays_cannot_be_changed(folder: Path) -> None:
    catalogue = read_catalogue(folder)
    light = catalogue.lights["E"]
    pigment = catalogue.pigments["blue"]
    paper = catalogue.papers["plain"]
    for array in (pigment.K, pigment.S, paper.reflectance, light.wavelength_nm, light.power):
        assert not array.flags.writeable


@pytest.mark.parametrize("table", TABLE_COLUMNS)
@pytest.mark.parametrize(
    "rewrite",
    [
        pytest.param(lambda text: "\ufeff" + text, id="byte order mark"),
        pytest.param(lambda text: text.replace("\n", "\r\n"), id="CRLF"),
        pytest.param(lambda text: text.replace("\n", "\n\n"), id="blank lines"),
        pytest.param(lambda text: text.rstrip("\n"), id="no last line end"),
        pytest.param(lambda text: text.replace(",", " , ").replace('" , ', ","), id="spaces"),
    ],
)
def test_harmless_forms_are_accepted(folder: Path, table: str, rewrite: object) -> None:
    assert callable(rewrite)
    text = (folder / table).read_text(encoding="utf-8")
    if '"' in text:
        text = text.replace('"Clear, and clean"', "Clear and clean")
    (folder / table).write_bytes(rewrite(text).encode("utf-8"))
    assert faults_of_catalogue(folder) == ()


def test_columns_may_stand_in_any_order(folder: Path) -> None:
    (folder / "tube_pigments.csv").write_text(
        "share,tube,pigment\n1,deep-blue,blue\n1,lemon,yellow\n1,leaf-green,sea\n", encoding="utf-8"
    )
    tube = read_catalogue(folder).tubes["leaf-green"]
    assert [(pigment.id, share) for pigment, share in tube.pigments] == [("sea", 1.0)]


def test_one_tube_and_no_flower_make_a_catalogue(folder: Path) -> None:
    for table in ("tubes.csv", "tube_pigments.csv", "flowers.csv"):
        lines = (folder / table).read_text(encoding="utf-8").splitlines()
        kept = lines[:1] if table == "flowers.csv" else lines[:2]
        (folder / table).write_text("\n".join(kept), encoding="utf-8")
    (folder / "offers.csv").write_text(
        "tube,ml,price,currency\ndeep-blue,5,3.50,EUR\n", encoding="utf-8"
    )
    catalogue = read_catalogue(folder)
    assert list(catalogue.tubes) == ["deep-blue"]
    assert not catalogue.flowers


@pytest.mark.parametrize("kept", [1, 4])
def test_a_tube_without_a_pack_is_not_for_sale(folder: Path, kept: int) -> None:
    """Of the table's header and first three rows, which are of the first two tubes."""
    lines = (folder / "offers.csv").read_text(encoding="utf-8").splitlines()
    (folder / "offers.csv").write_text("\n".join(lines[:kept]), encoding="utf-8")
    tubes = read_catalogue(folder).tubes
    assert len(tubes) == 3
    assert [id_ for id_, tube in tubes.items() if not tube.offers] == list(tubes)[kept // 2 :]


@pytest.mark.parametrize(
    ("code", "codes"), [("", ()), ("PB29", ("PB29",)), ("PB29 + PG36", ("PB29", "PG36"))]
)
def test_a_pigment_has_no_code_or_several(
    folder: Path, change: Change, code: str, codes: tuple[str, ...]
) -> None:
    change("pigments.csv", ",PB29,", f",{code},")
    catalogue = read_catalogue(folder)
    assert catalogue.pigments["blue"].codes == codes
    assert catalogue.tubes["deep-blue"].codes == codes
    assert catalogue.tubes["leaf-green"].codes == ("PY154", "PG50")


def test_a_blank_trait_is_not_known(folder: Path, change: Change) -> None:
    change("pigments.csv", "I,8,no,yes", "I,8,,")
    pigment = read_catalogue(folder).pigments["blue"]
    assert (pigment.staining, pigment.granulating) == (None, None)
    assert read_catalogue(folder).pigments["yellow"].granulating is Trait.NO


@pytest.mark.parametrize("name", ["=SUM(1)", "+rose", "-rose", "@rose", "Rosé", "玫瑰"])
def test_names_may_begin_and_be_written_as_they_like(folder: Path, name: str) -> None:
    text = (folder / "flowers.csv").read_text(encoding="utf-8").replace("primrose", name)
    (folder / "flowers.csv").write_text(text, encoding="utf-8")
    assert name in read_catalogue(folder).flowers


def test_shares_may_miss_one_by_rounding_only(folder: Path) -> None:
    rows = "\n".join(f"deep-blue,{p},0.1" for p in ("blue", "yellow"))
    text = f"tube,pigment,share\n{rows}\ndeep-blue,sea,0.8\nlemon,yellow,1\nleaf-green,sea,1\n"
    (folder / "tube_pigments.csv").write_text(text, encoding="utf-8")
    assert faults_of_catalogue(folder) == ()  # 0.1 + 0.1 + 0.8 in binary


def test_other_files_in_the_folder_are_left_alone(folder: Path) -> None:
    (folder / "notes.csv").write_bytes(b"\xff\xfe")
    shutil.copytree(folder, folder / "inner")
    assert faults_of_catalogue(folder) == ()
