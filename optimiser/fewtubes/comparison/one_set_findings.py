"""One set of tubes for several scenarios: what it covers of each, beside the best for it alone."""

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from typing import TYPE_CHECKING

from fewtubes.catalogue.records import Tube
from fewtubes.shopping.bought import Bought

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["LeastCoverage", "OneSet", "OwnBest", "ServedScenario", "SetForAll"]


class LeastCoverage(Enum):
    """What became of the coverage that scenarios ask for at least."""

    NOT_ASKED = "none asks for it"
    KEPT = "kept by both sets"
    OUT_OF_REACH = "no set within the money keeps it"
    NOT_SETTLED = "no set that keeps it was found in the time"


@dataclass(frozen=True, eq=False)
class SetForAll:
    """One set of tubes, and how far it is proven."""

    tubes: tuple[Tube, ...]
    """To buy, in the order of the catalogue."""
    purchase: Bought
    """What is bought where."""
    cost: int
    """Of all that is bought, deliveries included [hundredths of the currency]."""
    coverages: tuple[Fraction, ...]
    """What it covers of each scenario [0–1]."""
    mean: Fraction
    """Mean of these, each counted as it was asked for [0–1]."""
    bound: float
    """What no set exceeds in what was asked for, mean or worst coverage [0–1]."""
    proven: bool
    """Whether no set is better, nor as good with fewer tubes, of which fewer fade, for less."""
    settled: bool
    """Whether no set is better in what was asked for, be the rest proven or not."""
    seconds: float
    """Time it took [s]."""

    @property
    def worst(self) -> Fraction:
        """The worst coverage of any scenario [0–1]."""
        return min(self.coverages)


@dataclass(frozen=True)
class OwnBest:
    """What one scenario could have by itself, with its own budget and wishes."""

    coverage: float | None
    """Of the best choice found [0–1]; None if none was found in the time."""
    bound: float
    """What no choice exceeds [0–1]."""
    proven: bool
    """Whether that choice is proven best."""


@dataclass(frozen=True, eq=False)
class ServedScenario:
    """One of the scenarios."""

    name: str
    """What it was given as."""
    title: str
    """What it is called."""
    share: Fraction
    """How much it counts in the mean, with the sum 1."""
    own: OwnBest | None
    """None where its own demands cannot be met."""
    least: float
    """Coverage that it asks for at least [0–1]; see `OneSet.least_coverage`."""
    painters: int | None = None
    """Of its class; None if no class paints."""
    pictures: int = 0
    """How many are planned, of all painters together; 0 where none are."""


@dataclass(frozen=True, eq=False)
class OneSet:
    """The two sets of tubes that serve all scenarios best."""

    scenarios: tuple[ServedScenario, ...]
    """In the order in which they were given."""
    budget: int
    """Money for the one set [hundredths of the currency]."""
    currency: str
    """ISO 4217 code."""
    catalogue_label: str
    """Folder of the catalogue, or "demo catalogue"."""
    most_tubes: int | None
    """Largest number of tubes to buy; None for no limit."""
    owned: tuple[Tube, ...]
    """Tubes that are there already, in any of the scenarios, and in use."""
    by_mean: SetForAll
    """The one of the greatest mean coverage."""
    by_worst: SetForAll
    """The one of the greatest worst coverage, and of those the greatest mean."""
    least_coverage: LeastCoverage
    """Whether both cover of each scenario what it asks for at least; where no set does, or none was
    found that does, it is asked of neither."""
    mean_without: float | None
    """Greatest mean found where that is not asked for, if it is more for it [0–1]; else None."""
    fitted_paints: bool
    """Whether any tube that could be chosen, or is in use, was fitted from swatches."""
    counted_to: int | None
    """For the first set importances are counted to 1 part in this many; None if exactly."""

    @property
    def same(self) -> bool:
        """Whether both are the same tubes."""
        first, second = ([one.id for one in it.tubes] for it in (self.by_mean, self.by_worst))
        return first == second

    def tubes(self) -> "pd.DataFrame":
        """Return what to buy for both, with the columns of ``one-set.csv``.

        Returns
        -------
        A row for each pack size, set and delivery of each of the two: `best_by` (``mean`` or
        ``worst``), `name`, `pigments`, `packs`, `price`, `currency`, `seller`, `lightfastness`
        (ASTM D4303 category), `hazards`, `tube` (id; missing for sets and deliveries).
        """
        from fewtubes.comparison.one_set_tables import tubes

        return tubes(self).frame()

    def served(self) -> "pd.DataFrame":
        """Return what each scenario has of both sets, with the columns of ``one-set-served.csv``.

        Returns
        -------
        A row for each scenario: `title`, `counts` (its share of the mean [0–1]), `by_mean` and
        `by_worst` (what is covered of it [0–1]), `own_best`, `own_at_most` (the best with its own
        budget and wishes, and what none exceeds [0–1]; missing if they cannot be met, the first
        also where no choice was found in the time), `asks_for`
        (coverage it asks for at least [0–1]), `name`.
        """
        from fewtubes.comparison.one_set_tables import served

        return served(self).frame()
