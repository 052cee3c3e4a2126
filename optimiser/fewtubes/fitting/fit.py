"""From a sheet of swatches to fitted tubes."""

import zlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from fewtubes import defaults
from fewtubes.catalogue.collector import FaultCollector, settle_numbers
from fewtubes.catalogue.limits import NumberRange
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, LikelySpectra, Paper, Pigment
from fewtubes.colour.bands import FloatArray
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import usual_optics
from fewtubes.errors import Fault, InputError
from fewtubes.fitting import fit_tables
from fewtubes.fitting.estimate import Estimate, estimated
from fewtubes.fitting.fitted import FittedSwatch, FittedTube
from fewtubes.fitting.grounds import Grounds, luminance
from fewtubes.fitting.kinds import kinds_of
from fewtubes.fitting.left_out import Predicted, off, painted_lab, predicted
from fewtubes.fitting.mixed_up import check_not_mixed_up
from fewtubes.fitting.notes import notes_on
from fewtubes.fitting.own_paper import paper_like
from fewtubes.fitting.seen import lab_of, labs_of
from fewtubes.fitting.sheet import PaintedTube, ScreenColour, Seen, SeenReflectance, SwatchSheet
from fewtubes.fitting.sheet_checks import check_paper, check_tubes
from fewtubes.fitting.spread import Mixtures, advice_for, spread_of
from fewtubes.fitting.swatch_model import Paint
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.surface import OUTER_REFLECTION, beneath_surface
from fewtubes.threads import one_thread_per_product

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["DRAWS", "Fit", "FitSettings", "fit"]

BLACK_LINE = 0.01
"""Reflectance of a black line beneath its surface [0–1], where the bare line was not looked at."""

SURE = 2.0
"""Standard deviations by which a swatch must be darker than any surface is to tell of contrast."""

DRAWS = 48
"""Likely paints that are kept of each tube; 90 % of them are known to 4 points, √(0.9 · 0.1/48)."""

MOST_PARTNERS = 6
"""Paints that a tube is thought mixed with where its uncertainty is told."""

HAND = NumberRange(0, 1, above=True)
"""Standard deviation of ln(true ÷ meant strength)."""

SEEDS = NumberRange(0, 1_000_000_000)

Progress = Callable[[str], None]


@dataclass(frozen=True)
class FitSettings:
    """What is assumed about the painting of swatches.

    Parameters
    ----------
    hand
        Standard deviation of ln(true ÷ meant strength) of a swatch, above 0 and at most 1.
    seed
        Of the draws of likely paints, 0 to 1,000,000,000.

    Raises
    ------
    InputError
        If a number is out of bounds.
    """

    hand: float = defaults.SWATCH_HAND
    seed: int = defaults.SEED

    def __post_init__(self) -> None:
        settle_numbers(self, {"hand": HAND, "seed": SEEDS}, whole=("seed",))


@dataclass(frozen=True, eq=False)
class Fit:
    """Fitted tubes, and the paper they were painted on."""

    label: str
    """The file of the swatches, as the user named it."""
    paper: Paper
    """As it is in the catalogue, or as it was seen."""
    tubes: tuple[FittedTube, ...]
    """In the order of the sheet."""
    contrast: float = 1.0
    """How much further apart the picture is taken to show two reflectances, 1 or more."""

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
    r"""Return paints that look like the swatches, with how sure they are.

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
    ground_paper, grounds = _grounds(
        sheet, catalogue or read_catalogue(), paper, light, cache or Cache()
    )
    collector = FaultCollector()
    check_tubes(sheet, grounds, collector)
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
    paints = [fitting.estimate.paint for fitting in fittings]
    return Fit(
        sheet.label,
        ground_paper,
        tuple(
            _fitted(fitting, _partners(place, paints, profiles), grounds, settings)
            for place, fitting in enumerate(fittings)
        ),
        grounds.contrast,
    )


def _nothing(_stage: str) -> None:
    """Tell nobody."""


def _grounds(
    sheet: SwatchSheet, catalogue: Catalogue, paper: str | None, light: str | None, cache: Cache
) -> tuple[Paper, Grounds]:
    """Return the paper of the sheet and what its swatches lie on."""
    optics = usual_optics(catalogue, cache, paper=paper, light=light)
    _check_light(sheet, light)
    usual = catalogue.papers[paper or _usual(catalogue)]
    collector = FaultCollector()
    if sheet.paper is not None:
        check_paper(sheet, lab_of(sheet.paper, optics), collector)
        collector.raise_if_any()
        if paper is None:
            usual = paper_like(catalogue.papers, usual, sheet.paper, optics)
            optics = replace(optics, ground=beneath_surface(usual.reflectance))
    return usual, Grounds(optics, _black(sheet.black, optics), _darkest(sheet, optics))


def _check_light(sheet: SwatchSheet, light: str | None) -> None:
    """Refuse screen colours that are said to be seen under another light than daylight."""
    swatches = [swatch for tube in sheet.tubes for swatch in tube.swatches]
    of_screen = any(isinstance(swatch.colour, ScreenColour) for swatch in swatches)
    if of_screen and light not in (None, defaults.LIGHT):
        what = f"colours of a screen are those of daylight ({defaults.LIGHT}); leave the light out."
        raise InputError([Fault("light", what)])


def _usual(catalogue: Catalogue) -> str:
    """Return the id of the paper taken where none is named."""
    known = catalogue.papers
    return defaults.PAPER if defaults.PAPER in known else next(iter(known))


def _black(seen: Seen | None, optics: Optics) -> FloatArray:
    """Return the reflectance of the black line beneath its surface, shape (bands,)."""
    if seen is None:
        return np.full_like(optics.ground, BLACK_LINE)
    if isinstance(seen, SeenReflectance):
        return beneath_surface(seen.reflectance)
    lightness = float(lab_of(seen, optics)[0])
    return beneath_surface(np.full_like(optics.ground, luminance(lightness)))


def _darkest(sheet: SwatchSheet, optics: Optics) -> float:
    """Return how bright the picture shows a black surface: no brighter than the darkest seen."""
    seen = [] if sheet.black is None else [float(lab_of(sheet.black, optics)[0])]
    seen += [
        float(lab_of(swatch.colour, optics)[0]) + SURE * swatch.noise
        for tube in sheet.tubes
        for swatch in tube.swatches
    ]
    return min([OUTER_REFLECTION, *(luminance(max(lightness, 0.0)) for lightness in seen)])


def _fitting(
    tube: PaintedTube, profiles: Sequence[Pigment], grounds: Grounds, settings: FitSettings
) -> _Fitting:
    """Return what the swatches of a tube tell, and how well each is foretold by the others."""
    kinds = kinds_of(tube, profiles, grounds)
    estimate = estimated(tube.swatches, kinds, grounds, hand=settings.hand)
    return _Fitting(tube, estimate, predicted(tube.swatches, estimate, grounds, hand=settings.hand))


def _partners(place: int, paints: Sequence[Paint], profiles: Sequence[Pigment]) -> list[Paint]:
    """Return paints that a tube is mixed with: the others of the sheet, or known ones."""
    others = [paint for number, paint in enumerate(paints) if number != place]
    known = others or [Paint(profile.K, profile.S) for profile in profiles]
    step = max(1, len(known) // MOST_PARTNERS)
    return known[::step][:MOST_PARTNERS]


def _fitted(
    fitting: _Fitting, partners: Sequence[Paint], grounds: Grounds, settings: FitSettings
) -> FittedTube:
    """Return a fitted tube with all that is told of it."""
    estimate, painted = fitting.estimate, fitting.painted
    paint = estimate.paint
    stream = np.random.SeedSequence(settings.seed, spawn_key=(zlib.crc32(painted.name.encode()),))
    draws = estimate.draws(DRAWS, np.random.default_rng(stream))
    mixtures = Mixtures.with_partners(partners, grounds)
    spread = spread_of(paint, draws, mixtures)
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
        advice=advice_for(likeliest, spread, mixtures, noise=noise),
        notes=notes_on(painted, swatches, hand=settings.hand),
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
