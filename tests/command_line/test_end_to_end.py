"""``fewtubes shop`` with the real shop on the small catalogue: the files agree with each other."""

import csv
import json
import subprocess
import sys
from collections.abc import Callable, Sequence
from decimal import Decimal
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.colour.difference import delta_e_2000
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.mixing.matching import recipe_lab
from fewtubes.mixing.recipes import Recipe

pytest.importorskip("fewtubes.shopping.shop", reason="the shop is not there yet")

Run = Callable[..., Any]


def rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def test_files_agree_with_each_other_and_with_the_film(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path, cache_folder: Path
) -> None:
    out = tmp_path / "out"
    told = run("shop", scenario, *small, "--tolerance", 12, "--out", out, "--all")
    assert told.code == 0, told.err
    plan = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    bought = rows(out / "shopping-list.csv")
    assert sum(Decimal(row["price"]) for row in bought) == Decimal(plan["cost"]) <= Decimal("12.5")
    assert {row["tube"] for row in bought} == {t["id"] for t in plan["tubes"] if not t["owned"]}

    catalogue = read_catalogue(Path(small[1]))
    optics = optics_for(catalogue, "plain", "E", Cache(cache_folder))
    recipes = rows(out / "recipes.csv")
    assert len(recipes) == len(plan["samples"])
    for row in recipes:
        places = [place for place in "123" if row[f"tube_{place}"]]
        recipe = Recipe(
            tuple(row[f"tube_{place}"] for place in places),
            tuple(int(row[f"parts_{place}"]) for place in places),
            float(row["strength"]),
        )
        lab = recipe_lab(recipe, catalogue.tubes, optics)
        wanted = np.array([float(row[axis]) for axis in ("L", "a", "b")])
        match = float(delta_e_2000(lab, wanted))
        # The strength is rounded to four decimals in the table.
        assert match == pytest.approx(float(row["match"]), abs=0.02)
        assert (row["covered"] == "yes") == (match <= 12)
    covered = sum(
        float(row["importance"].removesuffix("%")) / 100
        for row in recipes
        if row["covered"] == "yes"
    )
    assert covered == pytest.approx(plan["coverage"], abs=1e-3)


def test_the_tables_are_written_without_pandas(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    """Importing pandas takes some tenths of a second, and only frames need it."""
    arguments = ["shop", str(scenario), *small, "--out", str(tmp_path / "out")]
    assert run(*arguments).code == 0  # what is looked up once, with other packages, is kept
    code = (
        "import sys\nfrom fewtubes.command_line.main import app\n"
        f"app({arguments}, standalone_mode=False)\n"
        "print(*sys.modules, file=sys.stderr)"
    )
    told = subprocess.run(  # noqa: S603  # this very interpreter
        [sys.executable, "-c", code], capture_output=True, encoding="utf-8", check=True
    )
    loaded = set(told.stderr.split())
    assert "fewtubes.tables.table" in loaded
    assert "pandas" not in loaded


def test_a_grey_that_a_recipe_reaches_is_covered(
    run: Run, tmp_path: Path, few_tubes: Callable[..., Path]
) -> None:
    """At a tolerance of 18 the words of the recipe and the claim of the proof must agree.

    The first grey lies 17.7 from a wash of coral and ultramarine, where the slope of the difference
    between neighbouring cubes of CIELAB misleads.
    """
    rng = np.random.default_rng(25)
    greys = np.stack([rng.uniform(30, 90, 40), *rng.normal(0, 1, (2, 40))], axis=-1)
    greys[0] = [34.639428922944035, -1.776633025684182, -0.20061995515134984]
    colours = "".join(
        f'[[colour]]\nname = "grey {number}"\nlab = {lab}\n'
        for number, lab in enumerate(greys.tolist())
    )
    scenario = tmp_path / "greys.toml"
    scenario.write_text(
        'title = "greys"\ncurrency = "EUR"\nbudget = 1.00\ntolerance = 18\n'
        f'owned = ["coral", "ultramarine"]\n{colours}',
        encoding="utf-8",
    )
    catalogue = few_tubes("coral", "ultramarine")
    out = tmp_path / "out"
    told = run("shop", scenario, "--catalogue", catalogue, "--out", out)
    assert told.code == 0, told.err
    recipes = rows(out / "recipes.csv")
    assert len(recipes) == len(greys)
    for row in recipes:
        assert (row["covered"] == "yes") == (float(row["match"]) <= 18), row
    assert recipes[0]["covered"] == "yes"
