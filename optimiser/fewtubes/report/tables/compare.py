"""A comparison as files: `front.csv`, every step of every front, and `compare.json`, all of it.

Schema 1 of `compare.json`. Prices are decimal numbers in strings, so that no reader rounds them;
coverages are shares [0–1]; tubes are named by id.
"""

import json
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal

import fewtubes
from fewtubes.catalogue.records import Lightfastness
from fewtubes.comparison.comparison import Alternatives, Comparison, Size
from fewtubes.comparison.extent import Extent
from fewtubes.comparison.floors import Floor, FloorFront, cost_of_floor
from fewtubes.comparison.front import FrontStep
from fewtubes.mixing.opacity import Transparency
from fewtubes.report.fellow_files import digests
from fewtubes.report.json_values.scenario import scenario_values
from fewtubes.selection.instance import Palette
from fewtubes.tables.cells import Cell, csv_text
from fewtubes.words.decimals import file_share
from fewtubes.words.money import amount
from fewtubes.words.printable import printable

__all__ = ["FRONT_COLUMNS", "SCHEMA", "compare_files", "compare_values"]

SCHEMA = 1
"""Raised when a key changes its meaning or goes; new keys do not raise it."""

FRONT_COLUMNS = (
    "floor",
    "step",
    "price",
    "currency",
    "coverage",
    "tubes",
    "tube_ids",
    "lightfastness",
    "transparency",
    "within_budget",
    "proven",
    "nothing_between_this_and_the_next",
)
"""`floor` is empty for the scenario's own wishes; `tubes` counts those bought.

`lightfastness` and `transparency` are the worst among the tubes bought.
"""

DECIMALS = 4
"""Of seconds."""


def compare_files(comparison: Comparison) -> Mapping[str, str]:
    """Return the content of each file by its name, for `fewtubes.files.writing.write_all`."""
    tables = {"front.csv": csv_text(FRONT_COLUMNS, _front_rows(comparison))}
    values = compare_values(comparison) | digests(tables)
    text = json.dumps(values, ensure_ascii=False, indent=2, allow_nan=False)
    return tables | {"compare.json": text + "\n"}


def _front_rows(comparison: Comparison) -> Iterator[tuple[Cell, ...]]:
    scenario, question = comparison.question.scenario, comparison.question
    for kept in comparison.floors:
        for number, step in enumerate(kept.front.steps, start=1):
            tubes = [question.tubes[tube] for tube in step.palette.bought]
            grades = [question.transparencies[tube.id] for tube in tubes]
            yield (
                _floor(kept.floor),
                number,
                Decimal(amount(step.palette.cost)),
                scenario.currency,
                file_share(comparison.share(step.palette.value)),
                len(tubes),
                " ".join(tube.id for tube in tubes),
                max((tube.lightfastness for tube in tubes), default=Lightfastness.I).name
                if tubes
                else None,
                max(grades).word if grades else None,
                _yes(step.palette.cost <= scenario.budget_hundredths),
                _yes(step.proven),
                _yes(step.sure_up_to_next),
            )


def compare_values(comparison: Comparison) -> dict[str, object]:
    """Return the comparison as values that JSON knows."""
    question = comparison.question
    return {
        "schema": SCHEMA,
        "program": f"fewtubes {fewtubes.__version__}",
        "catalogue": printable(question.catalogue.label),
        "scenario": scenario_values(question.scenario),
        "currency": question.scenario.currency,
        "asked": _asked(comparison.extent),
        "sizes": [_size(comparison, size) for size in comparison.sizes],
        "sizes_looked_up_to": comparison.by_size.looked_up_to,
        "nothing_more_to_gain_within_budget": comparison.all_gained,
        "near_best": None
        if comparison.alternatives is None
        else _alternatives(comparison, comparison.alternatives),
        "fronts": [_front(comparison, kept) for kept in comparison.floors],
        "seconds": round(comparison.seconds, DECIMALS),
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
        "lightfastness": _grade(size.lightfastness),
        "transparency": _grade(size.transparency),
        "newly_reached": _colours(comparison, size.gained),
        "no_longer_reached": _colours(comparison, size.dropped),
        "equal_palettes": [_ids(comparison, tie.bought) for tie in size.best.palettes],
        "equal_palettes_complete": size.best.complete,
        "proven": size.best.proven,
        "coverage_bound": file_share(comparison.share(size.best.bound)),
    }


def _alternatives(comparison: Comparison, alternatives: Alternatives) -> dict[str, object]:
    return {
        "size": alternatives.near.size,
        "least_coverage": file_share(comparison.share(alternatives.near.least_value)),
        "palettes": [_palette(comparison, palette) for palette in alternatives.near.palettes],
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
        "floor": _grade(kept.floor),
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


def _grade(grade: Floor | None) -> str | None:
    if grade is None:
        return None
    return grade.word if isinstance(grade, Transparency) else grade.name


def _floor(floor: Floor | None) -> str | None:
    """Return a floor as a cell, e.g. ``lightfastness II``; None for the wishes alone."""
    if isinstance(floor, Lightfastness):
        return f"lightfastness {floor.name}"
    return _grade(floor)


def _yes(true: bool) -> str:
    return "yes" if true else "no"
