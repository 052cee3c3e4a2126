"""Fitted tubes become rows of a catalogue that reads back as what was fitted."""

from pathlib import Path

import numpy as np
import pytest
from tests.fitted_tables import DRAWS, likely_about
from tests.keeping.conftest import Change, contents, written

from fewtubes.catalogue.location import demo_catalogue_folder
from fewtubes.catalogue.reading import TABLE_COLUMNS, read_catalogue
from fewtubes.catalogue.records import Hazard, Lightfastness, Offer, Paper, Trait
from fewtubes.errors import Fault, InputError
from fewtubes.fitting.fitted import FittedTube, MixSpread
from fewtubes.fitting.sheet import LabelSays, PaintedTube
from fewtubes.keeping.by_code import ORIENTATION
from fewtubes.keeping.fitted_tubes import check_room, with_fitted

PAPER = Paper("my-pad", "the pad on my desk", np.linspace(0.712345678, 0.9, 36))


def fitted(
    name: str,
    *codes: str,
    like: str = "pb29-ultramarine",
    label: LabelSays = LabelSays(),  # noqa: B008
) -> FittedTube:
    """Return a fit that found the spectra of one of the demo's pigments, a little off."""
    pigment = read_catalogue().pigments[like]
    return FittedTube(
        painted=PaintedTube(name, codes, (), label),
        K=pigment.K * np.pi / 3,
        S=pigment.S * np.pi / 3,
        likely=likely_about(pigment),
        swatches=(),
        spread=MixSpread(1.0, 2.0),
        advice=None,
        notes=(),
    )


def test_a_folder_is_begun_with_papers_and_lights_of_the_demo(tmp_path: Path) -> None:
    folder = tmp_path / "mine"
    done = with_fitted(folder, [fitted("My Blue", "PB29"), fitted("Ünnamed")], PAPER)
    assert not folder.exists()  # nothing is written yet
    assert done.begun
    assert done.ids == {"My Blue": "my-blue", "Ünnamed": "unnamed"}
    assert set(done.files) == {*TABLE_COLUMNS, "likely_spectra.csv"}
    read = read_catalogue(written(folder, done.files))
    assert list(read.tubes) == ["my-blue", "unnamed"]
    demo = read_catalogue()
    assert set(read.papers) == {*demo.papers, "my-pad"}
    assert set(read.lights) == set(demo.lights)
    assert read.flowers == {}


def test_spectra_come_back_to_six_digits(tmp_path: Path) -> None:
    blue = fitted("My Blue", "PB29")
    read = read_catalogue(written(tmp_path, with_fitted(tmp_path, [blue], PAPER).files))
    tube = read.tubes["my-blue"]
    (pigment,) = [pigment for pigment, _ in tube.pigments]
    assert pigment is read.pigments["my-blue"]
    assert pigment.fitted
    assert pigment.likely is not None
    for found, meant in (
        (tube.K, blue.K),
        (tube.S, blue.S),
        (pigment.likely.K, blue.likely.K),
        (pigment.likely.S, blue.likely.S),
        (read.papers["my-pad"].reflectance, PAPER.reflectance),
    ):
        # Half a unit of the sixth significant digit of a number that begins with 1.
        np.testing.assert_allclose(found, meant, rtol=5e-6)
    assert pigment.likely.K.shape == (DRAWS, 36)


def test_a_tube_is_known_by_its_label_and_its_colour_index_names(tmp_path: Path) -> None:
    label = LabelSays(Lightfastness.II, (Hazard.LEAD,), "not for children")
    tubes = [
        fitted("Sky", "PB35"),
        fitted("Mauve", "PR122", "PB29"),
        fitted("Odd"),
        fitted("Labelled", "PB29", label=label),
    ]
    done = with_fitted(tmp_path, tubes, PAPER)
    read = read_catalogue(written(tmp_path, done.files))
    sky, mauve, odd, labelled = (tube.pigments[0][0] for tube in read.tubes.values())
    assert (sky.codes, sky.chemical_class) == (("PB35",), "fitted from swatches")
    assert (sky.hazards, sky.granulating) == ((Hazard.COBALT,), Trait.YES)
    assert mauve.code == "PR122 + PB29"
    assert mauve.granulating is None  # no and yes
    assert (odd.codes, odd.lightfastness) == ((), Lightfastness.III)
    assert odd.hazards == (Hazard.OTHER,)
    assert (odd.staining, odd.granulating, odd.blue_wool) == (None, None, None)
    assert (labelled.lightfastness, labelled.hazards) == (Lightfastness.II, (Hazard.LEAD,))
    assert len(done.told) == 5
    assert done.told[2].startswith("Odd: no pigment is known, so until the label says otherwise")
    assert done.told[-1] == ORIENTATION


def test_a_tube_is_not_for_sale_until_it_has_a_pack(tmp_path: Path) -> None:
    done = with_fitted(tmp_path, [fitted("My Blue", "PB29")], PAPER)
    assert read_catalogue(written(tmp_path, done.files)).tubes["my-blue"].offers == ()


def test_what_is_there_stays_to_the_byte(ours: Path, change: Change) -> None:
    change(ours, "pigments.csv", "blue,PB29,small blue", "blue, PB29 ,small blue")
    before = contents(ours)
    done = with_fitted(ours, [fitted("My Blue", "PB29")], PAPER)
    assert not done.begun
    assert set(done.files) == {
        "pigments.csv",
        "spectra.csv",
        "likely_spectra.csv",
        "tubes.csv",
        "tube_pigments.csv",
        "papers.csv",
    }
    for name in set(done.files) - {"likely_spectra.csv"}:
        assert done.files[name].encode().startswith(before[name].rstrip(b"\n"))
    assert contents(ours) == before
    read = read_catalogue(written(ours, done.files))
    assert list(read.tubes)[:3] == ["deep-blue", "lemon", "leaf-green"]


def test_an_id_is_taken_by_pigments_too(ours: Path) -> None:
    assert with_fitted(ours, [fitted("Sea")], PAPER).ids == {"Sea": "sea-2"}


@pytest.mark.parametrize("name", ["Lemon", " lemon", "LEMON"])
def test_a_taken_name_is_a_conflict(ours: Path, name: str) -> None:
    with pytest.raises(InputError) as told:
        with_fitted(ours, [fitted("New"), fitted(name)], PAPER)
    assert told.value.faults == (
        Fault(
            f"tube '{name}'",
            f"is in '{ours}' already, as 'lemon'; give the new one another name, or say that it"
            " replaces that one.",
        ),
    )


def test_a_replaced_tube_keeps_id_packs_and_note(ours: Path) -> None:
    done = with_fitted(
        ours, [fitted("Lemon", "PY154", like="py154-middle-yellow")], PAPER, replace=True
    )
    assert done.replaced == ("lemon",)
    assert "offers.csv" not in done.files
    read = read_catalogue(written(ours, done.files))
    lemon = read.tubes["lemon"]
    assert lemon.fitted
    assert (lemon.strength, lemon.offers) == (1.0, (Offer(5.0, 400, "EUR"),))
    assert [pigment.id for pigment, _ in lemon.pigments] == ["lemon"]
    assert '"Clear, and clean"' in done.files["tubes.csv"]
    assert not read.tubes["leaf-green"].fitted  # whose yellow was lemon's too


def test_a_second_fit_takes_the_place_of_the_first(tmp_path: Path) -> None:
    first, second = fitted("My Blue", "PB29"), fitted("my  blue", "PB29", like="pb28-cobalt-blue")
    written(tmp_path, with_fitted(tmp_path, [first, fitted("Other")], PAPER).files)
    done = with_fitted(tmp_path, [second], PAPER, replace=True)
    assert set(done.files) == {"pigments.csv", "spectra.csv", "likely_spectra.csv", "tubes.csv"}
    read = read_catalogue(written(tmp_path, done.files))
    assert list(read.pigments) == ["my-blue", "other"]
    np.testing.assert_allclose(read.tubes["my-blue"].K, second.K, rtol=5e-6)
    np.testing.assert_allclose(read.tubes["other"].K, fitted("Other").K, rtol=5e-6)


def test_the_same_fit_again_changes_nothing(tmp_path: Path) -> None:
    blue = fitted("My Blue", "PB29")
    written(tmp_path, with_fitted(tmp_path, [blue], PAPER).files)
    assert with_fitted(tmp_path, [blue], PAPER, replace=True).files == {}


def test_a_pigment_of_other_tubes_is_not_replaced(ours: Path, change: Change) -> None:
    for table in ("tubes.csv", "tube_pigments.csv", "offers.csv"):
        text = (ours / table).read_text()
        (ours / table).write_text(text.replace("lemon", "yellow"))
    with pytest.raises(InputError, match="which the tube 'leaf-green' holds too"):
        with_fitted(ours, [fitted("Lemon")], PAPER, replace=True)


def test_two_tubes_of_one_name_are_refused(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="cannot be told from 'My Blue'; give each tube a name"):
        with_fitted(tmp_path, [fitted("My Blue"), fitted("my blue")], PAPER)


def test_the_same_paper_is_left_and_another_of_its_id_refused(tmp_path: Path) -> None:
    demo = read_catalogue().papers["cotton-white"]
    done = with_fitted(tmp_path, [fitted("My Blue")], demo)
    assert (
        done.files["papers.csv"].encode() == (demo_catalogue_folder() / "papers.csv").read_bytes()
    )
    other = Paper(demo.id, demo.name, PAPER.reflectance)
    with pytest.raises(InputError) as told:
        with_fitted(tmp_path, [fitted("My Blue")], other)
    assert told.value.faults == (
        Fault(
            "paper 'cotton-white'",
            f"is in '{tmp_path}' already with another name or reflectance; give the one painted on"
            " another id.",
        ),
    )


def test_a_name_that_a_spreadsheet_would_run_is_refused(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="name is '=1', which a spreadsheet takes for a formula"):
        with_fitted(tmp_path, [fitted("=1")], PAPER)


def test_faults_of_the_folder_are_told(ours: Path) -> None:
    (ours / "lights.csv").unlink()
    with pytest.raises(InputError, match=r"ours, lights.csv: there is no such file"):
        with_fitted(ours, [fitted("My Blue")], PAPER)


def test_room_for_the_draws_of_all_tubes_is_looked_for_before_they_are_fitted(
    tmp_path: Path,
) -> None:
    """20,000 rows (`MOST_LIKELY_ROWS`) are K and S of 208 tubes with 48 draws each."""
    names = [f"tube {number}" for number in range(209)]
    check_room(tmp_path / "mine", names[:208])
    with pytest.raises(InputError, match="has room for 208 fitted tubes more and not for 209"):
        check_room(tmp_path / "mine", names)
    written(tmp_path, with_fitted(tmp_path, [fitted("tube 0")], PAPER).files)
    # One tube with 24 draws: (20,000 − 48) ÷ 96 = 207.8.
    assert DRAWS == 24
    with pytest.raises(InputError, match="has room for 207 fitted tubes more and not for 208"):
        check_room(tmp_path, names[1:])
    check_room(tmp_path, names[:208], replace=True)
