"""Who sells a pack that is brought in: a seller of the catalogue, by id or name, or nobody named.

A pack of no seller is sold without delivery and without a least order, which is told where other
packs have sellers.
"""

from collections.abc import Mapping, Sequence

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import listed, shown
from fewtubes.catalogue.names import alike_key
from fewtubes.keeping.kept_catalogue import KeptCatalogue
from fewtubes.keeping.packs import PackChange
from fewtubes.words.counting import counted

__all__ = ["PackSellers", "unnamed_told"]


class PackSellers:
    """The sellers of a catalogue, looked up as a painter calls them.

    Parameters
    ----------
    kept
        The catalogue that packs are brought into.
    """

    def __init__(self, kept: KeptCatalogue) -> None:
        rows = kept.table("sellers.csv").things("seller")
        self.names: Mapping[str, str] = {id_: cells[0]["name"] for id_, cells in rows.items()}
        """By id."""
        self._called = {
            **{alike_key(name): id_ for id_, name in self.names.items()},
            **{alike_key(id_): id_ for id_ in self.names},
        }

    def known(self, word: str) -> str | None:
        """Return the id of the seller that is called so, None if none is."""
        return self._called.get(alike_key(word))

    def unknown_words(self, word: str, collector: FaultCollector) -> str:
        """Return what is told of a seller that the catalogue has not, behind its field."""
        if not self.names:
            return (
                f"is {shown(word)}, but the catalogue has no sellers; enter them in sellers.csv,"
                " or leave it out."
            )
        near = collector.suggestion(word, [*self.names, *self.names.values()])
        return (
            f"is {shown(word)}, which is no seller of the catalogue; take one of"
            f" {listed(list(self.names))}, or enter it in sellers.csv.{near}"
        )


def unnamed_told(kept: KeptCatalogue, changes: Sequence[PackChange]) -> tuple[str, ...]:
    """Return that packs brought in are of no seller, where the catalogue has sellers.

    Parameters
    ----------
    kept
        The catalogue with the packs.
    changes
        Of its packs.
    """
    unnamed = sum(not change.seller for change in changes)
    if not unnamed or not PackSellers(kept).names:
        return ()
    these, them = ("it", "it") if unnamed == 1 else ("they", "them")
    return (
        f"{counted(unnamed, 'pack')} of no seller: {these} {'is' if unnamed == 1 else 'are'} taken"
        f" to be bought without delivery and without a least order; name who sells {them}"
        f" if that is not so.",
    )
