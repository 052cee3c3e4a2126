"""The optional column ``cm2_per_ml`` of the tubes: read where it stands, told where it is wrong."""

from pathlib import Path

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.errors import InputError


def with_column(folder: Path, cells: list[str]) -> Path:
    """Give the tubes of the small catalogue a further column; return its folder."""
    path = folder / "tubes.csv"
    rows = zip(path.read_text(encoding="utf-8").splitlines(), ["cm2_per_ml", *cells], strict=True)
    path.write_text("".join(f"{row},{cell}\n" for row, cell in rows), encoding="utf-8")
    return folder


def test_without_the_column_nothing_is_known(folder: Path) -> None:
    assert [tube.cm2_per_ml for tube in read_catalogue(folder).tubes.values()] == [None] * 3


def test_a_cell_may_be_blank(folder: Path) -> None:
    read = read_catalogue(with_column(folder, ["250", "", "1e3"]))
    assert [tube.cm2_per_ml for tube in read.tubes.values()] == [250.0, None, 1000.0]


@pytest.mark.parametrize("cell", ["0", "0.5", "10001", "much", "nan", "-3"])
def test_faults_are_told(folder: Path, cell: str) -> None:
    with pytest.raises(InputError) as error:
        read_catalogue(with_column(folder, ["", cell, ""]))
    (fault,) = error.value.faults
    assert fault.where == "tubes.csv, row 3"
    assert fault.what.startswith(f"cm2_per_ml is '{cell}'")
    assert fault.what.endswith("it must be from 1 to 10,000.")
