"""Every command that names tubes to paint with says which of them call for care."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., Any]

DEFERRING = "the maker's label, the safety data sheet, local rules and qualified advice decide."


@pytest.mark.parametrize(
    "options",
    [
        ("mix", "cornflower / ray", "--tube", "leaf-green", "--tube", "lemon"),
        ("unmixable",),
        ("why", "SCENARIO", "--tolerance", 12, "--must-have", "leaf-green"),
        ("box", "SCENARIO", "--owned", "lemon", "--about-to-buy", "leaf-green"),
        ("compare", "SCENARIO", "--tolerance", 12, "--must-have", "leaf-green"),
        ("instalments", "SCENARIO", "--sum", 9, "--tolerance", 12, "--must-have", "leaf-green"),
    ],
    ids=lambda options: options[0],
)
def test_harmful_tubes_are_named(
    run: Run, scenario: Path, small: Sequence[str], options: tuple[object, ...]
) -> None:
    told = run(*(scenario if option == "SCENARIO" else option for option in options), *small)
    assert told.code == 0, told.err
    said = " ".join(told.out.split())
    assert "Take care Harmful if they get into the mouth" in said
    assert "Leaf green (cobalt)" in said  # its pigment "sea" is noted to hold cobalt
    assert said.endswith(DEFERRING)


def test_tubes_without_hazard_still_come_with_who_decides(run: Run, small: Sequence[str]) -> None:
    said = " ".join(run("mix", "#c8d030", "--tube", "lemon", *small).out.split())
    assert "The catalogue notes no hazard of the tubes named here." in said
    assert said.endswith(DEFERRING)
