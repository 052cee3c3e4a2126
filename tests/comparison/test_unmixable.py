"""How near the others come to a tube: against every recipe, and against painters' experience."""

import math
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from tests.pink_pigments import PINK_PIGMENTS

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.hues import hues_of
from fewtubes.comparison.tube_ranking import MixedTube, MixedTubes
from fewtubes.comparison.unmixable import mixed_tubes
from fewtubes.coverage.cache import Cache
from fewtubes.mixing.likeness import HARDLY_DIFFERENT, wash_labs
from fewtubes.mixing.matching import best_matches, recipe_lab
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import STRENGTHS, RecipeSpace

RED_PIGMENTS = {
    "pr254-warm-red",
    "pr188-scarlet",
    "pr108-cadmium-red",
    "pr170-middle-red",
    "pr83-crimson",
}
REDS = ("warm-red", "warm-red-study", "scarlet", "cadmium-red", "middle-red", "cool-crimson")


@pytest.fixture(scope="module")
def ranked(tubes: Mapping[str, Tube], optics: Optics) -> tuple[MixedTube, ...]:
    """Return the whole demo catalogue, ranked; takes seconds."""
    return mixed_tubes(tubes, optics, cache=Cache())


def few(tubes: Mapping[str, Tube], *ids: str) -> dict[str, Tube]:
    return {id_: tubes[id_] for id_ in ids}


def by_id(mixed: tuple[MixedTube, ...]) -> dict[str, MixedTube]:
    return {item.tube.id: item for item in mixed}


SIX = ("rose", "soft-rose", "golden-yellow", "ultramarine", "turquoise", "warm-red")


@pytest.mark.parametrize("count_twins", [False, True])
def test_each_strength_takes_the_nearest_recipe_of_the_others(
    tubes: Mapping[str, Tube], optics: Optics, *, count_twins: bool
) -> None:
    """Against the search over all recipes of just the tubes that may be used."""
    mixed = by_id(mixed_tubes(few(tubes, *SIX), optics, cache=Cache(), count_twins=count_twins))
    pair = {"rose", "soft-rose"}
    for id_, item in mixed.items():
        out = {id_} | (pair if id_ in pair and not count_twins else set())
        others = few(tubes, *(other for other in SIX if other not in out))
        assert {tube.id for tube in item.family} == out - {id_}
        for lab, match in zip(item.labs, item.matches, strict=True):
            ((best,),) = best_matches(
                others,
                np.array([lab]),
                optics=optics,
                space=RecipeSpace(),
                tolerance=math.inf,
                burden=0.0,
                bare_paper=False,  # no mix of others
            )
            assert match == best
            assert recipe_lab(match.recipe, tubes, optics).tolist() == pytest.approx(match.lab)
        differences = [match.difference for match in item.matches]
        assert item.largest == max(differences) == differences[item.farthest]
        assert item.mean == pytest.approx(sum(differences) / len(STRENGTHS))


def test_a_twin_makes_its_sibling_look_mixable(tubes: Mapping[str, Tube], optics: Optics) -> None:
    """Not to the last digit: 0.6 of full strength lies between two wash strengths, 0.5 and 0.71."""
    catalogue = few(tubes, *SIX)
    without = by_id(mixed_tubes(catalogue, optics, cache=Cache()))
    counted = by_id(mixed_tubes(catalogue, optics, cache=Cache(), count_twins=True))
    assert without["soft-rose"].largest > HARDLY_DIFFERENT
    assert counted["soft-rose"].largest < without["soft-rose"].largest / 2
    weak = counted["soft-rose"].matches
    assert all(match.recipe.tubes[0] == "rose" for match in weak[:4])
    assert counted["turquoise"].largest == without["turquoise"].largest


def test_a_lonely_tube_has_nothing_to_be_mixed_from(
    tubes: Mapping[str, Tube], optics: Optics, tmp_path: Path
) -> None:
    cache = Cache(tmp_path)
    for _ in range(2):  # computed, then remembered
        (alone,) = mixed_tubes(few(tubes, "rose"), optics, cache=cache)
        assert (alone.matches, alone.largest, alone.mean) == ((), math.inf, math.inf)
    assert mixed_tubes({}, optics, cache=Cache()) == ()


def test_what_is_remembered_is_what_was_found(
    tubes: Mapping[str, Tube],
    optics: Optics,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    cache, catalogue = Cache(tmp_path), few(tubes, *SIX)
    first = mixed_tubes(catalogue, optics, cache=cache)
    counted = mixed_tubes(catalogue, optics, cache=cache, count_twins=True)
    monkeypatch.setattr("fewtubes.comparison.unmixable.best_matches", None)
    again = mixed_tubes(catalogue, optics, cache=cache)
    assert [item.matches for item in again] == [item.matches for item in first]
    assert [item.tube for item in again] == [item.tube for item in first]
    twice = mixed_tubes(catalogue, optics, cache=cache, count_twins=True)
    assert [item.matches for item in twice] == [item.matches for item in counted]
    with pytest.raises(TypeError):  # another catalogue is not remembered
        mixed_tubes(few(tubes, *SIX[1:]), optics, cache=cache)


# Painters' experience; common practice, no source.


def test_a_clean_pink_leads_the_list_and_no_red_is_on_it(ranked: tuple[MixedTube, ...]) -> None:
    assert len(ranked) == len({item.tube.id for item in ranked}) >= 60
    assert {pigment.id for pigment, _ in ranked[0].tube.pigments} <= PINK_PIGMENTS
    families = MixedTubes(ranked).families
    single = {m.tube.id for one in families if one.least > HARDLY_DIFFERENT for m in one.members}
    assert single
    assert single.isdisjoint(REDS)
    assert [one.least for one in families] == sorted((one.least for one in families), reverse=True)
    assert [item.tube.id for item in ranked] == [m.tube.id for one in families for m in one.members]
    for one in families:
        assert one.least == one.members[0].largest <= one.members[-1].largest == one.most


def test_two_strengths_are_one_family(ranked: tuple[MixedTube, ...]) -> None:
    for strong, weak in (
        ("ultramarine", "ultramarine-study"),
        ("green-leaning-blue", "green-leaning-blue-study"),
        ("rose", "soft-rose"),
    ):
        assert weak in {tube.id for tube in by_id(ranked)[strong].family}
    # Every two of a family come near each other; a pink is no red.
    assert by_id(ranked)["vivid-pink"].family == ()
    assert not {tube.id for tube in by_id(ranked)["rose"].family} & set(REDS)


def test_a_white_is_bought_for_what_it_hides(
    ranked: tuple[MixedTube, ...], tubes: Mapping[str, Tube], optics: Optics
) -> None:
    """On white paper nothing is seen of it; over black nothing else comes near it.

    Against every recipe of all other tubes over black; that whites hide is common practice, no
    source.
    """
    assert [m.tube.id for m in ranked if m.hardly_shows] == ["titanium-white"]
    assert all(item.over_black is None for item in ranked if not item.hardly_shows)
    family = next(one for one in MixedTubes(ranked).families if one.hardly_shows)
    assert family.single
    kit = few(tubes, *SIX, "pale-pink", "bright-green-mixed", "titanium-white")
    white = by_id(mixed_tubes(kit, optics, cache=Cache()))["titanium-white"]
    black = replace(optics, ground=np.zeros_like(optics.ground))
    ((best,),) = best_matches(
        {id_: tube for id_, tube in kit.items() if id_ != "titanium-white"},
        wash_labs([white.tube], black, (1.0,))[0],
        optics=black,
        space=RecipeSpace(),
        tolerance=math.inf,
        burden=0.0,
        bare_paper=False,
    )
    assert white.over_black == best
    assert best.difference > 4.0


@pytest.mark.parametrize("pink", ["magenta", "rose", "vivid-pink"])
def test_the_only_pink_cannot_be_mixed(
    tubes: Mapping[str, Tube], optics: Optics, pink: str
) -> None:
    """Many pinks in one catalogue mix each other; one left alone leads the list by far.

    Only a violet may come near it: it asks for a clean pink as well, and for the right one.
    """
    rest = without_others(tubes, pink, PINK_PIGMENTS)
    mixed = mixed_tubes(rest, optics, cache=Cache())
    assert mixed[0].tube.id == pink
    second = next(item for item in mixed[1:] if item.tube.pigments[0][0].code[:2] != "PV")
    assert mixed[0].largest > 1.5 * second.largest
    assert mixed[0].largest > 4.0


@pytest.mark.parametrize("red", ["warm-red", "middle-red"])
def test_the_only_red_can_be_mixed(tubes: Mapping[str, Tube], optics: Optics, red: str) -> None:
    item = by_id(mixed_tubes(without_others(tubes, red, RED_PIGMENTS), optics, cache=Cache()))[red]
    assert item.largest < HARDLY_DIFFERENT


@pytest.mark.parametrize("red", ["warm-red", "middle-red", "scarlet"])
def test_a_red_can_be_mixed_from_pinks_and_golden_yellows_alone(
    tubes: Mapping[str, Tube], optics: Optics, red: str
) -> None:
    """Within 4, the demo scenarios' tolerance, at every strength."""
    kit = few(tubes, red, "magenta", "rose", "vivid-pink", "golden-yellow", "warm-yellow")
    assert by_id(mixed_tubes(kit, optics, cache=Cache()))[red].largest < 4.0


def without_others(tubes: Mapping[str, Tube], kept: str, family: set[str]) -> dict[str, Tube]:
    """Return the catalogue without tubes that hold a pigment of a family, save for one."""
    return {
        id_: tube
        for id_, tube in tubes.items()
        if id_ == kept or not family & {pigment.id for pigment, _ in tube.pigments}
    }


def test_yellow_pink_and_blue_are_the_hues_that_others_do_not_mix(
    ranked: tuple[MixedTube, ...],
) -> None:
    """Subtractive primaries: yellow, magenta and cyan, the inks that ISO 2846-1 names.

    That they mix the hues between, and none of them is mixed, is common practice, no source.
    """
    hues = hues_of(ranked)
    alone = {hue.word: {item.tube.id for item in hue.clean} for hue in hues if hue.clean}
    assert set(alone) == {"yellow", "pink", "blue"}
    assert "magenta" in alone["pink"]
    assert "green-leaning-blue" in alone["blue"]
