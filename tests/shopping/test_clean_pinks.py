"""What a painter knows of pinks must come out of the spectra: common practice, no source.

Without a magenta or pink, no palette covers a clean bright pink, at any budget; a pale pink made
with white filler is flagged, and a wash of a strong pigment does instead of it; a tube sold under
two names at two strengths is not bought twice.
"""

from collections.abc import Callable

import numpy as np
import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.cielab import lab_to_lch
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.mixing.mixture import mixture_lab
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.shopping.plan_parts import Obstacle
from fewtubes.shopping.question import pose
from fewtubes.shopping.shop import shop

MakeScenario = Callable[..., Scenario]

CLEAN_PINKS = (
    ("sweet pea, pink", "petal"),
    ("peony, pink", "petal"),
    ("cyclamen", "petal"),
    ("cyclamen", "light petal"),
    ("dahlia, magenta", "petal"),
)


def pink_tubes(demo: Catalogue, cache: Cache) -> set[str]:
    """Return the tubes that are pink or magenta by their colour.

    Hue 325–10 and C* 33 or more in the wash nearest L* 70 (30 for a tube that is never darker):
    a cool crimson, C* 32 there, is a red to a painter.
    """
    optics = optics_for(demo, "cotton-white", "D65", cache)
    found = set()
    for id_, tube in demo.tubes.items():
        loads = np.geomspace(1, 0.01, 60)[:, None]
        lch = lab_to_lch(mixture_lab(loads, tube.K[None], tube.S[None], optics))
        L, C, h = lch[np.abs(lch[:, 0] - 70).argmin()]
        if (h > 325 or h < 10) and (30 if L > 72 else 33) <= C:
            found.add(id_)
    return found


def test_no_clean_pink_without_a_pink_at_any_budget(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    pinks = pink_tubes(demo, cache)
    assert 4 <= len(pinks) <= 12
    asked = scenario(
        *dict.fromkeys(flower for flower, _ in CLEAN_PINKS),
        budget=100_000_000,
        wishes=Wishes(never=tuple(pinks)),
    )
    plan = shop(demo, asked, cache=cache)
    missed = {
        (planned.sample.flower, planned.sample.name): planned
        for planned in plan.samples
        if not planned.covered
    }
    assert set(CLEAN_PINKS) <= set(missed)
    for clean in CLEAN_PINKS:
        assert missed[clean].obstacle is Obstacle.WISHES
        assert {remedy.tube.id for remedy in missed[clean].remedies} <= pinks
        assert missed[clean].remedies, "one of the pinks brings it"


def test_white_filled_pink_is_replaced_by_a_wash(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    plan = shop(demo, scenario("sweet pea, pink", "rose, pale pink"), cache=cache)
    assert plan.coverage == 1
    assert not any(planned.white_filled for planned in plan.tubes)
    pale = [s for s in plan.samples if s.sample.lab[0] > 80]
    assert pale
    assert all(s.recipe is not None and s.recipe.strength < 0.5 for s in pale)


def test_white_filler_is_flagged_and_needed_where_pale_colour_is_laid_thick(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    thick = scenario(
        "sweet pea, pink", "rose, pale pink", wishes=Wishes(thinnest_wash=0.5), budget=100_000
    )
    plan = shop(demo, thick, cache=cache)
    assert any("white" in tube.tube.name or tube.white_filled for tube in plan.tubes)
    question = pose(demo, thick, cache=cache, progress=lambda _: None)
    filled = demo.tubes["pale-pink"]
    assert question.transparencies[filled.id].word in {"semi-opaque", "opaque"}


@pytest.mark.parametrize("budget", [1200, 2000, 3500])
def test_the_same_paint_is_not_bought_twice(
    demo: Catalogue, cache: Cache, scenario: MakeScenario, budget: int
) -> None:
    twins = [
        (a.id, b.id)
        for a in demo.tubes.values()
        for b in demo.tubes.values()
        if a.id < b.id and a.pigments == b.pigments and a.strength != b.strength
    ]
    assert twins, "the catalogue holds a paint under two names"
    plan = shop(demo, scenario("bluebell", "poppy, field", "primrose", budget=budget), cache=cache)
    bought = {planned.tube.id for planned in plan.tubes}
    assert not any(set(twin) <= bought for twin in twins)
