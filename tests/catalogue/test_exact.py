"""Importances are kept exactly as written, whatever their length."""

from fractions import Fraction
from pathlib import Path

import pytest

from fewtubes.catalogue.exact import exactly_typed
from fewtubes.catalogue.reading import read_catalogue

BEYOND_PYTHON = 4_400
"""Digits that `int` and `Fraction` refuse in a text: more than 4,300, `sys.int_info`."""


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        # By hand, from what a decimal number means.
        ("0.1", Fraction(1, 10)),
        ("2.50", Fraction(5, 2)),
        (".5", Fraction(1, 2)),
        ("+3.", Fraction(3)),
        ("25e-1", Fraction(5, 2)),
        ("1." + "0" * BEYOND_PYTHON, Fraction(1)),
        ("1e" + "0" * BEYOND_PYTHON + "1", Fraction(10)),
        ("0." + "0" * BEYOND_PYTHON + "1", Fraction(1, 10 ** (BEYOND_PYTHON + 1))),
    ],
)
def test_a_number_is_what_is_written(typed: str, value: Fraction) -> None:
    assert exactly_typed(typed) == value


def test_an_importance_of_thousands_of_digits_is_read(folder: Path) -> None:
    path = folder / "flowers.csv"
    header, first, *rest = path.read_text().splitlines()
    cells, _, _ = first.rpartition(",")
    path.write_text("\n".join([header, f"{cells},2.{'0' * BEYOND_PYTHON}5", *rest]) + "\n")
    swatch = read_catalogue(folder).flowers["cornflower"].swatches[0]
    assert swatch.importance == 2 + Fraction(5, 10 ** (BEYOND_PYTHON + 1))
