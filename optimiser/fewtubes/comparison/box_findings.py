"""What can be said of the tubes one owns, as values that do not change."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.box_gains import Gain
from fewtubes.mixing.likeness import HARDLY_DIFFERENT, TWINS, Likeness
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.sources import Source

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["Addition", "Box", "Double", "Intended"]


@dataclass(frozen=True, eq=False)
class Double:
    """Two owned tubes that look alike, and which of them is better in what."""

    first: Tube
    second: Tube
    likeness: Likeness
    stronger: Tube | None
    """None where neither is; as the others."""
    longer_lasting: Tube | None
    clearer: Tube | None
    """The more transparent one, the stronger thinned to the strength of the weaker."""

    @property
    def spare(self) -> Tube | None:
        """The weaker of two tubes that are one paint, if it does not last longer; else None.

        Water does what it does: where it alone brings a colour, that comes of the whole numbers of
        parts that are tried, in which the stronger one may have no place just so weak.
        """
        if self.stronger is None or self.likeness.difference > TWINS:
            return None
        weaker = self.second if self.stronger is self.first else self.first
        return None if self.longer_lasting is weaker else weaker


@dataclass(frozen=True, eq=False)
class Addition:
    """One tube bought for the box."""

    tube: Tube
    cost: int
    """Of its packs [hundredths of the currency]."""
    gain: float
    """Coverage it adds to that of the box [0–1]."""
    affordable: bool
    """Whether the budget buys it."""
    source: Source | None = None
    """Where it is bought; None where sellers are not told apart."""


@dataclass(frozen=True, eq=False)
class Intended:
    """A tube one is about to buy, and the owned one that is most like it."""

    tube: Tube
    nearest: Tube | None
    """The most alike of those in use; None if there is no other."""
    likeness: Likeness | None
    is_owned: bool
    """Whether the very tube is in the box."""
    set_aside: bool = False
    """Whether it is, but the wishes keep it out of use."""
    kept_out: str = ""
    """Why the wishes would keep it out of use, as the end of a sentence; blank if they would not,
    or if it is in the box."""
    gain: Gain | None = None
    """What it alone adds to the box; None if it is in the box, or would be kept out of use."""
    thinned: bool = False
    """Whether water makes it from the one that it is most like, so that it need not be bought."""

    @property
    def is_double(self) -> bool:
        """Whether it is in the box already, as itself or under another name."""
        alike = self.likeness is not None and self.likeness.difference <= HARDLY_DIFFERENT
        return self.is_owned or alike


@dataclass(frozen=True, eq=False)
class Box:
    """What can be said of the tubes that one owns."""

    scenario: Scenario
    """The question, which names the owned tubes and the flowers."""
    owned: tuple[Tube, ...]
    """In the order in which the scenario names them."""
    set_aside: tuple[Tube, ...]
    """Owned tubes that the wishes keep out of use."""
    coverage: float
    """Of the box alone [0–1]."""
    doubles: tuple[Double, ...]
    """Of the tubes in use, most alike first."""
    idle: tuple[Tube, ...]
    """Tubes in use each of which could be missing without loss, if all the others stay."""
    lost_without_idle: float
    """Coverage that is lost if all of them are missing [0–1]."""
    additions: tuple[Addition, ...]
    """Every single purchase that adds something, most for the money first."""
    intended: tuple[Intended, ...]
    """The tubes about to be bought, each beside the owned one most like it."""
    intended_from_plan: bool
    """Whether the tubes about to be bought are those of the best plan found."""
    plan_proven: bool
    """Whether that plan is proven best; True where none was made."""
    fitted_paints: bool = False
    """Whether any tube that could be chosen, or is in use, was fitted from swatches."""
    counted_to: int | None = None
    """What share of the whole importances are counted to, as 1 in so many; None if exactly."""
    names: Mapping[str, str] = field(default_factory=dict)
    """Of the tubes that the scenario names, by id."""
    id_is_a_name: tuple[tuple[Tube, Tube], ...] = ()
    """Owned tubes, and those about to be bought, whose id is what another tube is called, each with
    that other."""
    gain_together: Gain | None = None
    """What the tubes about to be bought add together; None unless several may be used."""

    @property
    def spare(self) -> tuple[Double, ...]:
        """The pairs of tubes in use of which water makes the weaker one from the stronger."""
        return tuple(double for double in self.doubles if double.spare is not None)

    @property
    def most(self) -> Addition | None:
        """The purchase within the budget that adds most in all, the cheapest of equals."""
        within = [item for item in self.additions if item.affordable]
        return min(within, key=lambda item: (-item.gain, item.cost, item.tube.id), default=None)

    @property
    def most_for_money(self) -> Addition | None:
        """The purchase within the budget that adds most for the money."""
        return next((item for item in self.additions if item.affordable), None)

    def pairs_alike(self) -> "pd.DataFrame":
        """Return the owned tubes that look alike, with the columns of ``box-doubles.csv``.

        Returns
        -------
        A row for each of `doubles`, most alike first:

        `name`, `like`, `tube`, `like_tube`
            Their names and their ids.
        `difference`, `thinning`
            Largest difference over the washes [ΔE00], the stronger one thinned to this share of
            its strength [0–1].
        `stronger`, `longer_lasting`, `more_transparent`
            Name of the better one; missing where neither is.
        """
        from fewtubes.comparison.box_tables import pairs_alike

        return pairs_alike(self).frame()

    def tubes(self) -> "pd.DataFrame":
        """Return what is in the box, with the columns of ``box-tubes.csv``.

        Returns
        -------
        A row for each of `owned`:

        `tube`, `name`
            Id and name.
        `in_use`, `could_be_missing`
            Whether the wishes let it be used; whether nothing is lost without it as long as all
            others stay.
        """
        from fewtubes.comparison.box_tables import tubes

        return tubes(self).frame()

    def purchases(self) -> "pd.DataFrame":
        """Return what single purchases would add, with the columns of ``box-additions.csv``.

        Returns
        -------
        A row for each of `additions`, most for the money first:

        `tube`, `name`, `price`, `currency`
            Id, name, and price of its packs in the currency (ISO 4217 code).
        `adds`, `within_budget`
            Share of all that is to be painted [0–1]; whether the budget buys it.
        """
        from fewtubes.comparison.box_tables import purchases

        return purchases(self).frame()

    def about_to_buy(self) -> "pd.DataFrame":
        """Return the tubes about to be bought, with the columns of ``about-to-buy.csv``.

        Returns
        -------
        A row for each of `intended`:

        `tube`, `name`, `in_the_box`
            Id, name, and whether it, or one hardly different, is owned.
        `most_like`, `difference`
            Name of the most alike of the tubes in use, and the largest difference from it over the
            washes [ΔE00]; missing if there is no other.
        `box_covers`, `covers_with_it`, `newly_reached`
            Coverage of the box without and with this one tube [0–1], and the colours newly reached,
            counted by flower; missing if it is in the box, or would be kept out of use.
        """
        from fewtubes.comparison.box_tables import about_to_buy

        return about_to_buy(self).frame()
