"""The examples in docstrings are true."""

import doctest
import importlib
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "optimiser" / "fewtubes"

MODULES = sorted(
    path.relative_to(PACKAGE.parent)
    for path in PACKAGE.rglob("*.py")
    if ">>> " in path.read_text(encoding="utf-8")
)


@pytest.mark.parametrize("module", MODULES, ids=str)
def test_examples(module: Path) -> None:
    name = ".".join(module.with_suffix("").parts).removesuffix(".__init__")
    outcome = doctest.testmod(
        importlib.import_module(name), optionflags=doctest.IGNORE_EXCEPTION_DETAIL
    )
    assert outcome.attempted > 0
    assert outcome.failed == 0


def test_the_main_parts_of_the_library_have_examples() -> None:
    told = {path.as_posix().removeprefix("fewtubes/") for path in MODULES}
    assert {"scenario/records.py", "shopping/shop.py", "comparison/mixes.py"} <= told
