"""For what puddles are shared, as asked on the command line."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

from fewtubes.shopping.puddles import Puddling

Run = Callable[..., Any]


def test_options_reach_the_shop(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str]
) -> None:
    for options in ((), ("--one-sitting",), ("--nearest-each",), ("--steadiest",)):
        assert run("shop", scenario, *small, *options).code == 0
    assert fake_shop.puddlings == [
        Puddling.EACH_FLOWER,
        Puddling.ONE_SITTING,
        Puddling.EACH_COLOUR,
        Puddling.EACH_COLOUR,
    ]


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (
            ("--one-sitting", "--nearest-each"),
            "--one-sitting: cannot go with --nearest-each: one asks for the fewest puddles of a"
            " sitting, the other for recipes of their own for each colour; leave one of the two",
        ),
        (("--one-sitting", "--steadiest"), "--one-sitting: cannot go with --steadiest: "),
        (
            ("--nearest-each", "--steadiest"),
            "--nearest-each: cannot go with --steadiest: one asks for the nearest recipe of each"
            " colour, the other for the steadiest; leave one of the two out.",
        ),
    ],
)
def test_two_ways_at_once_are_refused(
    run: Run,
    fake_shop: Any,
    scenario: Path,
    small: Sequence[str],
    *,
    options: tuple[str, ...],
    told: str,
) -> None:
    answer = run("shop", scenario, *small, *options)
    assert answer.code == 2
    assert told in " ".join(answer.err.split())
    assert fake_shop.questions == []
