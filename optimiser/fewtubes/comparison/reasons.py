"""The reasons for a plan, as values that do not change."""

from dataclasses import dataclass

from fewtubes.catalogue.records import Tube
from fewtubes.coverage.samples import Sample
from fewtubes.shopping.plan import Plan, PlannedSample, PlannedTube
from fewtubes.shopping.refusals import Refusal

__all__ = ["OneOfThese", "Route", "StandIn", "TubeReason", "Unreached", "Why"]


@dataclass(frozen=True, eq=False)
class StandIn:
    """A single tube in the place of another."""

    tube: Tube
    cost: int
    """Of its packs [hundredths of the currency]."""
    coverage: float
    """Of the palette after the exchange [0–1]."""


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
    """Of all that are not owned [hundredths of the currency]."""
    refusals: tuple[Refusal | None, ...]
    """Why the wishes keep each out of use; None for those allowed."""

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
    """The cheapest tubes to add that would bring it, allowed ones first; None if none do."""


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
    tubes: tuple[TubeReason, ...]
    unreached: tuple[Unreached, ...]
    one_of_these: tuple[OneOfThese, ...]
    """Smallest sets first."""
