"""Which tubes no mix replaces, as tables: `unmixable.csv` and `unmixable-washes.csv`."""

from collections.abc import Iterator, Mapping, Sequence

from fewtubes.comparison.likeness import HARDLY_DIFFERENT
from fewtubes.comparison.unmixable import MixedTube
from fewtubes.mixing.recipes import PARTS, STRENGTHS
from fewtubes.tables.cells import Cell, csv_text
from fewtubes.words.decimals import file_number

__all__ = ["UNMIXABLE_COLUMNS", "WASHES_COLUMNS", "unmixable_files"]

UNMIXABLE_COLUMNS = ("tube", "name", "largest", "mean", "single", "same_paint")
"""Largest and mean difference from the nearest mixes [ΔE00]; `same_paint` were left out."""

WASHES_COLUMNS = (
    "tube",
    "strength",
    "L",
    "a",
    "b",
    "match",
    *(f"{kind}_{place}" for place in range(1, len(PARTS) + 1) for kind in ("tube", "parts")),
    "mix_strength",
)
"""A row for each tube and wash strength [0–1], with the nearest recipe of others [ΔE00]."""


def unmixable_files(mixed: Sequence[MixedTube]) -> Mapping[str, str]:
    """Return the content of each file by its name, for `fewtubes.files.writing.write_all`."""
    return {
        "unmixable.csv": csv_text(UNMIXABLE_COLUMNS, _tube_rows(mixed)),
        "unmixable-washes.csv": csv_text(WASHES_COLUMNS, _wash_rows(mixed)),
    }


def _tube_rows(mixed: Sequence[MixedTube]) -> Iterator[tuple[Cell, ...]]:
    for item in mixed:
        yield (
            item.tube.id,
            item.tube.name,
            file_number(item.largest, HARDLY_DIFFERENT),
            item.mean,
            "yes" if item.largest > HARDLY_DIFFERENT else "no",
            " ".join(tube.id for tube in item.twins),
        )


def _wash_rows(mixed: Sequence[MixedTube]) -> Iterator[tuple[Cell, ...]]:
    for item in mixed:
        for strength, lab, match in zip(STRENGTHS, item.labs, item.matches, strict=False):
            recipe: list[Cell] = [None] * (2 * len(PARTS))
            recipe[0 : 2 * len(match.recipe.tubes) : 2] = match.recipe.tubes
            recipe[1 : 2 * len(match.recipe.tubes) : 2] = match.recipe.parts
            yield (
                item.tube.id,
                strength,
                *lab,
                match.difference,
                *recipe,
                match.recipe.strength,
            )
