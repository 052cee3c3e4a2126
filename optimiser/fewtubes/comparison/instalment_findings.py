"""What is bought bit by bit: the purchases, and what can be painted from each on."""

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.instalment_terms import Terms
from fewtubes.selection.certificate import Certificate, Status
from fewtubes.selection.instance import Palette
from fewtubes.shopping.bought import Bought
from fewtubes.shopping.packs import Pack
from fewtubes.shopping.question import Question

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["Instalment", "Instalments", "Purchase"]


@dataclass(frozen=True, eq=False)
class Purchase:
    """A tube to buy."""

    tube: Tube
    """As in the catalogue."""
    packs: tuple[Pack, ...]
    """What to buy of it singly; none where a set brings it."""

    @property
    def cost(self) -> int:
        """Price of its packs [hundredths of the currency]."""
        return sum(pack.cost for pack in self.packs)


@dataclass(frozen=True, eq=False)
class Instalment:
    """What is bought at one time, and what can be painted from then on."""

    sum: int
    """Money that comes in [hundredths of the currency]."""
    brought: int
    """Money carried on from before [hundredths of the currency]."""
    bought: tuple[Purchase, ...]
    """In the order of the catalogue; empty where it is better to wait."""
    palette: Palette
    """All tubes bought by then, by number."""
    newly: tuple[int, ...]
    """Numbers of the colours that can be painted from then on and could not before."""
    coverage: float
    """Share of what is to be painted that is covered from then on [0–1]."""
    best: float
    """What no palette for all the money up to then exceeds, bought at once from nothing [0–1]."""
    best_proven: bool
    """Whether there is such a palette; else the best may be less."""
    given_up: float
    """By how much the one falls short of the other [0–1]."""
    purchase: Bought | None = None
    """What is bought where, deliveries and sets included; None where prices of single tubes are all
    that is paid."""

    @property
    def cost(self) -> int:
        """What leaves the purse, deliveries included [hundredths of the currency]."""
        if self.purchase is not None:
            return self.purchase.cost
        return sum(purchase.cost for purchase in self.bought)

    @property
    def deliveries(self) -> int:
        """What of that is for deliveries [hundredths of the currency]."""
        return 0 if self.purchase is None else self.purchase.deliveries

    @property
    def carried_on(self) -> int:
        """Money that is left for later [hundredths of the currency]."""
        return self.brought + self.sum - self.cost


@dataclass(frozen=True, eq=False)
class Instalments:
    """The best order of buying, in so many sums one after the other."""

    question: Question
    """What was asked; its budget is all sums together."""
    terms: Terms
    """The sums, and the weights of the times."""
    order_only: bool
    """Whether the tubes were given, so that only their order was sought."""
    times: tuple[Instalment, ...]
    """One for each sum."""
    certificate: Certificate
    """About the covered weight at each time, times the weight of the time, summed; in whole
    numbers."""

    @property
    def proven(self) -> bool:
        """Whether no order of buying ranks before this one."""
        return self.certificate.status is Status.PROVEN

    @property
    def cost(self) -> int:
        """Price of all that is bought [hundredths of the currency]."""
        return sum(time.cost for time in self.times)

    @property
    def deliveries(self) -> int:
        """What of that is for deliveries [hundredths of the currency]."""
        return sum(time.deliveries for time in self.times)

    @property
    def under_terms(self) -> bool:
        """Whether purchases are made under terms: deliveries, least orders or sets."""
        return any(time.purchase is not None for time in self.times)

    @property
    def purchases(self) -> tuple[Purchase, ...]:
        """All that is bought, in the order of buying."""
        return tuple(purchase for time in self.times for purchase in time.bought)

    @property
    def mean_coverage(self) -> float:
        """Mean of the coverage at each time by the weights of the times [0–1]."""
        return self._mean(self.certificate.value)

    @property
    def mean_bound(self) -> float:
        """What that mean cannot exceed [0–1]."""
        return self._mean(self.certificate.bound)

    @property
    def most_given_up(self) -> float:
        """The most that is given up at any time against buying at once from nothing [0–1]."""
        return max(time.given_up for time in self.times)

    @property
    def best_proven(self) -> bool:
        """Whether what could be had from nothing is proven for every time."""
        return all(time.best_proven for time in self.times)

    def _mean(self, weighted: int) -> float:
        whole = sum(self.terms.importances) * sum(self.question.instance.weights)
        return float(Fraction(weighted, whole)) if whole else 0.0

    def tubes(self) -> "pd.DataFrame":
        """Return what to buy when, with the columns of ``instalments.csv``.

        Returns
        -------
        A row for each of `purchases`, in the order of buying:

        `time`, `name`, `pigments`, `packs`, `tube`
            Number of the time, 1 for now; name, Colour Index names, packs in words, id.
        `price`, `currency`
            Of its packs, in the currency (ISO 4217 code).
        `lightfastness`, `hazards`
            ASTM D4303 category; what calls for care, parted by blanks.
        `spent_so_far`, `carried_on`
            Money spent up to and with this time, and left after it, in the currency.
        `covered`, `best_at_once`
            Share covered from this time on, and what no palette bought at once for all
            the money up to then exceeds [0–1].

        Under sellers' terms a row for each line of each purchase, prices adding up to what is paid;
        then there are `row` (pack, set, in the set, delivery), `seller` and `why` (it is bought, or
        lies in a set, though it is not all needed) as well.
        """
        from fewtubes.comparison.instalment_tables import tubes

        return tubes(self).frame()
