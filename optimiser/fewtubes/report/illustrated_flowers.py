"""The flowers in the illustrated report: each taken apart, with a recipe for every colour."""

import math

from fewtubes.picture.brush import Numbered, numbered
from fewtubes.picture.pair import pair_picture
from fewtubes.picture.parts import parts_picture
from fewtubes.picture.sheet import BEYOND, MISSED, shown
from fewtubes.picture.svg import svg_inline
from fewtubes.report.illustrated_basis import Basis, FlowerPart
from fewtubes.report.illustrated_html import Html, element, paragraph, together
from fewtubes.report.printable import printable
from fewtubes.report.reasons import reason_words
from fewtubes.report.words import (
    counted,
    difference,
    match_words,
    percent,
    recipe_words,
    steadiness_words,
)
from fewtubes.shopping.plan import PlannedSample

__all__ = ["flowers_section"]

LONGEST_LABEL = 100
"""Characters of a colour's name; "between A and B" needs two names' room."""


def flowers_section(basis: Basis) -> Html:
    """Return every flower with its recipes."""
    lead = paragraph(
        "Every colour of a flower gets one petal, one leaf or one part of the heart, and is painted"
        " twice, edge to edge. Looking from the base to the tip, the half left of the vein is the"
        " colour wanted; the half on the right, with the darker wet edge, is the mix. In the"
        " lists, too, wanted is left and mixed is right. The dabs count the parts, each tube at"
        " full strength; the wash says how much water follows."
    )
    signs = paragraph(
        element("b", MISSED),
        " out of reach: the nearest mix is shown.  ",
        element("b", BEYOND),
        " more vivid on paper than a screen can show.",
        class_="key",
    )
    return together(lead, signs, *(_flower(basis, part) for part in basis.flowers))


def _flower(basis: Basis, part: FlowerPart) -> Html:
    """Return one flower: its picture beside its recipes."""
    number = basis.flowers.index(part)
    coverage = next(flower for flower in basis.plan.flowers if flower.name == part.name)
    letter = f"{part.letter}. " if part.letter else ""
    title = element("h3", f"{letter}{printable(part.name)}", id=f"flower-{number}")
    share = paragraph(
        f"{coverage.covered} of {counted(coverage.total, 'colour')} covered,"
        f" {percent(coverage.coverage)} by importance; weighs {coverage.importance:g} in the"
        " choice.",
        class_="share",
    )
    drawn = Html(svg_inline(basis.split_flower(part), prefix=f"flower{number}-"))
    items = [_sample(basis, item, f"f{number}-{item.number}-") for item in numbered(part.samples)]
    return element(
        "article",
        title,
        share,
        element(
            "div",
            element("figure", drawn, class_="split"),
            element("ol", *items, class_="recipes"),
            class_="beside",
        ),
        class_="flower",
        aria_labelledby=f"flower-{number}",
    )


def _sample(basis: Basis, item: Numbered, prefix: str) -> Html:
    """Return one colour with its dab, its match and its recipe."""
    planned = item.planned
    pair = pair_picture(planned, basis.tubes, basis.optics, basis.sheet)
    name = printable(planned.sample.name, LONGEST_LABEL)
    return element(
        "li",
        element("span", f"{item.number}", class_="count"),
        element("span", Html(svg_inline(pair, prefix=prefix, spoken=False)), class_="pair"),
        element(
            "div",
            paragraph(element("b", name), *_verdict(planned, basis), class_="match"),
            *_recipe(planned, basis, prefix),
            *_beyond(planned),
        ),
        **({} if planned.covered else {"class_": "missed"}),
    )


def _verdict(planned: PlannedSample, basis: Basis) -> list[str]:
    """Return whether a colour is covered and how near the mix comes, in words and number."""
    if not math.isfinite(planned.match):
        return [f" — {MISSED} out of reach; there is no tube to mix from."]
    near = f"{match_words(planned.match)}, {difference(planned.match)}"
    if not planned.covered:
        return [f" — {MISSED} out of reach; the nearest mix is {near}."]
    tolerance = basis.plan.scenario.tolerance
    hand = ""
    if math.isfinite(planned.match_if_unsteady):
        steadiness = steadiness_words(planned.match_if_unsteady, tolerance)
        hand = f"; {steadiness}, up to {difference(planned.match_if_unsteady)} by an unsteady hand"
    stays = basis.stays(planned)
    if stays is not None:
        hand += f"; within tolerance in {percent(stays)} of trials"
    return [f" — {near}{hand}."]


def _recipe(planned: PlannedSample, basis: Basis, prefix: str) -> list[Html]:
    """Return the recipe as dabs and words, and for a missed colour why and what would bring it."""
    lines = []
    if planned.recipe is not None:
        picture = parts_picture(planned.recipe, basis.tubes, basis.optics, basis.sheet)
        dabs = Html(svg_inline(picture, prefix=f"{prefix}parts-", spoken=False))
        width = "dabs wide" if sum(planned.recipe.parts) > 5 else "dabs"
        words = recipe_words(planned.recipe, basis.names)
        lines.append(
            element("p", element("span", dabs, class_=width), f"{words}.", class_="recipe")
        )
    if not planned.covered:
        lines.append(paragraph(reason_words(planned, basis.plan.scenario), class_="reason"))
    return lines


def _beyond(planned: PlannedSample) -> list[Html]:
    """Return which half of a dab the screen cannot show."""
    wanted, mixed = shown(planned.sample.lab).inside, shown(planned.mix_lab).inside
    if wanted and mixed:
        return []
    which = "the colour wanted" if mixed else "the mix" if wanted else "both halves"
    verb = "are" if not (wanted or mixed) else "is"
    words = f"{BEYOND} {which} {verb} more vivid on paper than here."
    return [paragraph(words, class_="reason")]
