"""The paint that planned pictures take, as values that JSON knows.

Amounts are told to two significant figures, and known less well than that; prices that follow from
them, under ``used_a_picture``, likewise.
"""

import math

from fewtubes.shopping.paint_plan import PaintOfTube, PaintPlan
from fewtubes.words.amounts import file_amount, file_price
from fewtubes.words.decimals import file_share
from fewtubes.words.money import amount
from fewtubes.words.printable import printable

__all__ = ["paint_values"]


def paint_values(paint: PaintPlan | None) -> dict[str, object] | None:
    """Return the paint of a plan; None where no pictures are planned."""
    if paint is None:
        return None
    fewer = paint.fewer
    return {
        "pictures": paint.picture.pictures,
        "waste": paint.picture.waste,
        "least_puddle_cm2": paint.picture.least_puddle_cm2,
        "flower_cm2": paint.picture.flower_cm2,
        "colour_cm2": paint.picture.colour_cm2,
        "tubes": [_tube(it, paint) for it in paint.tubes],
        "lasts": _pictures(paint.lasts),
        "bought_a_picture": amount(round(paint.bought_a_picture)),
        "bought": amount(paint.cost),
        "used_a_picture": str(file_price(paint.used)),
        "fewer": None
        if fewer is None
        else {"coverage": file_share(fewer.coverage), "pictures": fewer.pictures},
    }


def _tube(it: PaintOfTube, paint: PaintPlan) -> dict[str, object]:
    return {
        "id": printable(it.tube.id),
        "ml_a_picture": file_amount(it.ml),
        "ml_planned": file_amount(it.ml * paint.picture.pictures),
        "ml_bought": it.bought_ml,
        "lasts": _pictures(it.lasts),
        "used_a_picture": str(file_price(it.used)),
        "cm2_per_ml": file_amount(it.cm2_per_ml) if it.guessed else it.cm2_per_ml,
        "cm2_per_ml_guessed": it.guessed,
    }


def _pictures(pictures: float | None) -> float | None:
    """Return for how many pictures paint lasts; None where that is not known or without end."""
    return None if pictures is None or math.isinf(pictures) else file_amount(pictures)
