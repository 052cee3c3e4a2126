"""Make a wide catalogue from the demo profiles, for measuring how time grows.

    python tests/benchmarks/wide_catalogue.py FOLDER --tubes 240 --seed 1

Every tube beyond the demo's own is one of two pigments of the demo in drawn shares and strength, or
one pigment in another strength, at a drawn price. Invented, like the demo itself.
"""

import argparse
import csv
import random
import shutil
from pathlib import Path

from fewtubes.catalogue.location import demo_catalogue_folder

__all__ = ["make_wide_catalogue"]


def make_wide_catalogue(folder: Path, *, tubes: int, seed: int) -> None:
    """Write a catalogue of so many tubes into a new folder."""
    demo = demo_catalogue_folder()
    folder.mkdir(parents=True)
    for table in demo.glob("*.csv"):
        shutil.copy(table, folder / table.name)
    rng = random.Random(seed)  # noqa: S311  # no secrets are drawn
    with (demo / "tubes.csv").open(encoding="utf-8", newline="") as file:
        known = list(csv.DictReader(file))
    with (demo / "pigments.csv").open(encoding="utf-8", newline="") as file:
        pigments = [row["pigment"] for row in csv.DictReader(file)]
    if tubes < len(known):
        _keep(folder, {row["tube"] for row in rng.sample(known, tubes)})
        return
    for number in range(tubes - len(known)):
        id_ = f"drawn-{number + 1}"
        share = rng.choice((1.0, 0.8, 0.65, 0.5))
        parts = rng.sample(pigments, 1 if share == 1.0 else 2)
        strength = rng.choice((0.5, 0.7, 1.0, 1.3))
        _append(folder / "tubes.csv", [id_, f"drawn tube {number + 1}", f"{strength}", ""])
        for pigment, part in zip(parts, (share, round(1 - share, 2)), strict=False):
            _append(folder / "tube_pigments.csv", [id_, pigment, f"{part}"])
        _append(folder / "offers.csv", [id_, "5", f"{rng.uniform(1.8, 9.5):.2f}", "EUR"])


def _append(table: Path, row: list[str]) -> None:
    """Add a row to a table."""
    with table.open("a", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerow(row)


def _keep(folder: Path, ids: set[str]) -> None:
    """Drop all other tubes."""
    for name in ("tubes.csv", "tube_pigments.csv", "offers.csv"):
        table = folder / name
        with table.open(encoding="utf-8", newline="") as file:
            header, *rows = csv.reader(file)
        with table.open("w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file, lineterminator="\n")
            writer.writerow(header)
            writer.writerows(row for row in rows if row[header.index("tube")] in ids)


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--tubes", type=int, default=240)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    make_wide_catalogue(given.folder, tubes=given.tubes, seed=given.seed)
