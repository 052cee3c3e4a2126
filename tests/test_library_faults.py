"""What is wrong with a call of the library is told in one kind of error, in words of its fields."""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Any

import numpy as np
import pytest

import fewtubes

CALLS: dict[str, tuple[Callable[..., Any], dict[str, Any]]] = {
    "mix": (fewtubes.mix, {"colour": "#8a5fb0", "tubes": ["magenta"]}),
    "box": (fewtubes.box, {"scenario": None}),
    "unmixable": (fewtubes.unmixable, {}),
}


@pytest.fixture(scope="module")
def catalogue() -> fewtubes.Catalogue:
    return fewtubes.read_catalogue()


@pytest.mark.parametrize(
    ("name", "values", "key"),
    [
        ("mix", {"colour": "#12"}, "colour"),
        ("mix", {"colour": None}, "lab"),
        ("mix", {"colour": (1, 2)}, "lab"),
        ("mix", {"colour": (float("nan"), 0, 0)}, "lab"),
        ("mix", {"colour": np.array([500.0, 0, 0])}, "lab"),
        ("mix", {"tubes": "magenta"}, "tubes"),
        ("mix", {"tubes": ["no-such"]}, "tubes"),
        ("mix", {"most": -1}, "most"),
        ("mix", {"tolerance": 0}, "tolerance"),
        ("mix", {"seconds": float("nan")}, "seconds"),
        ("mix", {"paper": "slate"}, "paper"),
        ("box", {"about_to_buy": "magenta"}, "about_to_buy"),
        ("box", {"about_to_buy": ["no-such"]}, "about_to_buy"),
        ("unmixable", {"without": ["no-such"]}, "without"),
        ("unmixable", {"without": "magenta"}, "without"),
        ("unmixable", {"seconds": -1}, "seconds"),
        ("unmixable", {"light": "moon"}, "light"),
    ],
)
def test_a_call_is_refused_in_words_of_its_parameters(
    catalogue: fewtubes.Catalogue, name: str, values: dict[str, Any], key: str
) -> None:
    call, plain = CALLS[name]
    with pytest.raises(fewtubes.InputError) as raised:
        call(catalogue, **plain | values)
    assert {fault.where for fault in raised.value.faults} == {key}
    assert "--" not in str(raised.value)


@pytest.mark.parametrize(
    ("kind", "values", "key"),
    [
        (fewtubes.Limits, {"seconds": -1}, "seconds"),
        (fewtubes.Limits, {"seconds": float("nan")}, "seconds"),
        (fewtubes.Limits, {"seconds": None}, "seconds"),
        (fewtubes.Wishes, {"millilitres": None}, "millilitres"),
        (fewtubes.Limits, {"kept": 2}, "kept"),
        (fewtubes.Limits, {"method": "guess"}, "method"),
        (fewtubes.MonteCarlo, {"draws": 1}, "draws"),
        (fewtubes.MonteCarlo, {"draws": 20.5}, "draws"),
        (fewtubes.MonteCarlo, {"seed": -1}, "seed"),
        (fewtubes.MonteCarlo, {"within": 2}, "within"),
        (fewtubes.Extent, {"up_to": 0}, "up_to"),
        (fewtubes.Extent, {"near": 0}, "near"),
        (fewtubes.Extent, {"near_size": 0}, "near_size"),
        (fewtubes.Extent, {"within": -0.1}, "within"),
        (fewtubes.Extent, {"seconds": float("inf")}, "seconds"),
    ],
)
def test_settings_check_themselves(kind: Any, values: dict[str, Any], key: str) -> None:
    with pytest.raises(fewtubes.InputError) as raised:
        kind(**values)
    assert {fault.where for fault in raised.value.faults} == {key}


def test_paths_may_be_texts(catalogue: fewtubes.Catalogue, tmp_path: Any) -> None:
    with pytest.raises(fewtubes.InputError, match="no-such"):
        fewtubes.read_catalogue(str(tmp_path / "no-such"))
    with pytest.raises(fewtubes.InputError, match=r"no-such\.toml"):
        fewtubes.read_scenario(str(tmp_path / "no-such.toml"), catalogue)
    assert fewtubes.Cache(str(tmp_path)).folder == tmp_path  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("values", "key", "told"),
    [
        ({"owned": "magenta"}, "owned", "is 'magenta'; give a list"),
        ({"never": [3]}, "never", "holds 3; it must be a text"),
        ({"flowers": [3]}, "flowers", "holds 3; it must be a text"),
        ({"flowers": 3}, "flowers", "is 3; give a list"),
        ({"paper": 3}, "paper", "is 3; it must be a text"),
        ({"light": ["D65"]}, "light", "is ['D65']; it must be a text"),
        ({"most_tubes": True}, "most_tubes", "it must be a whole number from 1 to 1,000"),
        ({"most_tubes": "3"}, "most_tubes", "it must be a whole number from 1 to 1,000"),
        ({"budget": "1.234,50"}, "budget", "write 1234.50"),
    ],
)
def test_other_values_for_a_scenario_are_looked_at_too(
    catalogue: fewtubes.Catalogue, values: dict[str, Any], key: str, told: str
) -> None:
    asked = fewtubes.Scenario(budget=9, currency="EUR", flowers=["primrose"])
    with pytest.raises(fewtubes.InputError) as raised:
        fewtubes.with_overrides(asked, catalogue=catalogue, **values)
    (fault,) = raised.value.faults
    assert fault.where == key
    assert told in fault.what


def test_one_flower_may_stand_without_a_list(catalogue: fewtubes.Catalogue) -> None:
    """As in `Scenario` itself."""
    asked = fewtubes.Scenario(budget=9, currency="EUR", flowers="primrose")
    assert fewtubes.with_overrides(asked, catalogue=catalogue, flowers="foxglove").flowers == (
        fewtubes.FlowerWish("foxglove"),
    )


def test_stages_need_not_be_told(catalogue: fewtubes.Catalogue) -> None:
    """None stands for nobody who listens, in `mix` as in `shop`."""
    found = fewtubes.mix(catalogue, "#8a5fb0", tubes=["magenta"], progress=None)
    assert found.rated


@pytest.mark.parametrize(
    ("kind", "values", "key"),
    [
        (fewtubes.MonteCarlo, {"choose": "no"}, "choose"),
        (fewtubes.MonteCarlo, {"variation": None}, "variation"),
        (fewtubes.Limits, {"whole": "no"}, "whole"),
        (fewtubes.Extent, {"known": [["nix"]]}, "known"),
        (fewtubes.Extent, {"known": None}, "known"),
    ],
)
def test_what_is_no_number_is_checked_as_well(kind: Any, values: dict[str, Any], key: str) -> None:
    with pytest.raises(fewtubes.InputError) as raised:
        kind(**values)
    assert {fault.where for fault in raised.value.faults} == {key}


@pytest.mark.parametrize("made", [np.int64, np.float64, np.float32, Decimal, Fraction])
def test_numbers_of_any_kind_are_kept_as_plain_ones(made: Any) -> None:
    wish = fewtubes.FlowerWish("primrose", made(2))
    wishes = fewtubes.Wishes(thinnest_wash=made(1), least_coverage=made(1), millilitres=made(5))
    extent = fewtubes.Extent(up_to=made(3), near=made(3), seconds=made(5), within=made(1))
    draws = fewtubes.MonteCarlo(draws=made(20), seed=made(5), within=made(1))
    limits = fewtubes.Limits(seconds=made(5), kept=made(1))
    kept = [wish.importance, wishes.thinnest_wash, wishes.least_coverage, wishes.millilitres]
    kept += [extent.up_to, extent.near, extent.seconds, extent.within]
    kept += [draws.draws, draws.seed, draws.within, limits.seconds, limits.kept]
    assert kept == [2, 1, 1, 5, 3, 3, 5, 1, 20, 5, 1, 5, 1]
    assert {type(number) for number in kept} <= {int, float, Fraction}


def test_a_notebook_may_use_numpy_and_folders(
    catalogue: fewtubes.Catalogue, shared_cache: fewtubes.Cache
) -> None:
    scenario = fewtubes.Scenario(
        budget=np.float64(9.5),
        currency="EUR",
        flowers={"primrose": np.float32(2.5), "daffodil": np.int64(2)},
        wishes=fewtubes.Wishes(least_coverage=np.float64(0.25)),
    )
    plan = fewtubes.shop(catalogue, scenario, cache=str(shared_cache.folder))  # type: ignore[arg-type]
    assert plan.coverage >= 0.25
