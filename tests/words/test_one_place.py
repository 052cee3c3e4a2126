"""Money, shares, lists and escaped signs are made in one place each: read from the source."""

import ast
import itertools
import re
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "optimiser" / "fewtubes"

SPEAKING = ("shopping", "comparison", "picture", "report", "term", "page")
"""Layers that say figures; those below `words` cannot use it, and the command line says none."""

MODULES = sorted(path for layer in SPEAKING for path in (PACKAGE / layer).rglob("*.py"))

READS_PER_CENT = {PACKAGE / "page" / "form.py", PACKAGE / "page" / "planned_form.py"}
"""Divide what a field holds in per cent."""

PARTING = re.compile(r", | (and|or|and/or) ")
"""Between the words of a list in a sentence."""

SHARE = re.compile(r"^ ?%")
"""What follows a number that is a share."""


def is_list(node: ast.AST) -> bool:
    return (
        isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr == "join"
        and isinstance(node.func.value, ast.Constant)
        and PARTING.fullmatch(str(node.func.value.value)) is not None
    )


def is_money(node: ast.AST) -> bool:
    return (
        isinstance(node, ast.BinOp)
        and isinstance(node.op, ast.Div)
        and isinstance(node.right, ast.Constant)
        and node.right.value == 100
    )


def is_share(node: ast.AST) -> bool:
    return isinstance(node, ast.JoinedStr) and any(
        isinstance(one, ast.FormattedValue)
        and one.format_spec is not None
        and isinstance(after, ast.Constant)
        and SHARE.match(str(after.value))
        for one, after in itertools.pairwise(node.values)
    )


def hand_made(source: str) -> list[str]:
    """Return expressions that word a list, a sum of money or a share by themselves."""
    return [
        ast.unparse(node)
        for node in ast.walk(ast.parse(source))
        if is_list(node) or is_money(node) or is_share(node)
    ]


@pytest.mark.parametrize("path", MODULES, ids=[str(path.relative_to(PACKAGE)) for path in MODULES])
def test_figures_are_worded_by_the_words(path: Path) -> None:
    found = hand_made(path.read_text(encoding="utf-8"))
    assert len(found) == (1 if path in READS_PER_CENT else 0), found


@pytest.mark.parametrize(
    "source",
    [
        "', '.join(names)",
        "' and '.join(names)",
        "price / 100",
        "f'{100 * share:.1f} % of it'",
        "f'{share:g}%'",
    ],
)
def test_a_hand_made_figure_would_be_noticed(source: str) -> None:
    assert len(hand_made(source)) == 1


@pytest.mark.parametrize("source", ["'; '.join(said)", "''.join(said)", "f'{percent(share)} %'"])
def test_what_is_no_figure_passes(source: str) -> None:
    assert hand_made(source) == []


def test_unprintable_signs_are_escaped_in_one_place() -> None:
    escaping = [
        str(path.relative_to(PACKAGE))
        for path in sorted(PACKAGE.rglob("*.py"))
        if "\\x{" in path.read_text(encoding="utf-8")
    ]
    assert escaping == ["quoting.py"]
