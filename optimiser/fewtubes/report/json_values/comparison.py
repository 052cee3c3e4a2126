"""`compare.json`: all of a comparison.

Schema 1. Prices are decimal numbers in strings, so that no reader rounds them; coverages are shares
[0–1]; tubes are named by id.
"""

import json
from collections.abc import Mapping, Sequence

from fewtubes import __version__
from fewtubes.comparison.comparison import Alternatives, Comparison, Size
from fewtubes.comparison.extent import Extent
from fewtubes.comparison.floors import FloorFront, cost_of_floor
from fewtubes.comparison.front_steps import FrontStep
from fewtubes.report.fellow_files import digests
from fewtubes.report.json_values.scenario import scenario_values
from fewtubes.selection.instance import Palette
from fewtubes.shopping.puddles import PuddleCount
from fewtubes.words.decimals import FILE_DECIMALS, file_share
from fewtubes.words.grades import grade_word
from fewtubes.words.money import amount
from fewtubes.words.printable import printable

__all__ = ["SCHEMA", "comparison_json", "comparison_values"]

SCHEMA = 1
"""Raised when a key changes its meaning or goes; new keys do not raise it."""


def comparison_json(
    comparison: Comparison, *, fellows: Mapping[str, str | bytes] | None = None
) -> str:
    """Return the comparison as JSON text, indented.

    Parameters
    ----------
    comparison
        What was compared.
    fellows
        Content of the files that are written with it, by name: their digests are told.
    """
    values = comparison_values(comparison) | digests(fellows or {})
    return json.dumps(values, ensure_ascii=False, indent=2, allow_nan=False) + "\n"


def comparison_values(comparison: Comparison) -> dict[str, object]:
    """Return the comparison as values that JSON knows."""
    question = comparison.question
    return {
        "schema": SCHEMA,
        "program": f"fewtubes {__version__}",
        "catalogue": printable(question.catalogue.label),
        "scenario": scenario_values(question.scenario),
        "currency": question.scenario.currency,
        "asked": _asked(comparison.extent),
        "sizes": [_size(comparison, size) for size in comparison.sizes],
        "for_fitted_paints": question.fitted_paints,
        "sizes_looked_up_to": comparison.by_size.looked_up_to,
        "nothing_more_to_gain_within_budget": comparison.all_gained,
        "near_best": None
        if comparison.alternatives is None
        else _alternatives(comparison, comparison.alternatives),
        "fronts": [_front(comparison, kept) for kept in comparison.floors],
        "seconds": round(comparison.seconds, FILE_DECIMALS),
    }


def _asked(extent: Extent) -> dict[str, object]:
    return {
        "up_to": extent.up_to,
        "near": extent.near,
        "within": extent.within,
        "near_size": extent.near_size,
        "seconds": extent.seconds,
    }


def _palette(comparison: Comparison, palette: Palette) -> dict[str, object]:
    return {
        "tubes": _ids(comparison, palette.bought),
        "cost": amount(palette.cost),
        "coverage": file_share(comparison.share(palette.value)),
    }


def _size(comparison: Comparison, size: Size) -> dict[str, object]:
    return {
        "size": size.best.size,
        **_palette(comparison, size.palette),
        "lightfastness": grade_word(size.lightfastness),
        "transparency": grade_word(size.transparency),
        "newly_reached": _colours(comparison, size.gained),
        "no_longer_reached": _colours(comparison, size.dropped),
        "equal_palettes": [_ids(comparison, tie.bought) for tie in size.best.palettes],
        "equal_palettes_complete": size.best.complete,
        "proven": size.best.proven,
        "coverage_bound": file_share(comparison.share(size.best.bound)),
        "puddles": _puddles(size.puddles),
    }


def _puddles(count: PuddleCount | None) -> dict[str, object] | None:
    """Return how few puddles a palette takes; null if they were not counted."""
    if count is None:
        return None
    return {
        "each_flower": count.each_flower,
        "each_flower_bound": count.each_flower_bound,
        "one_sitting": count.one_sitting,
        "one_sitting_bound": count.one_sitting_bound,
        "proven": count.proven,
    }


def _alternatives(comparison: Comparison, alternatives: Alternatives) -> dict[str, object]:
    listed = alternatives.near.palettes
    counts = alternatives.puddles or (None,) * len(listed)
    return {
        "size": alternatives.near.size,
        "least_coverage": file_share(comparison.share(alternatives.near.least_value)),
        "palettes": [
            _palette(comparison, palette) | {"puddles": _puddles(count)}
            for palette, count in zip(listed, counts, strict=True)
        ],
        "complete": alternatives.near.complete,
        "proven": alternatives.near.proven,
        "in_all_listed": _ids(comparison, sorted(alternatives.shared)),
        "indispensable": _ids(comparison, sorted(alternatives.near.indispensable)),
        "one_of_each": [_ids(comparison, sorted(group)) for group in alternatives.groups],
        "exchanges": [
            {
                "given_up": comparison.question.tubes[swap.given_up].id,
                "taken": comparison.question.tubes[swap.taken].id,
                **_palette(comparison, swap.palette),
            }
            for swap in alternatives.swaps
        ],
    }


def _front(comparison: Comparison, kept: FloorFront) -> dict[str, object]:
    price = cost_of_floor(
        comparison.floors[0].front, kept.front, comparison.question.scenario.budget_hundredths
    )
    return {
        "floor": grade_word(kept.floor),
        "impossible_because_of": [tube.id for tube in kept.in_the_way],
        "left_in_the_box": [tube.id for tube in kept.set_aside],
        "complete": kept.front.complete,
        "lost_within_budget": None
        if price is None or price.lost is None
        else file_share(comparison.share(price.lost)),
        "lost_proven": price is not None and price.lost_proven,
        "extra_for_same_coverage": None
        if price is None or price.extra is None
        else amount(price.extra),
        "extra_proven": price is not None and price.extra_proven,
        "steps": [_step(comparison, step) for step in kept.front.steps],
    }


def _step(comparison: Comparison, step: FrontStep) -> dict[str, object]:
    return {
        **_palette(comparison, step.palette),
        "proven": step.proven,
        "nothing_between_this_and_the_next": step.sure_up_to_next,
    }


def _ids(comparison: Comparison, numbers: Sequence[int]) -> list[str]:
    return [comparison.question.tubes[number].id for number in numbers]


def _colours(comparison: Comparison, numbers: Sequence[int]) -> list[dict[str, object]]:
    samples = [comparison.question.samples[number] for number in numbers]
    return [
        {"flower": printable(sample.flower), "name": printable(sample.name, 1000)}
        for sample in samples
    ]
