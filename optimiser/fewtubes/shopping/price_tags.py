"""What one tube costs: alone, and beside a palette that is bought anyway."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.scenario.records import Scenario
from fewtubes.selection.purchase_cost import cheapest_cost
from fewtubes.selection.terms import Need, Terms
from fewtubes.shopping.packs import Pack
from fewtubes.shopping.refusals import refused_by_wishes
from fewtubes.shopping.terms import NeedsOf, OnSale, on_sale, without_charges

if TYPE_CHECKING:
    from fewtubes.shopping.question import Question

__all__ = ["PriceTags"]


@dataclass(frozen=True, eq=False)
class PriceTags:
    """Prices of single tubes; those refused or owned have one, too."""

    catalogue: Catalogue
    scenario: Scenario
    packs: Mapping[str, tuple[Pack, ...]]
    """The cheapest packs of each tube where single prices are all that matters."""
    on_sale: OnSale | None
    """What can be bought where; None where single prices are all that matters."""
    unused: Collection[str]
    """Ids of the tubes that are refused or owned."""
    unwanted: Collection[str]
    """Ids of those that the wishes refuse."""
    needs: Sequence[Need]
    needs_of: NeedsOf | None

    @classmethod
    def of(cls, question: "Question") -> "PriceTags":
        """Return the prices of a question's tubes."""
        return cls(
            catalogue=question.catalogue,
            scenario=question.scenario,
            packs=question.packs,
            on_sale=question.on_sale,
            unused={*question.refused, *question.scenario.wishes.all_owned},
            unwanted=refused_by_wishes(question.refused),
            needs=question.needs,
            needs_of=question.needs_of,
        )

    def is_sold(self, tube: Tube) -> bool:
        """Whether as much of a tube as is needed can be had in the currency, least orders kept."""
        if self.on_sale is None:
            return bool(self.packs[tube.id])
        terms = self.sale_with(self.on_sale, tube).terms
        return cheapest_cost(terms, (self._numbers[tube.id],)) is not None

    def alone(self, tube: Tube) -> int:
        """Return the price of a tube that is sold, without delivery [hundredths]."""
        if self.on_sale is None:
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
        if self.on_sale is None:
            return self.alone(tube)
        palette = tuple(sorted({*bought} - {number}))
        more = tuple(sorted({*palette, number}))
        before = cheapest_cost(self.on_sale.terms, palette)
        after = cheapest_cost(self.sale_with(self.on_sale, tube).terms, more)
        if before is None or after is None:
            return self.alone(tube)
        return max(0, after - before)

    @cached_property
    def _numbers(self) -> dict[str, int]:
        return {id_: number for number, id_ in enumerate(self.catalogue.tubes)}

    def sale_with(self, usual: OnSale, tube: Tube) -> OnSale:
        """Return what is on sale with a tube that may be refused or owned, for use as well.

        Parameters
        ----------
        usual
            What is on sale for the question (`on_sale`).
        tube
            One tube; no other that is refused comes back with it.
        """
        if tube.id not in self.unused:
            return usual
        if tube.id not in self._with:
            self._with[tube.id] = on_sale(
                self.catalogue,
                self.scenario,
                left_out={*self.unwanted} - {tube.id},
                idle={*self.unused} - {tube.id},
                needs=self.needs,
                needs_of=self.needs_of,
            )
        return self._with[tube.id]

    @cached_property
    def _with(self) -> dict[str, OnSale]:
        """What is on sale with one refused or owned tube, by its id, each found once."""
        return {}

    @cached_property
    def _goods(self) -> Terms:
        """The same for each tube by itself, without delivery or least order."""
        found = on_sale(self.catalogue, self.scenario, left_out=(), needs=self.needs)
        return without_charges(found.terms)
