"""Which kinds of paint the swatches of a tube may be of: profiles whose own washes look alike."""

from collections.abc import Sequence

import numpy as np

from fewtubes.catalogue.records import Pigment
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.fitting.grounds import Grounds
from fewtubes.fitting.prior import Expected, expected_from
from fewtubes.fitting.seen import as_seen, labs_of
from fewtubes.fitting.sheet import PaintedTube
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.mixture import reflectance_lab
from fewtubes.mixing.surface import with_surface

__all__ = ["kinds_of", "labelled_profiles"]

MOST_KINDS = 24
"""Profiles tried for each tube; more tell hardly more and take longer."""


def kinds_of(
    tube: PaintedTube, profiles: Sequence[Pigment], grounds: Grounds
) -> tuple[Expected, ...]:
    """Return what a tube may be: the profiles that look most like it, and what its label says.

    Parameters
    ----------
    tube
        With its swatches.
    profiles
        Of known paints.
    grounds
        What the swatches lie on.
    """
    washes = as_seen(_washes(tube, profiles, grounds), tube.swatches)
    differences = delta_e_2000(washes, labs_of(tube.swatches, grounds))
    nearest = np.argsort(differences.mean(axis=1), kind="stable")[:MOST_KINDS]
    alike = [expected_from([profiles[place]], known=False) for place in nearest]
    named = labelled_profiles(tube, profiles)
    if named:
        labelled = expected_from(named, known=True)
        # Whatever the curve is, the label knows how much such a paint scatters.
        alike = [Expected(kind.log_absorption, labelled.scattering) for kind in alike]
        return (labelled, *alike)
    return tuple(alike)


def labelled_profiles(tube: PaintedTube, profiles: Sequence[Pigment]) -> list[Pigment]:
    """Return the profiles of a tube's pigments as its label has them; none unless all are known."""
    named = [[profile for profile in profiles if profile.code == code] for code in tube.codes]
    return [profile for same in named for profile in same] if all(named) else []


def _washes(tube: PaintedTube, profiles: Sequence[Pigment], grounds: Grounds) -> FloatArray:
    """Return CIELAB of each profile painted as the tube was, shape (profiles, swatches, 3)."""
    loads = np.array([swatch.strength for swatch in tube.swatches])[:, None]
    K = np.array([profile.K for profile in profiles])[:, None]
    S = np.array([profile.S for profile in profiles])[:, None]
    inner = film_reflectance(loads * K, loads * S, grounds.under(tube.swatches))
    return reflectance_lab(grounds.shown(with_surface(inner)), grounds.optics)
