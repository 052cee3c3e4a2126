"""Monte Carlo draws of how paint and hand vary: seeded batches of paint and strokes of a brush.

A draw is one box of paint and one sitting with it. The box: a pigment that was fitted from swatches
(`LikelySpectra`) is one of the paints that fit them as well, any of them as likely as another: how
far they lie apart is what is known of that very tube. Of any other pigment a batch is assumed:
somewhat stronger or weaker than its profile, K and S alike, each of the two curves bent a little,
smoothly. The hand: each part of each mix, and each wash, holds somewhat more or less paint than was
meant. All factors are log-normal with mean 1, so that on average nothing is stronger than profiled
or meant.

The sizes of batches and of the hand are our own assumption, no source: nobody measured them. What
fitted paints vary by is no assumption but follows from their swatches.
"""

import zlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields

import numpy as np

from fewtubes.catalogue.records import LikelySpectra, Pigment, Tube
from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.mixing.mixture import Optics, mixture_lab
from fewtubes.mixing.recipes import Recipe

__all__ = ["Draws", "Hand", "Paint", "Variation", "Where", "varied_labs"]

BENDS = 3
"""Smooth waves that a curve is bent by: a tilt, a bow and one wave, over 380–730 nm."""

FILMS = 4096
"""Films worked on at once: few enough for the processor's cache."""

BATCH_STREAM, PART_STREAM, WASH_STREAM, FIT_STREAM = range(4)
"""Keep the random numbers for different things apart."""

LEAST_COEFFICIENT = 1e-6
"""K or S [1/load] that counts as none, so that it has a logarithm; a film shows 1e-3 at least."""


@dataclass(frozen=True)
class Variation:
    """Sizes of what varies, as standard deviations of natural logarithms, ≥ 0; but see `fit`.

    That is, nearly, relative standard deviations. A part or wash of 0.10 keeps 19 draws of 20
    within the ±20 % of the "unsteady" match (`fewtubes.mixing.matching.HAND_ERROR`).
    """

    pigment_strength: float = 0.10
    """Of K and S of a pigment that was not fitted, together, from batch to batch."""
    pigment_curve: float = 0.03
    """Of its K and of its S over wavelength, root of the mean square over the bands."""
    part: float = 0.10
    """Of each part of a mix, by hand."""
    wash: float = 0.15
    """Of the strength of a wash, by hand: water is measured worse than paint."""
    fit: float = 1.0
    """Of a pigment fitted from swatches, how far from the fit to the likely spectrum that is drawn,
    as a factor upon the natural logarithm between the two: 1 is the likely spectrum, 0 the fit."""

    def scaled(self, factor: float) -> "Variation":
        """Return the variation with every size multiplied by a factor, ≥ 0; 0 leaves none."""
        return Variation(**{part.name: factor * getattr(self, part.name) for part in fields(self)})


@dataclass(frozen=True, eq=False)
class Paint:
    """K and S per unit load [1/load] of tubes in each draw, shape (draws, tubes, bands)."""

    K: FloatArray
    S: FloatArray


@dataclass(frozen=True, eq=False)
class Hand:
    """Factors by which what is on the brush differs from what was meant, mean 1."""

    parts: FloatArray
    """Of each tube in the mix for each sample, shape (draws, samples, tubes)."""
    wash: FloatArray
    """Of the wash for each sample, shape (draws, samples)."""


@dataclass(frozen=True)
class Draws:
    """A number of draws that depend on the seed alone.

    Each pigment and tube has random numbers of its own, found by its id: the draws of a tube do
    not depend on which others are asked about, so palettes are compared under the same luck
    (common random numbers). Fewer draws are the first of more.

    Parameters
    ----------
    seed, set_number
        Any integers ≥ 0; another set number gives draws independent of the first.
    count
        Number of draws.
    variation
        Sizes.
    """

    seed: int
    set_number: int
    count: int
    variation: Variation

    def paint(self, tubes: Sequence[Tube]) -> Paint:
        """Return the paint of these tubes in each draw; tubes of one pigment share its draw."""
        pigments = {pigment.id: pigment for tube in tubes for pigment, _ in tube.pigments}
        varied = {id_: self._varied(pigment) for id_, pigment in pigments.items()}
        K, S = np.zeros((2, self.count, len(tubes), BAND_COUNT))
        for place, tube in enumerate(tubes):
            for pigment, share in tube.pigments:
                K[:, place] += tube.strength * share * varied[pigment.id].K
                S[:, place] += tube.strength * share * varied[pigment.id].S
        return Paint(K, S)

    def hand(self, tubes: Sequence[Tube], samples: int) -> Hand:
        """Return the errors of the hand with these tubes in the mixes for a number of samples."""
        shape = (self.count, samples)
        parts = np.zeros((*shape, len(tubes)))
        for place, tube in enumerate(tubes):
            parts[..., place] = self._normals(PART_STREAM, tube.id, shape)
        wash = self._normals(WASH_STREAM, "", shape)
        return Hand(_factors(parts, self.variation.part), _factors(wash, self.variation.wash))

    def _varied(self, pigment: Pigment) -> Paint:
        """Return K and S of a pigment in each draw, shape (draws, bands)."""
        if pigment.likely is not None:
            return self._fitted(pigment, pigment.likely)
        normals = self._normals(BATCH_STREAM, pigment.id, (self.count, 1 + 2 * BENDS))
        strength = _factors(normals[:, :1], self.variation.pigment_strength)
        bent = normals[:, 1:].reshape(self.count, 2, BENDS) @ _bends()
        K, S = np.moveaxis(strength[:, None] * _factors(bent, self.variation.pigment_curve), 1, 0)
        return Paint(K * pigment.K, S * pigment.S)

    def _fitted(self, pigment: Pigment, likely: LikelySpectra) -> Paint:
        """Return one of the likely spectra of a pigment in each draw, K and S of the same one."""
        chosen = self._generator(FIT_STREAM, pigment.id).random(self.count) * len(likely.K)
        places, fit = chosen.astype(np.intp), self.variation.fit
        return Paint(
            _between(pigment.K, likely.K, fit)[places], _between(pigment.S, likely.S, fit)[places]
        )

    def _normals(self, stream: int, id_: str, shape: tuple[int, ...]) -> FloatArray:
        """Return standard normal numbers of one thing."""
        return self._generator(stream, id_).standard_normal(shape)

    def _generator(self, stream: int, id_: str) -> np.random.Generator:
        """Return the random numbers of one thing, always from their beginning."""
        key = (self.set_number, stream, zlib.crc32(id_.encode()))
        return np.random.default_rng(np.random.SeedSequence(self.seed, spawn_key=key))


def varied_labs(recipes: Sequence[Recipe], paint: Paint, hand: Hand, where: "Where") -> FloatArray:
    """Return CIELAB of one recipe a sample in each draw, shape (draws, samples, 3).

    Parameters
    ----------
    recipes
        For each sample its recipe, over tubes of `where.places`.
    paint, hand
        Of those tubes.
    where
        Places of the tubes, paper and light.

    Notes
    -----
    The load of a tube is strength × its share of all parts, as in the recipe space, with the
    factors of the hand upon the parts before they are turned into shares, and upon the strength.
    """
    parts, strengths = _tabled(recipes, where.places)
    blocks = [
        mixture_lab(
            _loads(parts * hand.parts[rows], strengths * hand.wash[rows]),
            paint.K[rows],
            paint.S[rows],
            where.optics,
        )
        for rows in _blocks(len(hand.wash), len(recipes))
    ]
    return np.concatenate(blocks)


@dataclass(frozen=True, eq=False)
class Where:
    """Place of each tube along the axis of tubes, by id, and what the film lies on."""

    places: Mapping[str, int]
    optics: Optics


def _loads(parts: FloatArray, strengths: FloatArray) -> FloatArray:
    """Return loads from parts, (…, samples, tubes), and strengths, (…, samples).

    Without any part, as on bare paper, all loads are 0.
    """
    total = parts.sum(axis=-1, keepdims=True)
    return np.asarray(strengths[..., None] * (parts / np.where(total > 0, total, 1.0)))


def _tabled(recipes: Sequence[Recipe], places: Mapping[str, int]) -> tuple[FloatArray, FloatArray]:
    """Return parts, shape (samples, tubes), and strengths, shape (samples,)."""
    parts = np.zeros((len(recipes), len(places)))
    for row, recipe in enumerate(recipes):
        for tube, part in zip(recipe.tubes, recipe.parts, strict=True):
            parts[row, places[tube]] = part
    return parts, np.array([recipe.strength for recipe in recipes])


def _blocks(draws: int, samples: int) -> Iterator[slice]:
    """Yield the draws in blocks of about `FILMS` films."""
    step = max(1, FILMS // max(1, samples))
    for start in range(0, draws, step):
        yield slice(start, start + step)


def _between(fitted: FloatArray, likely: FloatArray, factor: float) -> FloatArray:
    """Return K or S at a factor of the way from the fit to each likely spectrum, in logarithms.

    Parameters
    ----------
    fitted, likely
        Shapes (bands,) and (likely spectra, bands).
    factor
        Where on the way; 0 and 1 give either as it is.
    """
    if factor in (0, 1):
        return np.broadcast_to(likely if factor else fitted, likely.shape)
    start, end = (np.log(np.maximum(array, LEAST_COEFFICIENT)) for array in (fitted, likely))
    return np.asarray(np.exp(start + factor * (end - start)))


def _factors(normals: FloatArray, size: float) -> FloatArray:
    """Return log-normal factors of mean 1 from normal numbers of variance 1; 1 if size is 0."""
    return np.asarray(np.exp(size * normals - size**2 / 2))


def _bends() -> FloatArray:
    """Return half waves over the bands, shape (bends, bands); squares sum to a mean of 1.

    Half cosines at the middles of the bands: each has mean 0 over the bands exactly, so bending
    leaves the strength alone, and none is tied to another (the basis of the discrete cosine
    transform).
    """
    middle = (np.arange(BAND_COUNT) + 0.5) / BAND_COUNT
    waves = np.cos(np.pi * np.outer(np.arange(1, BENDS + 1), middle))
    return np.asarray(np.sqrt(2 / BENDS) * waves)
