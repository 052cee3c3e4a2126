"""The flowers in the illustrated report: each taken apart, with a recipe for every colour."""

import math
from collections.abc import Sequence

from fewtubes.picture.brush import numbered
from fewtubes.picture.pair import pair_picture
from fewtubes.picture.parts import parts_picture
from fewtubes.picture.sheet import BEYOND, MISSED, shown
from fewtubes.picture.svg import svg_inline
from fewtubes.report.illustrated.basis import Basis, FlowerPart
from fewtubes.report.illustrated.html import Html, element, paragraph, together
from fewtubes.report.sentences.reasons import bare_paper_words, reason_words
from fewtubes.shopping.plan import PlannedSample
from fewtubes.words.counting import counted
from fewtubes.words.matches import difference, match_words
from fewtubes.words.printable import printable
from fewtubes.words.recipes import PARTS_WORDS, RESERVE_WORDS, recipe_words
from fewtubes.words.shares import percent
from fewtubes.words.unsteady import steadiness_words, unsteady_figure

__all__ = ["flowers_section"]

LONGEST_LABEL = 100
"""Characters of a colour's name; "between A and B" needs two names' room."""


def flowers_section(basis: Basis) -> Html:
    """Return every flower with its recipes."""
    how = paragraph(
        "Every colour of a flower gets one petal, one leaf or one part of the heart, and is painted"
        " twice, edge to edge. Looking from the base to the tip, the half left of the vein is the"
        " colour wanted; the half on the right, with the darker wet edge, is the mix, or with a"
        " dashed edge the paper left bare. In the lists, too, wanted is left and mixed is right."
    )
    short = paragraph("Of every dab the left half is the colour wanted, the right half the mix.")
    parts = paragraph(
        f"The dabs count the parts. {PARTS_WORDS} The wash says how much water follows."
        f"{_reserved(basis)}"
    )
    signs = paragraph(
        element("b", MISSED),
        f" out of reach: {_missed_words(basis)}.  ",
        element("b", BEYOND),
        " more vivid on paper than a screen can show.",
        class_="key",
    )
    own = {colour.name for colour in basis.plan.scenario.own_colours}
    flowers = [part for part in basis.flowers if part.name not in own]
    colours = [part for part in basis.flowers if part.name in own]
    articles = [_flower(basis, part) for part in flowers]
    if colours:
        articles.append(_own_colours(basis, colours))
    return together(how if flowers else short, parts, signs, *articles)


def _missed_words(basis: Basis) -> str:
    """Return what is shown of the mix for a colour out of reach."""
    return "the nearest mix is shown" if basis.plan.tubes else "there is no tube to mix from"


def _reserved(basis: Basis) -> str:
    """Return what bare paper means, where a recipe says so."""
    return f" {RESERVE_WORDS}" if any(one.is_bare_paper for one in basis.plan.samples) else ""


def _own_colours(basis: Basis, parts: Sequence[FlowerPart]) -> Html:
    """Return the painter's own colours, one below the other."""
    samples = [(part, planned) for part in parts for planned in part.samples]
    covered = sum(planned.covered for _, planned in samples)
    items = [
        _sample(
            basis,
            planned,
            f"own{number}-",
            mark=part.letter,
            name=f"{printable(part.name, LONGEST_LABEL)}{_weighs(basis, part)}",
        )
        for number, (part, planned) in enumerate(samples)
    ]
    return element(
        "article",
        element("h3", "Colours of your own", id="own-colours"),
        paragraph(f"{covered} of {counted(len(samples), 'colour')} covered.", class_="share"),
        element("div", element("ol", *items, class_="recipes"), class_="beside"),
        class_="flower",
        aria_labelledby="own-colours",
    )


def _weighs(basis: Basis, part: FlowerPart) -> str:
    """Return the importance of a colour, where it is not the usual one."""
    importance = next(item for item in basis.plan.flowers if item.name == part.name).importance
    return "" if importance == 1 else f" (weighs {float(importance):g})"


def _flower(basis: Basis, part: FlowerPart) -> Html:
    """Return one flower: its picture beside its recipes."""
    number = basis.flowers.index(part)
    coverage = next(flower for flower in basis.plan.flowers if flower.name == part.name)
    letter = f"{part.letter}. " if part.letter else ""
    title = element("h3", f"{letter}{printable(part.name)}", id=f"flower-{number}")
    share = paragraph(
        f"{coverage.covered} of {counted(coverage.total, 'colour')} covered,"
        f" {percent(coverage.coverage)} by importance; weighs {float(coverage.importance):g} in the"
        " choice.",
        class_="share",
    )
    drawn = Html(svg_inline(basis.split_flower(part), prefix=f"flower{number}-"))
    items = [
        _sample(
            basis,
            item.planned,
            f"f{number}-{item.number}-",
            mark=f"{item.number}",
            name=printable(item.planned.sample.name, LONGEST_LABEL),
        )
        for item in numbered(part.samples)
    ]
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


def _sample(basis: Basis, planned: PlannedSample, prefix: str, *, mark: str, name: str) -> Html:
    """Return one colour with its sign in the picture, its dab, its match and its recipe."""
    pair = pair_picture(planned, basis.tubes, basis.optics, basis.sheet)
    return element(
        "li",
        element("span", mark, class_="count"),
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
    tolerance = basis.plan.scenario.tolerance
    near = f"{match_words(planned.match)}, {difference(planned.match, tolerance)}"
    if not planned.covered:
        what = "bare paper" if planned.is_bare_paper else "the nearest mix"
        return [f" — {MISSED} out of reach; {what} is {near}."]
    hand = ""
    if math.isfinite(planned.match_if_unsteady) and not planned.is_bare_paper:
        steadiness = steadiness_words(planned.match_if_unsteady, tolerance)
        figure = unsteady_figure(planned.match_if_unsteady, tolerance)
        hand = f"; {steadiness}, up to ΔE00 {figure} by an unsteady hand"
    stays = basis.stays(planned)
    if stays is not None:
        hand += f"; within tolerance in {percent(stays)} of trials"
    return [f" — {near}{hand}."]


def _recipe(planned: PlannedSample, basis: Basis, prefix: str) -> list[Html]:
    """Return the recipe as dabs and words, and for a missed colour why and what would bring it."""
    lines = []
    if planned.recipe is not None and planned.is_bare_paper:
        lines.append(paragraph(f"{recipe_words(planned.recipe, basis.names)}.", class_="recipe"))
    elif planned.recipe is not None:
        picture = parts_picture(planned.recipe, basis.tubes, basis.optics, basis.sheet)
        dabs = Html(svg_inline(picture, prefix=f"{prefix}parts-", spoken=False))
        width = "dabs wide" if sum(planned.recipe.parts) > 5 else "dabs"
        words = recipe_words(planned.recipe, basis.names)
        lines.append(
            element("p", element("span", dabs, class_=width), f"{words}.", class_="recipe")
        )
    if not planned.covered:
        lines.append(paragraph(reason_words(planned, basis.plan.scenario), class_="reason"))
    bare = bare_paper_words(planned, basis.plan.scenario)
    if bare:
        lines.append(paragraph(bare, class_="reason"))
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
