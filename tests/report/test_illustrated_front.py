"""Coverage against cost in the illustrated report, against the comparison it is drawn from."""

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.comparison.compare import compare
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.picture.sheet import Sheet
from fewtubes.report.illustrated_front import front_body
from fewtubes.report.words import money, percent
from fewtubes.scenario.records import FlowerWish, Scenario
from fewtubes.shopping.shop import shop


def test_it_tells_every_size_and_how_far_it_is_proven() -> None:
    catalogue = read_catalogue()
    scenario = Scenario(
        title="one flower",
        shows="",
        currency="EUR",
        budget=800,
        most_tubes=None,
        tolerance=4.0,
        flowers=(FlowerWish("primrose"),),
        own_colours=(),
    )
    plan = shop(catalogue, scenario)
    comparison = compare(catalogue, scenario)
    sheet = Sheet.of(optics_for(catalogue, "cotton-white", "D65", Cache()))
    body = str(front_body(plan, comparison, sheet)).replace("\u00a0", " ")
    for size in comparison.sizes[1:]:
        assert percent(comparison.share(size.palette.value)) in body
        assert money(size.palette.cost, "EUR") in body
    last = comparison.sizes[-1].palette
    assert (last.cost, comparison.share(last.value)) == (plan.cost, plan.coverage)
    assert "Every step is proven" in body
    assert body.count("<li>") == len(comparison.floors) - 1
