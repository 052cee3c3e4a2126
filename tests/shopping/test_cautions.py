"""The usual cautions; what they say is common practice, no source."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from tests.fitted_tables import likely_about

from fewtubes.catalogue.records import Hazard, Lightfastness, Pigment, Trait, Tube
from fewtubes.colour.bands import BAND_COUNT
from fewtubes.mixing.opacity import Transparency
from fewtubes.shopping.cautions import cautions_for
from fewtubes.shopping.plan_parts import Caution, PlannedTube
from fewtubes.words.hazards import care_words


def planned(
    name: str,
    hazards: Sequence[Hazard | None] = (None,),
    *,
    note: str = "",
    lightfastness: Lightfastness = Lightfastness.I,
    white_filled: bool = False,
) -> PlannedTube:
    pigments = [
        Pigment(
            id=f"{name}-{place}",
            code="PR1",
            name="made-up",
            chemical_class="made-up",
            lightfastness=lightfastness,
            blue_wool=None,
            staining=Trait.NO,
            granulating=Trait.NO,
            hazards=(hazard,) if hazard else (),
            hazard_note=note if hazard else "",
            K=np.zeros(BAND_COUNT),
            S=np.zeros(BAND_COUNT),
        )
        for place, hazard in enumerate(hazards)
    ]
    tube = Tube(name, name, 1.0, tuple((p, 1 / len(pigments)) for p in pigments), ())
    return PlannedTube(
        tube=tube,
        owned=False,
        packs=(),
        contrast_ratio=0.1,
        transparency=Transparency.SEMI_TRANSPARENT,
        white_filled=white_filled,
        recipes=0,
        only_it_brings=0.0,
    )


def about(cautions: Sequence[Caution], name: str) -> list[str]:
    return [caution.text for caution in cautions if name in caution.tubes]


@pytest.mark.parametrize("hazard", list(Hazard))
def test_every_hazard_is_named_with_its_tubes(hazard: Hazard) -> None:
    cautions = cautions_for([planned("plain"), planned("risky", [None, hazard])])
    (text,) = about(cautions, "risky")
    assert hazard.value in text
    assert about(cautions, "plain") == []


def test_a_tube_of_two_hazards_stands_under_both() -> None:
    cautions = cautions_for([planned("teal", [Hazard.COBALT, Hazard.NICKEL])])
    assert len(about(cautions, "teal")) == 2


def test_a_fitted_tube_is_told_how_to_test_its_lightfastness() -> None:
    """Half a swatch covered in a window: common practice, no source."""
    own = planned("own")
    pigment, share = own.tube.pigments[0]
    pigments = ((replace(pigment, likely=likely_about(pigment)), share),)
    own = replace(own, tube=replace(own.tube, pigments=pigments))
    cautions = cautions_for([planned("bought"), own])
    (text,) = about(cautions, "own")
    assert "a fit is an estimate, and lightfastness is not seen in a swatch" in text
    assert "paint a swatch, cover half of it, and leave it in a window for some months" in text
    assert about(cautions, "bought") == []
    assert "label" in cautions[-1].text


def test_tubes_of_one_hazard_share_a_caution() -> None:
    tubes = [planned("red", [Hazard.CADMIUM]), planned("yellow", [Hazard.CADMIUM])]
    shared = [caution for caution in cautions_for(tubes) if caution.tubes]
    assert [caution.tubes for caution in shared] == [("red", "yellow")]


@pytest.mark.parametrize("hazard", [Hazard.OTHER, Hazard.COBALT])
def test_what_the_catalogue_notes_is_told_in_its_words(hazard: Hazard) -> None:
    tubes = [
        planned("green", [None, hazard], note="holds arsenic; wear gloves"),
        planned("teal", [hazard], note="holds arsenic; wear gloves"),
        planned("plain"),
    ]
    (noted,) = [caution for caution in cautions_for(tubes) if "arsenic" in caution.text]
    assert noted == Caution("The catalogue notes: holds arsenic; wear gloves.", ("green", "teal"))


def test_each_note_is_told_once() -> None:
    tubes = [
        planned("green", [Hazard.OTHER], note="Wear gloves!"),
        planned("teal", [Hazard.ZINC], note="Wear a mask."),
    ]
    notes = [caution for caution in cautions_for(tubes) if caution.text.startswith("The cata")]
    assert notes == [
        Caution("The catalogue notes: Wear gloves!", ("green",)),
        Caution("The catalogue notes: Wear a mask.", ("teal",)),
    ]


@pytest.mark.parametrize("category", list(Lightfastness))
def test_tubes_that_fade_are_named_from_category_iv(category: Lightfastness) -> None:
    cautions = cautions_for([planned("pink", lightfastness=category)])
    warned = any("Fades" in text for text in about(cautions, "pink"))
    assert warned == (category.name in {"IV", "V"})


def test_tubes_filled_with_white_are_named() -> None:
    cautions = cautions_for([planned("pale pink", white_filled=True)])
    (text,) = about(cautions, "pale pink")
    assert "white pigment" in text


@pytest.mark.parametrize("tubes", [[], [planned("lead white", [Hazard.LEAD])]])
def test_general_cautions_are_always_there_and_the_last_defers(tubes: list[PlannedTube]) -> None:
    cautions = cautions_for(tubes)
    text = " ".join(caution.text for caution in cautions)
    for word in ("lips", "spray", "wash hands", "children", "powder"):
        assert word in text
    for authority in ("label", "safety data sheet", "local rules", "qualified advice"):
        assert authority in cautions[-1].text
    assert cautions[-1].tubes == ()


@pytest.mark.parametrize(
    ("hazard", "note"),
    [
        (Hazard.COPPER, "holds bound copper; avoid dust and spray"),
        (Hazard.MANGANESE, "holds manganese; avoid dust and spray"),
        (Hazard.COBALT, "Holds cobalt; avoid dust and spray, no brush-licking."),
        (Hazard.CADMIUM, "holds cadmium; no dry dust, no spraying, no brush-licking"),
    ],
)
def test_a_note_that_only_repeats_what_is_said_is_not_told_again(hazard: Hazard, note: str) -> None:
    cautions = cautions_for([planned("blue", [hazard], note=note)])
    (text,) = about(cautions, "blue")
    assert hazard.value in text
    assert "The catalogue notes" not in text
    assert any("point a brush with the lips" in caution.text for caution in cautions)


@pytest.mark.parametrize(
    ("hazard", "note", "said"),
    [
        (
            Hazard.COPPER,
            "holds bound copper; avoid dust and spray, wear gloves",
            "avoid dust and spray, wear gloves",
        ),
        (Hazard.NICKEL, "holds copper; avoid dust and spray", "holds copper"),  # another metal
        (Hazard.CHROMIUM, "far more toxic than others", ""),  # each word is in the usual text
        (Hazard.COPPER, "not bound", ""),
        (Hazard.NICKEL, "holds bound nickel; avoid dust and spray", "holds bound nickel"),
        (
            Hazard.CADMIUM,
            "holds cadmium and selenium; no dry dust, no spraying",
            "holds cadmium and selenium",
        ),
        (Hazard.ZINC, "holds zinc; avoid dust and spray", "avoid dust and spray"),
        (Hazard.OTHER, "avoid dust and spray", ""),
        (Hazard.OTHER, "heed the label", ""),
    ],
)
def test_of_a_note_that_says_more_that_is_told(hazard: Hazard, note: str, said: str) -> None:
    told = about(cautions_for([planned("blue", [hazard], note=note)]), "blue")
    assert f"The catalogue notes: {said or note}." in told


def test_two_notes_that_say_one_thing_more_share_a_caution() -> None:
    tubes = [
        planned("red", [Hazard.CADMIUM], note="holds cadmium; wear gloves"),
        planned("yellow", [Hazard.CADMIUM], note="wear gloves; no spraying"),
    ]
    (noted,) = [one for one in cautions_for(tubes) if one.text.startswith("The catalogue")]
    assert noted == Caution("The catalogue notes: wear gloves.", ("red", "yellow"))


def test_of_two_hazards_a_note_may_name_both() -> None:
    (tube,) = [planned("teal", [Hazard.COBALT])]
    pigment, share = tube.tube.pigments[0]
    both = replace(
        pigment,
        hazards=(Hazard.COBALT, Hazard.NICKEL),
        hazard_note="holds nickel and cobalt; avoid dust and spray",
    )
    tube = replace(tube, tube=replace(tube.tube, pigments=((both, share),)))
    assert not any("notes" in text for text in about(cautions_for([tube]), "teal"))
    assert care_words(tube.tube) == "holds cobalt and nickel; noted: avoid dust and spray"


def test_what_two_pigments_of_a_tube_note_alike_is_said_once() -> None:
    green = planned("green", [Hazard.COPPER, Hazard.NICKEL])
    notes = ("holds bound copper; avoid dust and spray", "holds nickel; Avoid dust and spray.")
    pigments = tuple(
        (replace(pigment, hazard_note=note), share)
        for (pigment, share), note in zip(green.tube.pigments, notes, strict=True)
    )
    assert care_words(replace(green.tube, pigments=pigments)) == (
        "holds copper and nickel; noted: holds bound copper; Avoid dust and spray"
    )
