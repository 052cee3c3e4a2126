"""A colour that the paper already has is painted by leaving the paper bare: no tube is bought.

That watercolourists reserve their whites is common practice, no source.
"""

import random
from collections.abc import Callable, Mapping
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest

from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.colour.difference import delta_e_2000
from fewtubes.comparison.box import box
from fewtubes.comparison.compare import compare
from fewtubes.comparison.why import why
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.mixing.bare_paper import paper_differences, paper_lab
from fewtubes.mixing.matching import match_if_unsteady, recipe_lab
from fewtubes.mixing.mixture import Optics, mixture_lab
from fewtubes.mixing.recipes import BARE_PAPER, PARTS, STRENGTHS, shares
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish, OwnColour
from fewtubes.selection.certificate import Method, Status
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedSample
from fewtubes.shopping.puddles import Puddling
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.shop import Limits, shop
from fewtubes.shopping.steadiness import MonteCarlo

MakeScenario = Callable[..., Scenario]

FEW = (
    "lemon",
    "middle-red",
    "ultramarine",
    "soft-rose",
    "carbon-black",
    "titanium-white",
    "red-brown-earth",
    "green-leaning-blue",
)
"""Few enough to try every palette."""


@pytest.fixture(scope="module")
def small(demo: Catalogue) -> Catalogue:
    return replace(demo, tubes={id_: demo.tubes[id_] for id_ in FEW})


def sample_of(plan: Plan, flower: str, name: str) -> PlannedSample:
    (found,) = [p for p in plan.samples if (p.sample.flower, p.sample.name) == (flower, name)]
    return found


Best = Mapping[frozenset[str], np.ndarray[tuple[int], np.dtype[np.float64]]]


def best_of_sets(tubes: Mapping[str, Tube], labs: np.ndarray, optics: Optics) -> Best:
    """Return the best match of every set of up to three tubes, none included, the plain way."""
    best = {frozenset[str](): np.asarray(delta_e_2000(paper_lab(optics), labs))}
    for size, patterns in PARTS.items():
        loads = np.multiply.outer(STRENGTHS, shares(patterns)).reshape(-1, size)
        for ids in combinations(tubes, size):
            K, S = (np.array([getattr(tubes[id_], n) for id_ in ids]) for n in ("K", "S"))
            mixes = mixture_lab(loads, K, S, optics)
            best[frozenset(ids)] = delta_e_2000(mixes[:, None], labs).min(axis=0)
    return best


def covered_by(held: frozenset[str], best: Best, tolerance: float) -> np.ndarray:
    """Return which colours some set of the tubes held reaches, shape (samples,)."""
    reaching = [match <= tolerance for ids, match in best.items() if ids <= held]
    return np.asarray(np.any(reaching, axis=0))


def best_rank(question: Question, best: Best) -> tuple[float, int, int, int]:
    """Return coverage (negated), number, fading ones, price of the best palette; all are tried."""
    scenario = question.scenario
    weights = [sample.weight for sample in question.samples]
    owned = frozenset(scenario.wishes.owned)
    free = [tube for tube in question.tubes if tube.id not in owned]
    ranks = []
    for size in range(len(free) + 1):
        for bought in combinations(free, size):
            price = sum(question.cost(tube) for tube in bought)
            held = owned.union(tube.id for tube in bought)
            if price <= scenario.budget_hundredths:
                covered = covered_by(held, best, scenario.tolerance).tolist()
                value = sum(w for w, is_covered in zip(weights, covered, strict=True) if is_covered)
                fading = sum(int(tube.lightfastness) >= 3 for tube in bought)
                ranks.append((-value / sum(weights), size, fading, price))
    return min(ranks)


def drawn(seed: int, demo: Catalogue, make: MakeScenario) -> tuple[Catalogue, Scenario]:
    """Draw five tubes, two flowers of which one is white, and colours near the paper's own."""
    rng = random.Random(seed)  # noqa: S311  # no secrets are drawn
    tubes = rng.sample(FEW, 5)
    paper = rng.choice(list(demo.papers))
    light = rng.choice(["D65", "D50"])
    L, a, b = paper_lab(optics_for(demo, paper, light, Cache())).tolist()
    own = tuple(
        OwnColour(
            f"near the paper {k}",
            rng.choice([0.5, 1.0, 2.0]),
            lab=(L - rng.uniform(0, 6), a + rng.uniform(-3, 3), b + rng.uniform(-5, 5)),
        )
        for k in range(4)
    )
    scenario = make(
        rng.choice(["daffodil, white", "lily, white", "snowdrop"]),
        rng.choice(["rose, red", "cyclamen", "bluebell"]),
        own_colours=own,
        paper=paper,
        light=light,
        tolerance=rng.choice([1.5, 2.5, 4.0, 6.0]),
        budget=rng.choice([1, 300, 600, 900, 1500]),
        wishes=Wishes(owned=tuple(tubes[:1]) if rng.random() < 0.3 else ()),
    )
    return replace(demo, tubes={id_: demo.tubes[id_] for id_ in tubes}), scenario


@pytest.mark.parametrize("seed", range(12))
def test_the_choice_is_that_of_an_exhaustive_search_with_the_paper(
    demo: Catalogue, scenario: MakeScenario, seed: int
) -> None:
    few, asked = drawn(seed, demo, scenario)
    method = Method.BOTH if seed % 4 == 0 else Method.SEARCH
    plan = shop(few, asked, limits=Limits(method=method))
    question = pose(few, asked, cache=Cache(), progress=lambda _stage: None)
    labs = np.array([sample.lab for sample in question.samples])
    best = best_of_sets(few.tubes, labs, question.optics)
    assert plan.certificate.status is Status.PROVEN
    assert plan.certificate.method is method
    fading = sum(int(planned.tube.lightfastness) >= 3 for planned in plan.bought)
    assert (-plan.coverage, len(plan.bought), fading, plan.cost) == pytest.approx(
        best_rank(question, best), abs=1e-12
    )
    held = frozenset(planned.tube.id for planned in plan.tubes)
    is_covered = covered_by(held, best, asked.tolerance)
    for planned, reached, bare in zip(plan.samples, is_covered, best[frozenset()], strict=True):
        assert planned.covered == reached
        assert planned.bare_paper == pytest.approx(bare, abs=1e-9)
        assert planned.covered or bare > asked.tolerance
        assert (planned.recipe is not None) or (not held and bare > asked.tolerance)
        assert not (planned.remedies and planned.covered)


@pytest.fixture(scope="module")
def mixed(demo: Catalogue, cache: Cache) -> Cache:
    """Return a cache with the mixes for all flowers that are asked of the whole catalogue.

    Trying all mixtures takes about as long for many colours as for few.
    """
    names = ("daffodil, white", "rose, red", "lily, white", "cyclamen", "snowdrop")
    every = Scenario(
        title="all",
        shows="",
        currency="EUR",
        budget="0.01",
        most_tubes=None,
        tolerance=4.0,
        flowers=tuple(map(FlowerWish, names)),
        own_colours=(),
    )
    pose(demo, every, cache=cache, progress=lambda _stage: None)
    return cache


@pytest.mark.parametrize(
    ("flowers", "budget", "white"),
    [
        (("daffodil, white", "rose, red"), 400, ("daffodil, white", "light petal")),
        (("lily, white", "cyclamen"), 600, ("lily, white", "lit petal")),
        (("snowdrop",), 200, ("snowdrop", "lit petal")),
    ],
)
def test_white_petals_are_left_white(
    *,
    demo: Catalogue,
    mixed: Cache,
    scenario: MakeScenario,
    flowers: tuple[str, ...],
    budget: int,
    white: tuple[str, str],
) -> None:
    plan = shop(demo, scenario(*flowers, budget=budget), cache=mixed)
    petal = sample_of(plan, *white)
    assert petal.covered
    assert petal.recipe == BARE_PAPER
    assert petal.match == petal.bare_paper == petal.match_if_unsteady <= 4.0
    assert petal.obstacle is None
    assert petal.remedies == ()
    # Every tube bought is bought for something else: without it that is lost.
    assert all(planned.only_it_brings > 0 for planned in plan.bought)
    for planned in plan.bought:
        painted = [p for p in plan.samples if p.recipe and planned.tube.id in p.recipe.tubes]
        assert planned.recipes == sum(p.covered for p in painted)


def test_no_tube_is_bought_where_bare_paper_does(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    L, a, b = paper_lab(optics_for(demo, "cotton-white", "D65", cache)).tolist()
    white = OwnColour("my white", lab=(L - 1, a, b + 1))
    plan = shop(demo, scenario(own_colours=(white,)), cache=cache)
    assert plan.bought == plan.tubes == ()
    assert (plan.coverage, plan.cost) == (1.0, 0)
    assert plan.certificate.status is Status.PROVEN
    assert plan.lightfastness.worst is None
    assert plan.lightfastness.spared == 1.0


def test_toned_paper_gives_its_own_colour(
    small: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    cream = optics_for(small, "cream", "D65", cache)
    L, a, b = paper_lab(cream).tolist()
    tone = OwnColour("tone", lab=(L, a, b))
    on_cream = shop(small, scenario(own_colours=(tone,), paper="cream"), cache=cache)
    assert on_cream.samples[0].recipe == BARE_PAPER
    assert on_cream.samples[0].match == pytest.approx(0, abs=1e-9)
    on_white = shop(small, scenario(own_colours=(tone,), budget=1), cache=cache)
    assert not on_white.samples[0].covered


def test_a_nearer_mix_is_taken_if_a_tube_is_worth_its_burden(
    small: Catalogue, scenario: MakeScenario
) -> None:
    """Paper 3 away and a mix nearly there: the tube that is at hand anyway is used."""
    optics = optics_for(small, "cotton-white", "D65", Cache())
    thin = recipe_lab(
        replace(BARE_PAPER, tubes=("lemon",), parts=(1,), strength=0.03), small.tubes, optics
    )
    wish = OwnColour("hint of yellow", lab=tuple(thin.tolist()))
    owned = Wishes(owned=("lemon",))
    asked = scenario(own_colours=(wish,), tolerance=12.0, wishes=owned)
    plan = shop(small, asked, puddling=Puddling.EACH_COLOUR)
    (planned,) = plan.samples
    assert planned.bare_paper > planned.match + 0.5
    assert planned.recipe is not None
    assert planned.recipe.tubes == ("lemon",)
    assert planned.covered
    # Where few puddles are wanted none is made for what the paper has within the tolerance.
    (left,) = shop(small, asked).samples
    assert left.recipe == BARE_PAPER
    without = shop(small, scenario(own_colours=(wish,), tolerance=12.0))
    assert without.bought == ()  # since bare paper is within the tolerance
    assert without.samples[0].recipe == BARE_PAPER


def test_bare_paper_stays_however_paint_and_hand_vary(
    demo: Catalogue, mixed: Cache, scenario: MakeScenario
) -> None:
    asked = scenario("snowdrop", "cyclamen", budget=900)
    for choose in (False, True):
        plan = shop(demo, asked, cache=mixed, trials=MonteCarlo(draws=40, choose=choose))
        assert plan.steadiness is not None
        for planned, stays in zip(plan.samples, plan.steadiness.stays, strict=True):
            if planned.is_bare_paper:
                assert stays == float(planned.covered)
        assert sample_of(plan, "snowdrop", "lit petal").is_bare_paper


def test_reasons_leave_the_paper_out(small: Catalogue, scenario: MakeScenario) -> None:
    reasons = why(small, scenario("lily, white", "cyclamen", budget=600))
    bare = [p.sample for p in reasons.plan.samples if p.is_bare_paper and p.covered]
    assert bare
    for sample in bare:
        assert all(sample not in reason.only_it_brings for reason in reasons.tubes)
        assert all(missed.planned.sample is not sample for missed in reasons.unreached)
        assert all(
            planned.sample is not sample for one in reasons.one_of_these for planned in one.samples
        )


def test_every_palette_compared_has_the_paper(small: Catalogue, scenario: MakeScenario) -> None:
    asked = scenario("lily, white", "cyclamen", budget=600)
    comparison = compare(small, asked)
    bare = [t for t, sets in enumerate(comparison.question.instance.minimal_sets) if sets == ((),)]
    assert bare
    weights = comparison.question.instance.weights
    for_nothing = sum(weights[t] for t in bare)
    first = comparison.sizes[0]
    assert (first.palette.bought, first.palette.value) == ((), for_nothing)
    for size in comparison.sizes:
        assert set(bare) <= set(size.palette.covered)
    for kept in comparison.floors:
        assert kept.front.steps[0].palette.value >= for_nothing
        assert kept.front.steps[0].palette.cost == 0


def test_an_empty_box_has_the_paper(small: Catalogue, scenario: MakeScenario) -> None:
    asked = scenario("lily, white", "cyclamen", budget=600)
    found = box(small, asked, about_to_buy=("lemon",))
    question = pose(small, asked, cache=Cache(), progress=lambda _stage: None)
    bare = [t for t, sets in enumerate(question.instance.minimal_sets) if sets == ((),)]
    weights = question.instance.weights
    assert found.coverage == pytest.approx(sum(weights[t] for t in bare) / sum(weights))
    # What a tube adds it adds to the paper.
    assert all(addition.gain <= 1 - found.coverage + 1e-12 for addition in found.additions)


def test_bare_paper_is_what_it_is(demo: Catalogue, cache: Cache) -> None:
    """By another way: the reflectance of the table, seen under the light."""
    for paper, held in demo.papers.items():
        optics = optics_for(demo, paper, "D50", cache)
        xyz = held.reflectance @ optics.weights / optics.white
        f = np.cbrt(xyz)  # no paper is so dark that CIELAB's straight piece counts
        lab = np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])
        assert paper_lab(optics) == pytest.approx(lab, abs=1e-9)
        assert recipe_lab(BARE_PAPER, demo.tubes, optics) == pytest.approx(lab, abs=1e-9)
        wanted = (90.0, 3.0, 5.0)
        off = float(delta_e_2000(lab, np.array(wanted)))
        assert paper_differences(np.array(wanted), optics) == pytest.approx([off])
        assert match_if_unsteady(BARE_PAPER, wanted, demo.tubes, optics) == pytest.approx(off)
