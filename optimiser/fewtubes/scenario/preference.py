"""What decides between choices that cover as much with as few tubes."""

from enum import StrEnum

__all__ = ["Prefer"]


class Prefer(StrEnum):
    """What goes first between choices that cover as much with as few tubes."""

    LASTING = "lasting"
    """As few tubes that fade as may be; then the price."""
    CHEAPEST = "cheapest"
    """The price; then how long they last."""
