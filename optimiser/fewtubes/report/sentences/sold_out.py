"""What to take for a tube that is sold out, in sentences."""

from fewtubes.comparison.sold_out import SoldOut
from fewtubes.report.sentences.purchase import stand_in_words
from fewtubes.shopping.plan import Plan
from fewtubes.words.printable import printable
from fewtubes.words.proof.stand_ins import NOT_LOOKED_FOR, every_single_tried
from fewtubes.words.shares import percents_apart

__all__ = ["sold_out_words", "tried_words"]


def sold_out_words(item: SoldOut, plan: Plan) -> str:
    """Return what to take instead, its price, and what that costs in coverage; one sentence."""
    if not item.proven:
        return f"If sold out: {NOT_LOOKED_FOR}."
    stand_in = item.stand_in
    if stand_in is None:
        return "If sold out: nothing stands in for it; no single tube that the money allows would."
    price, name = stand_in_words(stand_in, plan), printable(stand_in.tube.name)
    named = f"{name}, {price}" if stand_in.source is None else f"{name} ({price})"
    if stand_in.coverage == plan.coverage:
        return f"If sold out: {named}; covers as much."
    instead, whole = percents_apart(stand_in.coverage, plan.coverage)
    return f"If sold out: {named}; covers {instead} instead of {whole}."


def tried_words(plan: Plan) -> str:
    """Return how far one may rely on what stands in, in a sentence."""
    tried = every_single_tried(fitted=plan.fitted_paints)
    return (
        f"If a tube is sold out, what is named is the best single tube in its place ({tried}), with"
        " all others kept and within the money that leaves."
    )
