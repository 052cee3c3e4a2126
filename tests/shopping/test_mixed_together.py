"""Colours of many scenarios mixed together: each once, and the same sets as mixed alone."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.remembered import reach_of
from fewtubes.mixing.deadline import Deadline
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.shopping import mixed_together as together
from fewtubes.shopping.mixed_together import mixed_together
from fewtubes.shopping.question import pose

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"


def scenario(*flowers: str, **more: Any) -> Scenario:
    asked: dict[str, Any] = {
        "budget": 12,
        "currency": "EUR",
        "paper": "plain",
        "light": "E",
        "tolerance": 12,
    }
    return Scenario(flowers=flowers, **asked | more)


def quiet(_stage: str) -> None:
    """Tell nobody."""


def test_a_group_is_mixed_once_and_finds_what_each_finds_alone(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    catalogue = read_catalogue(SMALL)
    asked = [
        scenario("cornflower"),
        scenario("cornflower", "primrose", budget=3),
        scenario("primrose", tolerance=5),
        scenario("primrose", wishes=Wishes(thinnest_wash=0.5)),
        scenario("primrose", wishes=Wishes(never=("lemon",))),
    ]
    usual, mixed_for = reach_of, []

    def counted(K: Any, S: Any, labs: Any, **more: Any) -> Any:
        mixed_for.append((len(labs), more["tolerance"], len(more["space"].strengths)))
        return usual(K, S, labs, **more)

    monkeypatch.setattr(together, "reach_of", counted)
    found = mixed_together(
        [(catalogue, one) for one in asked], cache=Cache(), deadline=Deadline(), progress=quiet
    )
    # The first two and the last share everything; tolerance and thinnest wash part the others.
    assert len(mixed_for) == 3
    assert [one.error for one in found] == [None] * 5
    assert found[0].cache.held is found[1].cache.held is found[4].cache.held
    for one, held in zip(asked, found, strict=True):
        monkeypatch.setattr("fewtubes.coverage.remembered.find_reach", _never)
        carried = pose(catalogue, one, cache=held.cache, progress=quiet)
        monkeypatch.undo()
        alone = pose(catalogue, one, cache=Cache(), progress=quiet)
        for ours, theirs in zip(carried.sets, alone.sets, strict=True):
            assert np.array_equal(ours, theirs)


def _never(*_given: object, **_named: object) -> None:
    raise AssertionError("it is mixed again")


def test_what_cannot_be_posed_is_told_of_that_one() -> None:
    catalogue = read_catalogue(SMALL)
    sound, faulty = scenario("cornflower"), scenario("no such flower")
    found = mixed_together(
        [(catalogue, faulty), (catalogue, sound), (catalogue, replace(sound, light="dark"))],
        cache=Cache(),
        deadline=Deadline(),
        progress=quiet,
    )
    assert [one.error is None for one in found] == [False, True, False]
    assert "no such flower" in str(found[0].error)
