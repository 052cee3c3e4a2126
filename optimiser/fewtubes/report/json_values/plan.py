"""`plan.json`: the whole answer for other programs.

Schema 1. Prices are decimal numbers in strings, so that no reader rounds them; shares are 0–1;
colours are CIELAB; a number that has no value is null; a recipe without tubes, of strength 0, is
bare paper. The key ``steadiness`` is there only when it was asked how sure the answer is;
``certificate`` is always about the best coverage, so that a plan taken for steadiness may cover
less than its ``value`` says (``coverage_given_up``). ``lasting`` is null if all tubes in use last;
``tubes_without`` and ``cost_without`` tell what covering as much without the tubes named takes, and
``fading_without`` how many of those fade; they are null where that covers less or is not known.
``equals_nearest_to_what_is_missed`` tells, where ``nearer`` was wished for, how near the plan and
what would be taken without the wish come to what both leave out of reach; it is null where nothing
was wished, missed or proven. ``left`` is the share left of a tube of the box at home, null for all
others; ``again`` is what buying it anew would cost if it ``runs_low``, and is in no total.
``puddles`` tells what is mixed, and ``fewest`` how few puddles would do for each flower,
``one_sitting`` for all together; a sample's ``puddle`` is the number of its own among those of its
flower, or of the sitting. ``purchase`` is there only where sellers are told apart or sets are sold:
what is bought of whom; a tube's ``packs`` and ``cost`` are then those bought singly, and what sets
and deliveries cost comes on top (`fewtubes.report.json_values.purchase`). A pigment's ``code`` is
null where it is not known, and names joined by `` + `` if it was fitted from a tube of several;
``for_fitted_paints`` tells that what is proven is
so for paints fitted from swatches, which are estimates. ``paint`` is null
where no pictures are planned; a tube ``lasts`` for so many of them, null where that is not known or
none of it is used.
"""

import json
import math
from collections.abc import Mapping, Sequence

from fewtubes import __version__
from fewtubes.catalogue.records import Tube
from fewtubes.catalogue.sizes import LONGEST_NOTE
from fewtubes.mixing.recipes import Recipe
from fewtubes.report.fellow_files import digests
from fewtubes.report.json_values.class_share import class_values
from fewtubes.report.json_values.paint import paint_values
from fewtubes.report.json_values.puddles import puddles_values
from fewtubes.report.json_values.purchase import purchase_values
from fewtubes.report.json_values.scenario import scenario_values
from fewtubes.report.json_values.steadiness import steadiness_values
from fewtubes.report.sentences.proof import bound_share
from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import Nearer, PlannedSample, PlannedTube, Remedy, TradeOff
from fewtubes.words.decimals import file_number, file_share
from fewtubes.words.grades import grade_word
from fewtubes.words.money import amount
from fewtubes.words.printable import printable

__all__ = ["SCHEMA", "plan_json", "plan_values"]

SCHEMA = 1
"""Raised when a key changes its meaning or goes; new keys do not raise it."""

LONGEST_CAUTION = 2 * LONGEST_NOTE
"""Characters of a caution, which may repeat a note of the catalogue."""


def plan_json(plan: Plan, *, fellows: Mapping[str, str | bytes] | None = None) -> str:
    """Return the plan as JSON text, UTF-8, with a line end; it names the digests of its fellows."""
    values = plan_values(plan) | digests(fellows or {})
    return json.dumps(values, ensure_ascii=False, indent=2, allow_nan=False) + "\n"


def plan_values(plan: Plan) -> dict[str, object]:
    """Return the plan as values that JSON knows."""
    numbers = {t: puddle.number for puddle in plan.mixed.mixed for t in puddle.colours}
    return {
        "schema": SCHEMA,
        "program": f"fewtubes {__version__}",
        "catalogue": printable(plan.catalogue_label),
        "scenario": scenario_values(plan.scenario),
        "currency": plan.scenario.currency,
        "cost": amount(plan.cost),
        **purchase_values(plan),
        "budget_left": amount(plan.scenario.budget_hundredths - plan.cost),
        "coverage": file_share(plan.coverage),
        "tubes": [_planned_tube(planned) for planned in plan.tubes],
        "set_aside": [tube.id for tube in plan.set_aside],
        "flowers": [
            {
                "name": printable(flower.name),
                "importance": _number(float(flower.importance)),
                "coverage": file_share(flower.coverage),
                "covered": flower.covered,
                "total": flower.total,
            }
            for flower in plan.flowers
        ],
        "samples": [
            _planned_sample(planned, plan.scenario.tolerance) | {"puddle": numbers.get(place)}
            for place, planned in enumerate(plan.samples)
        ],
        "puddles": puddles_values(plan),
        "class": class_values(plan.class_share),
        "paint": paint_values(plan.paint),
        "lightfastness": _trade_off(plan.lightfastness),
        "lasting": None if plan.lasting is None else _trade_off(plan.lasting),
        "opacity": _trade_off(plan.opacity),
        "cautions": [
            {
                "text": printable(caution.text, LONGEST_CAUTION),
                "tubes": [*map(printable, caution.tubes)],
            }
            for caution in plan.cautions
        ],
        "certificate": _certificate(plan),
        "more_money": [
            {
                "beyond_budget": amount(step.beyond),
                "coverage": file_share(step.coverage),
                "tubes": [tube.id for tube in step.tubes],
                "proven": step.proven,
            }
            for step in plan.more_money
        ],
        "equals_nearest_to_what_is_missed": _misses(plan),
        "recipe_space": _recipe_space(plan),
    } | _steadiness(plan)


def _steadiness(plan: Plan) -> dict[str, object]:
    return {} if plan.steadiness is None else {"steadiness": steadiness_values(plan.steadiness)}


def _certificate(plan: Plan) -> dict[str, object]:
    certificate = plan.certificate
    return {
        "status": str(certificate.status),
        "proven": certificate.status is Status.PROVEN,
        "method": str(certificate.method),
        "value": certificate.value,
        "bound": certificate.bound,
        "total": plan.total_weight,
        "importances_exact": plan.counted_exactly,
        "for_fitted_paints": plan.fitted_paints,
        "coverage_bound": file_share(bound_share(plan)),
        "gap": file_share(certificate.gap),
        "nodes": certificate.nodes,
        "seconds": _number(certificate.seconds),
        "equal_palettes": plan.ties,
        "equal_palettes_complete": plan.ties_complete,
    }


def _misses(plan: Plan) -> dict[str, object] | None:
    misses = plan.misses
    if misses is None:
        return None
    return {
        "equals": misses.among,
        "proven": misses.complete,
        "mean_match": _number(misses.mean),
        "mean_match_without_the_wish": _number(misses.without_wish),
        "costs_more": amount(misses.extra_cost),
    }


def _recipe_space(plan: Plan) -> dict[str, object]:
    space = plan.scenario.wishes.space
    return {
        "recipes": plan.recipe_count,
        "parts": [list(parts) for table in space.parts.values() for parts in table],
        "strengths": [_number(strength) for strength in space.strengths],
        "tolerance": plan.scenario.tolerance,
        "one_of_each_paint": plan.one_of_each_paint,
    }


def _tube(tube: Tube) -> dict[str, object]:
    return {
        "id": printable(tube.id),
        "name": printable(tube.name),
        "pigments": [
            {"code": pigment.code or None, "name": printable(pigment.name), "share": _number(share)}
            for pigment, share in tube.pigments
        ],
        "fitted": tube.fitted,
        "lightfastness": tube.lightfastness.name,
        "hazards": [str(hazard) for hazard in tube.hazards],
    }


def _planned_tube(planned: PlannedTube) -> dict[str, object]:
    sets = [printable(bought.tube_set.id) for bought in planned.sets]
    return (
        _tube(planned.tube)
        | ({"sets": sets} if sets else {})
        | {
            "owned": planned.owned,
            "left": None if planned.left is None else _number(planned.left),
            "runs_low": planned.runs_low,
            "again": None if planned.again is None else amount(planned.again),
            "packs": [
                {
                    "ml": _number(pack.offer.ml),
                    "count": pack.count,
                    "price_each": amount(pack.each),
                    "price": amount(pack.cost),
                }
                for pack in planned.packs
            ],
            "cost": amount(planned.cost),
            "contrast_ratio": _number(planned.contrast_ratio),
            "transparency": planned.transparency.word,
            "white_filled": planned.white_filled,
            "mixes": planned.recipes,
            "only_it_brings": file_share(planned.only_it_brings),
        }
    )


def _planned_sample(planned: PlannedSample, tolerance: float) -> dict[str, object]:
    return {
        "flower": printable(planned.sample.flower),
        "name": printable(planned.sample.name, 1000),
        "role": None if planned.sample.role is None else str(planned.sample.role),
        "step": planned.sample.is_step,
        "weight": planned.sample.weight,
        "lab": _numbers(planned.sample.lab),
        "covered": planned.covered,
        "recipe": None if planned.recipe is None else _recipe(planned.recipe),
        "match": _number(planned.match, tolerance),
        "match_if_unsteady": _number(planned.match_if_unsteady, tolerance),
        "mix_lab": _numbers(planned.mix_lab),
        "bare_paper": _number(planned.bare_paper, tolerance),
        "obstacle": None if planned.obstacle is None else str(planned.obstacle),
        "remedies": [_remedy(remedy) for remedy in planned.remedies],
        "nearer": None if planned.nearer is None else _nearer(planned.nearer, tolerance),
        "together": [_remedy(remedy) for remedy in planned.together],
    }


def _recipe(recipe: Recipe) -> dict[str, object]:
    return {
        "tubes": [
            {"id": tube, "parts": parts}
            for tube, parts in zip(recipe.tubes, recipe.parts, strict=True)
        ],
        "strength": _number(recipe.strength),
    }


def _remedy(remedy: Remedy) -> dict[str, object]:
    values: dict[str, object] = {
        "id": remedy.tube.id,
        "cost": amount(remedy.cost),
        "allowed": remedy.allowed,
    }
    return values | ({"in_set": True} if remedy.in_set else {})


def _nearer(nearer: Nearer, tolerance: float) -> dict[str, object]:
    return {
        "id": nearer.tube.id,
        "cost": amount(nearer.cost),
        "match": _number(nearer.match, tolerance),
    }


def _trade_off(trade_off: TradeOff) -> dict[str, object]:
    return {
        "worst": grade_word(trade_off.worst),
        "limited_by": [tube.id for tube in trade_off.limited_by],
        "coverage_without": file_share(trade_off.spared),
        "coverage_without_proven": trade_off.spared_proven,
        "tubes_without": trade_off.spared_tubes,
        "cost_without": None if trade_off.spared_cost is None else amount(trade_off.spared_cost),
        "fading_without": trade_off.spared_fading,
    }


def _numbers(values: Sequence[float]) -> list[float | None]:
    return [_number(value) for value in values]


def _number(value: float, *limits: float) -> float | None:
    """Return a number rounded for reading, on its side of each limit; None if it is not finite."""
    return file_number(float(value), *limits) if math.isfinite(value) else None
