"""The puddles of a plan as a table: a row for each, in the order of mixing."""

from collections.abc import Iterator

from fewtubes.mixing.recipes import PARTS
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_tables import RECIPE_TUBES
from fewtubes.shopping.puddles import Puddle
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.words.printable import printable
from fewtubes.words.recipes import mix_words
from fewtubes.words.washes import strength_words

__all__ = ["puddles"]

PUDDLES = (
    Column(
        "flower", Kind.TEXT, "flower that it is mixed for; empty if it serves the whole sitting"
    ),
    Column("puddle", Kind.WHOLE, "its number there, in the order of mixing"),
    Column("mix", Kind.TEXT, "its tubes and parts in words, before any water"),
    Column("thinned_to", Kind.TEXT, "the wash for each of its colours in words"),
    Column("colours", Kind.WHOLE, "colours painted with it"),
    *RECIPE_TUBES,
    Column(
        "from_puddle", Kind.WHOLE, "number of the earlier puddle it is made from; empty if none"
    ),
    Column("from_parts", Kind.WHOLE, "parts of that puddle, before water"),
    Column("added_tube", Kind.TEXT, "name of the tube that is added to it"),
    Column("added_parts", Kind.WHOLE, "parts of that tube"),
    Column("mix_L", Kind.FIGURE, "CIELAB L* at full strength [0–100]", behind=True),
)


def puddles(plan: Plan) -> Table:
    """Return what is mixed: a row for each puddle."""
    return Table(PUDDLES, tuple(_rows(plan)))


def _rows(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    names = {planned.tube.id: printable(planned.tube.name) for planned in plan.tubes}
    for puddle in plan.mixed.mixed:
        pairs: list[Cell] = []
        for tube, parts in zip(puddle.tubes, puddle.parts, strict=True):
            pairs += [tube, parts]
        blank: list[Cell] = [None] * (2 * (len(PARTS) - len(puddle.tubes)))
        added = puddle.addition
        yield (
            puddle.subject or None,
            puddle.number,
            mix_words(puddle.tubes, puddle.parts, names),
            _thinned(plan, puddle),
            len(puddle.colours),
            *pairs,
            *blank,
            *(
                (None,) * 4
                if added is None
                else (added.puddle, added.puddle_parts, names[added.tube], added.tube_parts)
            ),
            puddle.lightness,
        )


def _thinned(plan: Plan, puddle: Puddle) -> str:
    """Return the wash for each colour, e.g. ``petal: light wash (12 %); fold: …``."""
    told = []
    own = {colour.name for colour in plan.scenario.own_colours}
    for place in puddle.colours:
        planned = plan.samples[place]
        if planned.recipe is not None:
            sample = planned.sample
            name = sample.name if puddle.subject else f"{sample.flower} / {sample.name}"
            if puddle.own or sample.flower in own:
                name = sample.flower
            told.append(f"{printable(name)}: {strength_words(planned.recipe.strength)}")
    return "; ".join(told)
