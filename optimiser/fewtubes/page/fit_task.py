"""What is sent to be fitted, and what the process that fits tells of it."""

from dataclasses import dataclass
from pathlib import Path

from fewtubes.card.layout import CardLayout
from fewtubes.catalogue.files import HeldFile
from fewtubes.colour.picture_file import Photograph
from fewtubes.errors import Fault
from fewtubes.fitting.fit import Fit
from fewtubes.page.fitted_cards import FittedCard

__all__ = ["CardSent", "FitFound", "FitRefused", "FitTask"]


@dataclass(frozen=True, eq=False)
class CardSent:
    """The photograph of a painted card, unpacked, and where its boxes are."""

    label: str
    """The file's name."""
    photograph: Photograph
    layout: CardLayout


@dataclass(frozen=True, eq=False)
class FitTask:
    """What is to be fitted."""

    swatches: HeldFile | CardSent
    """A table, or a card."""
    catalogue: Path | None
    """Holds papers and lights; None for the demo's."""
    cache: Path | None


@dataclass(frozen=True, eq=False)
class FitFound:
    """Told: the fitted tubes."""

    fit: Fit
    notes: tuple[str, ...]
    """What is to be said of how the swatches were read."""
    cards: tuple[FittedCard, ...]
    """Each tube as it is shown."""


@dataclass(frozen=True)
class FitRefused:
    """Told: why there are none."""

    faults: tuple[Fault, ...]
