"""What mixes larger than wished would reach: a reason, looked for where nothing smaller does."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.remembered import no_larger
from fewtubes.errors import LimitError
from fewtubes.mixing.deadline import Deadline
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.shopping.mixed_together import mixed_together
from fewtubes.shopping.question import Question, pose

MakeScenario = Callable[..., Scenario]

FEW = ("arylide-yellow", "lemon", "ultramarine", "iron-blue", "warm-red-study", "soft-rose")


@pytest.fixture
def small(demo: Catalogue) -> Catalogue:
    """Return the demo with a few of its tubes, which are mixed at once."""
    return replace(demo, tubes={id_: demo.tubes[id_] for id_ in FEW})


def posed(catalogue: Catalogue, scenario: Scenario, cache: Cache | None = None) -> Question:
    return pose(catalogue, scenario, cache=cache or Cache(), progress=lambda _stage: None)


@pytest.mark.parametrize("most", [1, 2, 3])
def test_larger_mixes_are_known_where_no_smaller_one_reaches(
    small: Catalogue, scenario: MakeScenario, most: int
) -> None:
    """Origin: the same question with mixes of three."""
    asked = scenario("daffodil", "rose, red")
    three = posed(small, asked)
    few = posed(small, replace(asked, wishes=Wishes(most_in_mix=most)))
    expected = {
        t: rows for t, rows in enumerate(three.sets) if len(rows) and not len(no_larger(rows, most))
    }
    assert few.larger_mixes.keys() == expected.keys()
    assert bool(expected) is (most < 3)
    for t, rows in expected.items():
        np.testing.assert_array_equal(few.larger_mixes[t], rows)
    for t, rows in enumerate(three.sets):
        np.testing.assert_array_equal(few.sets[t], no_larger(rows, most))


def test_a_reason_is_worth_no_more_than_a_share_of_the_time(
    demo: Catalogue, scenario: MakeScenario, monkeypatch: pytest.MonkeyPatch
) -> None:
    """72 tubes make 62,196 sets of up to three, two seconds' work; five seconds are too few."""
    asked = scenario("daffodil", wishes=Wishes(most_in_mix=1))
    sought: list[int] = []

    def mix(K: object, S: object, labs: np.ndarray, **settings: object) -> tuple[np.ndarray, ...]:
        sought.append(settings["space"].most_tubes)  # type: ignore[attr-defined]
        return tuple(np.zeros((0, 3), np.int16) for _ in labs)

    def asked_within(seconds: float) -> Question:
        return pose(
            demo,
            asked,
            cache=Cache(),
            progress=lambda _stage: None,
            deadline=Deadline(seconds),
            mix=mix,
        )

    asked_within(5.0)
    assert sought == [1]
    asked_within(50.0)
    assert sought == [1, 1, 3]


def test_where_mixing_them_fails_there_is_no_reason(
    demo: Catalogue, scenario: MakeScenario
) -> None:
    def mix(K: object, S: object, labs: np.ndarray, **settings: object) -> tuple[np.ndarray, ...]:
        if settings["space"].most_tubes == 3:  # type: ignore[attr-defined]
            raise LimitError("too little memory")
        return tuple(np.zeros((0, 3), np.int16) for _ in labs)

    asked = scenario("daffodil", wishes=Wishes(most_in_mix=2))
    found = pose(demo, asked, cache=Cache(), progress=lambda _stage: None, mix=mix)
    assert found.larger_mixes == {}


def test_what_is_mixed_together_serves_those_who_mix_two(
    small: Catalogue, scenario: MakeScenario, monkeypatch: pytest.MonkeyPatch
) -> None:
    two = scenario("daffodil", wishes=Wishes(most_in_mix=2))
    plain = posed(small, two)
    (mixed,) = mixed_together(
        [(small, two)], cache=Cache(), deadline=Deadline(), progress=lambda _stage: None
    )
    assert mixed.error is None

    def never(*_given: object, **_more: object) -> None:
        raise AssertionError("mixed again")

    monkeypatch.setattr("fewtubes.coverage.remembered.find_reach", never)
    found = posed(small, two, mixed.cache)
    for one, other in zip(found.sets, plain.sets, strict=True):
        np.testing.assert_array_equal(one, other)
    assert found.larger_mixes.keys() == plain.larger_mixes.keys()
