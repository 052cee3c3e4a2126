"""The quick look over all sets never loses one that ranks among the best.

The reference looks at every recipe in double precision, as the definition says, and shares
nothing with the code it checks but the film and the difference formula.
"""

from collections.abc import Mapping
from itertools import combinations

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.masks import BoolArray
from fewtubes.mixing.candidates import Ranking, _Chunk, _Look, _Paints, candidate_sets
from fewtubes.mixing.colour_lookup import ColourLookup
from fewtubes.mixing.matching import Match, best_matches
from fewtubes.mixing.mixture import Optics, mixture_lab
from fewtubes.mixing.recipes import PARTS, STRENGTHS, Recipe, RecipeSpace, shares
from fewtubes.mixing.washes import PRECISION


@pytest.fixture(scope="module")
def tubes() -> Mapping[str, Tube]:
    return read_catalogue().tubes


@pytest.fixture(scope="module")
def optics() -> Optics:
    demo = read_catalogue()
    return Optics.of(demo.papers["cotton-white"], demo.lights["D65"])


@pytest.fixture(scope="module")
def wanted() -> FloatArray:
    """Return every swatch of the demo flowers, (swatches, 3)."""
    flowers = read_catalogue().flowers.values()
    return np.array([swatch.lab for flower in flowers for swatch in flower.swatches])


def some(tubes: Mapping[str, Tube], count: int, seed: int) -> dict[str, Tube]:
    rng = np.random.default_rng(seed)
    ids = rng.permutation(list(tubes))[:count].tolist()
    return {id_: tubes[id_] for id_ in ids}


def all_matches(
    tubes: Mapping[str, Tube], lab: FloatArray, optics: Optics, space: RecipeSpace
) -> list[Match]:
    """Return the best recipe of every set, the smaller sets first."""
    found = []
    for size, patterns in PARTS.items():
        loads = np.multiply.outer(space.strengths, shares(patterns)).reshape(-1, size)
        for ids in combinations(tubes, size):
            K, S = (np.array([getattr(tubes[id_], n) for id_ in ids]) for n in ("K", "S"))
            labs = mixture_lab(loads, K, S, optics)
            differences = delta_e_2000(labs, lab)
            row = int(differences.argmin())
            step, parts = divmod(row, len(patterns))
            L, a, b = labs[row].tolist()
            recipe = Recipe(ids, patterns[parts], space.strengths[step])
            found.append(Match(recipe, (L, a, b), float(differences[row])))
    return found


def bare_paper(lab: FloatArray, optics: Optics) -> Match:
    """Return the paper under a film without any paint."""
    none = np.zeros((1, len(optics.ground)))
    L, a, b = mixture_lab(np.zeros(1), none, none, optics).tolist()
    return Match(Recipe((), (), 0.0), (L, a, b), float(delta_e_2000(np.array([L, a, b]), lab)))


@pytest.mark.parametrize(
    ("count", "most", "tolerance", "burden"),
    [
        (1, 1, 4.0, 0.5),
        (2, 10, 4.0, 0.5),
        (7, 1, 4.0, 0.5),
        (9, 5, 2.0, 0.5),
        (9, 3, 0.05, 0.5),
        (9, 200, 4.0, 0.5),
        (10, 1, np.inf, 0.0),
    ],
)
def test_best_matches_are_those_of_looking_at_all(
    *,
    tubes: Mapping[str, Tube],
    optics: Optics,
    wanted: FloatArray,
    count: int,
    most: int,
    tolerance: float,
    burden: float,
) -> None:
    few = some(tubes, count, seed=count)
    labs = wanted[:: max(1, len(wanted) // 12)]
    found = best_matches(
        few,
        labs,
        optics=optics,
        space=RecipeSpace(),
        tolerance=tolerance,
        most=most,
        burden=burden,
    )
    for lab, matches in zip(labs, found, strict=True):
        every = all_matches(few, lab, optics, RecipeSpace())
        paper = bare_paper(lab, optics)
        ranked = sorted(
            [paper, *every],
            key=lambda match: (
                match.difference > tolerance,
                match.difference + _load(match, tolerance, burden),
                match.difference,
            ),
        )
        if paper.difference > tolerance and ranked[0] is not paper:
            ranked.remove(paper)  # a miss that is not even the nearest is no recipe
        assert list(matches) == ranked[:most]


def _load(match: Match, tolerance: float, burden: float) -> float:
    """Return the burden of a recipe; out of tolerance only the match counts."""
    return burden * (len(match.recipe.tubes) - 1) if match.difference <= tolerance else 0.0


def test_the_nearest_miss_is_the_nearest(
    tubes: Mapping[str, Tube], optics: Optics, wanted: FloatArray
) -> None:
    """What is called nearest is so, whatever it is mixed from; all recipes are looked at."""
    few = some(tubes, 6, seed=6)
    found = best_matches(few, wanted, optics=optics, space=RecipeSpace(), tolerance=0.1)
    more_tubes = 0
    for lab, (match,) in zip(wanted, found, strict=True):
        paper, every = bare_paper(lab, optics), all_matches(few, lab, optics, RecipeSpace())
        assert match.difference == min(one.difference for one in [paper, *every])
        more_tubes += len(match.recipe.tubes) > 1
    assert more_tubes > len(wanted) // 2


def test_hues_a_hair_from_opposite_are_ranked_in_double_precision(
    tubes: Mapping[str, Tube], optics: Optics
) -> None:
    """The mean hue, Eq. (14), jumps there: of two washes, the nearer one is that on one side."""
    few = {"coral": tubes["coral"]}
    space = RecipeSpace(STRENGTHS[5:6])
    (lab,) = (match.lab for match in all_matches(few, np.zeros(3), optics, space))
    decided, only = 0, np.array([0])
    for away in np.linspace(0.1, 0.6, 12):
        across = [np.array(lab) * [1, -away, -away] + [0, 0, side * 1e-9] for side in (-1, 1)]
        differences = [float(delta_e_2000(np.array(lab), one)) for one in across]
        if abs(differences[0] - differences[1]) < 0.1:
            continue
        decided += 1
        K, S = (np.array([getattr(tube, name) for tube in few.values()]) for name in ("K", "S"))
        for one, difference in zip(across, differences, strict=True):
            paints = _Paints(K, S, optics, space.strengths, None)
            limits = np.array([difference + PRECISION])
            look = _Look(paints, ColourLookup.of(one[None], limits), one[None], limits, only)
            found = look.found(_Chunk(size=1, first=0, step=1, count=1))
            assert found.differences == pytest.approx([difference], abs=PRECISION)
    assert decided >= 5


def test_tubes_may_be_barred_for_some_colours(
    tubes: Mapping[str, Tube], optics: Optics, wanted: FloatArray
) -> None:
    few, labs = some(tubes, 8, seed=1), wanted[:6]
    barred: BoolArray = np.random.default_rng(2).random((6, 8)) < 0.4
    barred[0], barred[1] = False, True
    found = best_matches(
        few, labs, optics=optics, space=RecipeSpace(), tolerance=4.0, burden=0.0, barred=barred
    )
    assert found[1] == ()
    for lab, row, matches in zip(labs, barred, found, strict=True):
        rest = {id_: tube for (id_, tube), out in zip(few.items(), row, strict=True) if not out}
        if rest:
            (alone,) = best_matches(
                rest, lab[None], optics=optics, space=RecipeSpace(), tolerance=4.0, burden=0.0
            )
            assert matches == alone


def test_few_sets_are_left_of_many(
    tubes: Mapping[str, Tube], optics: Optics, wanted: FloatArray
) -> None:
    """It is meant to spare work: of 30 tubes' 4,525 sets only a few are looked at twice."""
    few = some(tubes, 30, seed=3)
    left = candidate_sets(
        np.array([tube.K for tube in few.values()]),
        np.array([tube.S for tube in few.values()]),
        wanted[:1],
        optics=optics,
        space=RecipeSpace(),
        ranking=Ranking(tolerance=4.0, burden=0.5, most=1),
    )
    assert 1 <= len(left) < 100
    assert list(left) == sorted(left, key=lambda tubes: (len(tubes), tubes))


def test_a_score_and_its_limit_belong_together() -> None:
    ranking = Ranking(tolerance=4.0, burden=0.5, most=1)
    # 3.0 with three tubes scores 3 + 2 × 0.5 = 4; with one tube 4.0 scores the same. Out of
    # tolerance, as 4.5 is, tubes do not count.
    scores = ranking.scores(np.array([3.0, 4.0, 4.5]), np.array([3, 1, 1]))
    assert scores[0] == scores[1] == 4.0
    assert ranking.limits(scores, 3).tolist() == [3.0, 3.0, 4.5]
    assert ranking.limits(scores, 1).tolist() == [4.0, 4.0, 4.5]


def test_neighbourhoods_hold_all_that_is_near(wanted: FloatArray) -> None:
    rng = np.random.default_rng(4)
    labs = wanted[:50]
    near = ColourLookup.of(labs, np.where(np.arange(50) % 7 == 0, -1.0, 3.0))
    mixtures = (labs[rng.integers(0, 50, 2000)] + rng.normal(size=(2000, 3))).astype(np.float32)
    row, colour = near.pairs(mixtures)
    told = set(zip(row.tolist(), colour.tolist(), strict=True))
    within = delta_e_2000(mixtures[:, None].astype(np.float64), labs) <= 3.0
    within[:, ::7] = False
    assert {(i, t) for i, t in np.argwhere(within).tolist()} <= told
    assert not any(t % 7 == 0 for _, t in told)
    assert len(told) < 4 * within.sum()
