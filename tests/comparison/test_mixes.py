"""The mixes of one colour: what lasts leads where it is near enough, and nothing else moves.

The order without that rule is asked of `best_matches` directly, which knows of no lightfastness.
"""

from dataclasses import replace

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Lightfastness
from fewtubes.comparison.mixes import Mixes, best_mixes
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import usual_optics
from fewtubes.errors import LimitError
from fewtubes.mixing.matching import best_matches
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import Recipe, RecipeSpace
from fewtubes.report.sentences.mixes import lead_words

VIOLET = (58.0, 24.6, -31.5)
"""A petal that a dioxazine violet alone comes near to, and blue with magenta nearly as well."""

AT_HAND = ("ultramarine", "magenta", "dioxazine-violet", "cool-crimson")


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    return read_catalogue()


@pytest.fixture(scope="module")
def optics(demo: Catalogue) -> Optics:
    return usual_optics(demo, Cache(), paper=None, light=None)


def mixed(
    demo: Catalogue, optics: Optics, *tubes: str, most: int = 5, tolerance: float = 4.0
) -> Mixes:
    held = {id_: demo.tubes[id_] for id_ in tubes or AT_HAND}
    return best_mixes("violet", VIOLET, held, optics=optics, tolerance=tolerance, most=most)


def as_ranked(demo: Catalogue, optics: Optics, *tubes: str, most: int = 5) -> list[Recipe]:
    """Return the recipes as they rank, whether they fade or not."""
    held = {id_: demo.tubes[id_] for id_ in tubes or AT_HAND}
    (matches,) = best_matches(
        held, np.array([VIOLET]), optics=optics, space=RecipeSpace(), tolerance=4.0, most=most
    )
    return [match.recipe for match in matches]


def recipes(mixes: Mixes) -> list[Recipe]:
    return [rated.match.recipe for rated in mixes.rated]


def test_the_nearest_that_lasts_leads_and_the_rest_stays_as_it_ranks(
    demo: Catalogue, optics: Optics
) -> None:
    ranked = as_ranked(demo, optics)
    assert "dioxazine-violet" in ranked[0].tubes  # lightfastness III: it fades
    (lead,) = as_ranked(demo, optics, "ultramarine", "magenta", most=1)
    found = mixed(demo, optics)
    assert found.lasting_leads
    assert recipes(found) == [lead, *(one for one in ranked if one != lead)][:5]
    assert lead_words(found) == (
        "The first leads because nothing in it fades; the second would go before it, but fades."
    )


def test_where_one_mix_is_asked_for_it_is_told_that_another_would_go_before_it(
    demo: Catalogue, optics: Optics
) -> None:
    found = mixed(demo, optics, most=1)
    assert recipes(found) == as_ranked(demo, optics, "ultramarine", "magenta", most=1)
    assert "one that would go before it does; --most 2 shows both" in lead_words(found)


def test_what_lasts_but_is_not_near_leads_nothing(demo: Catalogue, optics: Optics) -> None:
    """Blue and magenta come within ΔE00 2.1; asked for less, the violet keeps its place."""
    nearest = mixed(demo, optics, "ultramarine", "magenta").rated[0].match.difference
    found = mixed(demo, optics, tolerance=nearest * 0.99)
    assert not found.lasting_leads
    assert "dioxazine-violet" in found.rated[0].match.recipe.tubes
    assert lead_words(found) == ""


def test_where_the_best_lasts_nothing_moves(demo: Catalogue, optics: Optics) -> None:
    found = mixed(demo, optics, "ultramarine", "magenta")
    assert not found.lasting_leads
    assert recipes(found) == as_ranked(demo, optics, "ultramarine", "magenta")


def test_where_nothing_lasts_nothing_moves(demo: Catalogue, optics: Optics) -> None:
    found = mixed(demo, optics, "dioxazine-violet", "cool-crimson")
    assert not found.lasting_leads
    assert recipes(found) == as_ranked(demo, optics, "dioxazine-violet", "cool-crimson")


def test_of_two_tubes_of_one_paint_the_one_that_lasts_leads(
    demo: Catalogue, optics: Optics
) -> None:
    """Of one paint the first stands for both; where it fades, the other must not be forgotten."""
    violet = demo.tubes["dioxazine-violet"]
    ((pigment, share),) = violet.pigments
    lasting = replace(pigment, lightfastness=Lightfastness.I)
    held = {
        "fading": replace(violet, id="fading"),
        "lasting": replace(violet, id="lasting", pigments=((lasting, share),)),
    }
    found = best_mixes("violet", VIOLET, held, optics=optics, tolerance=4.0, most=5)
    assert found.lasting_leads
    assert [one.tubes for one in recipes(found)] == [("lasting",), ("fading",)]


def test_without_time_to_look_for_what_lasts_the_best_stands(
    demo: Catalogue, optics: Optics, monkeypatch: pytest.MonkeyPatch
) -> None:
    def best(tubes: dict[str, object], *args: object, **named: object) -> object:
        if "dioxazine-violet" not in tubes:
            raise LimitError("no time is left")
        return best_matches(tubes, *args, **named)  # type: ignore[arg-type]

    monkeypatch.setattr("fewtubes.comparison.mixes.best_matches", best)
    found = mixed(demo, optics)
    assert not found.lasting_leads
    assert recipes(found) == as_ranked(demo, optics)
