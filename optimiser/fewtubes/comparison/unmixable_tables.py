"""Which tubes no mix replaces, as tables."""

from collections.abc import Iterator, Sequence

from fewtubes.comparison.likeness import HARDLY_DIFFERENT
from fewtubes.comparison.tube_ranking import MixedTube
from fewtubes.mixing.recipes import PARTS, STRENGTHS
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.words.decimals import file_number

__all__ = ["tubes", "washes"]

TUBES = (
    Column("tube", Kind.TEXT, "id of a tube, those farthest from any mix first"),
    Column("name", Kind.TEXT, "its name"),
    Column(
        "largest",
        Kind.FIGURE,
        "largest difference from the nearest mixes [ΔE00]; empty with nothing to mix from",
    ),
    Column(
        "mean",
        Kind.FIGURE,
        "mean difference over the washes [ΔE00]; empty with nothing to mix from",
    ),
    Column("single", Kind.YES_NO, "whether no mix of others comes near it"),
    Column("same_paint", Kind.TEXT, "ids of tubes left out as the same paint, parted by blanks"),
)

WASHES = (
    Column("tube", Kind.TEXT, "id of a tube"),
    Column("strength", Kind.FIGURE, "wash strength [0–1]"),
    Column("L", Kind.FIGURE, "CIELAB L* of the wash [0–100]"),
    Column("a", Kind.FIGURE, "CIELAB a* of the wash"),
    Column("b", Kind.FIGURE, "CIELAB b* of the wash"),
    Column("match", Kind.FIGURE, "difference of the nearest mix of others [ΔE00]"),
    *(
        column
        for place in range(1, len(PARTS) + 1)
        for column in (
            Column(f"tube_{place}", Kind.TEXT, f"id of tube {place} of that mix, if it has one"),
            Column(f"parts_{place}", Kind.WHOLE, f"parts of tube {place}; empty if there is none"),
        )
    ),
    Column("mix_strength", Kind.FIGURE, "wash strength of that mix [0–1]"),
)


def tubes(mixed: Sequence[MixedTube]) -> Table:
    """Return how near mixes of the others come to each tube."""
    return Table(TUBES, tuple(_tubes(mixed)))


def washes(mixed: Sequence[MixedTube]) -> Table:
    """Return the nearest mix for each tube and wash strength."""
    return Table(WASHES, tuple(_washes(mixed)))


def _tubes(mixed: Sequence[MixedTube]) -> Iterator[tuple[Cell, ...]]:
    for item in mixed:
        yield (
            item.tube.id,
            item.tube.name,
            file_number(item.largest, HARDLY_DIFFERENT),
            item.mean,
            item.largest > HARDLY_DIFFERENT,
            " ".join(tube.id for tube in item.twins),
        )


def _washes(mixed: Sequence[MixedTube]) -> Iterator[tuple[Cell, ...]]:
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
