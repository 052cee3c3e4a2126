"""Tubes, a paper and samples to make pictures of; all invented."""

from dataclasses import replace

import numpy as np
import pytest

from fewtubes.catalogue.records import Lightfastness, Offer, Paper, Pigment, Role, Trait, Tube
from fewtubes.colour.bands import BAND_COUNT, WAVELENGTH_NM
from fewtubes.coverage.samples import Sample
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import Recipe
from fewtubes.picture.sheet import Sheet
from fewtubes.shopping.plan_parts import Obstacle, PlannedSample


def make_tube(id_: str, *, centre_nm: float, depth: float, scatter: float) -> Tube:
    """Return a tube with one band of absorption [1/load] and even scattering [1/load]."""
    pigment = Pigment(
        id=id_,
        code="PX1",
        name=id_,
        chemical_class="made-up",
        lightfastness=Lightfastness.I,
        blue_wool=None,
        staining=Trait.NO,
        granulating=Trait.NO,
        hazards=(),
        hazard_note="",
        K=depth * np.exp(-(((WAVELENGTH_NM - centre_nm) / 45) ** 2)) + 0.01,
        S=np.full(BAND_COUNT, scatter),
    )
    return Tube(id_, id_, 1.0, ((pigment, 1.0),), (Offer(5.0, 500, "EUR"),))


@pytest.fixture
def tubes() -> dict[str, Tube]:
    """Return a yellow, a magenta and a turquoise, by id."""
    made = (
        make_tube("yellow", centre_nm=430, depth=3.0, scatter=0.05),
        make_tube("magenta", centre_nm=540, depth=3.0, scatter=0.02),
        make_tube("turquoise", centre_nm=640, depth=3.0, scatter=0.02),
    )
    return {tube.id: tube for tube in made}


@pytest.fixture
def optics() -> Optics:
    """Return a white paper under a light of three smooth bands; no real light, but near one."""
    bumps = [(598, 45, 1.06), (556, 47, 1.0), (449, 23, 1.8)]
    weights = np.stack(
        [
            height * np.exp(-(((WAVELENGTH_NM - centre) / width) ** 2))
            for centre, width, height in bumps
        ],
        axis=1,
    )
    paper = Paper("white", "white", np.full(BAND_COUNT, 0.88))
    return Optics.with_weights(paper, 100 * weights / weights[:, 1].sum())


@pytest.fixture
def sheet(optics: Optics) -> Sheet:
    """Return the sheet of that paper."""
    return Sheet.of(optics)


COVERED = PlannedSample(
    sample=Sample("rose", "petal", (60.0, 40.0, -10.0), 5000, Role.PETAL),
    covered=True,
    recipe=Recipe(("magenta", "yellow"), (2, 1), 0.5),
    match=1.34,
    mix_lab=(60.5, 41.0, -11.0),
    match_if_unsteady=2.9,
    obstacle=None,
    remedies=(),
)


@pytest.fixture
def covered() -> PlannedSample:
    """Return a petal with its recipe."""
    return COVERED


@pytest.fixture
def missed() -> PlannedSample:
    """Return a throat that stays out of reach."""
    return replace(
        COVERED,
        sample=Sample("rose", "throat", (40.0, 20.0, -50.0), 3000, Role.THROAT),
        covered=False,
        match=6.1,
        obstacle=Obstacle.BUDGET,
    )
