"""What is said of a search by words: what was taken for a slip of the pen, what comes nearest."""

from collections.abc import Callable, Mapping

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.searching import Searched, Thing
from fewtubes.errors import offered
from fewtubes.scenario.likely_meant import tubes_meant
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = ["nearest_words", "read_as_words", "tubes_search_words"]


def read_as_words(found: Searched[Thing]) -> str:
    """Return which words were taken for slips, in sentences; "" if none was."""
    told = [
        f"Read {printable(word)} as {joined([printable(one) for one in meant], 'or')}."
        for word, meant in found.read_as
    ]
    return " ".join(told)


def nearest_words(found: Searched[Thing], name_of: Callable[[Thing], str]) -> str:
    """Return what comes nearest where nothing was found, as a further sentence; "" if nothing."""
    return offered([name_of(thing) for thing in found.nearest])


def tubes_search_words(found: Searched[Tube], asked: str, tubes: Mapping[str, Tube]) -> str:
    """Return what is said of a search among tubes; where there is none, which are likely meant.

    Parameters
    ----------
    found, asked
        What was found, and what was asked.
    tubes
        The catalogue's, by id.
    """
    return read_as_words(found) if found.things else tubes_meant(asked, tubes).strip()
