"""Fitted tubes and their swatches as tables."""

from collections.abc import Iterator, Sequence

from fewtubes.fitting.fitted import FittedTube
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table

__all__ = ["swatches", "tubes"]

TUBES = (
    Column("tube", Kind.TEXT, "name as painted"),
    Column("pigments", Kind.TEXT, "Colour Index names as on the label, joined by +"),
    Column("swatches", Kind.WHOLE, "swatches fitted to"),
    Column("own_swatches", Kind.FIGURE, "mean difference of swatches from the fit [ΔE00]"),
    Column(
        "left_out",
        Kind.FIGURE,
        "mean difference of each swatch from what the others say of it [ΔE00]; empty if too few",
    ),
    Column("half_within", Kind.FIGURE, "half of its mixtures are within this of the computed"),
    Column("nine_in_ten_within", Kind.FIGURE, "nine in ten are within this [ΔE00]"),
    Column("next_strength", Kind.FIGURE, "strength of the swatch that would help most [0–1]"),
    Column("next_over", Kind.TEXT, "what that lies over, paper or black; empty if none would help"),
    Column("then_within", Kind.FIGURE, "nine in ten would then be within about this [ΔE00]"),
)

SWATCHES = (
    Column("tube", Kind.TEXT, "name as painted"),
    Column("over", Kind.TEXT, "paper or black"),
    Column("strength", Kind.FIGURE, "as meant: share of a full-strength stroke [0–1]"),
    Column("found_strength", Kind.FIGURE, "as found, share of a full-strength stroke"),
    Column("L", Kind.FIGURE, "CIELAB L* of the fitted paint at the found strength [0–100]"),
    Column("a", Kind.FIGURE, "CIELAB a* of it"),
    Column("b", Kind.FIGURE, "CIELAB b* of it"),
    Column("difference", Kind.FIGURE, "between what was seen and that [ΔE00]"),
    Column(
        "left_out", Kind.FIGURE, "from what the others alone say of it [ΔE00]; empty if too few"
    ),
)


def tubes(fitted: Sequence[FittedTube]) -> Table:
    """Return how near and how sure each tube is, and what would help it."""
    return Table(TUBES, tuple(_tubes(fitted)))


def swatches(fitted: Sequence[FittedTube]) -> Table:
    """Return each swatch beside what the fit gives."""
    return Table(SWATCHES, tuple(_swatches(fitted)))


def _tubes(fitted: Sequence[FittedTube]) -> Iterator[tuple[Cell, ...]]:
    for tube in fitted:
        advice: tuple[Cell, ...] = (None, None, None)
        if tube.advice is not None:
            over = "black" if tube.advice.over_black else "paper"
            advice = (tube.advice.strength, over, tube.advice.spread.most)
        yield (
            tube.painted.name,
            " + ".join(tube.painted.codes),
            len(tube.swatches),
            tube.mean_off,
            tube.mean_left_out,
            tube.spread.middle,
            tube.spread.most,
            *advice,
        )


def _swatches(fitted: Sequence[FittedTube]) -> Iterator[tuple[Cell, ...]]:
    for tube in fitted:
        for swatch in tube.swatches:
            yield (
                tube.painted.name,
                "black" if swatch.painted.over_black else "paper",
                swatch.painted.strength,
                swatch.strength,
                *swatch.lab,
                swatch.difference,
                swatch.left_out,
            )
