"""Pigment profiles found by what stands on a tube: a Colour Index name, or the profile's id."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import listed, shown
from fewtubes.keeping.fitted_tubes import FITTED_CLASS
from fewtubes.keeping.kept_catalogue import KeptCatalogue
from fewtubes.keeping.kept_table import Cells
from fewtubes.keeping.things import Kind, rows_of
from fewtubes.quoting import quoted

__all__ = ["LABELLED", "Profile", "Profiles"]

LABELLED = ", as labelled"
"""Ends the class of a profile that is a copy for one tube, with what that one's label says."""


@dataclass(frozen=True)
class Profile:
    """A pigment profile with all its rows by table."""

    id: str
    rows: Mapping[str, Sequence[Cells]]
    borrowed: bool
    """Whether the first of the sources lacks it."""


class Profiles:
    """The pigment profiles that a tube can be made of.

    Parameters
    ----------
    sources
        Catalogues, those first whose profiles are taken before the others'.
    """

    def __init__(self, sources: Sequence[KeptCatalogue]) -> None:
        self._labels = [source.label for source in sources]
        self._known = [rows_of(source, Kind.PIGMENT) for source in sources]

    def found(self, word: str, where: str, collector: FaultCollector) -> Profile | None:
        """Return a profile, None after a fault.

        Parameters
        ----------
        word
            Its id, or a Colour Index name that one profile alone bears; capitals do not matter.
        where, collector
            What a fault is told of, and what takes it.
        """
        for place, known in enumerate(self._known):
            if word in known:
                return Profile(word, known[word], borrowed=place > 0)
        for place, known in enumerate(self._known):
            named = [thing for thing, rows in known.items() if _bears(rows, word)] or [
                thing for thing, rows in known.items() if _bears(rows, word, any_crystal=True)
            ]
            if len(named) > 1:
                what = (
                    f"{shown(word)} is the name of several profiles; give one of {listed(named)}."
                )
                collector.note(where, what)
                return None
            if named:
                return self._free(named[0], place, where, collector)
        names = [name for known in self._known for name in (*known, *_codes(known))]
        others = [name for name in dict.fromkeys(names) if name.casefold() != word.casefold()]
        of_one = len(others) < len(set(names))
        near = "" if of_one else collector.suggestion(word, others)
        but = ", but those fitted or labelled as one tube's own" if of_one else ""
        labels = " or ".join(map(quoted, self._labels))
        collector.note(
            where,
            f"there is no pigment profile {shown(word)} in {labels}{but}; take it along from a"
            " catalogue that holds it, such as the demo, or paint swatches of the tube and fit"
            f" them.{near}",
        )
        return None

    def _free(
        self, thing: str, place: int, where: str, collector: FaultCollector
    ) -> Profile | None:
        """Return a profile whose id means nothing else in the catalogues before."""
        for label, known in zip(self._labels[:place], self._known, strict=False):
            if thing in known:
                collector.note(
                    where,
                    f"the profile {shown(thing)} of {quoted(self._labels[place])} cannot be taken,"
                    f" since {quoted(label)} has another of that id; rename one.",
                )
                return None
        return Profile(thing, self._known[place][thing], borrowed=place > 0)


def _bears(rows: Mapping[str, Sequence[Cells]], word: str, *, any_crystal: bool = False) -> bool:
    """Return whether a profile bears a Colour Index name, and is not of one tube alone."""
    own = rows["pigments.csv"][0]
    of_one_tube = own["class"] == FITTED_CLASS or own["class"].endswith(LABELLED)
    code = own["code"].partition(":")[0] if any_crystal else own["code"]
    return not of_one_tube and code.casefold() == word.casefold() != ""


def _codes(known: Mapping[str, Mapping[str, Sequence[Cells]]]) -> list[str]:
    return [rows["pigments.csv"][0]["code"] for rows in known.values()]
