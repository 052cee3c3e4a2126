"""Which tubes no mix replaces, as tables."""

from collections.abc import Iterator, Sequence

from fewtubes.comparison.tube_ranking import MixedTube, families_of
from fewtubes.mixing.likeness import HARDLY_DIFFERENT, NEAR
from fewtubes.mixing.recipes import PARTS, STRENGTHS
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.words.decimals import file_number
from fewtubes.words.printable import printable
from fewtubes.words.recipes import recipe_words

__all__ = ["tubes", "washes"]

TUBES = (
    Column("tube", Kind.TEXT, "id of a tube, the family farthest from any mix first", behind=True),
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
    Column("family", Kind.TEXT, "names of the other tubes of its family; with semicolons"),
    Column(
        "family_largest",
        Kind.FIGURE,
        "nothing else comes nearer to any of the family [ΔE00]; empty with nothing to mix from",
    ),
    Column("single", Kind.YES_NO, "whether nothing but its family comes near it"),
    Column(
        "over_black",
        Kind.FIGURE,
        "where it hardly shows on paper: difference of the nearest mix over black [ΔE00]",
    ),
    Column("hue", Kind.TEXT, "its hue in a plain word; empty for white, grey, black and brown"),
    Column(
        "other_hues_largest",
        Kind.FIGURE,
        "largest difference from the nearest mixes of other hues [ΔE00]; empty without",
    ),
)

WASHES = (
    Column("tube", Kind.TEXT, "id of a tube", behind=True),
    Column("name", Kind.TEXT, "its name"),
    Column("strength", Kind.FIGURE, "wash strength [0–1]"),
    Column("L", Kind.FIGURE, "CIELAB L* of the wash [0–100]", behind=True),
    Column("a", Kind.FIGURE, "CIELAB a* of the wash", behind=True),
    Column("b", Kind.FIGURE, "CIELAB b* of the wash", behind=True),
    Column("match", Kind.FIGURE, "difference of the nearest mix of others [ΔE00]"),
    Column("mix", Kind.TEXT, "that mix in words"),
    *(
        column
        for place in range(1, len(PARTS) + 1)
        for column in (
            Column(
                f"tube_{place}",
                Kind.TEXT,
                f"id of tube {place} of that mix, if it has one",
                behind=True,
            ),
            Column(
                f"parts_{place}",
                Kind.WHOLE,
                f"parts of tube {place}; empty if there is none",
                behind=True,
            ),
        )
    ),
    Column("mix_strength", Kind.FIGURE, "wash strength of that mix [0–1]", behind=True),
)


def tubes(mixed: Sequence[MixedTube]) -> Table:
    """Return how near mixes of the others come to each tube."""
    return Table(TUBES, tuple(_tubes(mixed)))


def washes(mixed: Sequence[MixedTube]) -> Table:
    """Return the nearest mix for each tube and wash strength."""
    return Table(WASHES, tuple(_washes(mixed)))


def _tubes(mixed: Sequence[MixedTube]) -> Iterator[tuple[Cell, ...]]:
    for family in families_of(mixed):
        for item in family.members:
            yield (
                item.tube.id,
                item.tube.name,
                file_number(item.largest, HARDLY_DIFFERENT, NEAR),
                item.mean,
                "; ".join(tube.name for tube in item.family),
                file_number(family.least, HARDLY_DIFFERENT, NEAR),
                family.single,
                None if item.over_black is None else item.over_black.difference,
                item.hue,
                file_number(item.other_hues, NEAR) if item.hue else None,
            )


def _washes(mixed: Sequence[MixedTube]) -> Iterator[tuple[Cell, ...]]:
    known = [tube for item in mixed for tube in (item.tube, *item.family)]
    names = {tube.id: printable(tube.name) for tube in known}
    for item in mixed:
        for strength, lab, match in zip(STRENGTHS, item.labs, item.matches, strict=False):
            recipe: list[Cell] = [None] * (2 * len(PARTS))
            recipe[0 : 2 * len(match.recipe.tubes) : 2] = match.recipe.tubes
            recipe[1 : 2 * len(match.recipe.tubes) : 2] = match.recipe.parts
            yield (
                item.tube.id,
                item.tube.name,
                strength,
                *lab,
                match.difference,
                recipe_words(match.recipe, names),
                *recipe,
                match.recipe.strength,
            )
