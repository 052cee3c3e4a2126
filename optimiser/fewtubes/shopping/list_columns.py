"""What every shopping list tells of a tube behind its packs, as columns."""

from fewtubes.tables.table import Column, Kind

__all__ = ["TRAITS"]

TRAITS = (
    Column("lightfastness", Kind.TEXT, "ASTM D4303 category, I to V"),
    Column("transparency", Kind.TEXT, "class of transparency at full strength"),
    Column("hazards", Kind.TEXT, "what calls for care, parted by blanks; empty if nothing"),
    Column("mixes", Kind.WHOLE, "colours painted with the tube; repeated for each pack size"),
    Column(
        "only_it_brings",
        Kind.SHARE,
        "coverage lost without the tube, all others kept [0–1]; repeated for each pack size",
    ),
)
