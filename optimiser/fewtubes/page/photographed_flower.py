"""Rows for a flower, from the colours of its photograph: names and roles that can be changed."""

import math
from collections.abc import Sequence

from fewtubes.catalogue.records import Role
from fewtubes.colour.flower_colours import Depth, FlowerColour
from fewtubes.colour.picture_parts import Standing
from fewtubes.colour.plain_names import colour_name
from fewtubes.page.own_flowers import MOST_ROWS, FlowerRow
from fewtubes.words.counting import counted

__all__ = ["photographed_rows", "photographed_words"]

GREEN_HUES = (100.0, 190.0)
"""Hue angles of leaves [degrees]; yellow petals lie below."""

GREEN_CHROMA = 8.0
"""Below it nothing is called green [C*]."""

PETAL_SHARE = 0.25
"""A further part that is no leaf is a petal too if it is so large beside the first one [0–1];
a smaller one is the centre. Our own."""

PETAL = {
    Depth.LIGHTEST: (Role.PETAL_LIGHT, "light edge"),
    Depth.BODY: (Role.PETAL, "petal"),
    Depth.DEEPEST: (Role.PETAL_SHADE, "deep base"),
}
LEAF = {
    Depth.LIGHTEST: (Role.LEAF, "light leaf"),
    Depth.BODY: (Role.LEAF, "leaf"),
    Depth.DEEPEST: (Role.LEAF_SHADE, "leaf shadow"),
}
CENTRE = {
    Depth.LIGHTEST: (Role.CENTRE, "light centre"),
    Depth.BODY: (Role.CENTRE, "centre"),
    Depth.DEEPEST: (Role.CENTRE, "dark centre"),
}


def photographed_rows(found: Sequence[FlowerColour]) -> tuple[FlowerRow, ...]:
    """Return a row for each colour; those of the flower are ticked, those behind it are not.

    What is perhaps background is ticked only where nothing else could be the flower.
    """
    behind = Standing.BACKGROUND
    bodies = [one for one in found if one.depth is Depth.BODY and one.standing is not behind]
    petals = _petals(bodies)
    greens = {one.part for one in bodies if _is_green(one)}
    any_flower = any(one.standing is Standing.FLOWER for one in found)
    rows: list[FlowerRow] = []
    names: set[str] = set()
    for one in found[:MOST_ROWS]:
        kinds = PETAL if one.part in petals else LEAF if one.part in greens else CENTRE
        role, name = kinds[one.depth]
        if one.standing is behind:
            role, name = Role.LEAF if _is_green(one) else Role.PETAL, "background"
        elif len(petals) > 1 and one.part in petals:
            name = f"{_hue_word(bodies, one.part)} {name}"
        if one.standing is Standing.UNSURE:
            name = f"{name}, perhaps background"
        name = _free(name, names)
        names.add(name)
        taken = one.standing is Standing.FLOWER or (one.standing is not behind and not any_flower)
        rows.append(FlowerRow(name, one.hex, role.value, taken=taken))
    return tuple(rows)


def photographed_words(found: Sequence[FlowerColour]) -> str:
    """Return how many colours were found, what is left out, and what the painter may change."""
    behind = sum(one.standing is Standing.BACKGROUND for one in found)
    unsure = any(one.standing is Standing.UNSURE for one in found)
    left = f", {counted(behind, 'colour')} of the background not ticked" if behind else ""
    doubt = " What is perhaps background is called so: tick it if it is not." if unsure else ""
    return (
        f"{counted(len(found), 'colour')} found{left}.{doubt}"
        " Change names, parts and ticks as you like; a photograph is not a measurement."
    )


def _petals(bodies: Sequence[FlowerColour]) -> frozenset[int]:
    """Return the parts that are petals: the largest that is no leaf, and others nearly as large."""
    sure = [one for one in bodies if one.standing is Standing.FLOWER] or bodies
    others = [one for one in sure if not _is_green(one)]
    largest = max((one.share for one in others), default=0.0)
    return frozenset(one.part for one in others if one.share >= PETAL_SHARE * largest)


def _is_green(one: FlowerColour) -> bool:
    _, a, b = one.lab
    hue = math.degrees(math.atan2(b, a)) % 360
    return GREEN_HUES[0] <= hue <= GREEN_HUES[1] and math.hypot(a, b) >= GREEN_CHROMA


def _hue_word(bodies: Sequence[FlowerColour], part: int) -> str:
    return next(colour_name(one.lab) for one in bodies if one.part == part)


def _free(name: str, names: set[str]) -> str:
    numbered = (f"{name} {number}" for number in range(2, MOST_ROWS + 2))
    return name if name not in names else next(one for one in numbered if one not in names)
