"""The reasons for a plan, as values that do not change."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fewtubes.catalogue.records import Tube
from fewtubes.coverage.samples import Sample
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedSample, PlannedTube
from fewtubes.shopping.refusals import Refusal
from fewtubes.shopping.sources import Source

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["OneOfThese", "Route", "StandIn", "TubeReason", "Unreached", "Why"]


@dataclass(frozen=True, eq=False)
class StandIn:
    """A single tube in the place of another."""

    tube: Tube
    cost: int
    """Of its packs [hundredths of the currency]."""
    coverage: float
    """Of the palette after the exchange [0–1]."""
    total: int = 0
    """What the palette costs after the exchange [hundredths of the currency]."""
    source: Source | None = None
    """Where it is bought then; None where sellers are not told apart."""


@dataclass(frozen=True, eq=False)
class TubeReason:
    """What hangs on one tube that is bought."""

    planned: PlannedTube
    wished: bool
    """Whether it is bought because it is a must-have tube."""
    only_it_brings: tuple[Sample, ...]
    """Colours that are lost if it is left out and all else is kept."""
    without: float
    """Best coverage found if it were not on sale [0–1]."""
    without_bound: float
    """No choice without it covers more [0–1]; equal to `without` if that is proven."""
    stand_in: StandIn | None
    """None if no single tube that the money allows brings anything in its place."""

    @property
    def without_proven(self) -> bool:
        """Whether the best without it is proven."""
        return self.without == self.without_bound


@dataclass(frozen=True, eq=False)
class Route:
    """The tubes to add so that a colour comes within reach."""

    tubes: tuple[Tube, ...]
    cost: int
    """What all that are not owned add to the cost of the plan [hundredths of the currency]."""
    refusals: tuple[Refusal | None, ...]
    """Why the wishes keep each out of use; None for those allowed."""
    in_set: bool = False
    """Whether they cost nothing more though not all are owned: mostly since they lie in sets that
    are bought anyway."""
    sources: tuple[Source | None, ...] = ()
    """Where each is bought, of the routes that are told; empty for others."""
    cheapest: bool = True
    """Whether the cost of all others was counted beside it; else some may be cheaper."""

    @property
    def allowed(self) -> bool:
        """Whether the wishes allow all of them."""
        return all(refusal is None for refusal in self.refusals)


@dataclass(frozen=True, eq=False)
class Unreached:
    """A colour that stays out of reach."""

    planned: PlannedSample
    singles: tuple[Route, ...]
    """Each single further tube that would bring it, allowed and cheap ones first."""
    cheapest: Route | None
    """The cheapest tubes to add that would bring it, allowed ones first, of those whose cost was
    counted (`Route.cheapest`); None if none do."""


@dataclass(frozen=True, eq=False)
class OneOfThese:
    """Tubes of which one must be bought for some colours."""

    tubes: tuple[Tube, ...]
    bought: tuple[Tube, ...]
    """Those of them that the plan buys."""
    samples: tuple[PlannedSample, ...]
    """Colours that stay out of reach without any of them."""


@dataclass(frozen=True, eq=False)
class Why:
    """The plan and its reasons."""

    plan: Plan
    """The plan, as `shop` gives it: mostly the best found."""
    tubes: tuple[TubeReason, ...]
    """What hangs on each tube bought, in the order of the plan."""
    unreached: tuple[Unreached, ...]
    """What keeps each colour out of reach and what would bring it."""
    one_of_these: tuple[OneOfThese, ...]
    """Smallest sets first."""

    def tube_reasons(self) -> "pd.DataFrame":
        """Return what hangs on each tube, with the columns of ``why-tubes.csv``.

        Returns
        -------
        A row for each tube that is bought:

        `tube`, `name`, `price`, `currency`, `must_have`
            Id, name, price of its packs in the currency (ISO 4217 code), and whether the wishes
            name it as a must-have tube.
        `colours_only_it_brings`, `only_it_brings`
            Colours parted by semicolons, and coverage lost without it, all others kept [0–1].
        `coverage_not_on_sale`, `coverage_not_on_sale_at_most`, `not_on_sale_proven`
            Best coverage found if it were not on sale [0–1], what no choice without it exceeds
            [0–1], and whether that best is proven.
        `stand_in`, `stand_in_price`, `stand_in_coverage`
            Name of the best single tube in its place, its price in the currency, and the coverage
            with it [0–1]; missing if none serves.
        """
        from fewtubes.comparison.why_tables import tube_reasons

        return tube_reasons(self).frame()

    def out_of_reach(self) -> "pd.DataFrame":
        """Return the colours out of reach and the ways to them (``out-of-reach.csv``).

        Returns
        -------
        A row for each single tube that would bring a colour, and one for the cheapest set of
        several; one row where nothing would do:

        `flower`, `colour`, `importance`
            What it is, and its share of all that is to be painted [0–1].
        `match`, `because_of`
            Difference of the nearest mix [ΔE00], missing without any, and what is in the way.
        `tubes_to_add`, `price`, `currency`, `allowed`
            Names parted by semicolons, price of those not owned in the currency (ISO 4217 code),
            and whether the wishes allow all of them; missing where nothing would do.
        """
        from fewtubes.comparison.why_tables import out_of_reach

        return out_of_reach(self).frame()

    def choices(self) -> "pd.DataFrame":
        """Return the tubes of which one must be bought (``one-of-these.csv``).

        Returns
        -------
        A row for each tube and colour of each of `one_of_these`:

        `choice`
            Its number, from 1, shared by all of its rows.
        `tube`, `name`, `bought`
            Id, name, and whether the plan buys it.
        `flower`, `colour`, `reached`
            A colour out of reach without any of the tubes, and whether the plan covers it.
        """
        from fewtubes.comparison.why_tables import choices

        return choices(self).frame()
