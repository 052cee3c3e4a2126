"""What is said where a tube's id is what another tube is called."""

from collections.abc import Iterable

from fewtubes.catalogue.records import Tube
from fewtubes.quoting import quoted
from fewtubes.words.printable import printable

__all__ = ["namesake_sentences"]


def namesake_sentences(pairs: Iterable[tuple[Tube, Tube]]) -> list[str]:
    """Return which of two tubes a text stands for that is the id of one, the name of the other.

    Parameters
    ----------
    pairs
        As `fewtubes.scenario.called.id_is_a_name` finds them.
    """
    return [
        f"{quoted(taken.id)} is taken for {printable(taken.name)}, whose id it is; for the other"
        f" tube, which is called so, write its id, {quoted(other.id)}."
        for taken, other in pairs
    ]
