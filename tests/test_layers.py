"""Imports point one way: read from the source, nothing is imported.

Origin of the order: the picture of the layers in DEVELOPERS.md, lowest first.
"""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "optimiser" / "fewtubes"

LAYERS = (
    "catalogue",
    "colour",
    "mixing",
    "words",
    "tables",
    "scenario",
    "coverage",
    "fitting",
    "card",
    "keeping",
    "selection",
    "shopping",
    "comparison",
    "picture",
    "report",
    "term",
    "page",
    "command_line",
)
"""Each may import those before it."""

SHARED = frozenset(
    {
        "defaults",
        "errors",
        "files",
        "masks",
        "quoting",
        "threads",
        "workers",
    }
)
"""Beside the layers: open to all of them, and the version, but not the face of the library."""

SHARED_VALUES = frozenset({("catalogue", "fewtubes.colour.bands")})
"""The wavelengths, which the tables are read by: a value, no layer's work."""

ENTRIES = ("__main__.py", "__init__.py")
"""``python -m fewtubes``, which does nothing but start the command line, and the library's face."""

MODULES = sorted(path.relative_to(PACKAGE) for path in PACKAGE.rglob("*.py"))


def imported(nodes: list[ast.AST]) -> set[str]:
    """Return the full names of the modules that import statements among the nodes name."""
    found: set[str] = set()
    for node in nodes:
        if isinstance(node, ast.Import):
            found.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "relative import"
            assert node.module is not None
            if node.module != "fewtubes":
                found.add(node.module)
            else:
                found.update(f"fewtubes.{alias.name}" for alias in node.names)
    return found


def layer_of(module: str) -> str:
    """Return the first part of a name beneath the package; "" for the package itself."""
    return (*module.split("."), "")[1]


def forbidden(home: str, source: str) -> list[str]:
    """Return what a module of a layer, or a shared one (by its name), imports but may not."""
    allowed = set(SHARED)
    if home in LAYERS:
        allowed.update(LAYERS[: LAYERS.index(home) + 1])
    wanted = imported(list(ast.walk(ast.parse(source))))
    return sorted(
        module
        for module in wanted
        if module.split(".")[0] == "fewtubes"
        and module != "fewtubes.__version__"
        and layer_of(module) not in allowed
        and (home, module) not in SHARED_VALUES
    )


def test_every_package_is_a_layer() -> None:
    packages = {path.parts[0] for path in MODULES if len(path.parts) > 1}
    assert packages == {*LAYERS, "files"}


@pytest.mark.parametrize("module", MODULES, ids=str)
def test_imports_point_downwards(module: Path) -> None:
    if str(module) in ENTRIES:
        return
    home = module.parts[0] if len(module.parts) > 1 else module.stem
    assert forbidden(home, (PACKAGE / module).read_text(encoding="utf-8")) == []


FORMS = frozenset({"illustrated", "json_values", "terminal"})
"""Of the report: what they share lies in its `sentences`, and no form imports from another."""

REPORTS = [path for path in MODULES if len(path.parts) > 2 and path.parts[:1] == ("report",)]


@pytest.mark.parametrize("module", REPORTS, ids=str)
def test_no_form_of_the_report_imports_from_another(module: Path) -> None:
    wanted = imported(list(ast.walk(ast.parse((PACKAGE / module).read_text(encoding="utf-8")))))
    forms = {name.split(".")[2] for name in wanted if name.startswith("fewtubes.report.")}
    assert forms & FORMS <= {module.parts[1]}


@pytest.mark.parametrize(
    ("home", "source", "expected"),
    [
        ("colour", "import fewtubes.mixing.film", ["fewtubes.mixing.film"]),
        ("report", "from fewtubes.command_line.main import run", ["fewtubes.command_line.main"]),
        ("selection", "def f():\n from fewtubes.report import words", ["fewtubes.report"]),
        ("masks", "from fewtubes.catalogue.records import Tube", ["fewtubes.catalogue.records"]),
        ("catalogue", "from fewtubes.colour.light import white_point", ["fewtubes.colour.light"]),
        ("mixing", "from fewtubes import report", ["fewtubes.report"]),
        ("mixing", "import fewtubes", ["fewtubes"]),
        ("mixing", "from fewtubes import shop", ["fewtubes.shop"]),
        ("catalogue", "from fewtubes.colour.bands import BAND_COUNT", []),
        ("mixing", "import numpy\nfrom fewtubes.errors import Fault", []),
        ("coverage", "from fewtubes import __version__", []),
    ],
)
def test_an_upward_import_would_be_noticed(home: str, source: str, expected: list[str]) -> None:
    assert forbidden(home, source) == expected
