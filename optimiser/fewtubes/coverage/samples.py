"""The sample colours on which coverage is counted.

A flower's gamut is more than its swatches: between the lightest and the deepest part of a petal
lie steps, and they are counted too, so that coverage is the share of the flower that can be
painted. The importance of a flower is divided over its swatches by theirs, and a step takes its
importance from the mean of the two ends. All this is done in fractions, so that nothing is rounded
before everything that is asked for is counted together.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

import numpy as np

from fewtubes.catalogue.exact import Number, exact
from fewtubes.catalogue.records import Flower, Role, Swatch
from fewtubes.colour.bands import FloatArray
from fewtubes.coverage.weights import whole_weights

__all__ = [
    "Portion",
    "Sample",
    "lab_table",
    "portion_of_colour",
    "portions_of_flower",
    "weighed",
]

PETAL_ORDER = (Role.PETAL_LIGHT, Role.PETAL, Role.PETAL_SHADE)
"""Roles that grade into each other, light to deep."""

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
    is_step
        Whether it lies between two swatches.
    """

    flower: str
    name: str
    lab: tuple[float, float, float]
    weight: int
    role: Role | None = None
    """Part of the plant; None for steps and own colours."""
    is_step: bool = False


@dataclass(frozen=True)
class Portion:
    """One colour to be covered, before all that is asked for is counted in one unit."""

    flower: str
    name: str
    lab: tuple[float, float, float]
    importance: Fraction
    """> 0, exact."""
    role: Role | None = None
    is_step: bool = False


def portions_of_flower(flower: Flower, importance: Number) -> tuple[Portion, ...]:
    """Return the colours of a flower: its swatches, then the steps between its petal colours."""
    parts: list[tuple[str, tuple[float, float, float], Fraction, Role | None]] = [
        (swatch.name, swatch.lab, exact(swatch.importance), swatch.role)
        for swatch in flower.swatches
    ]
    parts += [
        (
            f"between {light.name} and {deep.name}",
            _midway(light.lab, deep.lab),
            STEP_SHARE * (exact(light.importance) + exact(deep.importance)) / 2,
            None,
        )
        for light, deep in _graded_pairs(flower.swatches)
    ]
    total = sum(part[2] for part in parts)
    return tuple(
        Portion(
            flower=flower.name,
            name=name,
            lab=lab,
            importance=exact(importance) * share / total,
            role=role,
            is_step=role is None,
        )
        for name, lab, share, role in parts
    )


def portion_of_colour(name: str, lab: tuple[float, float, float], importance: Number) -> Portion:
    """Return a colour of the painter's own."""
    return Portion(flower=name, name="own colour", lab=lab, importance=exact(importance))


def weighed(portions: Sequence[Portion]) -> tuple[tuple[Sample, ...], bool]:
    """Return the samples, all counted in one unit, and whether that is exact."""
    weights = whole_weights([portion.importance for portion in portions])
    samples = tuple(
        Sample(portion.flower, portion.name, portion.lab, weight, portion.role, portion.is_step)
        for portion, weight in zip(portions, weights.counts, strict=True)
    )
    return samples, weights.exact


def lab_table(samples: Sequence[Sample]) -> FloatArray:
    """Return the samples' CIELAB, shape (samples, 3)."""
    return np.array([sample.lab for sample in samples], dtype=np.float64).reshape(-1, 3)


def _graded_pairs(swatches: Sequence[Swatch]) -> list[tuple[Swatch, Swatch]]:
    """Return neighbouring petal swatches, light to deep; within a role in the table's order."""
    petals = [swatch for role in PETAL_ORDER for swatch in swatches if swatch.role == role]
    return list(pairwise(petals))


def _midway(
    light: tuple[float, float, float], deep: tuple[float, float, float]
) -> tuple[float, float, float]:
    """Return the CIELAB midpoint of two colours."""
    return tuple((a + b) / 2 for a, b in zip(light, deep, strict=True))  # type: ignore[return-value]
