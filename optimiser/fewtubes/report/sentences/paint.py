"""What is said of the paint that planned pictures take."""

import math
from collections.abc import Iterator

from fewtubes.shopping.paint_plan import PaintOfTube, PaintPlan
from fewtubes.shopping.plan import Plan
from fewtubes.words.amounts import about_money, millilitres, pictures_words
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.shares import asked_percent, percents_apart

__all__ = ["pack_size_words", "paint_cells", "paint_words", "planned_words"]

ROUGH = (
    "A rough guide, right to a factor of two at best: hands, brushes and palettes differ. To be on"
    " the safe side, plan twice as many pictures."
)


def planned_words(plan: Plan) -> str:
    """Return for what paint is reckoned, in a sentence; blank where no pictures are planned."""
    paint = plan.paint
    if paint is None:
        return ""
    picture = paint.picture
    return (
        f"For {counted(picture.pictures, 'picture')}, each with every flower and colour above"
        f" once, as far as covered; {asked_percent(picture.waste)} more is mixed than painted,"
        f" and no puddle for less than {picture.least_puddle_cm2:g} cm²."
    )


def paint_words(plan: Plan) -> Iterator[str]:
    """Yield how long paint lasts, what it costs a picture, and what fewer pictures would allow."""
    paint = plan.paint
    if paint is None:
        return
    currency = plan.scenario.currency
    if any(it.lasts is not None for it in paint.tubes):
        each = money(round(paint.bought_a_picture), currency)
        if paint.picture.pictures > 1:
            bought = f"{each} a picture as bought, {money(paint.cost, currency)} in all"
        else:
            bought = f"{money(paint.cost, currency)} as bought"
        yield (
            f"What is bought lasts for {_lasting(paint.lasts, paint)} such pictures. Paint costs"
            f" {bought}, and {about_money(paint.used, currency)} a picture as used up."
        )
    fewer = paint.fewer
    if fewer is not None:
        less, more = percents_apart(plan.coverage, fewer.coverage)
        yield (
            f"For so many pictures the money buys less than it could: if any pack would do, {more}"
            f" would be covered instead of {less}, and enough of that paint can be bought"
            f" {_fewer(fewer.pictures)}."
        )
    yield ROUGH


def paint_cells(it: PaintOfTube, paint: PaintPlan) -> tuple[str, str, str, str, str]:
    """Return name, paint of a picture and of all planned, what the packs hold and last for."""
    planned = it.ml * paint.picture.pictures
    held = (it.bought_ml,) if it.bought_ml else ()
    return (
        printable(it.tube.name),
        millilitres(it.ml),
        millilitres(planned, *held),
        f"{it.bought_ml:g} ml" if it.bought_ml else "your own",
        "not known" if it.lasts is None else _pictures(it.lasts, paint),
    )


def pack_size_words(plan: Plan) -> Iterator[str]:
    """Yield for each tube bought how long every pack size lasts and what it costs a picture."""
    paint = plan.paint
    if paint is None:
        return
    currency = plan.scenario.currency
    for it in paint.tubes:
        if it.lasts is None or not it.ml:
            continue
        price: dict[float, int] = {}
        for offer in it.tube.offers:
            if offer.currency == currency:
                price[offer.ml] = min(offer.price, price.get(offer.ml, offer.price))
        told = [
            f"{ml:g} ml for {_lasting(ml / it.ml, paint)}, each"
            f" {about_money(cost * it.ml / ml, currency)}"
            for ml, cost in sorted(price.items())
        ]
        yield f"{printable(it.tube.name)}: {'; '.join(told)}."


def _lasting(pictures: float, paint: PaintPlan) -> str:
    return pictures_words(pictures, paint.picture.pictures)


def _pictures(pictures: float, paint: PaintPlan) -> str:
    words = _lasting(pictures, paint)
    return words if math.isinf(pictures) else f"{words} pictures"


def _fewer(pictures: int) -> str:
    """Return for how many pictures, e.g. ``for about 8 such pictures``."""
    if not pictures:
        return "for not one such picture"
    return f"for {joined([counted(pictures, 'such picture')])}"
