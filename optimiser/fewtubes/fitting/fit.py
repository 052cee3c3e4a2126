"""From a sheet of swatches to fitted tubes."""

import zlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, LikelySpectra, Paper, Pigment
from fewtubes.coverage.cache import Cache
from fewtubes.fitting import fit_tables
from fewtubes.fitting.beneath import beneath_swatches
from fewtubes.fitting.estimate import Estimate, estimated
from fewtubes.fitting.fitted import FittedSwatch, FittedTube
from fewtubes.fitting.grounds import Grounds
from fewtubes.fitting.kinds import kinds_of, labelled_profiles
from fewtubes.fitting.left_out import Predicted, off, painted_lab, predicted
from fewtubes.fitting.mixed_up import check_not_mixed_up
from fewtubes.fitting.notes import notes_on
from fewtubes.fitting.seen import labs_of
from fewtubes.fitting.settings import FitSettings
from fewtubes.fitting.sheet import PaintedTube, SwatchSheet
from fewtubes.fitting.sheet_checks import check_tubes
from fewtubes.fitting.spread import Mixtures, advice_for, spread_of
from fewtubes.fitting.swatch_model import Paint
from fewtubes.threads import one_thread_per_product

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["DRAWS", "Fit", "fit"]

DRAWS = 48
"""Likely paints that are kept of each tube; 90 % of them are known to 4 points, √(0.9 · 0.1/48)."""

MOST_PARTNERS = 6
"""Paints that a tube is thought mixed with where its uncertainty is told."""

Progress = Callable[[str], None]


@dataclass(frozen=True, eq=False)
class Fit:
    """Fitted tubes, and the paper they were painted on."""

    label: str
    """The file of the swatches, as the user named it."""
    paper: Paper
    """As it is in the catalogue, or as it was seen."""
    tubes: tuple[FittedTube, ...]
    """In the order of the sheet."""
    notes: tuple[str, ...] = ()
    """What the painter should know about the sheet, a sentence each."""

    def summary(self) -> "pd.DataFrame":
        """Return how near and how sure each tube is, with the columns of ``fitted-tubes.csv``.

        Returns
        -------
        A row for each tube:

        `tube`, `pigments`, `swatches`
            Its name, its Colour Index names joined by +, and the number of its swatches.
        `own_swatches`, `left_out`
            Mean difference of its swatches from the fit, and from what the others alone say of
            them [ΔE00]; missing where the others are too few.
        `half_within`, `nine_in_ten_within`
            How far mixtures with spectra that fit as well are from those computed [ΔE00].
        `next_strength`, `next_over`, `then_within`
            The swatch that would help most, and what nine in ten would then be within, about;
            missing where none would help.
        """
        return fit_tables.tubes(self.tubes).frame()

    def swatches(self) -> "pd.DataFrame":
        """Return each swatch beside the fit, with the columns of ``fitted-swatches.csv``.

        Returns
        -------
        A row for each swatch:

        `tube`, `over`, `strength`, `found_strength`
            What it is of, what it lies over, and its strength as meant and as found [0–1].
        `L`, `a`, `b`
            CIELAB of the fitted paint at the strength found.
        `difference`, `left_out`
            From what was seen, and from what the others alone say of it [ΔE00].
        """
        return fit_tables.swatches(self.tubes).frame()


@dataclass(frozen=True, eq=False)
class _Fitting:
    """One tube on its way."""

    painted: PaintedTube
    estimate: Estimate
    foretold: tuple[Predicted | None, ...]
    draws: Paint
    """Paints that fit as well, shapes (draws, bands)."""
    labelled: bool
    """Whether its label tells pigments that are known."""


def fit(
    sheet: SwatchSheet,
    *,
    catalogue: Catalogue | None = None,
    paper: str | None = None,
    light: str | None = None,
    settings: FitSettings | None = None,
    cache: Cache | None = None,
    progress: Progress | None = None,
) -> Fit:
    """Return paints that look like the swatches, with how sure they are.

    Parameters
    ----------
    sheet
        Swatches of one tube or more, as `read_swatches` returns them.
    catalogue
        Holds papers and lights; None for the demo's.
    paper
        Id of the paper they were painted on; None for the one seen on the sheet or, if the sheet
        does not show it, the usual one.
    light
        Id of the light they were seen under; None for daylight (D65).
    settings
        What is assumed about the painting.
    cache
        Where the light's weights are kept.
    progress
        Is told each stage.

    Returns
    -------
    The tubes in the order of the sheet.

    Raises
    ------
    InputError
        If swatches contradict one another or what paint can do; every fault found is told.

    Examples
    --------
    >>> import fewtubes
    >>> from fewtubes.fitting.sheet import PaintedSwatch, PaintedTube, SeenLab, SwatchSheet
    >>> seen = {1: (42, 58, 15), 0.5: (52, 55, 6), 0.25: (66, 40, 0)}
    >>> swatches = [
    ...     PaintedSwatch(f"wash {s}", s, over_black=False, colour=SeenLab(lab), noise=1.5)
    ...     for s, lab in seen.items()
    ... ]
    >>> tube = PaintedTube("my rose", ("PV19",), tuple(swatches))
    >>> found = fewtubes.fit(SwatchSheet("by hand", SeenLab((96, 0, 2)), (tube,)))
    >>> found.tubes[0].K.shape, found.tubes[0].spread.most < 5
    ((36,), True)
    """
    settings = settings or FitSettings()
    tell = progress or _nothing
    beneath = beneath_swatches(
        sheet, catalogue or read_catalogue(), cache or Cache(), paper=paper, light=light
    )
    grounds, collector = beneath.grounds, FaultCollector()
    check_tubes(sheet, grounds, collector, hand=settings.hand)
    collector.raise_if_any()
    profiles = tuple(read_catalogue().pigments.values())
    fittings = []
    for number, tube in enumerate(sheet.tubes, start=1):
        tell(f"fitting tube {number} of {len(sheet.tubes)}")
        with one_thread_per_product():
            fittings.append(_fitting(tube, profiles, grounds, settings))
    check_not_mixed_up(
        [(f.painted, labs_of(f.painted.swatches, grounds), f.foretold) for f in fittings], collector
    )
    collector.raise_if_any()
    return Fit(
        sheet.label,
        beneath.paper,
        tuple(
            _fitted(fitting, _partners(place, fittings, profiles), grounds, settings)
            for place, fitting in enumerate(fittings)
        ),
        beneath.notes,
    )


def _nothing(_stage: str) -> None:
    """Tell nobody."""


def _fitting(
    tube: PaintedTube, profiles: Sequence[Pigment], grounds: Grounds, settings: FitSettings
) -> _Fitting:
    """Return what the swatches of a tube tell, and how well each is foretold by the others."""
    kinds = kinds_of(tube, profiles, grounds)
    estimate = estimated(tube.swatches, kinds, grounds, hand=settings.hand)
    foretold = predicted(tube.swatches, estimate, grounds, hand=settings.hand)
    stream = np.random.SeedSequence(settings.seed, spawn_key=(zlib.crc32(tube.name.encode()),))
    draws = estimate.draws(DRAWS, np.random.default_rng(stream))
    return _Fitting(tube, estimate, foretold, draws, bool(labelled_profiles(tube, profiles)))


def _partners(
    place: int, fittings: Sequence[_Fitting], profiles: Sequence[Pigment]
) -> list[tuple[Paint, Paint]]:
    """Return paints that a tube is mixed with: the others of the sheet, or known ones.

    Each as it is thought to be, shapes (bands,), and as likely, shapes (draws, bands).
    """
    others = [fitting for number, fitting in enumerate(fittings) if number != place]
    known = [(fitting.estimate.paint, fitting.draws) for fitting in others] or [
        (Paint(profile.K, profile.S), _repeated(profile)) for profile in profiles
    ]
    step = max(1, len(known) // MOST_PARTNERS)
    return known[::step][:MOST_PARTNERS]


def _repeated(profile: Pigment) -> Paint:
    """Return a known paint in each draw, shapes (draws, bands)."""
    return Paint(np.tile(profile.K, (DRAWS, 1)), np.tile(profile.S, (DRAWS, 1)))


def _fitted(
    fitting: _Fitting,
    partners: Sequence[tuple[Paint, Paint]],
    grounds: Grounds,
    settings: FitSettings,
) -> FittedTube:
    """Return a fitted tube with all that is told of it."""
    estimate, painted = fitting.estimate, fitting.painted
    paint = estimate.paint
    draws = fitting.draws
    mixtures = Mixtures.with_partners([sure for sure, _ in partners], grounds)
    as_likely = Mixtures.with_partners([likely for _, likely in partners], grounds)
    spread, own = spread_of(paint, draws, mixtures, as_likely), spread_of(paint, draws, mixtures)
    noise = float(np.median([swatch.noise for swatch in painted.swatches]))
    (likeliest,) = estimate.likeliest_kinds(1).solutions
    swatches = _swatches(fitting, paint, grounds)
    return FittedTube(
        painted=painted,
        K=paint.K,
        S=paint.S,
        likely=LikelySpectra(draws.K, draws.S),
        swatches=swatches,
        spread=spread,
        advice=advice_for(likeliest, spread, mixtures, noise=noise, own=own),
        notes=notes_on(painted, swatches, hand=settings.hand, labelled=fitting.labelled),
    )


def _swatches(fitting: _Fitting, paint: Paint, grounds: Grounds) -> tuple[FittedSwatch, ...]:
    """Return each swatch beside what the fitted paint gives.

    Swatches over paper hardly tell how much a paint hides, so a lone stroke over black is not held
    against what they say of it.
    """
    found = []
    over_black = sum(swatch.over_black for swatch in fitting.painted.swatches)
    for swatch, strength, said in zip(
        fitting.painted.swatches,
        fitting.estimate.strengths.tolist(),
        fitting.foretold,
        strict=True,
    ):
        lab = painted_lab(paint, swatch, grounds, strength=strength)
        L, a, b = lab.tolist()
        alone = swatch.over_black and over_black == 1
        left_out = None if said is None or alone else said.difference
        found.append(FittedSwatch(swatch, strength, (L, a, b), off(lab, swatch, grounds), left_out))
    return tuple(found)
