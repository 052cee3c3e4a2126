"""Names of tubes as short as they still tell a palette's tubes apart; all names are invented."""

import pytest
from tests.report.conftest import make_tube

from fewtubes.words.short_names import short_names


@pytest.mark.parametrize(
    ("names", "short"),
    [
        (["middle yellow (arylide)", "warm red, study strength"], ["yellow", "red"]),
        (["middle yellow (arylide)", "lemon yellow"], ["middle yellow", "lemon yellow"]),
        (["blue (one)", "blue (other)"], ["blue (one)", "blue (other)"]),
        (["deep blue", "deep blue, study strength"], ["deep blue", "deep blue, study strength"]),
        (["my paint A", "number 7"], ["my paint A", "number 7"]),
        (["(nameless)", ", odd"], ["(nameless)", ", odd"]),
        (["Warm Red", "cool red (x)"], ["Warm Red", "cool red"]),
    ],
)
def test_each_is_told_apart(names: list[str], short: list[str]) -> None:
    tubes = [make_tube(f"tube-{place}", name, "PX1") for place, name in enumerate(names)]
    assert list(short_names(tubes).values()) == short
