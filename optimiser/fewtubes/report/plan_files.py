"""The files that a plan is written to."""

from collections.abc import Mapping

from fewtubes.report.json_values.plan import plan_json
from fewtubes.shopping.class_tables import for_the_class
from fewtubes.shopping.paint_tables import paint_taken
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_tables import recipes, shopping_list
from fewtubes.shopping.puddle_tables import puddles
from fewtubes.tables.spreadsheet import Spreadsheet

__all__ = ["plan_files"]


def plan_files(
    plan: Plan,
    *,
    beside: Mapping[str, str | bytes] | None = None,
    spreadsheet: Spreadsheet = Spreadsheet.COMMA,
) -> Mapping[str, str]:
    """Return the content of each file by its name, for `fewtubes.files.writing.write_all`.

    Parameters
    ----------
    plan
        The answer.
    beside
        Further files of the same run by their path from these; `plan.json` names their digests too.
    spreadsheet
        What the tables are made for.
    """
    tables = {
        "shopping-list.csv": shopping_list(plan).csv_text(spreadsheet),
        "recipes.csv": recipes(plan).csv_text(spreadsheet),
        "puddles.csv": puddles(plan).csv_text(spreadsheet),
    }
    if plan.scenario.group is not None:
        tables["for-the-class.csv"] = for_the_class(plan).csv_text(spreadsheet)
    if plan.paint is not None:
        tables["paint.csv"] = paint_taken(plan).csv_text(spreadsheet)
    return tables | {"plan.json": plan_json(plan, fellows=tables | dict(beside or {}))}
