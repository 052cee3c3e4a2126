"""The end of the illustrated report: how sure the answer is, cautions, what the colours are."""

from collections.abc import Sequence

from fewtubes.report.illustrated.html import Html, element, listed, paragraph, together
from fewtubes.report.sentences.proof import (
    proof_words,
    space_words,
    steady_proof_words,
    ties_words,
)
from fewtubes.report.terminal.steadiness import (
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


def sureness_section(plan: Plan) -> Html:
    """Return what the certificate says; with trials of paint and hand, what they add."""
    steadiness = plan.steadiness
    if steadiness is None:
        return together(*map(paragraph, (proof_words(plan), space_words(plan), ties_words(plan))))
    best = steadiness.ranks_best
    sentences = [
        proof_words(plan) if best else steady_proof_words(plan, steadiness),
        space_words(plan),
        "" if steadiness.taken else ties_words(plan),
        assumption_words(steadiness),
        expected_words(plan, steadiness),
        weighed_words(steadiness),
        rival_words(plan, steadiness),
        recipes_words(steadiness),
    ]
    return together(*(paragraph(sentence) for sentence in sentences if sentence))


def cautions_section(plan: Plan) -> Html:
    """Return what to take care of, each caution with the tubes it is about."""
    return listed(
        together(element("b", f"{_names(caution.tubes)}: "), caution.text)
        if caution.tubes
        else caution.text
        for caution in plan.cautions
    )


def _names(tubes: Sequence[str]) -> str:
    return joined([printable(name) for name in tubes])


def colours_section() -> Html:
    """Return what the colours on the page are and are not."""
    return together(
        paragraph(
            "The colours on this page are computed, not photographed: from invented or supplied"
            " pigment profiles, on the paper named above, under the light named above, with that"
            " light's white shown as the screen's white. Screens and printers differ, and no screen"
            " shows granulation, gloss or the way a wash dries. Paint a small swatch before you"
            " rely on any of them."
        ),
        paragraph(
            "A screen (sRGB, IEC 61966-2-1) cannot show every colour that paint can. Those beyond"
            " it are marked † and drawn at the same lightness and hue angle (CIELAB) with as much"
            " of their chroma as fits. The wavering edges are drawn by rule and mean nothing; the"
            " darker rim of a stroke stands for the paint that gathers where a wash dries."
        ),
    )
