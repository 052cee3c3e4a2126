"""The fingerprint changes with the tables and with nothing else."""

import hashlib
from collections.abc import Callable
from pathlib import Path

import pytest

from fewtubes.catalogue.digest import catalogue_digest
from fewtubes.catalogue.reading import TABLE_COLUMNS
from fewtubes.errors import InputError

Change = Callable[[str, str, str], None]


def test_it_is_the_sha_256_of_names_lengths_and_bytes(folder: Path) -> None:
    tables = [(name, (folder / name).read_bytes()) for name in TABLE_COLUMNS]
    joined = b"".join(f"{name}\n{len(data)}\n".encode() + data for name, data in tables)
    assert catalogue_digest(folder) == hashlib.sha256(joined).hexdigest()


def test_other_files_do_not_count(folder: Path) -> None:
    before = catalogue_digest(folder)
    (folder / "README.md").write_text("changed", encoding="utf-8")
    assert catalogue_digest(folder) == before


@pytest.mark.parametrize("table", TABLE_COLUMNS)
def test_one_more_byte_in_any_table_counts(folder: Path, table: str) -> None:
    before = catalogue_digest(folder)
    (folder / table).write_bytes((folder / table).read_bytes() + b"\n")
    assert catalogue_digest(folder) != before


def test_bytes_that_move_to_the_next_table_count(folder: Path) -> None:
    (folder / "tubes.csv").write_bytes(b"ab")
    (folder / "tube_pigments.csv").write_bytes(b"c")
    before = catalogue_digest(folder)
    (folder / "tubes.csv").write_bytes(b"a")
    (folder / "tube_pigments.csv").write_bytes(b"bc")
    assert catalogue_digest(folder) != before


def test_a_missing_table_is_told(folder: Path) -> None:
    (folder / "offers.csv").unlink()
    with pytest.raises(InputError, match=r"offers\.csv: cannot be read from .* check the file\."):
        catalogue_digest(folder)
