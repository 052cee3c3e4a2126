"""The main job on the demo catalogue: demands are kept, figures add up."""

from collections.abc import Callable

import numpy as np
import pytest

from fewtubes.catalogue.records import Catalogue, Hazard, Lightfastness
from fewtubes.colour.bands import WAVELENGTH_NM
from fewtubes.colour.difference import delta_e_2000
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.mixing.matching import recipe_lab
from fewtubes.mixing.opacity import Transparency
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import OwnColour
from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan_parts import Obstacle
from fewtubes.shopping.shop import shop

MakeScenario = Callable[..., Scenario]


def test_figures_of_a_plan_add_up(demo: Catalogue, cache: Cache, scenario: MakeScenario) -> None:
    plan = shop(demo, scenario("bluebell", "cyclamen", budget=900), cache=cache)
    assert plan.certificate.status is Status.PROVEN
    assert plan.cost == sum(planned.cost for planned in plan.bought) <= 900
    weights = [s.sample.weight for s in plan.samples]
    covered = sum(s.sample.weight for s in plan.samples if s.covered)
    assert plan.coverage == pytest.approx(covered / sum(weights))
    assert plan.certificate.value == covered
    optics = optics_for(demo, "cotton-white", "D65", cache)
    palette = {planned.tube.id for planned in plan.tubes}
    for planned in plan.samples:
        assert planned.recipe is not None
        assert set(planned.recipe.tubes) <= palette
        lab = recipe_lab(planned.recipe, demo.tubes, optics)
        assert lab == pytest.approx(np.array(planned.mix_lab))
        match = float(delta_e_2000(lab, np.array(planned.sample.lab)))
        assert match == pytest.approx(planned.match)
        assert planned.covered == (match <= 4.0)
        assert planned.match_if_unsteady >= planned.match - 1e-9


def test_wishes_are_kept(demo: Catalogue, cache: Cache, scenario: MakeScenario) -> None:
    wishes = Wishes(
        owned=("ultramarine", "vivid-pink"),
        must_have=("lemon",),
        never=("magenta",),
        lightfastness_floor=Lightfastness.II,
        transparency_floor=Transparency.SEMI_TRANSPARENT,
        avoid_hazards=(Hazard.COBALT, Hazard.CADMIUM),
        millilitres=12,
    )
    plan = shop(demo, scenario("cyclamen", "bluebell", wishes=wishes, most_tubes=4), cache=cache)
    bought = {planned.tube.id for planned in plan.bought}
    assert "lemon" in bought
    assert not bought & {"magenta", "ultramarine", "vivid-pink"}
    assert len(bought) <= 4
    assert [tube.id for tube in plan.set_aside] == ["vivid-pink"]  # owned, but it fades
    for planned in plan.tubes:
        assert planned.tube.lightfastness <= Lightfastness.II
        assert planned.transparency <= Transparency.SEMI_TRANSPARENT
        assert not {Hazard.COBALT, Hazard.CADMIUM} & set(planned.tube.hazards)
    for planned in plan.bought:
        assert sum(pack.count * pack.offer.ml for pack in planned.packs) >= 12


def test_what_stays_out_of_reach_says_why_and_what_would_help(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    plan = shop(demo, scenario("cyclamen", "primrose", budget=250), cache=cache)
    missed = [s for s in plan.samples if not s.covered]
    assert missed
    assert all(s.obstacle is Obstacle.BUDGET for s in missed)
    helped = [s for s in missed if s.remedies]
    assert helped
    bought = tuple(planned.tube.id for planned in plan.bought)
    planned = helped[0]
    remedy = planned.remedies[0]
    with_it = scenario(
        "cyclamen",
        "primrose",
        budget=100_000,
        most_tubes=len(bought) + 1,
        wishes=Wishes(must_have=(*bought, remedy.tube.id)),
    )
    again = shop(demo, with_it, cache=cache)
    name = (planned.sample.flower, planned.sample.name)
    assert next(s for s in again.samples if (s.sample.flower, s.sample.name) == name).covered


def test_sparing_the_worst_tubes_never_covers_more(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    plan = shop(demo, scenario("petunia, neon pink", "cyclamen", budget=2000), cache=cache)
    for trait in (plan.lightfastness, plan.opacity):
        assert trait.spared_proven
        assert trait.spared <= plan.coverage
    assert plan.lightfastness.worst is not None
    floor = Lightfastness(plan.lightfastness.worst - 1)
    spared = shop(
        demo,
        scenario(
            "petunia, neon pink",
            "cyclamen",
            budget=2000,
            wishes=Wishes(lightfastness_floor=floor),
        ),
        cache=cache,
    )
    assert spared.coverage == pytest.approx(plan.lightfastness.spared)


def test_own_colour_by_reflectance_follows_the_light(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    blue = np.interp(WAVELENGTH_NM, [380, 480, 560, 730], [0.3, 0.5, 0.15, 0.2])
    own = (OwnColour(name="my blue", reflectance=blue),)
    labs = [
        shop(demo, scenario(own_colours=own, light=light), cache=cache).samples[0].sample.lab
        for light in ("D65", "A")
    ]
    assert labs[0][2] != pytest.approx(labs[1][2], abs=1)


def test_owned_tubes_alone_may_do(demo: Catalogue, cache: Cache, scenario: MakeScenario) -> None:
    full = shop(demo, scenario("primrose"), cache=cache)
    owned = tuple(planned.tube.id for planned in full.bought)
    plan = shop(demo, scenario("primrose", budget=1, wishes=Wishes(owned=owned)), cache=cache)
    assert plan.bought == ()
    assert plan.cost == 0
    assert plan.coverage == full.coverage


def test_progress_is_told(demo: Catalogue, cache: Cache, scenario: MakeScenario) -> None:
    told: list[str] = []
    shop(demo, scenario("primrose"), cache=cache, progress=told.append)
    assert len(told) >= 3


def test_owned_tube_that_is_set_aside_would_bring_a_colour_for_nothing(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    wishes = Wishes(owned=("vivid-pink",), lightfastness_floor=Lightfastness.II)
    plan = shop(demo, scenario("petunia, neon pink", wishes=wishes), cache=cache)
    remedies = [r for s in plan.samples for r in s.remedies if r.tube.id == "vivid-pink"]
    assert remedies
    assert all(r.cost == 0 and not r.allowed for r in remedies)
