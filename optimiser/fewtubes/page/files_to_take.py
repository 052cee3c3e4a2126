"""Which files an answer offers to take away, and what each holds."""

from fewtubes.shopping.plan import Plan

__all__ = ["HANDOUT", "REPORT", "files_to_take"]

REPORT = "report.html"

HANDOUT = "handout.html"
"""For each painter of a class."""


def files_to_take(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Return names of files and what they hold, in a few words each."""
    of_class = [
        (HANDOUT, "a page for each painter, to print"),
        ("for-the-class.csv", "what is needed, bought and left over of each paint"),
    ]
    return (
        ("shopping-list.csv", "a row for each pack to buy"),
        ("recipes.csv", "a row for each colour"),
        ("puddles.csv", "a row for each mix, in the order of mixing"),
        (REPORT, "the illustrated report, to print"),
        *(of_class if plan.scenario.group is not None else ()),
        *([("paint.csv", "the paint that pictures take of each tube")] if plan.paint else ()),
        ("plan.json", "all of it, for other programs"),
    )
