"""What one tube costs: alone, and beside a palette that is bought anyway."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.scenario.records import Scenario
from fewtubes.selection.purchase_cost import cheapest_cost
from fewtubes.selection.terms import Need, Terms
from fewtubes.shopping.packs import Pack
from fewtubes.shopping.terms import NeedsOf, on_sale, without_charges

__all__ = ["PriceTags"]


@dataclass(frozen=True, eq=False)
class PriceTags:
    """Prices of single tubes; those refused or owned have one, too."""

    catalogue: Catalogue
    scenario: Scenario
    packs: Mapping[str, tuple[Pack, ...]]
    """The cheapest packs of each tube where single prices are all that matters."""
    terms: Terms | None
    """What a purchase is made under; None where single prices are all that matters."""
    needs: Sequence[Need]
    needs_of: NeedsOf | None

    def is_sold(self, tube: Tube) -> bool:
        """Whether as much of a tube as is needed can be had in the currency."""
        if self.terms is None:
            return bool(self.packs[tube.id])
        return cheapest_cost(self._goods, (self._numbers[tube.id],)) is not None

    def alone(self, tube: Tube) -> int:
        """Return the price of a tube that is sold, without delivery [hundredths]."""
        if self.terms is None:
            return sum(pack.cost for pack in self.packs[tube.id])
        return cheapest_cost(self._goods, (self._numbers[tube.id],)) or 0

    def beside(self, tube: Tube, bought: Sequence[int]) -> int:
        """Return what a tube that is sold adds to the cost of tubes bought [hundredths].

        Parameters
        ----------
        tube
            One more.
        bought
            Numbers of the tubes bought, no owned ones; they can be had.
        """
        number = self._numbers[tube.id]
        if self.terms is None:
            return self.alone(tube)
        palette = tuple(sorted({*bought} - {number}))
        more = tuple(sorted({*palette, number}))
        before = cheapest_cost(self.terms, palette)
        after = cheapest_cost(self.terms, more)
        if after is None:  # it is refused, or owned: what it would cost were it not
            after = cheapest_cost(self._everything, more)
        if before is None or after is None:
            return self.alone(tube)
        return max(0, after - before)

    @cached_property
    def _numbers(self) -> dict[str, int]:
        return {id_: number for number, id_ in enumerate(self.catalogue.tubes)}

    @cached_property
    def _everything(self) -> Terms:
        """Terms in which refused and owned tubes are for sale, too."""
        found = on_sale(
            self.catalogue,
            self.scenario,
            left_out=(),
            needs=self.needs,
            needs_of=self.needs_of,
        )
        return found.terms

    @cached_property
    def _goods(self) -> Terms:
        """The same for each tube by itself, without delivery or least order."""
        found = on_sale(self.catalogue, self.scenario, left_out=(), needs=self.needs)
        return without_charges(found.terms)
