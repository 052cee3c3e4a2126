"""How far a comparison is proven, in words."""

from fewtubes.comparison.comparison import Comparison
from fewtubes.words.proof.choice import one_of_each_words
from fewtubes.words.proof.comparison import comparison_proof

__all__ = ["comparison_words"]


def comparison_words(comparison: Comparison) -> str:
    """Return what of a comparison is proven and what is not, in whole sentences."""
    sizes = all(size.best.proven for size in comparison.sizes)
    others = comparison.alternatives is None or comparison.alternatives.near.proven
    fronts = all(floor.front.complete for floor in comparison.floors)
    open_parts = [
        part
        for part, sure in (
            ("sizes", sizes),
            ("near-best palettes", others),
            ("trade-off", fronts),
        )
        if not sure
    ]
    said = comparison_proof(
        open_parts, seconds=comparison.seconds, fitted=comparison.question.fitted_paints
    )
    return f"{said} {one_of_each_words()}" if comparison.question.instance.doubles else said
