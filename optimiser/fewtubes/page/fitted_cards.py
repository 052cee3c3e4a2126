"""Fitted tubes as the page shows them: each swatch beside the fitted paint, edge to edge."""

from dataclasses import dataclass

from fewtubes.fitting.fit import Fit
from fewtubes.fitting.fitted import FittedSwatch, FittedTube
from fewtubes.fitting.seen import lab_of
from fewtubes.mixing.mixture import Optics
from fewtubes.picture.sheet import screen_colour
from fewtubes.report.sentences.fitting import advice_words, named_tube, spread_words, stroke_words
from fewtubes.words.matches import difference, match_words

__all__ = ["FittedCard", "SwatchChip", "fitted_cards"]


@dataclass(frozen=True)
class SwatchChip:
    """One swatch beside the fitted paint."""

    words: str
    """Which swatch it is."""
    seen: str
    """Its colour on a screen, as #rrggbb."""
    fitted: str
    """That of the fitted paint."""
    match: str
    """How near they are, in words and as a number."""
    left_out: str
    """How far it is from what the others alone say of it; blank where they are too few."""


@dataclass(frozen=True)
class FittedCard:
    """One fitted tube."""

    name: str
    """As it was painted."""
    label: str
    """With its pigments."""
    chips: tuple[SwatchChip, ...]
    sure: str
    """How sure its mixtures are."""
    helps: str
    """Which further swatch would help most."""
    notes: tuple[str, ...]


def fitted_cards(fit: Fit, optics: Optics) -> tuple[FittedCard, ...]:
    """Return the tubes of a fit; measured spectra are shown under the light of the optics."""
    return tuple(_card(tube, optics) for tube in fit.tubes)


def _card(tube: FittedTube, optics: Optics) -> FittedCard:
    return FittedCard(
        name=tube.painted.name,
        label=named_tube(tube.painted),
        chips=tuple(_chip(swatch, optics) for swatch in tube.swatches),
        sure=spread_words(tube.spread),
        helps=advice_words(tube.advice, tube.spread),
        notes=tube.notes,
    )


def _chip(swatch: FittedSwatch, optics: Optics) -> SwatchChip:
    strength, over_black = swatch.painted.strength, swatch.painted.over_black
    stroke = stroke_words(strength)
    L, a, b = lab_of(swatch.painted.colour, optics).tolist()
    foretold = swatch.left_out
    return SwatchChip(
        words=f"{stroke} over black" if over_black else stroke,
        seen=screen_colour((L, a, b)).hex,
        fitted=screen_colour(swatch.lab).hex,
        match=f"{match_words(swatch.difference)}, {difference(swatch.difference)}",
        left_out="" if foretold is None else f"{match_words(foretold)}, {difference(foretold)}",
    )
