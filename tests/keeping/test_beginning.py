"""A catalogue is begun with what every one needs, and nothing is overwritten."""

from pathlib import Path

import pytest
from tests.keeping.conftest import contents, written

from fewtubes.catalogue.location import demo_catalogue_folder
from fewtubes.catalogue.reading import TABLE_COLUMNS, read_catalogue, read_unfinished
from fewtubes.errors import Fault, InputError
from fewtubes.keeping.beginning import begun_catalogue, kept_or_begun, opened
from fewtubes.keeping.kept_catalogue import changed_files


def test_papers_and_lights_come_from_the_demo_and_all_else_is_empty(tmp_path: Path) -> None:
    folder = written(tmp_path / "mine", changed_files(None, begun_catalogue(tmp_path / "mine")))
    assert set(contents(folder)) == set(TABLE_COLUMNS)
    for name in ("papers.csv", "lights.csv"):
        assert (folder / name).read_bytes() == (demo_catalogue_folder() / name).read_bytes()
    for name in set(TABLE_COLUMNS) - {"papers.csv", "lights.csv"}:
        assert (folder / name).read_text() == ",".join(TABLE_COLUMNS[name]) + "\n"
    assert len(read_unfinished(folder, "mine").papers) == len(read_catalogue().papers)


@pytest.mark.parametrize(
    ("borrowed", "lacks"),
    [
        (("papers.csv", "lights.csv"), "no tubes"),
        (("lights.csv",), "no tubes and no papers"),
        ((), "no tubes, no papers and no lights"),
    ],
)
def test_what_is_still_missing_is_one_sentence(
    tmp_path: Path, borrowed: tuple[str, ...], lacks: str
) -> None:
    folder = tmp_path / "mine"
    written(folder, changed_files(None, begun_catalogue(folder, borrowed)))
    with pytest.raises(InputError) as told:
        read_catalogue(folder)
    ways = "fit them from swatches, or bring them in with `fewtubes catalogue add`, `merge`"
    assert told.value.faults == (
        Fault(str(folder), f"is begun but holds {lacks} yet; {ways} or `import`."),
    )


def test_a_folder_with_a_table_is_refused(tmp_path: Path) -> None:
    (tmp_path / "offers.csv").write_text("mine")
    (tmp_path / "likely_spectra.csv").mkdir()
    with pytest.raises(InputError) as told:
        begun_catalogue(tmp_path)
    what = "holds offers.csv and likely_spectra.csv already, and nothing is overwritten; name"
    assert told.value.faults == (Fault(str(tmp_path), f"{what} another folder."),)


def test_a_folder_with_other_files_will_do(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine")
    assert set(begun_catalogue(tmp_path).tables) == set(TABLE_COLUMNS)


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine")
    with pytest.raises(InputError, match=r"cannot be looked into \(Not a directory\)"):
        begun_catalogue(tmp_path / "file")


def test_what_is_there_is_gone_on_from(ours: Path, tmp_path: Path) -> None:
    before, kept = kept_or_begun(ours)
    assert before is kept
    before, kept = kept_or_begun(tmp_path / "new")
    assert before is None
    assert kept.label == str(tmp_path / "new")


def test_a_folder_without_a_catalogue_cannot_be_opened(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="holds no catalogue; begin one there"):
        opened(tmp_path / "nowhere")


def test_faults_of_a_table_are_told_with_its_catalogue(ours: Path) -> None:
    (ours / "tubes.csv").write_text("tube,name,strength\n")
    with pytest.raises(InputError) as told:
        opened(ours)
    assert told.value.faults[0] == Fault(
        f"{ours}, tubes.csv, row 1", "these columns are missing: note; add them."
    )
