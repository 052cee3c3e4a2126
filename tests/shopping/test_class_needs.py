"""What a class needs of every tube bought, by sums by hand."""

from collections.abc import Callable

import pytest

from fewtubes.scenario.class_wish import ClassWish, TubesFor
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.selection.terms import Need
from fewtubes.shopping.needs import least_needs

MakeScenario = Callable[..., Scenario]


@pytest.mark.parametrize(
    ("group", "millilitres", "need"),
    [
        (None, 7.5, Need(7_500)),
        (ClassWish(12), 0, Need(0, 12)),
        (ClassWish(12), 5, Need(60_000, 12)),  # 12 × 5 ml in 12 tubes
        (ClassWish(12, TubesFor.PANS), 0, Need(18_000)),  # 12 × 1.5 ml, a half pan's
        (ClassWish(8, TubesFor.PANS, pan_millilitres=2.25), 0, Need(18_000)),  # 8 × 2.25 ml
        (ClassWish(8, TubesFor.PANS), 20, Need(20_000)),  # more than 8 × 1.5 = 12 ml
        (ClassWish(12, TubesFor.SHARED), 7.5, Need(7_500)),  # beside what the pictures take
    ],
)
def test_what_is_needed_of_each_tube(
    scenario: MakeScenario, group: ClassWish | None, millilitres: float, need: Need
) -> None:
    asked = scenario("primrose", group=group, wishes=Wishes(millilitres=millilitres))
    assert least_needs(asked, 3) == (need,) * 3
