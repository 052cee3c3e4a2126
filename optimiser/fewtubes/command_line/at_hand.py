"""Which tubes are at hand: those named, and those of the box at home that are not empty."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fewtubes.errors import Fault, InputError

if TYPE_CHECKING:
    from fewtubes.catalogue.records import Catalogue
    from fewtubes.scenario.home_box import BoxAtHome

__all__ = ["tubes_at_hand", "tubes_left_out"]

EMPTY = "holds no tube that is not empty; fill it in, or leave the option out."


def tubes_at_hand(named: Sequence[str], box: "BoxAtHome | None") -> tuple[str, ...]:
    """Return the ids of tubes to mix with; none stand for all of the catalogue.

    Raises
    ------
    InputError
        If there is a box, but no tube in it nor named.
    """
    ids = (*named, *(() if box is None else box.at_hand))
    if box is not None and not ids:
        raise InputError([Fault("--box", EMPTY)])
    return tuple(dict.fromkeys(ids))


def tubes_left_out(
    named: Sequence[str], box: "BoxAtHome | None", catalogue: "Catalogue"
) -> tuple[str, ...]:
    """Return the ids of tubes to leave out: those named, and all that are not in the box.

    Raises
    ------
    InputError
        If there is a box, but no tube in it.
    """
    if box is None:
        return tuple(named)
    if not box.at_hand:
        raise InputError([Fault("--box", EMPTY)])
    return tuple(dict.fromkeys((*named, *(set(catalogue.tubes) - {*box.at_hand}))))
