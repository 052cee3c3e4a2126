"""What is offered in place of a tube that nobody has: the nearest paint, not the nearest spelling.

The demo's tubes are invented; which of them comes near a traditional name is common practice.
"""

import re
from dataclasses import replace

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.scenario.called import id_of
from fewtubes.scenario.likely_meant import spelt_nearest, tubes_meant

TUBES = read_catalogue().tubes


def offered(asked: str) -> list[str]:
    """Return the ids of the tubes that are offered."""
    names = re.findall(r"'([^']*)'", tubes_meant(asked, TUBES))
    ids = [id_of(name, TUBES) for name in names]
    assert None not in ids  # whatever is offered is taken back
    return [str(id_) for id_ in ids]


@pytest.mark.parametrize(
    ("asked", "first"),
    [
        ("lemmon", "lemon"),  # a slip
        ("ultramarin", "ultramarine"),
        ("French ultramarine", "ultramarine"),  # the rarest word counts most
        ("cobalt violet light", "cobalt-violet"),
        ("phthalo turquoise", "turquoise"),  # the beginning of a word stands for it
        ("PB29", "ultramarine"),  # a code
        ("alizarin", "cool-crimson"),
        ("prussian blue", "iron-blue"),  # a colour known by its name
        ("alizarin crimson", "cool-crimson"),
        ("sap green", "olive-green-mixed"),
        ("zinc white", "titanium-white"),  # and not the yellow that holds zinc
        ("burnt umber", "dark-brown-earth"),  # two words of colours, and what lies between
        ("Chinese white", "titanium-white"),  # and not the pink that has some white in it
    ],
)
def test_the_nearest_paint_is_offered(asked: str, first: str) -> None:
    assert offered(asked)[0] == first


def test_a_deep_blue_is_no_black() -> None:
    assert "carbon-black" not in offered("prussian")


def test_a_name_known_for_its_colour_brings_that_colour() -> None:
    """Vermilion is a red that leans to orange; the nearest spelling is none of that."""
    assert set(offered("vermilion")) <= {
        "scarlet", "warm-red", "middle-red", "cadmium-red", "warm-red-study", "pyrrole-orange",
    }  # fmt: skip


@pytest.mark.parametrize("asked", ["", "xyz", "rose" * 51])
def test_nothing_is_offered_for_what_means_nothing(asked: str) -> None:
    assert tubes_meant(asked, TUBES) == ""


def test_accents_make_no_difference() -> None:
    assert offered("rosé")[0] == "rose"


def test_at_most_three_are_offered_each_once() -> None:
    found = offered("quinacridone")
    assert len(found) == len(set(found)) == 3


def test_a_catalogue_without_tubes_offers_none() -> None:
    assert tubes_meant("lemon", {}) == ""


def test_where_nothing_is_meant_tubes_are_told_by_name_the_nearest_in_spelling_first() -> None:
    told = spelt_nearest("yelow", TUBES)
    assert sorted(told) == sorted(tube.name for tube in TUBES.values())
    yellow = ["yellow" in name.partition("(")[0] for name in told]
    assert yellow == sorted(yellow, reverse=True)  # all yellows before all others
    assert any(yellow)


def test_a_name_too_long_for_a_slip_leaves_the_tubes_in_their_order() -> None:
    assert spelt_nearest("rose" * 51, TUBES) == [tube.name for tube in TUBES.values()]


def test_a_tube_whose_name_leads_elsewhere_is_told_by_its_id() -> None:
    """Two of one name, and one that is called as another's id: none is found by its name."""
    ids = ("rose", "lemon", "magenta", "ultramarine")
    names = ("twin", "twin", "ultramarine", "blue")
    tubes = {id_: replace(TUBES[id_], name=name) for id_, name in zip(ids, names, strict=True)}
    assert spelt_nearest("twin", tubes) == ["rose", "lemon", "magenta", "blue"]
    assert "'lemon'" in tubes_meant("twinn", tubes)
