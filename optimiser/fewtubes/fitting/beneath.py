"""What lies beneath the swatches of a sheet: its paper, its black line, and the light on both."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from fewtubes import defaults
from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.papers import PAPER_REFLECTANCE
from fewtubes.catalogue.records import Catalogue, Paper
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import usual_optics
from fewtubes.errors import Fault, InputError
from fewtubes.fitting.grounds import Grounds, luminance
from fewtubes.fitting.own_paper import paper_like
from fewtubes.fitting.seen import lab_of
from fewtubes.fitting.sheet import ScreenColour, Seen, SeenReflectance, SwatchSheet
from fewtubes.fitting.sheet_checks import check_black, check_paper
from fewtubes.mixing.bare_paper import paper_lab
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.surface import OUTER_REFLECTION, beneath_surface
from fewtubes.words.matches import match_figure
from fewtubes.words.printable import printable

__all__ = ["Beneath", "beneath_swatches"]

BLACK_LINE = 0.01
"""Reflectance of a black line beneath its surface [0–1], where the bare line was not looked at."""

SURE = 2.0
"""Standard deviations by which a swatch must be darker than any surface is to tell of contrast."""

TOLD_CONTRAST = 1.005
"""From here on the contrast is told; below, it changes no colour that anybody sees."""

OTHER_PAPER = 3.0
"""ΔE00 between the paper named and the one seen from which it is told."""


@dataclass(frozen=True, eq=False)
class Beneath:
    """Paper, light and black line of a sheet."""

    paper: Paper
    """As it is in the catalogue, or as it was seen."""
    grounds: Grounds
    notes: tuple[str, ...]
    """What to know of it, a sentence each."""


def beneath_swatches(
    sheet: SwatchSheet,
    catalogue: Catalogue,
    cache: Cache,
    *,
    paper: str | None,
    light: str | None,
) -> Beneath:
    """Return what the swatches of a sheet lie on.

    Parameters
    ----------
    sheet
        The swatches.
    catalogue
        Holds papers and lights.
    cache
        Where the light's weights are kept.
    paper
        Id of the paper; None for the one seen or, if the sheet does not show it, the usual one.
    light
        Id of the light; None for daylight, or the first of a catalogue that has none.

    Raises
    ------
    InputError
        If there is no such paper or light, colours of a screen are said to be of another light than
        daylight, the paper is not white, or the black line not black.
    """
    optics = usual_optics(catalogue, cache, paper=paper, light=light)
    _check_light(sheet, catalogue, light)
    found = catalogue.papers[paper or _usual(catalogue)]
    collector = FaultCollector()
    notes: tuple[str, ...] = ()
    if sheet.paper is not None:
        check_paper(sheet, lab_of(sheet.paper, optics), collector)
        if isinstance(sheet.paper, SeenReflectance):
            least = float(sheet.paper.reflectance.min())
            collector.note_fault(
                f"{sheet.label}, paper", PAPER_REFLECTANCE.fault(least, named=True)
            )
    if sheet.black is not None:
        check_black(sheet, lab_of(sheet.black, optics), collector)
    collector.raise_if_any()
    if sheet.paper is not None and paper is None:
        found = paper_like(catalogue.papers, found, sheet.paper, optics)
        optics = replace(optics, ground=beneath_surface(found.reflectance))
    elif sheet.paper is not None:
        notes = _other_paper(
            found, float(delta_e_2000(lab_of(sheet.paper, optics), paper_lab(optics)))
        )
    grounds = Grounds(optics, _black(sheet.black, optics), _darkest(sheet, optics))
    return Beneath(found, grounds, (*notes, *_contrasty(grounds)))


def _check_light(sheet: SwatchSheet, catalogue: Catalogue, light: str | None) -> None:
    """Refuse screen colours that are said to be seen under another light than daylight."""
    if not any(isinstance(colour, ScreenColour) for colour in _colours(sheet)):
        return
    if light not in (None, defaults.LIGHT):
        what = f"colours of a screen are those of daylight ({defaults.LIGHT}); leave the light out."
        raise InputError([Fault("light", what)])
    if defaults.LIGHT not in catalogue.lights:
        what = (
            f"has no daylight ({defaults.LIGHT}), and colours of a screen are those of daylight;"
            " add that light to lights.csv, or give the colours as L, a, b."
        )
        raise InputError([Fault("catalogue", what)])


def _colours(sheet: SwatchSheet) -> Iterator[Seen | None]:
    yield from (sheet.paper, sheet.black)
    for tube in sheet.tubes:
        yield from (swatch.colour for swatch in tube.swatches)


def _other_paper(named: Paper, apart: float) -> tuple[str, ...]:
    """Return what to say of a named paper that is not the colour of the one seen [ΔE00]."""
    if apart <= OTHER_PAPER:
        return ()
    return (
        f"The paper seen on the sheet is ΔE00 {match_figure(apart)} from {printable(named.name)},"
        " which was named and is taken; without a name the one seen is.",
    )


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
    share = luminance(float(lab_of(seen, optics)[0]))
    return beneath_surface(np.full_like(optics.ground, share))


def _darkest(sheet: SwatchSheet, optics: Optics) -> float:
    """Return how bright the picture shows a black surface: no brighter than the darkest seen."""
    seen = [] if sheet.black is None else [float(lab_of(sheet.black, optics)[0])]
    seen += [
        float(lab_of(swatch.colour, optics)[0]) + SURE * swatch.noise
        for tube in sheet.tubes
        for swatch in tube.swatches
    ]
    return min([OUTER_REFLECTION, *(luminance(max(lightness, 0.0)) for lightness in seen)])


def _contrasty(grounds: Grounds) -> tuple[str, ...]:
    """Return what to say of a picture that shows more contrast than surfaces have."""
    if grounds.contrast <= TOLD_CONTRAST:
        return ()
    return (
        "The picture shows black darker than any dry surface is, as most phones do; all its colours"
        " are taken to have that much more contrast than the swatches.",
    )
