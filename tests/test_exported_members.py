"""Every module says what it offers, and that is true: read from the source, nothing is imported."""

import ast
from functools import cache
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "optimiser" / "fewtubes"

MODULES = sorted(path.relative_to(PACKAGE) for path in PACKAGE.rglob("*.py"))

SILENT = ("__init__.py", "__main__.py")
"""They define nothing that is imported from them by name but the version."""

OFFERING = [path for path in MODULES if path.name not in SILENT]

WORK = (ast.FunctionDef, ast.AsyncFunctionDef, ast.ClassDef)


@cache
def tree_of(module: Path) -> ast.Module:
    return ast.parse((PACKAGE / module).read_text(encoding="utf-8"))


def names_in(target: ast.expr) -> list[str]:
    """Return the names an assignment gives a value, tuples taken apart."""
    if isinstance(target, ast.Tuple):
        return [name for part in target.elts for name in names_in(part)]
    return [target.id] if isinstance(target, ast.Name) else []


def defined(tree: ast.Module) -> set[str]:
    """Return the names that a module itself gives a meaning, imported ones left out."""
    names: set[str] = set()
    for node in tree.body:
        if isinstance(node, WORK):
            names.add(node.name)
        elif isinstance(node, ast.Assign):
            names.update(name for target in node.targets for name in names_in(target))
        elif isinstance(node, ast.AnnAssign):
            names.update(names_in(node.target))
    return names


def offered(tree: ast.Module) -> list[str] | None:
    """Return `__all__` as it is written, None without one."""
    for node in tree.body:
        if isinstance(node, ast.Assign) and "__all__" in names_in(node.targets[0]):
            names: list[str] = ast.literal_eval(node.value)
            return names
    return None


@cache
def offered_by_module() -> dict[str, list[str]]:
    """Return what every module offers, by its full name."""
    return {
        ".".join(("fewtubes", *path.with_suffix("").parts)): offered(tree_of(path)) or []
        for path in OFFERING
    }


def untruths(tree: ast.Module) -> list[str]:
    """Return what is wrong with a module's `__all__`."""
    names = offered(tree)
    if names is None:
        return ["there is no __all__"]
    public = {
        node.name for node in tree.body if isinstance(node, WORK) and not node.name.startswith("_")
    }
    return [
        *(f"{name} is offered twice" for name in sorted(set(names)) if names.count(name) > 1),
        *(f"{name} is offered but not defined here" for name in set(names) - defined(tree)),
        *(f"{name} is private but offered" for name in names if name.startswith("_")),
        *(f"{name} is public but not offered" for name in sorted(public - set(names))),
    ]


@pytest.mark.parametrize("module", OFFERING, ids=str)
def test_all_is_explicit_and_true(module: Path) -> None:
    assert untruths(tree_of(module)) == []


@pytest.mark.parametrize("module", MODULES, ids=str)
def test_only_what_is_offered_is_imported(module: Path) -> None:
    known = offered_by_module()
    for node in ast.walk(tree_of(module)):
        if isinstance(node, ast.ImportFrom) and node.module in known:
            wanted = {alias.name for alias in node.names}
            assert wanted <= set(known[node.module]), node.module


def test_the_face_offers_what_it_imports_and_the_version() -> None:
    """Its modules' own `__all__` are held to that by the test above."""
    face = tree_of(Path("__init__.py"))
    imports = [node for node in ast.walk(face) if isinstance(node, ast.ImportFrom)]
    taken = {
        alias.name
        for node in imports
        for alias in node.names
        if (node.module or "").startswith("fewtubes.")
    }
    assert set(offered(face) or []) == taken | {"__version__"}


@pytest.mark.parametrize(
    ("source", "fault"),
    [
        ("A = 1", "there is no __all__"),
        ('__all__ = ["A", "A"]\nA = 1', "A is offered twice"),
        ('__all__ = ["A"]\nfrom b import A', "A is offered but not defined here"),
        ('__all__ = ["_A"]\n_A = 1', "_A is private but offered"),
        ("__all__ = []\nasync def a(): ...", "a is public but not offered"),
    ],
)
def test_an_untrue_all_would_be_noticed(source: str, fault: str) -> None:
    assert untruths(ast.parse(source)) == [fault]


@pytest.mark.parametrize(
    "source", ['__all__ = ["A", "b"]\nA, B = range(2)\ndef b(): ...', '__all__ = ["A"]\nA: int = 1']
)
def test_a_true_all_passes(source: str) -> None:
    assert untruths(ast.parse(source)) == []
