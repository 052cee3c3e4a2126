"""The whole job from Python, as somebody with a notebook does it."""

from pathlib import Path

import pytest

import fewtubes


def test_the_whole_job(shared_cache: fewtubes.Cache) -> None:
    catalogue = fewtubes.read_catalogue()
    wishes = fewtubes.Wishes(owned=["lemon"])  # type: ignore[arg-type]  # any iterable will do
    scenario = fewtubes.Scenario(budget=9, currency="EUR", flowers=["primrose"], wishes=wishes)
    stages: list[str] = []
    plan = fewtubes.shop(catalogue, scenario, cache=shared_cache, progress=stages.append)
    reasons = fewtubes.why(catalogue, scenario, cache=shared_cache)
    comparison = fewtubes.compare(catalogue, scenario, cache=shared_cache)
    found = fewtubes.box(catalogue, scenario, cache=shared_cache)
    mixes = fewtubes.mix(
        catalogue, "primrose / petal", tubes=["lemon", "magenta"], cache=shared_cache
    )

    assert stages
    assert plan.cost <= scenario.budget_hundredths
    # Four functions, each with its own way to the best coverage, must tell the same.
    bought = [planned.tube.id for planned in plan.bought]
    assert [planned.tube.id for planned in reasons.plan.bought] == bought
    assert comparison.by_number_of_tubes()["coverage"].iloc[-1] == pytest.approx(plan.coverage)
    assert found.owned[0].id == "lemon"
    assert found.coverage <= plan.coverage
    assert [item.tube.id for item in found.intended] == bought
    # The frames hold what the values hold.
    assert len(plan.recipes()) == len(plan.samples)
    assert plan.shopping_list()["tube"].unique().tolist() == bought
    # CIELAB is looked up in the catalogue.
    assert mixes.lab in [swatch.lab for swatch in catalogue.flowers["primrose"].swatches]


@pytest.mark.parametrize("ask", [fewtubes.shop, fewtubes.compare, fewtubes.why, fewtubes.box])
def test_what_the_catalogue_lacks_is_told_by_every_function(
    shared_cache: fewtubes.Cache, ask: object
) -> None:
    scenario = fewtubes.Scenario(budget=9, currency="XAU", flowers=["primrosse"], paper="slate")
    assert callable(ask)
    with pytest.raises(fewtubes.InputError) as raised:
        ask(fewtubes.read_catalogue(), scenario, cache=shared_cache)
    assert [fault.where for fault in raised.value.faults] == ["currency", "flowers", "paper"]
    assert "Did you mean 'primrose'?" in str(raised.value)
    assert "--" not in str(raised.value)


def test_a_file_and_python_may_be_mixed(tmp_path: Path) -> None:
    path = tmp_path / "bed.toml"
    path.write_text(
        'title = "Bed"\ncurrency = "EUR"\nbudget = 9\n[[flower]]\nname = "primrose"\n',
        encoding="utf-8",
    )
    catalogue = fewtubes.read_catalogue()
    read = fewtubes.read_scenario(path, catalogue)
    richer = fewtubes.with_overrides(read, catalogue=catalogue, budget=20)
    assert (read.budget_hundredths, richer.budget_hundredths) == (900, 2000)
