"""How much a paint hides, in per cent."""

from fewtubes.mixing.opacity import CUT_OFFS
from fewtubes.words.decimals import rounded

__all__ = ["hiding"]


def hiding(contrast_ratio: float) -> str:
    """Return a contrast ratio [0–1] in per cent, in keeping with its class of transparency."""
    limits = (-100 * start for start, _ in CUT_OFFS)  # a class begins at its limit: turned round
    shown = rounded(-100 * contrast_ratio, *limits).removeprefix("-").removesuffix(".0")
    return f"{shown} %"
