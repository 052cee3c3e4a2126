"""By which exact method a choice is proven, as asked for on the command line."""

from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fewtubes.selection.certificate import Method

__all__ = ["ProofBy", "method_asked"]


class ProofBy(StrEnum):
    """The words the option takes."""

    SEARCH = "search"
    PROGRAM = "program"
    BOTH = "both"


def method_asked(by: ProofBy) -> "Method":
    """Return the method a word stands for."""
    from fewtubes.selection.certificate import Method

    return Method[by.name]
