"""A flower kept in a table is read as it was, and every other row stays to the byte."""

import shutil
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Role
from fewtubes.errors import InputError, OutputError
from fewtubes.files.writing import write_together
from fewtubes.keeping.flower_file import KeptFlower, kept_flower
from fewtubes.scenario.flower_file import with_flowers
from fewtubes.scenario.own_flowers import OwnFlower, OwnSwatch

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"

IRIS = OwnFlower(
    "my iris",
    (
        OwnSwatch.from_hex("edge, pale", Role.PETAL_LIGHT, "#c9b6e4"),
        OwnSwatch("fall", Role.PETAL, lab=(49.5, 33.0, -39.25), importance=Fraction("0.3")),
        OwnSwatch("leaf", Role.LEAF, lab=(1e-7, -0.0, 1 / 3)),
    ),
    importance=7,
)


@pytest.fixture(scope="module")
def small() -> Catalogue:
    """Return the small catalogue."""
    return read_catalogue(SMALL)


def write(kept: KeptFlower) -> None:
    """Put what is to be kept into its place."""
    write_together(kept.files, earlier=kept.earlier)


def told(flower: OwnFlower, path: Path, catalogue: Catalogue) -> list[tuple[str, str]]:
    """Return why a flower is not kept."""
    with pytest.raises(InputError) as caught:
        kept_flower(flower, path, catalogue=catalogue)
    return [(fault.where, fault.what) for fault in caught.value.faults]


def test_a_new_table_reads_well_and_gives_the_flower_back(small: Catalogue, tmp_path: Path) -> None:
    path = tmp_path / "deep" / "mine.csv"
    kept = kept_flower(IRIS, path, catalogue=small)
    assert not path.parent.exists()
    assert kept.told == f"'my iris' is kept in '{path}', as one more."
    write(kept)
    assert path.read_text().splitlines() == [
        "flower,swatch,role,hex,L,a,b,importance",
        'my iris,"edge, pale",petal light,#c9b6e4,,,,2',
        "my iris,fall,petal,,49.5,33,-39.25,0.3",
        "my iris,leaf,leaf,,0.0000001,0,0.3333333333333333,1",
    ]
    assert IRIS.is_like(with_flowers(small, path).flowers["my iris"])


def test_what_is_kept_already_changes_nothing(small: Catalogue, tmp_path: Path) -> None:
    path = tmp_path / "mine.csv"
    write(kept_flower(IRIS, path, catalogue=small))
    for catalogue in (small, with_flowers(small, path)):
        again = kept_flower(IRIS, path, catalogue=catalogue)
        assert (again.changes, again.files, again.earlier) == (False, {}, {})
        assert "already, with these colours" in again.told


def test_other_rows_stay_to_the_byte(small: Catalogue, tmp_path: Path) -> None:
    path = tmp_path / "mine.csv"
    pea, fern = 'petal,"garden pea", wing,#E7A0C0', "leaf ,fern,frond,#3a5f32"
    rows = "\r\n".join(["\ufeffrole,flower,swatch,hex", pea, "", fern])
    path.write_bytes(rows.encode())
    plain = OwnFlower("poppy", (OwnSwatch.from_hex("petal", "petal", "#e0482f"),))
    write(kept_flower(plain, path, catalogue=small))
    assert path.read_bytes() == f"{rows}\r\npetal,poppy,petal,#e0482f\r\n".encode()


def test_columns_that_are_needed_come_behind(small: Catalogue, tmp_path: Path) -> None:
    path = tmp_path / "mine.csv"
    path.write_text("role,flower,swatch,hex\npetal,garden pea,wing,#E7A0C0\n")
    before = with_flowers(small, path).flowers["garden pea"]
    write(kept_flower(IRIS, path, catalogue=small))
    assert path.read_text().splitlines()[:2] == [
        "role,flower,swatch,hex,L,a,b,importance",
        "petal,garden pea,wing,#E7A0C0,,,,",
    ]
    after = with_flowers(small, path)
    assert after.flowers["garden pea"] == before
    assert IRIS.is_like(after.flowers["my iris"])


@pytest.mark.parametrize("name", ["my iris", "My  IRIS"])
def test_the_same_name_gives_way_only_if_it_is_to(
    small: Catalogue, tmp_path: Path, name: str
) -> None:
    path = tmp_path / "mine.csv"
    write(kept_flower(IRIS, path, catalogue=small))
    other = OwnFlower(name, (OwnSwatch.from_hex("bud", "bud", "#445566"),))
    alike = "" if name == "my iris" else ", as 'my iris'"
    ((where, what),) = told(other, path, small)
    assert where == "mine.csv"
    assert what.startswith(f"there is a flower {other.name!r} already{alike}; give yours another")
    kept = kept_flower(other, path, catalogue=with_flowers(small, path), replace=True)
    assert kept.told.endswith("in the place of the one before.")
    write(kept)
    assert path.read_text().splitlines()[1:] == [f"{other.name},bud,bud,#445566,,,,1"]


def test_a_catalogues_folder_takes_it_into_its_own_table(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(SMALL, tmp_path / "ours"))
    before = (folder / "flowers.csv").read_bytes()
    write(kept_flower(IRIS, folder, catalogue=read_catalogue(folder)))
    assert (folder / "flowers.csv").read_bytes().startswith(before)
    catalogue = read_catalogue(folder)  # with its own columns alone, as every command reads it
    assert IRIS.is_like(catalogue.flowers["my iris"])
    assert not kept_flower(IRIS, folder, catalogue=catalogue).changes


def test_a_link_stays_one(small: Catalogue, tmp_path: Path) -> None:
    link, path = tmp_path / "link.csv", tmp_path / "elsewhere" / "mine.csv"
    path.parent.mkdir()
    link.symlink_to(path)
    write(kept_flower(IRIS, link, catalogue=small))
    assert link.is_symlink()
    assert IRIS.is_like(with_flowers(small, path).flowers["my iris"])


def test_what_cannot_be_kept_is_told(small: Catalogue, tmp_path: Path) -> None:
    path = tmp_path / "mine.csv"
    measured = OwnSwatch("leaf", Role.LEAF, reflectance=np.full(36, 0.5))
    formula = OwnSwatch("=A1", Role.BUD, lab=(1, 2, 3))
    held_off = OwnFlower("'=me", (OwnSwatch("a", Role.BUD, lab=(1, 2, 3)),))  # read back as =me
    ((_, said),) = told(held_off, path, small)
    assert said.startswith('of the flower is "\'=me", which a spreadsheet takes for a formula')
    assert told(OwnFlower("@me", (measured, formula)), path, small) == [
        (
            "name",
            "of the flower is '@me', which a spreadsheet takes for a formula or cannot show;"
            " rename it.",
        ),
        (
            "name",
            "of the swatch is '=A1', which a spreadsheet takes for a formula or cannot show;"
            " rename it.",
        ),
        (
            "swatches",
            "'leaf' is a measured spectrum; a table of flowers keeps colours as hex or as L, a, b.",
        ),
    ]
    ((where, what),) = told(OwnFlower("Cornflower", IRIS.swatches), path, small)
    assert where == "mine.csv, row 2"
    assert "there is a flower 'Cornflower' already, as 'cornflower'; give yours another" in what
    assert not path.exists()


def test_a_table_with_faults_is_left_alone(small: Catalogue, tmp_path: Path) -> None:
    path = tmp_path / "mine.csv"
    path.write_text("flower,swatch,role,hex\na,b,petal,blue\n")
    assert told(IRIS, path, small)[0][0] == "mine.csv, row 2"


def test_what_another_run_wrote_meanwhile_is_not_lost(small: Catalogue, tmp_path: Path) -> None:
    path = tmp_path / "mine.csv"
    write(kept_flower(IRIS, path, catalogue=small))
    poppy = OwnFlower("poppy", (OwnSwatch.from_hex("petal", "petal", "#e0482f"),))
    kept = kept_flower(poppy, path, catalogue=small)
    path.write_text(path.read_text().replace("0.3", "0.4"))
    with pytest.raises(OutputError):
        write(kept)
    assert "poppy" not in path.read_text()


numbers = st.floats(-100, 100).map(lambda number: number + 0.0)


@settings(deadline=None, max_examples=25)  # each is written to the disk
@given(
    labs=st.lists(st.tuples(st.floats(0, 100), numbers, numbers), min_size=1, max_size=4),
    screen=st.integers(0, 0xFFFFFF),
    importance=st.decimals("0.001", "1000", places=3),
)
def test_any_flower_comes_back_to_the_bit(
    small: Catalogue,
    tmp_path_factory: pytest.TempPathFactory,
    *,
    labs: list[tuple[float, float, float]],
    screen: int,
    importance: object,
) -> None:
    path = tmp_path_factory.mktemp("kept") / "mine.csv"
    swatches = [
        OwnSwatch(f"{place}", Role.MARKING, lab=lab, importance=Fraction(str(importance)))
        for place, lab in enumerate(labs)
    ]
    swatches.append(OwnSwatch.from_hex("screen", "petal", f"#{screen:06x}"))
    flower = replace(IRIS, swatches=tuple(swatches))
    write(kept_flower(flower, path, catalogue=small))
    assert flower.is_like(with_flowers(small, path).flowers["my iris"])
    assert f",#{screen:06x},,,," in path.read_text()
