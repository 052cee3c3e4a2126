"""The keys of a scenario's file, by the table they stand in."""

__all__ = [
    "CLASS_KEYS",
    "COLOUR_KEYS",
    "FLOWER_KEYS",
    "PICTURE_KEYS",
    "SWATCH_KEYS",
    "TOP_KEYS",
    "TUBE_LIST_KEYS",
    "WISH_KEYS",
]

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
    "class",
    "picture",
)
"""At the top of the file."""

CLASS_KEYS = ("painters", "pictures", "tubes", "pan_millilitres", "levy", "pupils")
"""Under ``[class]``."""

FLOWER_KEYS = ("name", "importance", "area_cm2", "swatch")
"""Under ``[[flower]]``."""

SWATCH_KEYS = ("name", "role", "hex", "lab", "reflectance", "importance")
"""Under ``[[flower.swatch]]``."""

COLOUR_KEYS = ("name", "hex", "lab", "reflectance", "importance", "area_cm2")
"""Under ``[[colour]]``."""

WISH_KEYS = (
    "lightfastness",
    "transparency",
    "avoid_hazards",
    "millilitres",
    "thinnest_wash",
    "most_in_mix",
    "least_coverage",
)
"""Under ``[wishes]``."""

PICTURE_KEYS = ("pictures", "waste", "least_puddle_cm2", "flower_cm2", "colour_cm2")
"""Under ``[picture]``."""
