"""The files that each answer other than a plan is written to; those of a plan: `plan_files`.

Each function returns the content of each file by its name, for `fewtubes.files.writing.write_all`;
its tables are made for a spreadsheet that expects commas or semicolons.
"""

from collections.abc import Mapping, Sequence

from fewtubes.comparison import (
    box_tables,
    compare_tables,
    instalment_tables,
    mix_tables,
    one_set_tables,
    unmixable_tables,
    why_tables,
)
from fewtubes.comparison.box_findings import Box
from fewtubes.comparison.comparison import Comparison
from fewtubes.comparison.instalment_findings import Instalments
from fewtubes.comparison.mixes import Mixes
from fewtubes.comparison.one_set_findings import OneSet
from fewtubes.comparison.reasons import Why
from fewtubes.comparison.tube_ranking import MixedTube
from fewtubes.fitting import fit_tables
from fewtubes.fitting.fit import Fit
from fewtubes.report.json_values.comparison import comparison_json
from fewtubes.report.json_values.instalments import instalments_json
from fewtubes.tables.spreadsheet import Spreadsheet

__all__ = [
    "box_files",
    "compare_files",
    "fit_files",
    "instalment_files",
    "mix_files",
    "one_set_files",
    "unmixable_files",
    "why_files",
]


def compare_files(
    comparison: Comparison, spreadsheet: Spreadsheet = Spreadsheet.COMMA
) -> Mapping[str, str]:
    """Return fronts, sizes and near-best palettes as tables, and all of the comparison as JSON."""
    tables = {
        "front.csv": compare_tables.front(comparison).csv_text(spreadsheet),
        "sizes.csv": compare_tables.by_number_of_tubes(comparison).csv_text(spreadsheet),
        "near-best.csv": compare_tables.near_best(comparison).csv_text(spreadsheet),
    }
    return tables | {"compare.json": comparison_json(comparison, fellows=tables)}


def instalment_files(
    found: Instalments,
    spreadsheet: Spreadsheet = Spreadsheet.COMMA,
    *,
    beside: Mapping[str, str | bytes] | None = None,
) -> Mapping[str, str]:
    """Return what to buy when as a table, and all of it as JSON.

    Parameters
    ----------
    found
        What was found.
    spreadsheet
        What the table is made for.
    beside
        Further files of the same run by their path from these; the JSON names their digests too.
    """
    tables = {"instalments.csv": instalment_tables.tubes(found).csv_text(spreadsheet)}
    fellows = tables | dict(beside or {})
    return tables | {"instalments.json": instalments_json(found, fellows=fellows)}


def one_set_files(found: OneSet, spreadsheet: Spreadsheet = Spreadsheet.COMMA) -> Mapping[str, str]:
    """Return the one set for several scenarios, and what each has of it, as two tables."""
    return {
        "one-set.csv": one_set_tables.tubes(found).csv_text(spreadsheet),
        "one-set-served.csv": one_set_tables.served(found).csv_text(spreadsheet),
    }


def why_files(why: Why, spreadsheet: Spreadsheet = Spreadsheet.COMMA) -> Mapping[str, str]:
    """Return the reasons for a plan as three tables."""
    return {
        "why-tubes.csv": why_tables.tube_reasons(why).csv_text(spreadsheet),
        "out-of-reach.csv": why_tables.out_of_reach(why).csv_text(spreadsheet),
        "one-of-these.csv": why_tables.choices(why).csv_text(spreadsheet),
    }


def box_files(box: Box, spreadsheet: Spreadsheet = Spreadsheet.COMMA) -> Mapping[str, str]:
    """Return what can be said of one's own tubes as four tables."""
    return {
        "box-doubles.csv": box_tables.pairs_alike(box).csv_text(spreadsheet),
        "box-tubes.csv": box_tables.tubes(box).csv_text(spreadsheet),
        "box-additions.csv": box_tables.purchases(box).csv_text(spreadsheet),
        "about-to-buy.csv": box_tables.about_to_buy(box).csv_text(spreadsheet),
    }


def mix_files(mixes: Mixes, spreadsheet: Spreadsheet = Spreadsheet.COMMA) -> Mapping[str, str]:
    """Return the mixes of one colour as a table."""
    return {"mixes.csv": mix_tables.mixes_table(mixes).csv_text(spreadsheet)}


def unmixable_files(
    mixed: Sequence[MixedTube], spreadsheet: Spreadsheet = Spreadsheet.COMMA
) -> Mapping[str, str]:
    """Return how near mixes come to each tube, and to each of its washes, as two tables."""
    return {
        "unmixable.csv": unmixable_tables.tubes(mixed).csv_text(spreadsheet),
        "unmixable-washes.csv": unmixable_tables.washes(mixed).csv_text(spreadsheet),
    }


def fit_files(fit: Fit, spreadsheet: Spreadsheet = Spreadsheet.COMMA) -> Mapping[str, str]:
    """Return how near and how sure each fitted tube is, and each of its swatches, as two tables."""
    return {
        "fitted-tubes.csv": fit_tables.tubes(fit.tubes).csv_text(spreadsheet),
        "fitted-swatches.csv": fit_tables.swatches(fit.tubes).csv_text(spreadsheet),
    }
