"""The end of the illustrated report: how sure the answer is, cautions, what the colours are."""

from markupsafe import Markup

from fewtubes.report.illustrated.markup import fill
from fewtubes.report.sentences.proof import (
    proof_words,
    space_words,
    steady_proof_words,
    ties_words,
)
from fewtubes.report.sentences.steadiness import (
    assumption_words,
    expected_words,
    recipes_words,
    rival_words,
    weighed_words,
)
from fewtubes.shopping.plan import Plan
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = ["cautions_section", "colours_section", "sureness_section"]


def sureness_section(plan: Plan) -> Markup:
    """Return what the certificate says; with trials of paint and hand, what they add."""
    steadiness = plan.steadiness
    if steadiness is None:
        return fill("sure.html", sentences=[proof_words(plan), space_words(plan), ties_words(plan)])
    best = steadiness.ranks_best
    sentences = [
        proof_words(plan) if best else steady_proof_words(plan, steadiness),
        space_words(plan),
        "" if steadiness.taken else ties_words(plan),
        assumption_words(plan, steadiness),
        expected_words(plan, steadiness),
        weighed_words(steadiness),
        rival_words(plan, steadiness),
        recipes_words(steadiness),
    ]
    return fill("sure.html", sentences=[sentence for sentence in sentences if sentence])


def cautions_section(plan: Plan) -> Markup:
    """Return what to take care of, each caution with the tubes it is about."""
    return fill(
        "care.html",
        cautions=[
            (joined([*map(printable, caution.tubes)]), caution.text) for caution in plan.cautions
        ],
    )


def colours_section() -> Markup:
    """Return what the colours on the page are and are not."""
    return fill("colours.html")
