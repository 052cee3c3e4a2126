"""The examples in docstrings are true."""

import doctest
import importlib
import inspect
from pathlib import Path

import pytest

import fewtubes

PACKAGE = Path(fewtubes.__file__).parent

NAMES = [
    ".".join(path.relative_to(PACKAGE.parent).with_suffix("").parts).removesuffix(".__init__")
    for path in sorted(PACKAGE.rglob("*.py"))
    if ">>> " in path.read_text(encoding="utf-8")
]


def test_examples(shared_cache: fewtubes.Cache, monkeypatch: pytest.MonkeyPatch) -> None:
    """In one test, so that what they mix is mixed once, and away from the user's own folder."""
    monkeypatch.setenv("FEWTUBES_CACHE", str(shared_cache.folder))
    found = {name: doctest.testmod(importlib.import_module(name)) for name in NAMES}
    assert [name for name, outcome in found.items() if outcome.attempted == 0] == []
    assert [name for name, outcome in found.items() if outcome.failed] == []


WITHOUT = {"default_cache": "stands in the others'", "read_scenario": "the README shows a file"}
"""Functions without an example of their own, and why."""

ASKED = [name for name in fewtubes.__all__ if inspect.isfunction(getattr(fewtubes, name))]


@pytest.mark.parametrize("name", ["InputError", "Scenario", *sorted({*ASKED} - {*WITHOUT})])
def test_what_a_person_calls_has_an_example(name: str) -> None:
    assert ">>> " in getattr(fewtubes, name).__doc__
