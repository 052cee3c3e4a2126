"""``fewtubes shop --write-program``: another solver reads the file and finds the same coverage."""

import json
import os
import re
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import highspy
import pytest

Run = Callable[..., Any]

HEAD = re.compile(r"Coverage = \(objective \+ (\d+)\) / (\d+);")


def optimum(path: Path) -> float:
    """Return the best objective of the program in a file, as HiGHS reads and solves it."""
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    assert solver.readModel(str(path)) == highspy.HighsStatus.kOk
    solver.run()
    assert solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return float(solver.getInfo().objective_function_value)


@pytest.mark.parametrize("more", [(), ("--owned", "lemon"), ("--must-have", "deep-blue")])
def test_its_optimum_is_the_proven_coverage(
    run: Run,
    scenario: Path,
    small: Sequence[str],
    tmp_path: Path,
    more: Sequence[str],
) -> None:
    program, out = tmp_path / "asked" / "choice.LP", tmp_path / "out"
    asked = ("shop", scenario, *small, "--tolerance", 10, "--flower", "primrose", *more)
    told = run(*asked, "--flower", "cornflower", "--write-program", program, "--out", out)
    assert told.code == 0, told.err
    assert f"Written: '{program}', the integer program." in told.out
    plan = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    assert plan["certificate"]["status"] == "proven best"
    head = HEAD.search(program.read_text(encoding="utf-8"))
    assert head is not None
    free, total = map(int, head.groups())
    coverage = (optimum(program) + free) / total
    assert 0 < coverage <= 1
    assert coverage == pytest.approx(plan["coverage"], abs=1e-6)


def test_it_reads_well(run: Run, scenario: Path, small: Sequence[str], tmp_path: Path) -> None:
    program = tmp_path / "choice.lp"
    assert run("shop", scenario, *small, "--write-program", program).code == 0
    text = program.read_text(encoding="utf-8")
    assert "\\ Prices and budget: hundredths of EUR.\n" in text
    assert "\\   deep_blue: Deep blue\n" in text
    assert "\\   cornflower_heart: cornflower / heart\n" in text
    assert re.search(r"^budget: .*\bbuy_deep_blue\b", text, re.MULTILINE)
    assert "<= 1250\n" in text  # EUR 12.50, of the scenario


def test_two_runs_give_the_same_bytes(
    scenario: Path, small: Sequence[str], tmp_path: Path, cache_folder: Path
) -> None:
    """Whatever order the hashes of a run give to sets."""
    written = []
    for seed in ("1", "2"):
        program = tmp_path / f"{seed}.lp"
        subprocess.run(  # noqa: S603  # this very interpreter
            [
                *(sys.executable, "-m", "fewtubes", "shop", str(scenario), *small),
                *("--write-program", str(program)),
            ],
            env={**os.environ, "FEWTUBES_CACHE": str(cache_folder), "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        )
        written.append(program.read_bytes())
    assert written[0] == written[1]


@pytest.mark.parametrize(
    ("name", "said"), [("choice.mps", "the ending .mps"), ("choice", "no ending")]
)
def test_another_ending_is_refused_before_anything_is_computed(
    run: Run,
    scenario: Path,
    small: Sequence[str],
    tmp_path: Path,
    fake_shop: Any,
    *,
    name: str,
    said: str,
) -> None:
    told = run("shop", scenario, *small, "--write-program", tmp_path / name)
    assert (told.code, told.err.strip()) == (
        2,
        f"--write-program: '{tmp_path / name}' has {said}; the program is in the LP format, so its"
        " name must end in .lp.",
    )
    assert not fake_shop.questions


def test_where_it_cannot_be_written_nothing_is(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path, fake_shop: Any
) -> None:
    (tmp_path / "choice.lp").mkdir()
    told = run(
        *("shop", scenario, *small, "--write-program", tmp_path / "choice.lp"),
        *("--out", tmp_path / "out"),
    )
    assert told.code == 2
    assert "there is a folder of that name" in told.err
    assert "A window box" in told.out  # the report is not lost
    assert not (tmp_path / "out").exists()


def test_the_plan_names_its_digest(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path, fake_shop: Any
) -> None:
    out = tmp_path / "out"
    told = run("shop", scenario, *small, "--write-program", out / "choice.lp", "--out", out)
    assert told.code == 0, told.err
    named = json.loads((out / "plan.json").read_text(encoding="utf-8"))["fellow_files_sha256"]
    assert set(named) == {"choice.lp", "puddles.csv", "recipes.csv", "shopping-list.csv"}
