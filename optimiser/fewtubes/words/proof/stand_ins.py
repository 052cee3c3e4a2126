"""What may be claimed of a tube that stands in for another."""

from fewtubes.words.proof.claims import for_fitted

__all__ = ["NOT_LOOKED_FOR", "every_single_tried"]

NOT_LOOKED_FOR = "the time ran out before what stands in for it was looked for"


def every_single_tried(*, fitted: bool) -> str:
    """Return what is claimed once every single tube was tried in the place of another."""
    return f"proven{for_fitted(fitted=fitted)}, every single tube tried"
