"""The demo catalogue is found in the installed package or beside the source."""

from pathlib import Path

import pytest

from fewtubes.catalogue import location
from fewtubes.catalogue.location import demo_catalogue_folder
from fewtubes.catalogue.reading import TABLE_COLUMNS
from fewtubes.errors import InputError


def test_the_folder_holds_the_tables() -> None:
    folder = demo_catalogue_folder()
    assert all((folder / table).is_file() for table in TABLE_COLUMNS)


@pytest.fixture
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the folder of a made-up installation, ``optimiser/fewtubes``."""
    package = tmp_path / "optimiser" / "fewtubes"
    package.mkdir(parents=True)
    monkeypatch.setattr(location, "files", {"fewtubes": package}.__getitem__)
    return package


def test_the_packaged_tables_go_first(package: Path, tmp_path: Path) -> None:
    (tmp_path / "catalogue").mkdir()
    assert demo_catalogue_folder() == tmp_path / "catalogue"
    (package / "demo_catalogue").mkdir()
    assert demo_catalogue_folder() == package / "demo_catalogue"


def test_a_copy_without_tables_is_told(package: Path) -> None:
    with pytest.raises(InputError, match="is missing from this copy of fewtubes; install it again"):
        demo_catalogue_folder()
