"""The files that a plan is written to."""

from collections.abc import Mapping

from fewtubes.report.plan_json import plan_json
from fewtubes.report.recipes_table import recipes_table
from fewtubes.report.shopping_list import shopping_list
from fewtubes.shopping.plan import Plan

__all__ = ["plan_files"]


def plan_files(plan: Plan) -> Mapping[str, str]:
    """Return the content of each file by its name, for `fewtubes.writing.write_all`."""
    return {
        "shopping-list.csv": shopping_list(plan),
        "recipes.csv": recipes_table(plan),
        "plan.json": plan_json(plan),
    }
