"""The keys of a scenario's file, by the table they stand in."""

__all__ = ["COLOUR_KEYS", "FLOWER_KEYS", "SWATCH_KEYS", "TOP_KEYS", "TUBE_LIST_KEYS", "WISH_KEYS"]

TUBE_LIST_KEYS = ("owned", "must_have", "never")
"""At the top: lists of tube ids."""

TOP_KEYS = (
    "title",
    "shows",
    "currency",
    "budget",
    "most_tubes",
    "tolerance",
    "paper",
    "light",
    "prefer",
    "nearer",
    *TUBE_LIST_KEYS,
    "box",
    "prices",
    "flowers",
    "flower",
    "colour",
    "wishes",
)
"""At the top of the file."""

FLOWER_KEYS = ("name", "importance", "swatch")
"""Under ``[[flower]]``."""

SWATCH_KEYS = ("name", "role", "hex", "lab", "reflectance", "importance")
"""Under ``[[flower.swatch]]``."""

COLOUR_KEYS = ("name", "hex", "lab", "reflectance", "importance")
"""Under ``[[colour]]``."""

WISH_KEYS = (
    "lightfastness",
    "transparency",
    "avoid_hazards",
    "millilitres",
    "thinnest_wash",
    "least_coverage",
)
"""Under ``[wishes]``."""
