"""What limits a palette is a tube in use: one that is bought, or an owned one in some mix."""

from collections.abc import Callable
from typing import Any

import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.compare import compare
from fewtubes.coverage.cache import Cache
from fewtubes.mixing.opacity import Transparency
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.selection.certificate import Choice
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.search import search
from fewtubes.shopping.shop import shop

MakeScenario = Callable[..., Scenario]


@pytest.mark.parametrize("idle", ["cadmium-yellow", "vivid-pink"])
def test_an_owned_tube_in_no_mix_limits_nothing(
    demo: Catalogue, cache: Cache, scenario: MakeScenario, idle: str
) -> None:
    """Cadmium yellow is opaque, vivid pink fades; a bluebell needs neither."""
    asked = scenario("bluebell", wishes=Wishes(owned=(idle,)), budget=1200)
    plan = shop(demo, asked, cache=cache)
    (owned,) = [planned for planned in plan.tubes if planned.owned]
    for trade_off in (plan.lightfastness, plan.opacity):
        names = {tube.id for tube in trade_off.limited_by}
        in_use = {p.tube.id for p in plan.tubes if p.recipes or not p.owned}
        assert names <= in_use
        assert (idle in names) <= (owned.recipes > 0)
    grades = [p.transparency for p in plan.tubes if p.recipes or not p.owned]
    assert plan.opacity.worst == max(grades)
    if not owned.recipes and idle == "cadmium-yellow":
        assert owned.transparency is Transparency.OPAQUE
        assert plan.opacity.worst is not Transparency.OPAQUE


def test_sizes_side_by_side_tell_of_tubes_in_use(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """The largest size is the plan, so both tell the same of it."""
    asked = scenario("bluebell", wishes=Wishes(owned=("cadmium-yellow",)), budget=1200)
    plan = shop(demo, asked, cache=cache)
    last = compare(demo, asked, cache=cache).sizes[-1]
    assert [demo_number(demo, p.tube.id) for p in plan.bought] == list(last.palette.bought)
    assert last.transparency == plan.opacity.worst
    assert last.lightfastness == plan.lightfastness.worst


def demo_number(demo: Catalogue, id_: str) -> int:
    return list(demo.tubes).index(id_)


def test_a_box_of_which_nothing_is_used_has_no_grade(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """Titanium white alone mixes no bluebell, and a budget of one cent buys nothing."""
    asked = scenario("bluebell", wishes=Wishes(owned=("titanium-white",)), budget=1)
    plan = shop(demo, asked, cache=cache)
    assert [planned.recipes for planned in plan.tubes] == [0]
    assert plan.opacity.worst is None
    assert plan.lightfastness.worst is None


def test_what_a_stopped_search_found_is_no_price(
    demo: Catalogue, cache: Cache, scenario: MakeScenario, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What tubes that last would take is told only if it is proven; a search of no time is not."""
    asked = scenario("cyclamen", "daffodil", budget=2500)
    plan = shop(demo, asked, cache=cache)
    trade_offs = (plan.lightfastness, plan.opacity)
    assert any(trade_off.spared_cost is not None for trade_off in trade_offs)

    def stopped(instance: ChoiceInstance, *, seconds: float, **more: Any) -> Choice:
        return search(instance, seconds=0 * seconds, **more)

    monkeypatch.setattr("fewtubes.shopping.trade_offs.search", stopped)
    plan = shop(demo, asked, cache=cache)
    for trade_off in (plan.lightfastness, plan.opacity):
        assert trade_off.spared_cost is None
        assert trade_off.spared_tubes is None
