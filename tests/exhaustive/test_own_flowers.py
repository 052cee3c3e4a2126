"""A flower of one's own is treated as one of a catalogue is, in all that is told of it.

Every question is asked twice: of a catalogue that holds its flowers, and of one without any, where
the scenario brings them along whole. Samples are held to the oracle's, which shares no code.
"""

import json
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from tests.exhaustive.draws import draw_question
from tests.exhaustive.oracle import targets_of

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Flower, Role
from fewtubes.colour.bands import WAVELENGTH_NM
from fewtubes.comparison.compare import compare
from fewtubes.comparison.why import why
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.errors import ClashError
from fewtubes.mixing.mixture import reflectance_lab
from fewtubes.report.json_values.comparison import comparison_json
from fewtubes.report.json_values.plan import plan_json
from fewtubes.scenario.own_flowers import OwnFlower, OwnSwatch
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.shop import shop

Asked = tuple[Catalogue, Scenario]


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    return read_catalogue()


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Cache:
    folder: Path = tmp_path_factory.mktemp("own-flowers")
    return Cache(folder)


def both_ways(catalogue: Catalogue, scenario: Scenario) -> tuple[Asked, Asked]:
    """Return a question with its flowers in the catalogue, and with all of them its own."""
    held = {**catalogue.flowers, **{own.name: listed(own) for own in scenario.own_flowers}}
    wishes = [FlowerWish(wish.name, wish.importance) for wish in scenario.flowers]
    own = [OwnFlower.of(held[wish.name], wish.importance) for wish in wishes]
    return (
        (replace(catalogue, flowers=held), replace(scenario, flowers=tuple(wishes))),
        (replace(catalogue, flowers={}), replace(scenario, flowers=tuple(own))),
    )


def listed(own: OwnFlower) -> Flower:
    """Return a flower as a catalogue holds it."""
    return Flower(own.name, tuple(s.seen(s.lab) for s in own.swatches if s.lab is not None))


def told(text: str) -> Any:
    """Return what a JSON file tells, without times and without where flowers come from."""

    def bare(value: Any) -> Any:
        if isinstance(value, dict):
            return {k: bare(v) for k, v in value.items() if k not in ("seconds", "swatches")}
        return [bare(one) for one in value] if isinstance(value, list) else value

    return bare(json.loads(text))


def posed(catalogue: Catalogue, scenario: Scenario) -> Question:
    """Return the question, looked at and not answered."""
    return pose(catalogue, scenario, cache=Cache(), progress=lambda _stage: None)


@pytest.mark.parametrize("first", range(0, 48, 6))
def test_colours_steps_and_importances_are_the_same(first: int, demo: Catalogue) -> None:
    two = replace(demo, tubes={id_: demo.tubes[id_] for id_ in sorted(demo.tubes)[:2]})
    names = [*demo.flowers][first : first + 6]
    wishes = [FlowerWish(name, 1 + place / 2) for place, name in enumerate(names)]
    ours, own = both_ways(two, Scenario(budget=9, currency="EUR", flowers=wishes))
    question = posed(*own)
    samples = question.samples
    assert posed(*ours).samples == samples
    assert question.counted_exactly
    targets = targets_of(*own)
    assert len(samples) == len(targets) > 30
    total = sum(target.share for target in targets)
    for sample, target in zip(samples, targets, strict=True):
        np.testing.assert_allclose(sample.lab, target.lab, atol=1e-12)
        assert Fraction(sample.weight, sum(s.weight for s in samples)) == target.share / total


def test_that_was_every_flower(demo: Catalogue) -> None:
    assert len(demo.flowers) == 48


@pytest.mark.parametrize("seed", range(3, 243, 20))
def test_the_answer_is_the_same(seed: int, demo: Catalogue, cache: Cache) -> None:
    answers = []
    for catalogue, scenario in both_ways(*draw_question(seed, demo)):
        try:
            answers.append(told(plan_json(shop(catalogue, scenario, cache=cache))))
        except ClashError as error:
            answers.append(str(error))
    assert answers[0] == answers[1]


def test_reasons_and_comparisons_are_the_same(demo: Catalogue, cache: Cache) -> None:
    few = replace(demo, tubes={id_: demo.tubes[id_] for id_ in sorted(demo.tubes)[::6]})
    asked = Scenario(budget=12, currency="EUR", flowers={"pansy": 2, "fern frond": 1}, light="A")
    ours, own = both_ways(few, asked)
    reasons, compared = [], []
    for catalogue, scenario in (ours, own):
        reasons.append(why(catalogue, scenario, cache=cache))
        compared.append(told(comparison_json(compare(catalogue, scenario, cache=cache))))
    assert compared[0] == compared[1]
    assert told(plan_json(reasons[0].plan)) == told(plan_json(reasons[1].plan))
    hanging = [[(t.planned.tube.id, t.without) for t in reason.tubes] for reason in reasons]
    assert hanging[0] == hanging[1] != []


@pytest.mark.parametrize("light", ["D65", "A"])
def test_a_measured_colour_is_seen_under_the_light(demo: Catalogue, light: str) -> None:
    two = replace(demo, tubes={id_: demo.tubes[id_] for id_ in sorted(demo.tubes)[:2]})
    leaf = 0.1 + 0.3 * np.exp(-(((WAVELENGTH_NM - 550) / 40) ** 2))
    flower = OwnFlower("mine", (OwnSwatch("leaf", Role.LEAF, reflectance=leaf),))
    question = posed(two, Scenario(budget=9, currency="EUR", flowers=[flower], light=light))
    (sample,) = question.samples
    optics = optics_for(demo, "cotton-white", light, Cache())
    assert sample.lab == tuple(reflectance_lab(leaf, optics).tolist())
    assert (sample.flower, sample.name, sample.role) == ("mine", "leaf", Role.LEAF)
