"""The files that a plan is written to."""

from collections.abc import Mapping

from fewtubes.report.plan_json import plan_json
from fewtubes.report.recipes_table import recipes_table
from fewtubes.report.shopping_list import shopping_list
from fewtubes.shopping.plan import Plan

__all__ = ["plan_files"]


def plan_files(plan: Plan, *, beside: Mapping[str, str | bytes] | None = None) -> Mapping[str, str]:
    """Return the content of each file by its name, for `fewtubes.writing.write_all`.

    Parameters
    ----------
    plan
        The answer.
    beside
        Further files of the same run by their path from these; `plan.json` names their digests too.
    """
    tables = {"shopping-list.csv": shopping_list(plan), "recipes.csv": recipes_table(plan)}
    return tables | {"plan.json": plan_json(plan, fellows=tables | dict(beside or {}))}
