"""What the working process tells, in which order, and that no step is done a second time for it."""

from collections import Counter
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.page.form import scenario_of
from fewtubes.page.worker import Compared, Found, Reported, Task, messages_of

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"

STEPS = (
    "fewtubes.shopping.shop.pose",
    "fewtubes.comparison.compare.pose",
    "fewtubes.shopping.question.Mixing",
    "fewtubes.coverage.optics.tristimulus_weights",
    "fewtubes.report.illustrated.basis.hue_plane",
)
"""Where each long step is called from."""


@pytest.fixture
def task() -> Task:
    """Return a question about a small catalogue, of which nothing is remembered."""
    values = {
        "title": ["One flower"],
        "flower": ["cornflower"],
        "budget": ["12.00"],
        "currency": ["EUR"],
        "tolerance": ["4"],
        "paper": ["plain"],
        "light": ["E"],
    }
    return Task(scenario_of(values, read_catalogue(SMALL)), SMALL, cache=None, seconds=10.0)


@pytest.fixture
def done(monkeypatch: pytest.MonkeyPatch) -> Counter[str]:
    """Return how often each of the steps has been done."""
    counts: Counter[str] = Counter()

    def counted(step: str, work: Any) -> Any:
        def do(*args: Any, **given: Any) -> Any:
            counts[step] += 1
            return work(*args, **given)

        return do

    for step in STEPS:
        module, _, name = step.rpartition(".")
        work = getattr(import_module(module), name)
        monkeypatch.setattr(step, counted(step, work))
    return counts


def test_nothing_is_done_twice_from_the_answer_to_the_report(
    task: Task, done: Counter[str]
) -> None:
    """Without a cache a second question would mix, and find the weights of the light, again."""
    messages = list(messages_of(task, progress=lambda _words: None))
    assert [type(message) for message in messages] == [Found, Reported, Compared]
    assert done == {
        "fewtubes.shopping.shop.pose": 1,
        "fewtubes.shopping.question.Mixing": 1,
        "fewtubes.coverage.optics.tristimulus_weights": 1,
        "fewtubes.report.illustrated.basis.hue_plane": 1,
    }


def test_the_answer_is_told_before_anything_is_compared(
    task: Task, monkeypatch: pytest.MonkeyPatch
) -> None:
    def too_early(*_args: object, **_given: object) -> None:
        raise AssertionError

    monkeypatch.setattr("fewtubes.report.illustrated.report.compared", too_early)
    messages = messages_of(task, progress=lambda _words: None)
    assert isinstance(next(messages), Found)
    reported = next(messages)
    assert isinstance(reported, Reported)
    assert 'href="#cost"' not in reported.page
    with pytest.raises(AssertionError):
        next(messages)


def test_the_last_report_is_the_first_with_coverage_against_cost(task: Task) -> None:
    found, reported, compared = messages_of(task, progress=lambda _words: None)
    assert isinstance(found, Found)
    assert isinstance(reported, Reported)
    assert isinstance(compared, Compared)
    assert compared.markup in compared.page
    link = '<li><a href="#cost">Coverage against cost</a></li>\n'
    head, rest = compared.page.split('<section aria-labelledby="cost">')
    tail = rest.partition("</section>\n")[2]
    assert (head + tail).replace(link, "") == reported.page
