"""`recipes.csv`: one row a sample colour, with the recipe that comes nearest."""

from collections.abc import Iterator, Mapping

from fewtubes.shopping.plan import Plan, PlannedSample
from fewtubes.tables.cells import Cell, csv_text
from fewtubes.words.decimals import file_number, file_share
from fewtubes.words.matches import MATCH_LIMITS, match_words
from fewtubes.words.printable import printable
from fewtubes.words.recipes import BARE_PAPER_WORDS, recipe_words
from fewtubes.words.washes import strength_words

__all__ = ["MOST_TUBES_IN_RECIPE", "RECIPES_COLUMNS", "STAYS_COLUMN", "recipes_table"]

MOST_TUBES_IN_RECIPE = 3
"""By the recipe space."""

TUBE_COLUMNS = tuple(
    column
    for place in range(1, MOST_TUBES_IN_RECIPE + 1)
    for column in (f"tube_{place}", f"parts_{place}")
)

RECIPES_COLUMNS = (
    "flower",
    "swatch",
    "step",
    "importance",
    "L",
    "a",
    "b",
    "covered",
    "recipe",
    *TUBE_COLUMNS,
    "strength",
    "wash",
    "match",
    "match_words",
    "match_if_unsteady",
    "mix_L",
    "mix_a",
    "mix_b",
    "why_not",
    "would_be_reached_by",
)
"""`importance` is a share of all that is to be painted [0–1]; `strength` [0–1]; matches in ΔE00.

`step` and `covered` are yes or no; `recipe` is what follows, in words; that of a row that is not
covered is the nearest miss, and one without tubes, at strength 0, is bare paper;
`would_be_reached_by` lists single tubes by id.
"""

STAYS_COLUMN = "stays_within"
"""Last column, only if it was asked how sure the answer is: the share of draws of paint and hand in
which the recipe is within tolerance [0–1]. Without the question the table has no such column, so
that its form stays as it was.
"""


def recipes_table(plan: Plan) -> str:
    """Return the recipes as CSV text."""
    steadiness = plan.steadiness
    if steadiness is None:
        return csv_text(RECIPES_COLUMNS, _rows(plan))
    rows = zip(_rows(plan), steadiness.stays, strict=True)
    return csv_text(
        (*RECIPES_COLUMNS, STAYS_COLUMN), ((*row, file_share(stays)) for row, stays in rows)
    )


def _rows(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    total = sum(planned.sample.weight for planned in plan.samples)
    names = {planned.tube.id: printable(planned.tube.name) for planned in plan.tubes}
    for planned in plan.samples:
        sample = planned.sample
        yield (
            sample.flower,
            sample.name,
            _yes_no(sample.is_step),
            sample.weight / total,
            *map(float, sample.lab),
            _yes_no(planned.covered),
            *_recipe_cells(planned, plan.scenario.tolerance, names),
            None if planned.obstacle is None else str(planned.obstacle),
            " ".join(remedy.tube.id for remedy in planned.remedies),
        )


def _recipe_cells(
    planned: PlannedSample, tolerance: float, names: Mapping[str, str]
) -> tuple[Cell, ...]:
    """Return tubes, parts, wash, matches and the mix; all empty without a recipe."""
    recipe = planned.recipe
    if recipe is None:
        return (None,) * (RECIPES_COLUMNS.index("mix_b") - RECIPES_COLUMNS.index("covered"))
    pairs = [*zip(recipe.tubes, recipe.parts, strict=True)]
    pairs_wide: list[Cell] = [cell for pair in pairs for cell in pair]
    blank: list[Cell] = [None] * (len(TUBE_COLUMNS) - len(pairs_wide))
    return (
        recipe_words(recipe, names),
        *pairs_wide,
        *blank,
        recipe.strength,
        BARE_PAPER_WORDS if recipe.is_bare_paper else strength_words(recipe.strength),
        file_number(planned.match, *MATCH_LIMITS, tolerance),
        match_words(planned.match),
        file_number(planned.match_if_unsteady, tolerance),
        *map(float, planned.mix_lab),
    )


def _yes_no(value: bool) -> str:
    return "yes" if value else "no"
