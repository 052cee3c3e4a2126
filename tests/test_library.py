"""The library's face: what `import fewtubes` offers, that it is documented, and costs nothing."""

import ast
import inspect
import json
import pkgutil
import subprocess
import sys
from dataclasses import is_dataclass
from enum import Enum
from pathlib import Path
from typing import Any

import pytest

import fewtubes

NAMES = [name for name in fewtubes.__all__ if name != "__version__"]

FUNCTIONS = [name for name in NAMES if inspect.isfunction(getattr(fewtubes, name))]


def fresh(code: str) -> str:
    """Return what code prints in a process of its own."""
    done = subprocess.run(  # noqa: S603  # our own program
        [sys.executable, "-c", code], capture_output=True, check=True, encoding="utf-8"
    )
    return done.stdout


def test_names_are_sorted_and_each_once() -> None:
    assert fewtubes.__all__ == sorted(set(fewtubes.__all__))


@pytest.mark.parametrize("name", NAMES)
def test_every_name_is_there_and_documented(name: str) -> None:
    found = getattr(fewtubes, name)
    assert found.__name__ == name
    assert found.__module__ == f"fewtubes.{fewtubes.HOME_OF[name]}"
    text = found.__doc__
    assert text
    assert not text.startswith(f"{name}("), "that is what dataclass says of itself"


def test_type_checkers_are_told_the_same() -> None:
    tree = ast.parse(Path(fewtubes.__file__).read_text(encoding="utf-8"))
    (block,) = [node for node in tree.body if isinstance(node, ast.If)]
    told = {
        alias.name: node.module
        for node in block.body
        if isinstance(node, ast.ImportFrom)
        for alias in node.names
    }
    assert told == {name: f"fewtubes.{home}" for name, home in fewtubes.HOME_OF.items()}
    assert set(told) == set(NAMES)


def test_no_name_hides_a_module() -> None:
    modules = {module.name for module in pkgutil.iter_modules(fewtubes.__path__)}
    assert not modules & set(NAMES)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_every_parameter_of_a_function_is_documented(name: str) -> None:
    found = getattr(fewtubes, name)
    text = inspect.getdoc(found) or ""
    parameters = inspect.signature(found).parameters
    documented = {
        word
        for line in text.split("Parameters", 1)[-1].splitlines()
        if line and not line.startswith(" ")
        for word in line.split(", ")
    }
    if len(parameters) > 1:
        assert set(parameters) <= documented
    if found is not fewtubes.default_cache:
        assert "Raises" in text


CLASSES = [name for name in NAMES if is_dataclass(getattr(fewtubes, name))]


@pytest.mark.parametrize("name", CLASSES)
def test_every_field_of_a_value_is_documented(name: str) -> None:
    """Among the parameters of its class, or by a text below it, as Sphinx reads them."""
    (tree,) = ast.parse(inspect.getsource(getattr(fewtubes, name))).body
    assert isinstance(tree, ast.ClassDef)
    parameters = (ast.get_docstring(tree) or "").partition("Parameters\n")[2]
    told = {word for line in parameters.splitlines() for word in line.split(", ")}
    below = [*tree.body[1:], None]
    for node, after in zip(tree.body, below, strict=True):
        if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            text = isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant)
            assert text or node.target.id in told, node.target.id


@pytest.mark.parametrize("name", [name for name in NAMES if name not in FUNCTIONS])
def test_every_public_part_of_a_class_is_documented(name: str) -> None:
    (tree,) = ast.parse(inspect.getsource(getattr(fewtubes, name))).body
    assert isinstance(tree, ast.ClassDef)
    for node in tree.body:
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            assert ast.get_docstring(node), node.name


def test_nothing_else_is_listed() -> None:
    """Neither what the face itself needs nor the packages that lie below it."""
    code = "import fewtubes; fewtubes.shop; print([n for n in dir(fewtubes) if n[:2] != '__'])"
    assert ast.literal_eval(fresh(code)) == sorted(set(fewtubes.__all__) - {"__version__"})


def test_values_do_not_change() -> None:
    for name in NAMES:
        found: Any = getattr(fewtubes, name)
        if is_dataclass(found):
            assert vars(found)["__dataclass_params__"].frozen, name
        elif inspect.isclass(found):
            assert issubclass(found, Enum | Exception | tuple), name


def test_importing_costs_nothing() -> None:
    heavy = json.loads(fresh("import fewtubes, sys, json; print(json.dumps(sorted(sys.modules)))"))
    assert "numpy" not in heavy
    assert [name for name in heavy if name.startswith("fewtubes.")] == []


def test_everything_is_listed_before_it_is_imported() -> None:
    assert fresh("import fewtubes; print(set(fewtubes.__all__) <= set(dir(fewtubes)))") == "True\n"


def test_an_unknown_name_is_told_as_ever() -> None:
    with pytest.raises(AttributeError, match="module 'fewtubes' has no attribute 'brush'"):
        fewtubes.brush  # noqa: B018


def test_every_error_has_one_base() -> None:
    errors = [getattr(fewtubes, name) for name in NAMES if name.endswith("Error")]
    assert len(errors) == 6
    assert all(issubclass(error, fewtubes.FewtubesError) for error in errors)
