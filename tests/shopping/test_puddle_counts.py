"""How few puddles palettes take, against trying every choice of mixes and against the plans."""

from dataclasses import replace
from itertools import combinations

import pytest
from tests.shopping.conftest import MakeScenario, make_scenario
from tests.shopping.test_puddling import fewest, reach_of

from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.compare import compare
from fewtubes.comparison.comparison import Comparison
from fewtubes.comparison.extent import Extent
from fewtubes.coverage.cache import Cache
from fewtubes.mixing.likeness import wash_labs
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import OwnColour
from fewtubes.shopping import puddle_counts as counting
from fewtubes.shopping.puddle_counts import puddle_counts
from fewtubes.shopping.puddles import PuddleCount
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.shop import answered

FLOWERS = ("primrose", "daffodil")


@pytest.fixture(scope="module")
def comparison(demo: Catalogue, cache: Cache) -> Comparison:
    scenario = make_scenario(*FLOWERS, budget=1100)
    return compare(demo, scenario, extent=Extent(up_to=4, near=12), cache=cache)


def counts_by_hand(demo: Catalogue, cache: Cache, tubes: list[str]) -> PuddleCount:
    """Return the counts of a palette that is owned, by trying every choice of mixes."""
    asked = make_scenario(*FLOWERS, budget=1, wishes=Wishes(owned=tuple(tubes)))
    found = answered(demo, asked, cache=cache)
    reach = reach_of(found)
    bare = found.question.paper_differences
    covered = [
        (planned.sample.flower, t)
        for t, planned in enumerate(found.plan.samples)
        if planned.covered and bare[t] > asked.tolerance
    ]
    each = [[t for flower, t in covered if flower == name] for name in FLOWERS]
    numbers = [fewest(reach, places)[0] if places else 0 for places in each]
    whole = [t for places in each for t in places]
    together = fewest(reach, whole)[0] if whole else 0
    return PuddleCount(sum(numbers), sum(numbers), together, together)


def test_they_are_those_of_trying_every_choice(
    demo: Catalogue, cache: Cache, comparison: Comparison
) -> None:
    for size in comparison.sizes[:3]:
        tubes = [comparison.question.tubes[number].id for number in size.palette.bought]
        assert size.puddles == counts_by_hand(demo, cache, tubes)


def test_every_palette_listed_takes_what_its_plan_takes(
    demo: Catalogue, cache: Cache, comparison: Comparison
) -> None:
    others = comparison.alternatives
    assert others is not None
    assert len(others.puddles) == len(others.near.palettes) > 8
    for palette, count in list(zip(others.near.palettes, others.puddles, strict=True))[::4]:
        tubes = tuple(comparison.question.tubes[number].id for number in palette.bought)
        asked = make_scenario(*FLOWERS, budget=1100, wishes=Wishes(must_have=tubes))
        asked = replaced_most(asked, len(tubes))
        assert answered(demo, asked, cache=cache).plan.mixed.count == count


def replaced_most(scenario: Scenario, most: int) -> Scenario:
    return Scenario(**{**vars(scenario), "most_tubes": most})


def posed(demo: Catalogue, cache: Cache, scenario: Scenario) -> Question:
    return pose(demo, scenario, cache=cache, progress=lambda _stage: None)


def test_own_colours_are_one_subject_and_bare_paper_needs_no_puddle(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """Two washes of one tube, and a colour that the paper nearly has."""
    question = posed(demo, cache, scenario("primrose"))
    L, a, b = question.paper_lab
    magenta = demo.tubes["magenta"]
    washes = wash_labs([magenta], question.optics)[0, [3, 6]].tolist()
    colours = {"paper": (L - 1, a, b), "deep": washes[0], "pale": washes[1]}
    own = tuple(OwnColour(name, 1, lab=lab) for name, lab in colours.items())
    question = posed(demo, cache, scenario(own_colours=own))
    palette = question.instance.palette([question.numbers["magenta"]])
    assert palette.covered == (0, 1, 2)
    assert puddle_counts(question, [palette], seconds=9) == (PuddleCount(1, 1, 1, 1),)
    nothing = question.instance.palette(())
    assert puddle_counts(question, [nothing], seconds=9) == (PuddleCount(0, 0, 0, 0),)


def test_palettes_counted_together_are_counted_as_each_alone(
    comparison: Comparison, monkeypatch: pytest.MonkeyPatch
) -> None:
    question, others = comparison.question, comparison.alternatives
    assert others is not None
    palettes = others.near.palettes
    together = puddle_counts(question, palettes, seconds=60)
    assert together == others.puddles
    monkeypatch.setattr(counting, "MANY_TUBES", len(palettes[0].bought))
    assert puddle_counts(question, palettes, seconds=60) == together
    monkeypatch.setattr(counting, "MANY_TUBES", len(palettes[0].bought) - 1)
    assert puddle_counts(question, palettes[:1], seconds=60) == (None,)


def test_nothing_is_told_for_which_there_was_no_time(comparison: Comparison) -> None:
    palettes = [size.palette for size in comparison.sizes]
    counts = puddle_counts(comparison.question, palettes, seconds=0.0)
    assert counts == (None,) * len(palettes)


def test_the_fewest_are_told_among_those_that_cover_as_much(comparison: Comparison) -> None:
    others = comparison.alternatives
    assert others is not None
    first, *rest = (palette for palette in others.near.palettes)
    alike = (first, *(replace(palette, value=first.value) for palette in rest[:2]))
    few, many = PuddleCount(3, 3, 2, 2), PuddleCount(4, 4, 2, 2)
    near = replace(others.near, palettes=alike)

    def told(*counts: PuddleCount | None) -> tuple[int, ...]:
        found = replace(others, near=near, puddles=counts).fewest_puddles
        return tuple(alike.index(palette) for palette in found)

    assert told(many, few, many) == (1,)
    assert told(few, many, few) == (0, 2)
    assert told(few, few, few) == ()
    assert told(many, few, None) == ()
    assert told(many, few, replace(few, each_flower_bound=2)) == ()
    sooner = replace(many, one_sitting=1, one_sitting_bound=1)
    assert told(many, sooner, many) == (1,)
    apart = (first, *(replace(palette, value=first.value - 1) for palette in rest[:2]))
    fewer = replace(others, near=replace(near, palettes=apart), puddles=(many, few, few))
    assert fewer.fewest_puddles == ()


def test_pairs_of_tubes_are_counted_as_by_hand(demo: Catalogue, cache: Cache) -> None:
    ids = ("lemon", "orange", "violet-mixed")
    question = posed(demo, cache, make_scenario(*FLOWERS, budget=9000))
    pairs = list(combinations(ids, 2))
    palettes = [question.instance.palette([question.numbers[i] for i in pair]) for pair in pairs]
    expected = tuple(counts_by_hand(demo, cache, list(pair)) for pair in pairs)
    assert puddle_counts(question, palettes, seconds=60) == expected
