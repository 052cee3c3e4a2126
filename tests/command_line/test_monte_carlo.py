"""The options about varying paint and hand: what they ask, and what they refuse."""

import csv
import json
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

from fewtubes.command_line.monte_carlo import monte_carlo_asked
from fewtubes.errors import InputError
from fewtubes.shopping.steadiness import MonteCarlo

Run = Callable[..., Any]


def asked(**options: Any) -> MonteCarlo | None:
    plain: dict[str, Any] = {
        "how_sure": False,
        "steadiest": False,
        "within": None,
        "seed": None,
        "draws": None,
    }
    return monte_carlo_asked(**{**plain, **options})


def test_nothing_is_asked_unless_it_is() -> None:
    assert asked() is None


def test_telling_looks_about_and_choosing_takes_equals_only() -> None:
    assert asked(how_sure=True) == MonteCarlo(seed=1, draws=200, within=0.01, choose=False)
    assert asked(steadiest=True) == MonteCarlo(seed=1, draws=200, within=0.0, choose=True)
    assert asked(how_sure=True, steadiest=True) == asked(steadiest=True)


def test_numbers_are_passed_on() -> None:
    told = asked(steadiest=True, within=0.02, seed=0, draws=20)
    assert told == MonteCarlo(seed=0, draws=20, within=0.02, choose=True)


@pytest.mark.parametrize(
    ("option", "value", "fault"),
    [
        ("draws", 19, "--draws: is 19; it must be from 20 to 2,000."),
        ("draws", 2001, "--draws: is 2001; it must be from 20 to 2,000."),
        ("seed", -1, "--seed: is -1; it must be from 0 to 1,000,000,000."),
        ("within", 1.5, "--within: is 1.5; it must be from 0 to 1."),
        ("within", float("nan"), "--within: is nan; it must be from 0 to 1."),
    ],
)
def test_numbers_out_of_bounds_are_refused(option: str, value: float, fault: str) -> None:
    with pytest.raises(InputError) as told:
        asked(how_sure=True, **{option: value})
    assert [str(found) for found in told.value.faults] == [fault]


def test_numbers_that_would_change_nothing_are_refused(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str]
) -> None:
    told = run("shop", scenario, *small, "--seed", 3, "--draws", 50)
    assert told.code == 2
    assert "--seed: changes nothing alone; add --how-sure or --steadiest." in told.err
    assert "--draws: changes nothing alone" in told.err
    assert fake_shop.questions == []


def test_options_reach_the_shop(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str]
) -> None:
    assert run("shop", scenario, *small).code == 0
    assert run("shop", scenario, *small, "--how-sure", "--seed", 9).code == 0
    assert run("shop", scenario, *small, "--steadiest", "--within", 0.01).code == 0
    assert fake_shop.trials == [
        None,
        MonteCarlo(seed=9),
        MonteCarlo(within=0.01, choose=True),
    ]


def test_report_and_files_of_the_real_shop_agree(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    arguments = ("shop", scenario, *small, "--tolerance", 10, "--how-sure", "--draws", 50, "--full")
    told = run(*arguments, "--out", tmp_path / "out")
    assert told.code == 0, told.err
    plan = json.loads((tmp_path / "out" / "plan.json").read_text(encoding="utf-8"))
    found = plan["steadiness"]
    assert (found["draws"], found["seed"], found["within"]) == (50, 1, 0.01)
    with (tmp_path / "out" / "recipes.csv").open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    shares = [float(row["stays_within"].removesuffix("%")) / 100 for row in rows]
    assert shares == pytest.approx(found["stays_within"])
    expected = sum(
        share * float(row["importance"].removesuffix("%")) / 100
        for share, row in zip(shares, rows, strict=True)
    )
    assert expected == pytest.approx(found["expected_coverage"], abs=1e-3)
    assert "If paint and hand vary" in told.out
    assert f"Expected coverage: {100 * found['expected_coverage']:.1f}".removesuffix(".0") in (
        told.out
    )
    again = run(*arguments)
    start = again.out.index("If paint and hand vary")
    assert again.out[start:].strip() in told.out
