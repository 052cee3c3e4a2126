"""What a Colour Index name lets one expect, and who overrules it.

Expected values are read by eye from the demo's ``pigments.csv``, whose own are orientation from
memory: PV19 has two profiles, PBr7 three, of which the dark one may hold manganese.
"""

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Hazard, Lightfastness, Trait
from fewtubes.fitting.sheet import LabelSays
from fewtubes.keeping.by_code import ASK_THE_LABEL, NOT_KNOWN, Expected, expected_of

COBALT_NOTE = "holds cobalt; avoid dust and spray, no brush-licking"


def expected(*codes: str, label: LabelSays = LabelSays()) -> Expected:  # noqa: B008
    return expected_of("My tube", codes, read_catalogue().pigments.values(), label)


def test_one_profile_gives_its_own_traits() -> None:
    cobalt_blue = expected("PB35")
    assert cobalt_blue.lightfastness is Lightfastness.I
    assert (cobalt_blue.staining, cobalt_blue.granulating) == (Trait.NO, Trait.YES)
    assert cobalt_blue.hazards == (Hazard.COBALT,)
    assert cobalt_blue.hazard_note == COBALT_NOTE
    assert cobalt_blue.told == (
        "My tube: as usual of PB35, lightfastness I and care because of cobalt."
    )


def test_of_several_profiles_traits_are_told_only_where_they_agree() -> None:
    browns = expected("PBr7")
    assert browns.hazards == (Hazard.MANGANESE,)  # of one of the three
    assert browns.staining is Trait.NO
    # Granulating: slight, slight, yes.
    assert browns.granulating is None


def test_of_several_pigments_the_worst_lasts_least_and_all_hazards_are_told() -> None:
    mixed = expected("PR83", "PB35", "PY35")
    assert mixed.lightfastness is Lightfastness.IV  # PR83, a lake of alizarin
    assert mixed.hazards == (Hazard.CADMIUM, Hazard.COBALT, Hazard.ZINC)
    assert COBALT_NOTE in mixed.hazard_note
    assert "no dry dust" in mixed.hazard_note
    assert mixed.staining is None  # yes and no


def test_the_same_note_is_told_once() -> None:
    assert expected("PB35", "PV14").hazard_note == COBALT_NOTE


@pytest.mark.parametrize(
    ("codes", "why"),
    [
        ((), "no pigment is known"),
        (("PB999",), "nothing is known of PB999"),
        (("PB35", "PB999"), "nothing is known of PB999"),
    ],
)
def test_what_is_not_known_is_taken_as_fading(codes: tuple[str, ...], why: str) -> None:
    unknown = expected(*codes)
    assert unknown.lightfastness is Lightfastness.III
    assert (unknown.staining, unknown.granulating) == (None, None)
    assert unknown.told == (
        f"My tube: {why}, so until the label says otherwise it is taken as fading (lightfastness"
        " III) and as calling for care."
    )
    # Who asks for paints without any hazard, for a class of children, must not be given this one.
    assert Hazard.OTHER in unknown.hazards
    assert unknown.hazard_note.endswith(NOT_KNOWN)


def test_a_pigment_known_to_fade_is_not_made_better_by_one_that_is_not_known() -> None:
    assert expected("PR83", "PB999").lightfastness is Lightfastness.IV
    assert "taken as fading (lightfastness IV)" in expected("PR83", "PB999").told


def test_the_label_overrules() -> None:
    label = LabelSays(Lightfastness.II, (Hazard.NICKEL,), "for grown-ups")
    told = expected("PR83", "PB35", label=label)
    assert told.lightfastness is Lightfastness.II
    assert (told.hazards, told.hazard_note) == ((Hazard.NICKEL,), "for grown-ups")
    assert told.told == "My tube: lightfastness II and hazards as its label says."


def test_a_label_that_tells_one_thing_leaves_the_other_to_the_pigments() -> None:
    lasts = expected("PY154", label=LabelSays(Lightfastness.II))
    assert lasts.told == (
        "My tube: as usual of PY154, no hazard noted; lightfastness II as its label says."
    )
    harmless = expected("PB999", label=LabelSays(hazards=()))
    assert harmless.hazards == ()
    assert harmless.told == (
        "My tube: nothing is known of PB999, so until the label says otherwise it is taken as"
        " fading (lightfastness III); hazards as its label says."
    )


def test_a_lightfastness_on_the_label_hides_no_pigment_that_is_not_known() -> None:
    """What is usual of PB35 tells nothing of what else is in the tube."""
    label = LabelSays(Lightfastness.I)
    assert expected("PB35", "PB999", label=label).told == (
        "My tube: nothing is known of PB999, so until the label says otherwise it is taken as"
        " calling for care; lightfastness I as its label says."
    )
    assert expected("PB999", label=label).told == (
        "My tube: nothing is known of PB999, so until the label says otherwise it is taken as"
        " calling for care; lightfastness I as its label says."
    )
    assert expected(label=label).told == (
        "My tube: no pigment is known, so until the label says otherwise it is taken as calling for"
        " care; lightfastness I as its label says."
    )


def test_a_label_without_hazards_leaves_no_note() -> None:
    told = expected("PB35", label=LabelSays(hazards=()))
    assert (told.hazards, told.hazard_note) == ((), "")


def test_a_label_that_names_a_hazard_alone_gets_a_note() -> None:
    """Every hazard needs one (catalogue/README.md)."""
    assert expected("PB35", label=LabelSays(hazards=(Hazard.COBALT,))).hazard_note == COBALT_NOTE
    lead = expected("PB29", label=LabelSays(hazards=(Hazard.LEAD,)))
    assert lead.hazard_note == ASK_THE_LABEL


def test_a_labels_note_stands_before_what_is_usual() -> None:
    told = expected("PB35", label=LabelSays(hazard_note="wear gloves"))
    assert told.hazards == (Hazard.COBALT,)
    assert told.hazard_note == f"wear gloves; {COBALT_NOTE}"


def test_a_name_without_its_crystal_stands_for_all_of_them() -> None:
    """PB15:1 and PB15:3 are crystals of PB15 (Colour Index); the demo has both."""
    assert expected("PB15").hazards == expected("PB15:3").hazards == (Hazard.COPPER,)
    assert expected("PB15:4").told == (
        "My tube: as usual of PB15:4, lightfastness I and care because of copper."
    )
    assert expected("PV1").lightfastness is Lightfastness.V  # and not PV19's, nor PV15's
