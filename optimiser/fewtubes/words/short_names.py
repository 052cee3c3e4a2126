"""Names of tubes as short as they still tell the tubes of one palette apart."""

import re
from collections import Counter
from collections.abc import Iterable

from fewtubes.catalogue.records import Tube
from fewtubes.words.printable import printable

__all__ = ["short_names"]

ADDED = re.compile(r"\s*(\([^()]*\)|,.*)$")
"""What a name adds behind: its pigment in brackets, or what kind of tube it is after a comma."""

COLOURS = frozenset({
    "black", "blue", "brown", "crimson", "earth", "gold", "green", "grey", "magenta", "maroon",
    "ochre", "orange", "pink", "purple", "red", "rose", "scarlet", "turquoise", "violet", "white",
    "yellow",
})  # fmt: skip
"""Words that painters call a tube by while there is only one of the kind."""


def short_names(tubes: Iterable[Tube]) -> dict[str, str]:
    """Return a name of each tube by id, shortened where no other of them would be called the same.

    Where there is one yellow only it is ``yellow``; else ``middle yellow`` will do, or the whole
    name.

    Parameters
    ----------
    tubes
        Of one palette, which is listed with whole names elsewhere.
    """
    whole = {tube.id: printable(tube.name) for tube in tubes}
    names = whole
    for shortened in (_bare, _colour):
        short = {id_: shortened(name) for id_, name in whole.items()}
        called = Counter(name.casefold() for name in short.values())
        alone = {id_: name for id_, name in short.items() if called[name.casefold()] == 1}
        names = {**names, **alone}
    return names


def _bare(name: str) -> str:
    return ADDED.sub("", name) or name


def _colour(name: str) -> str:
    """Return the last word of a bare name if it is a colour, else the bare name."""
    bare = _bare(name)
    last = bare.rsplit(" ", 1)[-1]
    return last if last.casefold() in COLOURS else bare
