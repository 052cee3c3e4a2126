"""What a floor costs, by hand; the tubes a floor bars, on the small catalogue."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Lightfastness
from fewtubes.comparison.floors import CostOfFloor, cost_of_floor, floor_fronts
from fewtubes.comparison.front import fronts
from fewtubes.comparison.front_steps import Front, FrontStep
from fewtubes.coverage.cache import Cache
from fewtubes.mixing.opacity import Transparency
from fewtubes.scenario.picture_wish import PictureWish
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.shopping.question import Question, pose

Draw = Callable[[int | str], ChoiceInstance]
Every = Callable[[ChoiceInstance], tuple[Palette, ...]]

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"


def front(*steps: tuple[int, int], sure: bool = True) -> Front:
    """Return a front of costs and values."""
    return Front(
        tuple(
            FrontStep(Palette((), (), value, cost, 1, 0), proven=sure, sure_up_to_next=sure)
            for cost, value in steps
        )
    )


FREE = front((0, 0), (300, 40), (1000, 90), (1500, 100))


@pytest.mark.parametrize(
    ("kept", "expected"),
    [
        (front((0, 0), (300, 40), (1000, 90)), CostOfFloor(0, True, 0, True)),
        # 90 covered for 10.00; with the floor 70 within 12.00, and 90 for 14.50: 4.50 more.
        (front((0, 0), (800, 70), (1450, 95)), CostOfFloor(20, True, 450, True)),
        (front((0, 0), (800, 70)), CostOfFloor(20, True, None, True)),
        (front((0, 0), (800, 70), sure=False), CostOfFloor(20, False, None, False)),
        (front((0, 0), (1000, 90), sure=False), CostOfFloor(0, True, 0, True)),
        (front(), CostOfFloor(None, True, None, True)),
    ],
    ids=["free", "dearer", "never", "unproven", "free for certain", "impossible"],
)
def test_cost_of_floor_by_hand(kept: Front, expected: CostOfFloor) -> None:
    """Budget 12.00; without the floor 90 of 100 are covered for 10.00."""
    assert cost_of_floor(FREE, kept, 1200) == expected


def test_no_toll_where_nothing_can_be_bought() -> None:
    assert cost_of_floor(front((500, 0)), front((500, 0)), 400) is None


@pytest.mark.parametrize("seed", range(60))
def test_cost_of_floor_against_every_palette(seed: int, drawn: Draw, every_palette: Every) -> None:
    """Origin of the expected cost: every palette with, and without, the tubes that fade."""
    instance = replace(drawn(seed), owned=frozenset(), must_have=frozenset())
    fading = frozenset(i for i, fade in enumerate(instance.fades) if fade > 1)
    free, kept = fronts(instance, [frozenset(), fading], seconds=60)
    palettes = every_palette(instance)
    lasting = [palette for palette in palettes if fading.isdisjoint(palette.bought)]

    def most(some: Sequence[Palette]) -> int:
        return max(palette.value for palette in some if palette.cost <= instance.budget)

    def least(some: Sequence[Palette], value: int) -> int | None:
        return min((palette.cost for palette in some if palette.value >= value), default=None)

    wanted = most(palettes)
    dear, cheap = least(lasting, wanted), least(palettes, wanted)
    assert cheap is not None
    extra = None if dear is None else dear - cheap
    expected = CostOfFloor(wanted - most(lasting), True, extra, True)
    assert cost_of_floor(free, kept, instance.budget) == expected


@pytest.fixture(scope="module")
def catalogue() -> Catalogue:
    return read_catalogue(SMALL)


def question_of(catalogue: Catalogue, wishes: Wishes) -> Question:
    scenario = Scenario(
        title="A window box",
        shows="",
        currency="EUR",
        budget=100,
        most_tubes=None,
        tolerance=12.0,
        flowers=tuple(FlowerWish(name) for name in catalogue.flowers),
        own_colours=(),
        wishes=wishes,
        paper="plain",
        light="E",
    )
    return pose(catalogue, scenario, cache=Cache(), progress=lambda _stage: None)


def test_only_floors_above_the_wishes_are_asked_about(catalogue: Catalogue) -> None:
    question = question_of(catalogue, Wishes())
    everything = [found.floor for found in floor_fronts(question, seconds=60)]
    assert everything == [
        None,
        Lightfastness.III,
        Lightfastness.II,
        Lightfastness.I,
        Transparency.SEMI_OPAQUE,
        Transparency.SEMI_TRANSPARENT,
        Transparency.TRANSPARENT,
    ]
    wishes = Wishes(
        lightfastness_floor=Lightfastness.II, transparency_floor=Transparency.TRANSPARENT
    )
    left = [found.floor for found in floor_fronts(question_of(catalogue, wishes), seconds=60)]
    assert left == [None, Lightfastness.I]


def test_every_step_keeps_its_floor(catalogue: Catalogue) -> None:
    question = question_of(catalogue, Wishes())
    for found in floor_fronts(question, seconds=60):
        assert found.front.complete
        for step in found.front.steps:
            for number in step.palette.bought:
                tube = question.tubes[number]
                if isinstance(found.floor, Lightfastness):
                    assert tube.lightfastness <= found.floor
                elif found.floor is not None:
                    assert question.transparencies[tube.id] <= found.floor


def test_must_haves_and_owned_tubes_that_do_not_keep_a_floor(catalogue: Catalogue) -> None:
    fading = max(catalogue.tubes.values(), key=lambda tube: tube.lightfastness)
    assert fading.lightfastness > Lightfastness.I  # else the small catalogue cannot tell
    must = floor_fronts(question_of(catalogue, Wishes(must_have=(fading.id,))), seconds=60)
    own = floor_fronts(question_of(catalogue, Wishes(owned=(fading.id,))), seconds=60)
    asked, had = (
        next(found for found in fronts if found.floor is Lightfastness.I) for fronts in (must, own)
    )
    assert [tube.id for tube in asked.in_the_way] == [fading.id]
    assert asked.front.steps == ()
    assert [tube.id for tube in had.set_aside] == [fading.id]
    assert had.front.steps


def test_paint_is_not_mixed_from_owned_tubes_that_a_floor_sets_aside(tmp_path: Path) -> None:
    """With lemon at home the blue of 400 cornflowers is let down with it; without, it takes more.

    Against all palettes of the choice without lemon, each counted by itself.
    """
    scenario = Scenario(
        budget=1000,
        currency="EUR",
        flowers=["cornflower", "primrose"],
        paper="plain",
        light="E",
        tolerance=12,
        wishes=Wishes(owned=("lemon",)),
        picture=PictureWish(pictures=400),
    )
    catalogue = read_catalogue(SMALL)
    question = pose(catalogue, scenario, cache=Cache(tmp_path), progress=lambda _: None)
    lasting = next(
        it
        for it in floor_fronts(question, seconds=60)
        if it.floor is Lightfastness.I and it.set_aside
    )
    barred = frozenset(
        number for number, tube in enumerate(question.tubes) if tube.lightfastness > Lightfastness.I
    )
    without, usual = question.instance_without(barred), question.instance
    others = sorted(set(range(len(question.tubes))) - barred)
    palettes = [
        without.palette(bought)
        for size in range(len(others) + 1)
        for bought in combinations(others, size)
        if not without.idle_in(bought)
    ]
    dearer = [p for p in palettes if p.bought and p.cost != usual.cost(p.bought)]
    assert dearer  # so the costs with lemon in use would be wrong
    assert all(step.proven for step in lasting.front.steps)
    for step in lasting.front.steps:
        same = [p for p in palettes if p.value >= step.palette.value]
        assert step.palette.cost == min(p.cost for p in same)
    assert {step.palette.value for step in lasting.front.steps} >= {max(p.value for p in palettes)}
