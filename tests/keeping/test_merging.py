"""One catalogue is taken into another, and nothing is overwritten unless it is said."""

import shutil
from pathlib import Path

import numpy as np
import pytest
from tests.fitted_tables import fit
from tests.keeping.conftest import Change, written

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.errors import InputError
from fewtubes.keeping.beginning import begun_catalogue
from fewtubes.keeping.kept_catalogue import changed_files, looked_through, read_kept
from fewtubes.keeping.merging import Change as Changed
from fewtubes.keeping.merging import Merged, Winner, merged, merged_prices
from fewtubes.keeping.packs import PackChange
from fewtubes.keeping.things import Kind


def taken(ours: Path, theirs: Path, keep: Winner | None = None) -> tuple[Merged, dict[str, str]]:
    before = read_kept(ours)
    done = merged(before, read_kept(theirs), keep)
    looked_through(done.kept)
    return done, changed_files(before, done.kept)


def faults(ours: Path, theirs: Path, keep: Winner | None = None) -> list[str]:
    with pytest.raises(InputError) as told:
        merged(read_kept(ours), read_kept(theirs), keep)
    return [fault.what for fault in told.value.faults]


def test_the_same_changes_nothing(ours: Path, theirs: Path) -> None:
    done, files = taken(ours, theirs)
    assert (done.changes, done.packs, done.left, files) == ((), (), (), {})


def test_the_same_in_other_words_changes_nothing(ours: Path, theirs: Path, change: Change) -> None:
    change(theirs, "offers.csv", "lemon,5,4,EUR", "lemon,5.0,4.00,EUR")
    change(
        theirs,
        "tube_pigments.csv",
        "yellow,0.6\nleaf-green,sea,0.4",
        "sea,.40\nleaf-green,yellow,.6",
    )
    assert taken(ours, theirs)[1] == {}


def test_all_of_a_catalogue_comes_into_an_empty_one(tmp_path: Path, theirs: Path) -> None:
    fit(theirs, "blue")
    folder = tmp_path / "mine"
    begun = begun_catalogue(folder)
    done = merged(begun, read_kept(theirs))
    written(folder, changed_files(None, done.kept))
    there, here = read_catalogue(theirs), read_catalogue(folder)
    assert list(here.tubes) == list(there.tubes)
    for tube in here.tubes:
        np.testing.assert_array_equal(here.tubes[tube].K, there.tubes[tube].K)
        assert here.tubes[tube].offers == there.tubes[tube].offers
    likely = [catalogue.pigments["blue"].likely for catalogue in (here, there)]
    assert likely[0] is not None
    assert likely[1] is not None
    np.testing.assert_array_equal(likely[0].S, likely[1].S)
    assert here.flowers["primrose"].swatches == there.flowers["primrose"].swatches
    assert {"plain", "cotton-white"} <= set(here.papers)
    assert {"E", "D65"} <= set(here.lights)


def test_conflicts_are_told_one_by_one(ours: Path, theirs: Path, change: Change) -> None:
    change(theirs, "tubes.csv", "Lemon,1.2", "Lemon,0.8")
    change(theirs, "pigments.csv", "silicate,I,8", "silicate,II,8")
    change(theirs, "offers.csv", "deep-blue,5,3.50", "deep-blue,5,3.75")
    change(theirs, "flowers.csv", "face,petal light,92", "face,petal light,91")
    change(theirs, "papers.csv", "Plain white,0.9,", "Plain white,0.8,")
    whose = "say which to keep, ours or theirs, or rename one."
    assert faults(ours, theirs) == [
        f"the pigment 'blue' differs from ours: lightfastness 'I' and 'II' (ours first); {whose}",
        f"the tube 'lemon' differs from ours: strength '1.2' and '0.8' (ours first); {whose}",
        f"the flower 'primrose' differs from ours: rows in flowers.csv (ours first); {whose}",
        f"the paper 'plain' differs from ours: rows in papers.csv (ours first); {whose}",
        f"the pack of 5 ml of the tube 'deep-blue' costs EUR 3.50 in '{ours}' and 3.75 there;"
        " say which to keep, ours or theirs.",
    ]


def test_how_far_a_tube_goes_is_part_of_it(ours: Path, theirs: Path, change: Change) -> None:
    """A column that only theirs has comes along; rows that are not touched have a blank there."""
    text = (theirs / "tubes.csv").read_text(encoding="utf-8")
    more = ["cm2_per_ml", "", "350", ""]
    lines = [f"{line},{cell}" for line, cell in zip(text.splitlines(), more, strict=True)]
    (theirs / "tubes.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    (fault,) = faults(ours, theirs)
    assert "the tube 'lemon' differs from ours: cm2_per_ml '' and '350' (ours first)" in fault
    _, files = taken(ours, theirs, Winner.THEIRS)
    assert set(files) == {"tubes.csv"}
    assert files["tubes.csv"] == "\n".join(lines) + "\n"
    kept = read_catalogue(written(ours, files))
    assert {id_: tube.cm2_per_ml for id_, tube in kept.tubes.items()} == {
        "deep-blue": None,
        "lemon": 350,
        "leaf-green": None,
    }


def test_theirs_stand_if_it_is_said(ours: Path, theirs: Path, change: Change) -> None:
    change(theirs, "tubes.csv", "Lemon,1.2", "Lemon,0.8")
    change(theirs, "offers.csv", "deep-blue,5,3.50", "deep-blue,5,3.75")
    done, files = taken(ours, theirs, Winner.THEIRS)
    assert done.changes == (Changed(Kind.TUBE, "lemon", replaced=True),)
    assert done.packs == (PackChange("deep-blue", "5", "EUR", "3.75", "3.50"),)
    # Row for row as theirs has it; the file is that of theirs to the byte.
    assert {name: text.encode() for name, text in files.items()} == {
        name: (theirs / name).read_bytes() for name in ("tubes.csv", "offers.csv")
    }


def test_ours_stand_if_it_is_said(ours: Path, theirs: Path, change: Change) -> None:
    change(theirs, "tubes.csv", "Lemon,1.2", "Lemon,0.8")
    change(theirs, "offers.csv", "deep-blue,5,3.50", "deep-blue,5,3.75")
    change(theirs, "offers.csv", "lemon,5,4,EUR\n", "lemon,5,4,EUR\nlemon,15,9,EUR\n")
    done, files = taken(ours, theirs, Winner.OURS)
    assert done.left == (
        "the tube 'lemon'",
        f"the pack of 5 ml of the tube 'deep-blue' costs EUR 3.50 in '{ours}' and 3.75 there",
    )
    assert set(files) == {"offers.csv"}
    assert "lemon,15,9,EUR" in files["offers.csv"]
    assert "deep-blue,5,3.50,EUR" in files["offers.csv"]


def test_likely_spectra_are_part_of_the_pigment(ours: Path, theirs: Path) -> None:
    fit(theirs, "blue")
    (told,) = faults(ours, theirs)
    assert told.startswith("the pigment 'blue' differs from ours: rows in likely_spectra.csv")
    _, files = taken(ours, theirs, Winner.THEIRS)
    assert set(files) == {"likely_spectra.csv"}
    _, files = taken(theirs, ours, Winner.THEIRS)  # and away again, with its header left
    assert files["likely_spectra.csv"].count("\n") == 1


def test_whose_colour_changes_with_a_pigment_is_told(
    ours: Path, theirs: Path, change: Change
) -> None:
    change(theirs, "pigments.csv", "silicate,I,8", "silicate,II,8")
    change(theirs, "tubes.csv", "deep-blue,Deep", "night,Night")
    for table in ("tube_pigments.csv", "offers.csv"):
        text = (theirs / table).read_text()
        (theirs / table).write_text(text.replace("deep-blue", "night"))
    done, _ = taken(ours, theirs, Winner.THEIRS)
    assert done.told == ("The pigment 'blue' of 'deep-blue' is theirs now, and so is its colour.",)
    done, _ = taken(ours, theirs, Winner.OURS)
    assert done.told == ("The pigment 'blue' of 'night' is ours, and so is its colour.",)


def test_a_taken_name_is_told_whoever_wins(ours: Path, theirs: Path, change: Change) -> None:
    for table in ("tubes.csv", "tube_pigments.csv", "offers.csv"):
        text = (theirs / table).read_text()
        (theirs / table).write_text(text.replace("lemon", "citron").replace("Lemon", "LEMON"))
    for keep in (None, Winner.OURS, Winner.THEIRS):
        assert faults(ours, theirs, keep) == [
            f"the tube 'citron' is named 'LEMON', and in '{ours}' that is the name of 'lemon';"
            " rename one, or give both one id."
        ]


def test_prices_alone_touch_one_table(ours: Path, theirs: Path, change: Change) -> None:
    change(theirs, "tubes.csv", "Lemon,1.2", "Lemon,0.8")
    change(theirs, "offers.csv", "deep-blue,5,3.50,EUR", "deep-blue,5,3.75,EUR\nlemon,10,7,EUR")
    for table in ("tubes.csv", "tube_pigments.csv"):  # a tube that only theirs has
        text = (theirs / table).read_text()
        (theirs / table).write_text(
            text.replace("leaf-green,Leaf", "moss,Moss").replace("leaf-green", "moss")
        )
    change(theirs, "offers.csv", "leaf-green,5,4.2,EUR\nleaf-green,5,3.75,GBP", "moss,5,1,EUR")
    before = read_kept(ours)
    done = merged_prices(before, read_kept(theirs))
    assert done.packs == (
        PackChange("deep-blue", "5", "EUR", "3.75", "3.50"),
        PackChange("lemon", "10", "EUR", "7", None),
    )
    assert changed_files(before, done.kept) == {
        "offers.csv": (ours / "offers.csv")
        .read_text()
        .replace("deep-blue,5,3.50", "deep-blue,5,3.75")
        .replace("lemon,5,4,EUR\n", "lemon,5,4,EUR\nlemon,10,7,EUR\n")
    }


def test_prices_alone_may_leave_ours(ours: Path, theirs: Path, change: Change) -> None:
    change(theirs, "offers.csv", "deep-blue,5,3.50", "deep-blue,5,3.75")
    done = merged_prices(read_kept(ours), read_kept(theirs), Winner.OURS)
    assert done.packs == ()
    assert len(done.left) == 1


def test_a_formula_does_not_come_in(ours: Path, theirs: Path, change: Change) -> None:
    change(theirs, "tubes.csv", "lemon,Lemon", "lime,=Lemon")
    for table in ("tube_pigments.csv", "offers.csv"):
        text = (theirs / table).read_text()
        (theirs / table).write_text(text.replace("lemon,", "lime,"))
    done = merged(read_kept(ours), read_kept(theirs))
    with pytest.raises(InputError, match="name is '=Lemon', which a spreadsheet takes for a form"):
        looked_through(done.kept)


def test_the_shape_of_the_file_stays(ours: Path, theirs: Path, change: Change) -> None:
    """A byte order mark, CRLF, other columns' order, a missing last line end."""
    text = (ours / "offers.csv").read_text().replace("\n", "\r\n").rstrip()
    (ours / "offers.csv").write_bytes(b"\xef\xbb\xbf" + text.encode())
    change(theirs, "offers.csv", "lemon,5,4,EUR\n", "lemon,5,4,EUR\nlemon,15,9,EUR\n")
    _, files = taken(ours, theirs)
    expected = text.replace("lemon,5,4,EUR\r\n", "lemon,5,4,EUR\r\nlemon,15,9,EUR\r\n")
    assert files["offers.csv"] == "\ufeff" + expected


def test_a_merge_back_and_forth_ends(ours: Path, tmp_path: Path) -> None:
    folder = tmp_path / "mine"
    shutil.copytree(ours, folder)
    done = merged(read_kept(folder), read_kept(None), Winner.OURS)
    written(folder, changed_files(read_kept(folder), done.kept))
    again = merged(read_kept(folder), read_kept(None), Winner.OURS)
    assert changed_files(read_kept(folder), again.kept) == {}
    # All of ours stayed, though not all of the demo came in.
    assert merged(read_kept(folder), read_kept(ours)).changes == ()
