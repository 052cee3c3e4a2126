"""Where petals are drawn: upper ones at the top, lower ones at the foot."""

import math

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Role
from fewtubes.coverage.samples import Sample, portions_of_flower, weighed
from fewtubes.coverage.steps import PETAL_ROLES
from fewtubes.picture.petal_ring import petal_ring


def petal(name: str, lightness: float) -> Sample:
    return Sample("made-up", name, (lightness, 10.0, 0.0), 1, Role.PETAL)


def heights(petals: list[Sample]) -> dict[str, float]:
    """Return how far up from the heart each petal points, −1 to 1."""
    return {petals[place].name: math.cos(turn) for place, turn in petal_ring(petals)}


def of_the_demo(name: str) -> list[Sample]:
    samples, _ = weighed(portions_of_flower(read_catalogue().flowers[name], 1))
    return [sample for sample in samples if sample.is_step or sample.role in PETAL_ROLES]


def test_a_pansy_hangs_its_yellow_petal_down() -> None:
    high = heights(of_the_demo("pansy"))
    assert high.pop("lower petal") == pytest.approx(-1)
    assert high["between upper petal and violet shade"] == pytest.approx(1)
    assert min(high.values()) > -0.01  # the violet ones, all of them upper, in the upper half


def test_an_iris_stands_on_its_falls() -> None:
    high = heights(of_the_demo("iris, bearded violet"))
    assert high["standard"] == max(high.values()) == pytest.approx(1)
    assert {name for name in high if name.startswith("between")} == {
        "between light fall and fall",
        "between fall and fall shadow",
    }
    # Six petals, a sixth of the circle apart: none of the falls is higher than cos 60 degrees.
    falls = [height for name, height in high.items() if "fall" in name]
    assert len(falls) == len(high) - 1 == 5
    assert max(falls) == pytest.approx(0.5)


def test_without_such_words_the_lightest_is_on_top_and_all_go_clockwise() -> None:
    petals = [petal("deep", 30), petal("light", 80), petal("middle", 60)]
    ring = petal_ring(petals)
    assert [place for place, _ in ring] == [1, 2, 0]
    assert [turn for _, turn in ring] == pytest.approx([0, math.tau / 3, 2 * math.tau / 3])


def test_a_lower_petal_alone_hangs_down() -> None:
    high = heights([petal("Lower petal", 80), petal("wing", 60), petal("wing fold", 50)])
    assert high["Lower petal"] == pytest.approx(-1)


def test_a_word_counts_whole() -> None:
    """A waterfall is no fall, and a petal that is told to be both is neither."""
    high = heights([petal("waterfall", 80), petal("upper and lower", 60), petal("wing", 50)])
    assert high["waterfall"] == pytest.approx(1)  # the lightest, as ever


@pytest.mark.parametrize("count", [0, 1, 2, 7])
def test_every_petal_has_a_direction_of_its_own(count: int) -> None:
    petals = [petal(f"{'upper' if n % 3 else 'lower'} {n}", 50 + n) for n in range(count)]
    ring = petal_ring(petals)
    assert sorted(place for place, _ in ring) == list(range(count))
    turns = sorted(turn % math.tau for _, turn in ring)
    assert len({round(turn, 6) for turn in turns}) == count
