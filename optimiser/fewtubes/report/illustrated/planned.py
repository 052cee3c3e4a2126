"""What a class buys together, and the paint that planned pictures take, in the report."""

from markupsafe import Markup

from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.markup import fill
from fewtubes.report.sentences.paint import (
    pack_size_words,
    paint_cells,
    paint_words,
    planned_words,
)
from fewtubes.report.sentences.painters import (
    class_share_words,
    class_tube_cells,
    leader_words,
    painters_words,
)
from fewtubes.shopping.plan import Plan
from fewtubes.words.counting import counted

__all__ = ["class_heading", "class_section", "paint_section"]


def class_heading(plan: Plan) -> str:
    """Return what stands over the part about a class; blank without one."""
    share = plan.class_share
    return "" if share is None else f"For {painters_words(share.group)}"


def class_section(basis: Basis) -> Markup:
    """Return the cost a head, what is left of money and paint; nothing without a class."""
    share = basis.plan.class_share
    if share is None:
        return Markup()
    dabs = [basis.dabs([tube.tube]) for tube in share.tubes]
    cells = [class_tube_cells(tube) for tube in share.tubes]
    return fill(
        "class.html",
        rows=list(zip(dabs, cells, strict=True)),
        said=[*class_share_words(share, basis.plan.scenario.currency)],
        leader=leader_words(share.group.pupils),
    )


def paint_section(basis: Basis) -> Markup:
    """Return what planned pictures take of each tube; nothing where none are planned."""
    paint = basis.plan.paint
    if paint is None:
        return Markup()
    tubes = [it for it in paint.tubes if it.ml or it.lasts is not None]
    return fill(
        "paint.html",
        planned=planned_words(basis.plan),
        all_planned=counted(paint.picture.pictures, "picture"),
        rows=[(basis.dabs([it.tube]), paint_cells(it, paint)) for it in tubes],
        said=[*paint_words(basis.plan)],
        sizes=[*pack_size_words(basis.plan)],
    )
