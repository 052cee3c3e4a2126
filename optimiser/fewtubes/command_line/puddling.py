"""For what puddles are to be shared, from the options of a command."""

from typing import TYPE_CHECKING

from fewtubes.errors import Fault, InputError

if TYPE_CHECKING:
    from fewtubes.shopping.puddles import Puddling

__all__ = ["puddling_asked"]


def puddling_asked(*, one_sitting: bool, nearest_each: bool, steadiest: bool) -> "Puddling":
    """Return for what puddles are shared; for each flower if nothing is said.

    Raises
    ------
    InputError
        If two options ask for recipes that cannot be had together.
    """
    from fewtubes.shopping.puddles import Puddling

    asked = {
        "--one-sitting": one_sitting,
        "--nearest-each": nearest_each,
        "--steadiest": steadiest,
    }
    given = [option for option, is_given in asked.items() if is_given]
    if len(given) > 1:
        what = (
            f"cannot go with {given[1]}: one asks for the fewest puddles of a sitting"
            if one_sitting
            else f"cannot go with {given[1]}: one asks for the nearest recipe of each colour"
        )
        other = ", the other for recipes of their own for each colour"
        if not one_sitting:
            other = ", the other for the steadiest"
        raise InputError([Fault(given[0], f"{what}{other}; leave one of the two out.")])
    if one_sitting:
        return Puddling.ONE_SITTING
    return Puddling.EACH_COLOUR if nearest_each or steadiest else Puddling.EACH_FLOWER
