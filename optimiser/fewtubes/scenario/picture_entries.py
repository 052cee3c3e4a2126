"""What a scenario's file says of pictures planned: ``[picture]``, and the areas of flowers."""

from typing import Any

from fewtubes.scenario.class_wish import ClassWish, pictures_clash
from fewtubes.scenario.entries import Entries
from fewtubes.scenario.keys import PICTURE_KEYS, TOP_KEYS
from fewtubes.scenario.picture_wish import AREA_CM2, PICTURE_NUMBERS

__all__ = ["area_value", "picture_values"]


def picture_values(top: Entries, group: ClassWish | None) -> dict[str, Any] | None:
    """Return what the pictures planned are made of (see `PictureWish`); None if none are.

    Parameters
    ----------
    top
        The file's top level.
    group
        The class that paints, which says how many pictures there are; None if none does.
    """
    if "picture" not in top.values:
        return None
    asked = top.table("picture")
    asked.check_keys(PICTURE_KEYS, elsewhere=TOP_KEYS)
    found: dict[str, Any] = {
        key: asked.number(key, PICTURE_NUMBERS[key])
        for key in PICTURE_KEYS
        if key in asked.values and key != "pictures"
    }
    pictures = asked.whole("pictures", PICTURE_NUMBERS["pictures"])
    clash = None if group is None or pictures is None else pictures_clash(pictures, group)
    if clash:
        asked.note("pictures", clash)
    return found if pictures is None else {**found, "pictures": pictures}


def area_value(entries: Entries) -> dict[str, float]:
    """Return the painted area of a flower or own colour [cm²] under its key, if it is said."""
    said = "area_cm2" in entries.values
    return {"area_cm2": entries.number("area_cm2", AREA_CM2)} if said else {}
