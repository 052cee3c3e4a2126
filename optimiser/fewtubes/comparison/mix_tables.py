"""The mixes of one colour as a table."""

from collections.abc import Iterator

from fewtubes.comparison.mixes import Mixes, fades
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.words.decimals import file_number

__all__ = ["mixes_table"]

MIXES = (
    Column(
        "place", Kind.WHOLE, "from 1, the best first; what lasts before what is better but fades"
    ),
    Column("tubes", Kind.TEXT, "names, parted by semicolons; empty for bare paper"),
    Column("parts", Kind.TEXT, "brushfuls of each, in the order of the tubes, as 1:2"),
    Column("wash", Kind.SHARE, "share of a full-strength stroke [0–1]; empty for bare paper"),
    Column("match", Kind.FIGURE, "difference from the colour wanted [ΔE00]"),
    Column("covered", Kind.YES_NO, "whether that is within the tolerance"),
    Column("if_unsteady", Kind.FIGURE, "largest difference, parts and wash off by 20 % [ΔE00]"),
    Column("fades", Kind.YES_NO, "whether a tube of it fades (III or worse)"),
    Column("L", Kind.FIGURE, "CIELAB L* of the mix", behind=True),
    Column("a", Kind.FIGURE, "CIELAB a* of the mix", behind=True),
    Column("b", Kind.FIGURE, "CIELAB b* of the mix", behind=True),
)


def mixes_table(mixes: Mixes) -> Table:
    """Return the mixes of a colour: a row for each, best first."""
    return Table(MIXES, tuple(_rows(mixes)))


def _rows(mixes: Mixes) -> Iterator[tuple[Cell, ...]]:
    for place, rated in enumerate(mixes.rated, start=1):
        recipe, match = rated.match.recipe, rated.match
        tubes = [mixes.tubes[id_] for id_ in recipe.tubes]
        L, a, b = match.lab
        yield (
            place,
            "; ".join(tube.name for tube in tubes) or None,
            ":".join(f"{parts}" for parts in recipe.parts) or None,
            None if recipe.is_bare_paper else recipe.strength,
            file_number(match.difference, mixes.tolerance),
            match.difference <= mixes.tolerance,
            None if recipe.is_bare_paper else file_number(rated.if_unsteady, mixes.tolerance),
            fades(recipe, mixes.tubes),
            float(L),
            float(a),
            float(b),
        )
