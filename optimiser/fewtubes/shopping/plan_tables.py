"""A plan as tables: what to buy, how to mix, what the palette is and what it covers.

The shopping list has one row a tube and pack size and no row for the total, so that it can be
summed, sorted and filtered as it stands; the total is `Plan.cost`. By seller it is made elsewhere
(`fewtubes.shopping.list_by_seller`).
"""

from collections.abc import Iterator, Mapping
from decimal import Decimal

from fewtubes.mixing.recipes import PARTS
from fewtubes.shopping.list_by_seller import list_by_seller
from fewtubes.shopping.list_columns import TRAITS
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedSample
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.words.decimals import file_number, file_share
from fewtubes.words.matches import MATCH_LIMITS, match_words
from fewtubes.words.money import amount
from fewtubes.words.printable import printable
from fewtubes.words.recipes import BARE_PAPER_WORDS, recipe_words
from fewtubes.words.washes import strength_words

__all__ = ["RECIPE_TUBES", "flower_coverage", "palette", "recipes", "shopping_list"]

SHOPPING_LIST = (
    Column("tube", Kind.TEXT, "id of a tube to buy", behind=True),
    Column("name", Kind.TEXT, "its name"),
    Column("pigments", Kind.TEXT, "Colour Index names of its pigments, parted by blanks"),
    Column("ml", Kind.FIGURE, "content of a pack [ml]"),
    Column("packs", Kind.WHOLE, "packs of that size to buy"),
    Column("price_each", Kind.MONEY, "price of one pack, in the currency"),
    Column("price", Kind.MONEY, "price of all packs of that size, in the currency"),
    Column("currency", Kind.TEXT, "ISO 4217 code"),
    *TRAITS,
)

RECIPE_TUBES: tuple[Column, ...] = tuple(
    column
    for place in range(1, len(PARTS) + 1)
    for column in (
        Column(
            f"tube_{place}",
            Kind.TEXT,
            f"id of tube {place} of the mix; empty if it has fewer",
            behind=True,
        ),
        Column(
            f"parts_{place}",
            Kind.WHOLE,
            f"parts of tube {place}; empty if there is none",
            behind=True,
        ),
    )
)

RECIPES = (
    Column("flower", Kind.TEXT, "flower or own colour"),
    Column("swatch", Kind.TEXT, "name of the colour"),
    Column("step", Kind.YES_NO, "whether it is a step between two swatches", behind=True),
    Column("importance", Kind.SHARE, "share of all that is to be painted [0–1]", behind=True),
    Column("L", Kind.FIGURE, "CIELAB L* of the colour [0–100]", behind=True),
    Column("a", Kind.FIGURE, "CIELAB a* of the colour", behind=True),
    Column("b", Kind.FIGURE, "CIELAB b* of the colour", behind=True),
    Column("covered", Kind.YES_NO, "whether the recipe is within tolerance"),
    Column(
        "puddle",
        Kind.WHOLE,
        "number of its puddle, see puddles.csv; empty on bare paper and out of reach",
    ),
    Column("recipe", Kind.TEXT, "the recipe in words, or the nearest miss; empty without any"),
    *RECIPE_TUBES,
    Column("strength", Kind.FIGURE, "wash strength [0–1]; 0 is bare paper", behind=True),
    Column("wash", Kind.TEXT, "the wash in words"),
    Column("match", Kind.FIGURE, "difference of the mix from the colour [ΔE00]"),
    Column("match_words", Kind.TEXT, "the same in words"),
    Column(
        "match_if_unsteady",
        Kind.FIGURE,
        "largest difference when each part and the wash are off by 20 % [ΔE00]",
        behind=True,
    ),
    Column("mix_L", Kind.FIGURE, "CIELAB L* of the mix [0–100]", behind=True),
    Column("mix_a", Kind.FIGURE, "CIELAB a* of the mix", behind=True),
    Column("mix_b", Kind.FIGURE, "CIELAB b* of the mix", behind=True),
    Column("why_not", Kind.TEXT, "what keeps the colour out of reach; empty if covered"),
    Column(
        "would_be_reached_by",
        Kind.TEXT,
        "single tubes that would bring it, by name; with semicolons",
    ),
)

STAYS = Column(
    "stays_within",
    Kind.SHARE,
    "share of draws of paint and hand in which the recipe is within tolerance [0–1]",
)
"""A column of the recipes, only if it was asked how sure the answer is. Without the question
there is no such column, so that the form of the table stays as it was."""

PALETTE = (
    Column("tube", Kind.TEXT, "id of a tube, bought ones first", behind=True),
    Column("name", Kind.TEXT, "its name"),
    Column("owned", Kind.YES_NO, "whether it is owned already"),
    Column("pigments", Kind.TEXT, "Colour Index names of its pigments, parted by blanks"),
    Column("price", Kind.MONEY, "price of its packs, in the currency; 0 if owned or in a set"),
    Column("currency", Kind.TEXT, "ISO 4217 code"),
    Column("lightfastness", Kind.TEXT, "ASTM D4303 category, I to V"),
    Column("transparency", Kind.TEXT, "class of transparency at full strength"),
    Column("contrast_ratio", Kind.FIGURE, "hiding of a full-strength film [0–1]", behind=True),
    Column("hazards", Kind.TEXT, "what calls for care, parted by blanks; empty if nothing"),
    Column("mixes", Kind.WHOLE, "colours painted with the tube"),
    Column("only_it_brings", Kind.SHARE, "coverage lost without the tube, all others kept [0–1]"),
)

FLOWER_COVERAGE = (
    Column("flower", Kind.TEXT, "flower or own colour"),
    Column("importance", Kind.FIGURE, "as it was asked for, above 0"),
    Column("coverage", Kind.SHARE, "share of its importance that is covered [0–1]"),
    Column("covered", Kind.WHOLE, "its colours covered"),
    Column("colours", Kind.WHOLE, "its colours, steps between swatches included"),
)


def shopping_list(plan: Plan) -> Table:
    """Return what to buy: a row for each tube and pack size; by seller where there are any."""
    if plan.purchase.by_seller:
        return list_by_seller(plan)
    return Table(SHOPPING_LIST, tuple(_packs(plan)))


def recipes(plan: Plan) -> Table:
    """Return how to mix: a row for each colour, with its recipe."""
    rows = tuple(_recipes(plan))
    if plan.steadiness is None:
        return Table(RECIPES, rows)
    stays = map(file_share, plan.steadiness.stays)
    return Table(
        (*RECIPES, STAYS), tuple((*row, share) for row, share in zip(rows, stays, strict=True))
    )


def palette(plan: Plan) -> Table:
    """Return the tubes to paint with: a row for each, bought or owned."""
    return Table(PALETTE, tuple(_tubes(plan)))


def flower_coverage(plan: Plan) -> Table:
    """Return what is covered: a row for each flower and own colour."""
    return Table(
        FLOWER_COVERAGE,
        tuple(
            (
                flower.name,
                float(flower.importance),
                file_share(flower.coverage),
                flower.covered,
                flower.total,
            )
            for flower in plan.flowers
        ),
    )


def _packs(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    for planned in plan.bought:
        for pack in planned.packs:
            yield (
                planned.tube.id,
                planned.tube.name,
                " ".join(dict.fromkeys(planned.tube.codes)),
                float(pack.offer.ml),
                pack.count,
                Decimal(amount(pack.each)),
                Decimal(amount(pack.cost)),
                pack.offer.currency,
                planned.tube.lightfastness.name,
                planned.transparency.word,
                " ".join(planned.tube.hazards),
                planned.recipes,
                file_share(planned.only_it_brings),
            )


def _tubes(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    for planned in plan.tubes:
        yield (
            planned.tube.id,
            planned.tube.name,
            planned.owned,
            " ".join(dict.fromkeys(planned.tube.codes)),
            Decimal(amount(planned.cost)),
            plan.scenario.currency,
            planned.tube.lightfastness.name,
            planned.transparency.word,
            planned.contrast_ratio,
            " ".join(planned.tube.hazards),
            planned.recipes,
            file_share(planned.only_it_brings),
        )


def _recipes(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    total = sum(planned.sample.weight for planned in plan.samples)
    names = {planned.tube.id: printable(planned.tube.name) for planned in plan.tubes}
    numbers = {t: puddle.number for puddle in plan.mixed.mixed for t in puddle.colours}
    for t, planned in enumerate(plan.samples):
        sample = planned.sample
        yield (
            sample.flower,
            sample.name,
            sample.is_step,
            sample.weight / total,
            *map(float, sample.lab),
            planned.covered,
            numbers.get(t),
            *_recipe_cells(planned, plan.scenario.tolerance, names),
            None if planned.obstacle is None else str(planned.obstacle),
            "; ".join(remedy.tube.name for remedy in planned.remedies),
        )


def _recipe_cells(
    planned: PlannedSample, tolerance: float, names: Mapping[str, str]
) -> tuple[Cell, ...]:
    """Return tubes, parts, wash, matches and the mix; all empty without a recipe."""
    recipe = planned.recipe
    if recipe is None:
        header = [column.name for column in RECIPES]
        return (None,) * (header.index("mix_b") - header.index("puddle"))
    pairs = [*zip(recipe.tubes, recipe.parts, strict=True)]
    pairs_wide: list[Cell] = [cell for pair in pairs for cell in pair]
    blank: list[Cell] = [None] * (len(RECIPE_TUBES) - len(pairs_wide))
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
