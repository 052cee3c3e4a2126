"""Which two colours of a petal have a step between them.

A petal grades from its light edge to its fold: the same hue, paler and deeper. Two petals of one
flower need not: a pansy's violet and its yellow meet in a line, and no brown lies between them. A
table of swatches does not say which of them lie on one petal, so their colours have to: two grade
into each other where their hues are near and one of them is deeper. Only where names tell that one
grows at the top and the other at the foot, as an iris's standard and its fall, they are two petals
whatever their colours.

Each colour is joined to at most one that is paler than itself, the one that comes next to it in
depth. So a flower with two kinds of petals gets two courses from light to deep, each in itself, and
two shadows of different hue on one petal both begin at its light.
"""

from collections.abc import Sequence

import numpy as np

from fewtubes.catalogue.records import Role, Swatch
from fewtubes.colour.cielab import lab_to_lch
from fewtubes.coverage.heights import told_height

__all__ = ["PETAL_ROLES", "grade_into_each_other", "graded_pairs"]

PETAL_ROLES = frozenset({Role.PETAL_LIGHT, Role.PETAL, Role.PETAL_SHADE})
"""Roles among which there may be steps; in what order they go, depth says and not the role."""

LEAST_DEPTH = 2.0
"""What one colour must be darker than another to be deeper [L*]; our own. The demo's nearest two
on one petal are 3 apart."""

WIDEST_TURN = 20.0
"""Angle between two hues that are one to a painter's eye, paler and deeper [degrees]; our own, and
less than the 30 from one to the next on a circle of twelve hues (common practice, no source)."""

SLIGHT_TINGE = 8.0
"""ΔH* up to which hues are near whatever their angle [CIELAB units]; our own. The angle of what is
almost grey says little: a slight shift of b* turns it by a third of the circle."""

PALEST_LIGHTNESS, PALEST_CHROMA = 88.0, 8.0
"""From this L* on and up to this C* a colour is almost white; every wash can be thinned to that."""

Lab = tuple[float, float, float]


def graded_pairs(swatches: Sequence[Swatch]) -> list[tuple[Swatch, Swatch]]:
    """Return the pairs with a step between them, each light to deep, from the palest pair on.

    Equally light colours keep the order of the table.
    """
    petals = [swatch for swatch in swatches if swatch.role in PETAL_ROLES]
    petals.sort(key=lambda swatch: -swatch.lab[0])
    pairs = []
    for place, deep in enumerate(petals):
        paler = (
            one
            for one in reversed(petals[:place])
            if grade_into_each_other(one.lab, deep.lab) and not _grow_apart(one.name, deep.name)
        )
        light = next(paler, None)
        if light is not None:
            pairs.append((light, deep))
    return pairs


def _grow_apart(one: str, other: str) -> bool:
    """Say whether names tell that one petal grows at the top of a flower and one at the foot."""
    return told_height(one) * told_height(other) < 0


def grade_into_each_other(light: Lab, deep: Lab) -> bool:
    """Say whether the second colour is the first one, deeper.

    Parameters
    ----------
    light, deep
        CIELAB of two colours of petals.

    Notes
    -----
    ΔH* = 2 √(C*₁ C*₂) sin(Δh / 2), the difference of hue of CIE 015.
    """
    if light[0] - deep[0] < LEAST_DEPTH:
        return False
    _, light_chroma, light_hue = map(float, lab_to_lch(np.array(light)))
    _, deep_chroma, deep_hue = map(float, lab_to_lch(np.array(deep)))
    if light[0] >= PALEST_LIGHTNESS and light_chroma <= PALEST_CHROMA:
        return True
    turn = abs((light_hue - deep_hue + 180) % 360 - 180)
    tinge = 2 * np.sqrt(light_chroma * deep_chroma) * np.sin(np.radians(turn / 2))
    return bool(turn <= WIDEST_TURN or tinge <= SLIGHT_TINGE)
