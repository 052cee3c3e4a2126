"""The sample colours on which coverage is counted.

A flower's gamut is more than its swatches: between the lightest and the deepest part of a petal
lie steps (`steps.py` says where), and they are counted too, so that coverage is the share of the
flower that can be painted. The importance of a flower is divided over its swatches by theirs, and
a step takes its importance from the mean of the two ends. All this is done in fractions, so that
nothing is rounded before everything that is asked for is counted together.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from fewtubes.catalogue.exact import Number, exact
from fewtubes.catalogue.records import Flower, Role
from fewtubes.colour.bands import FloatArray
from fewtubes.coverage.steps import graded_pairs
from fewtubes.coverage.weights import whole_weights

__all__ = [
    "Portion",
    "Sample",
    "lab_table",
    "portion_of_colour",
    "portions_of_flower",
    "weighed",
]

STEP_SHARE = Fraction(1, 2)
"""Importance of a step relative to the mean of its two ends: seen less than either."""


@dataclass(frozen=True)
class Sample:
    """One colour to be covered.

    Parameters
    ----------
    flower
        Flower or own colour it belongs to.
    name
        Swatch name, or "between A and B" for a step.
    lab
        CIELAB relative to the white of the light.
    weight
        Importance, an integer > 0, in a unit that all samples of a question share.
    between
        Names of the two swatches between which it lies, light and deep; None for all but steps.
    """

    flower: str
    name: str
    lab: tuple[float, float, float]
    weight: int
    role: Role | None = None
    """Part of the plant; None for steps and own colours."""
    between: tuple[str, str] | None = None

    @property
    def is_step(self) -> bool:
        """Whether it lies between two swatches."""
        return self.between is not None


@dataclass(frozen=True)
class Portion:
    """One colour to be covered, before all that is asked for is counted in one unit."""

    flower: str
    name: str
    lab: tuple[float, float, float]
    importance: Fraction
    """> 0, exact."""
    role: Role | None = None
    between: tuple[str, str] | None = None
    """As in `Sample`."""


def portions_of_flower(flower: Flower, importance: Number) -> tuple[Portion, ...]:
    """Return the colours of a flower: its swatches, then the steps between its petal colours."""
    steps = graded_pairs(flower.swatches)
    shares = [exact(swatch.importance) for swatch in flower.swatches]
    shares += [
        STEP_SHARE * (exact(light.importance) + exact(deep.importance)) / 2 for light, deep in steps
    ]
    unit = exact(importance) / sum(shares)
    colours = [
        Portion(flower.name, swatch.name, swatch.lab, share * unit, swatch.role)
        for swatch, share in zip(flower.swatches, shares, strict=False)
    ]
    colours += [
        Portion(
            flower=flower.name,
            name=f"between {light.name} and {deep.name}",
            lab=_midway(light.lab, deep.lab),
            importance=share * unit,
            between=(light.name, deep.name),
        )
        for (light, deep), share in zip(steps, shares[len(colours) :], strict=True)
    ]
    return tuple(colours)


def portion_of_colour(name: str, lab: tuple[float, float, float], importance: Number) -> Portion:
    """Return a colour of the painter's own."""
    return Portion(flower=name, name="own colour", lab=lab, importance=exact(importance))


def weighed(portions: Sequence[Portion]) -> tuple[tuple[Sample, ...], bool]:
    """Return the samples, all counted in one unit, and whether that is exact."""
    weights = whole_weights([portion.importance for portion in portions])
    samples = tuple(
        Sample(portion.flower, portion.name, portion.lab, weight, portion.role, portion.between)
        for portion, weight in zip(portions, weights.counts, strict=True)
    )
    return samples, weights.exact


def lab_table(samples: Sequence[Sample]) -> FloatArray:
    """Return the samples' CIELAB, shape (samples, 3)."""
    return np.array([sample.lab for sample in samples], dtype=np.float64).reshape(-1, 3)


def _midway(
    light: tuple[float, float, float], deep: tuple[float, float, float]
) -> tuple[float, float, float]:
    """Return the CIELAB midpoint of two colours."""
    return tuple((a + b) / 2 for a, b in zip(light, deep, strict=True))  # type: ignore[return-value]
