"""A tube by hand is made of profiles that are there; a pack alone touches no colour."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from tests.keeping.conftest import Change, contents, written

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Hazard, Lightfastness, Offer
from fewtubes.errors import Fault, InputError
from fewtubes.fitting.sheet import LabelSays
from fewtubes.keeping.by_hand import WantedPack, WantedTube, packs_added, tube_added
from fewtubes.keeping.kept_catalogue import read_kept
from fewtubes.keeping.pigment_words import named_pigments

PACK = WantedPack(Decimal(5), Decimal("3.9"))
MINE = WantedTube("My mauve", (("PB29", Fraction(1)),), packs=(PACK,), currency="EUR")


def faults(folder: Path, wanted: WantedTube, **options: object) -> list[tuple[str, str]]:
    before = contents(folder)
    with pytest.raises(InputError) as told:
        tube_added(folder, wanted, **options)  # type: ignore[arg-type]
    assert contents(folder) == before
    return [(fault.where, fault.what) for fault in told.value.faults]


def test_a_tube_of_a_profile_that_is_there(ours: Path) -> None:
    done = tube_added(ours, MINE)
    before = (ours / "tubes.csv").read_text()
    assert done.files == {
        "tubes.csv": before + "my-mauve,My mauve,1,\n",
        "tube_pigments.csv": (ours / "tube_pigments.csv").read_text() + "my-mauve,blue,1\n",
        "offers.csv": (ours / "offers.csv").read_text() + "my-mauve,5,3.90,EUR\n",
    }
    assert done.told[0].endswith(
        "all that is told of it is taken from the profiles of its pigments."
    )


def test_parts_become_shares_that_sum_to_one(ours: Path) -> None:
    thirds = replace(MINE, pigments=tuple((word, Fraction(1)) for word in ("PB29", "py154", "sea")))
    read = read_catalogue(written(ours, tube_added(ours, thirds).files))
    assert [share for _, share in read.tubes["my-mauve"].pigments] == [0.333333, 0.333333, 0.333334]
    assert [pigment.id for pigment, _ in read.tubes["my-mauve"].pigments] == [
        "blue",
        "yellow",
        "sea",
    ]


def test_a_profile_comes_along_with_its_spectra(ours: Path) -> None:
    wanted = replace(MINE, pigments=(("PR122", Fraction(60)), ("PB29", Fraction(40))), strength=0.6)
    done = tube_added(ours, wanted, profiles_of=read_kept(None))
    read, demo = read_catalogue(written(ours, done.files)), read_catalogue()
    (magenta, most), (blue, rest) = read.tubes["my-mauve"].pigments
    assert (magenta.id, most, blue.id, rest) == ("pr122-magenta", 0.6, "blue", 0.4)
    np.testing.assert_array_equal(magenta.K, demo.pigments["pr122-magenta"].K)
    assert "pb29-ultramarine" not in read.pigments  # ours comes first
    assert read.tubes["my-mauve"].strength == 0.6
    assert done.told[-2] == "Taken along from the demo catalogue: pr122-magenta."
    assert done.told[-1].startswith("The demo's profiles are invented")


def test_a_name_of_several_profiles_is_not_guessed(ours: Path) -> None:
    wanted = replace(MINE, pigments=(("PV19", Fraction(1)), ("PB15", Fraction(1))))
    assert faults(ours, wanted, profiles_of=read_kept(None)) == [
        (
            "pigments",
            "'PV19' is the name of several profiles; give one of pv19-quinacridone-red, pv19-rose.",
        ),
        (
            "pigments",
            "'PB15' is the name of several profiles; give one of pb15-1-middle-blue,"
            " pb15-3-green-leaning-blue.",
        ),
    ]


def test_a_profile_that_is_not_there_is_told(ours: Path) -> None:
    ((where, what),) = faults(ours, replace(MINE, pigments=(("PB92", Fraction(1)),)))
    assert where == "pigments"
    assert what == (
        f"there is no pigment profile 'PB92' in '{ours}'; take it along from a catalogue that holds"
        " it, such as the demo, or paint swatches of the tube and fit them. Did you mean 'PB29'?"
    )


def test_a_name_that_only_one_tubes_own_profile_bears_is_not_offered_again(
    ours: Path, change: Change
) -> None:
    change(ours, "pigments.csv", "sulphur-bearing silicate", "fitted from swatches")
    ((_, what),) = faults(ours, replace(MINE, pigments=(("PB29", Fraction(1)),)))
    assert "but those fitted or labelled as one tube's own; take it along" in what
    assert "Did you mean" not in what


def test_a_profile_whose_id_means_something_else_stays_away(
    ours: Path, theirs: Path, change: Change
) -> None:
    change(theirs, "pigments.csv", "blue,PB29", "blue,PB28")
    ((_, what),) = faults(
        ours, replace(MINE, pigments=(("PB28", Fraction(1)),)), profiles_of=read_kept(theirs)
    )
    assert what == (
        f"the profile 'blue' of '{theirs}' cannot be taken, since '{ours}' has another of that id;"
        " rename one."
    )


def test_the_label_overrules_for_this_tube_alone(ours: Path) -> None:
    label = LabelSays(Lightfastness.III, (Hazard.COBALT, Hazard.NICKEL), "keep from children")
    done = tube_added(ours, replace(MINE, label=label))
    read = read_catalogue(written(ours, done.files))
    (own,) = [pigment for pigment, _ in read.tubes["my-mauve"].pigments]
    assert (own.id, own.code, own.lightfastness) == ("my-mauve", "PB29", Lightfastness.III)
    assert own.hazards == (Hazard.COBALT, Hazard.NICKEL)
    assert own.hazard_note == "keep from children"
    np.testing.assert_array_equal(own.K, read.pigments["blue"].K)
    assert read.tubes["deep-blue"].lightfastness is Lightfastness.I
    assert done.told[0] == "My mauve: lightfastness and hazards as its label says."
    # The copy is of one tube; the name still stands for the profile.
    again = tube_added(ours, replace(MINE, name="Another"))
    assert again.files["tube_pigments.csv"].endswith("another,blue,1\n")


def test_a_copy_takes_no_other_pigments_place(ours: Path) -> None:
    label = LabelSays(Lightfastness.III)
    named = tube_added(ours, replace(MINE, name="Sea", label=label))
    assert "sea-2,Sea,1," in named.files["tubes.csv"]
    told = faults(ours, replace(MINE, id="sea", label=label), replace=True)
    assert told == [
        (
            "id",
            "the tube would have a pigment 'sea' of its own, and 'leaf-green' holds another of that"
            " id; give the tube another id.",
        )
    ]


def test_a_label_without_hazards_takes_them_away(ours: Path) -> None:
    sea = replace(MINE, pigments=(("PG50", Fraction(1)),), label=LabelSays(hazards=()))
    read = read_catalogue(written(ours, tube_added(ours, sea).files))
    assert read.tubes["my-mauve"].hazards == ()
    assert read.tubes["leaf-green"].hazards == (Hazard.COBALT,)


@pytest.mark.parametrize("known", [{"name": "LEMON"}, {"id": "lemon"}])
def test_a_tube_that_is_there_is_left(ours: Path, known: dict[str, str]) -> None:
    ((where, what),) = faults(ours, replace(MINE, **known))  # type: ignore[arg-type]
    assert where == "name"
    assert f"is in '{ours}' already, as 'lemon'; give the new one another name" in what


def test_a_tube_that_is_there_is_replaced_if_it_is_said(ours: Path) -> None:
    done = tube_added(ours, replace(MINE, name="Lemon"), replace=True)
    read = read_catalogue(written(ours, done.files))
    assert list(read.tubes) == ["deep-blue", "lemon", "leaf-green"]
    assert read.tubes["lemon"].codes == ("PB29",)
    assert read.tubes["lemon"].offers == (Offer(5.0, 390, "EUR"),)
    assert [pack.before for pack in done.merged.packs] == ["4"]


def test_every_fault_of_a_tube_is_told(ours: Path) -> None:
    wanted = WantedTube(
        name="",
        pigments=(("PB29", Fraction(0)),),
        packs=(WantedPack(Decimal(0), Decimal("3.999")),),
        currency="eur",
        id="My Id",
        strength=-1.0,
        note="a\x07b",
    )
    assert [where for where, _ in faults(ours, wanted)] == [
        "name",
        "id",
        "pigments",
        "strength",
        "note",
        "currency",
        "packs",
        "packs",
    ]
    assert faults(ours, replace(wanted, pigments=()))[2][1].startswith(
        "names none; give the Colour"
    )


def test_the_currency_is_that_of_the_catalogue(ours: Path) -> None:
    assert faults(ours, replace(MINE, currency=None)) == [
        ("currency", "is not clear: the catalogue has EUR, GBP; say it, EUR for example.")
    ]
    text = (ours / "offers.csv").read_text().replace("leaf-green,5,3.75,GBP\n", "")
    (ours / "offers.csv").write_text(text)
    assert tube_added(ours, replace(MINE, currency=None)).merged.packs[0].currency == "EUR"


def test_a_pack_alone_touches_one_table(ours: Path) -> None:
    packs = [WantedPack(Decimal(15), Decimal("9.5"))]
    done = packs_added(ours, "LEMON", packs, currency="EUR")
    text = (ours / "offers.csv").read_text()
    added = text.replace("lemon,5,4,EUR\n", "lemon,5,4,EUR\nlemon,15,9.50,EUR\n")
    assert done.files == {"offers.csv": added}


def test_a_new_price_must_be_said(ours: Path) -> None:
    with pytest.raises(InputError) as told:
        packs_added(ours, "lemon", [PACK], currency="EUR")
    assert told.value.faults == (
        Fault(
            "packs",
            f"the pack of 5 ml of the tube 'lemon' costs EUR 4 in '{ours}' and 3.90 there; say that"
            " the price is a new one.",
        ),
    )
    done = packs_added(ours, "lemon", [PACK], currency="EUR", replace=True)
    assert "lemon,5,3.90,EUR\n" in done.files["offers.csv"]


def test_a_pack_of_no_tube_is_refused(ours: Path) -> None:
    with pytest.raises(InputError) as told:
        packs_added(ours, "leman", [PACK], currency="EUR")
    (fault,) = told.value.faults
    assert fault.where == "name"
    assert fault.what.endswith("so that it is added. Did you mean 'Lemon'?")


def test_a_formula_as_a_name_is_refused(ours: Path) -> None:
    ((where, what),) = faults(ours, replace(MINE, name="+1 blue"))
    assert (where, what[:40]) == ("tubes.csv", "name is '+1 blue', which a spreadsheet t")


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("PB29", (("PB29", 1),)),
        (" PR122 + PB29 ", (("PR122", 1), ("PB29", 1))),
        ("PR122 60 % + PB29 40%", (("PR122", 60), ("PB29", 40))),
        ("PR122 1.5/PB29 1; PY3 1", (("PR122", Fraction(3, 2)), ("PB29", 1), ("PY3", 1))),
    ],
)
def test_pigments_are_read_as_labels_have_them(text: str, parts: object) -> None:
    assert named_pigments(text) == (parts, None)


@pytest.mark.parametrize("text", ["", "PR122 60 + PB29", "PR122 + + PB29", "PB29 PR122", "PB29 0"])
def test_what_is_no_list_of_pigments_is_told(text: str) -> None:
    found, fault = named_pigments(text)
    assert found == ()
    assert fault is not None


def test_a_tube_named_by_its_id_is_replaced_and_not_put_beside(ours: Path) -> None:
    wanted = WantedTube("deep-blue", (("PY154", Fraction(1)),))
    done = tube_added(ours, wanted, replace=True)
    read = read_catalogue(written(ours, done.files))
    assert set(read.tubes) == {"lemon", "deep-blue", "leaf-green"}
    assert read.tubes["deep-blue"].codes == ("PY154",)


def test_two_prices_of_one_content_are_told(ours: Path) -> None:
    packs = (PACK, WantedPack(Decimal("5.0"), Decimal("4.9")))
    told = ("packs", "has two packs of 5 ml; keep one of them.")
    assert faults(ours, replace(MINE, packs=packs)) == [told]
    with pytest.raises(InputError) as error:
        packs_added(ours, "lemon", packs, currency="EUR", replace=True)
    assert [(fault.where, fault.what) for fault in error.value.faults] == [told]


def test_a_pigment_named_twice_is_told() -> None:
    assert named_pigments("PB29 + pb29") == (
        (),
        "is 'PB29 + pb29'; name each pigment once, its parts together",
    )
