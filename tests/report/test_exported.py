"""Every module of the report says what it offers, and offers it."""

import importlib
import pkgutil

import pytest

import fewtubes.report

MODULES = [module.name for module in pkgutil.iter_modules(fewtubes.report.__path__)]


@pytest.mark.parametrize("name", MODULES)
def test_all_names_exist(name: str) -> None:
    module = importlib.import_module(f"fewtubes.report.{name}")
    assert len(set(module.__all__)) == len(module.__all__) > 0
    for offered in module.__all__:
        assert hasattr(module, offered)
