"""What painters know from experience must come out of the spectra of the demo catalogue.

Every expectation is common practice, no source; the thresholds are our own reading of it. Colours
are computed like any other, on white cotton paper under D65, with no case of their own.
"""

from collections.abc import Iterable
from itertools import combinations, product

import numpy as np
import pytest
from tests.pink_pigments import PINK_PIGMENTS

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.cielab import lab_to_lch
from fewtubes.colour.difference import delta_e_2000
from fewtubes.mixing.mixture import Optics, mixture_lab
from fewtubes.mixing.opacity import Transparency, contrast_ratio, transparency
from fewtubes.mixing.recipes import PARTS, STRENGTHS, shares

VIOLET_PIGMENTS = {
    "pv23-dioxazine-violet",
    "pv16-manganese-violet",
    "pv14-cobalt-violet",
    "pv15-ultramarine-violet",
}

CLEAN_PINKS = (
    ("sweet pea, pink", "petal"),
    ("peony, pink", "petal"),
    ("peony, pink", "petal fold"),
    ("cyclamen", "light petal"),
    ("cyclamen", "petal"),
    ("dahlia, magenta", "petal"),
)
CLEAN_VIOLETS = (
    ("crocus", "petal shadow"),
    ("iris, bearded violet", "standard"),
    ("iris, bearded violet", "fall"),
    ("sweet pea, violet", "petal"),
    ("sweet pea, violet", "petal fold"),
)
TOLERANCE = 4.0
"""A swatch counts as reached below this [ΔE00], the demo scenarios' tolerance."""

FINE_LOADS = np.geomspace(0.003, 1.0, 300)
"""Loads between which a painter cannot tell a wash."""


class Studio:
    """The demo catalogue on white cotton paper under D65."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self.optics = Optics.of(catalogue.papers["cotton-white"], catalogue.lights["D65"])
        self.K = {name: tube.K for name, tube in catalogue.tubes.items()}
        self.S = {name: tube.S for name, tube in catalogue.tubes.items()}

    def colours(
        self,
        *tubes: str,
        parts: tuple[int, ...] | None = None,
        loads: Iterable[float] = STRENGTHS,
    ) -> FloatArray:
        """Return CIELAB of a mixture (equal parts if not told) at each load, (loads, 3)."""
        share = shares((parts or (1,) * len(tubes),))[0]
        each = np.array(list(loads))[:, None] * share
        K = np.array([self.K[tube] for tube in tubes])
        S = np.array([self.S[tube] for tube in tubes])
        return mixture_lab(each, K, S, self.optics)

    def all_recipes(self, tubes: list[str], size: int) -> FloatArray:
        """Return CIELAB of every recipe of `size` of the tubes, (sets, parts × strengths, 3)."""
        loads = np.concatenate([shares(PARTS[size]) * strength for strength in STRENGTHS])
        sets = list(combinations(tubes, size))
        colours = np.empty((len(sets), len(loads), 3))
        for at, chosen in enumerate(sets):
            K = np.array([self.K[tube] for tube in chosen])
            S = np.array([self.S[tube] for tube in chosen])
            colours[at] = mixture_lab(loads, K, S, self.optics)
        return colours

    def without(self, pigments: set[str]) -> list[str]:
        """Return the tubes that hold none of the pigments."""
        return [
            name
            for name, tube in self.catalogue.tubes.items()
            if not pigments & {pigment.id for pigment, _ in tube.pigments}
        ]

    def swatch(self, flower: str, name: str) -> FloatArray:
        """Return CIELAB of a flower's swatch, (3,)."""
        swatches = self.catalogue.flowers[flower].swatches
        return np.array(next(swatch.lab for swatch in swatches if swatch.name == name))

    def grade(self, tube: str) -> Transparency:
        """Return the transparency class of a tube."""
        luminous = self.optics.weights[:, 1]
        return transparency(float(contrast_ratio(self.K[tube], self.S[tube], luminous)))


@pytest.fixture(scope="module")
def studio() -> Studio:
    return Studio(read_catalogue())


def chroma_at(lab: FloatArray, lightness: float) -> float:
    """Return the chroma of a series of washes (strong first) at one lightness L*."""
    lch = lab_to_lch(lab)
    assert lch[0, 0] <= lightness <= lch[-1, 0], "the series does not pass this lightness"
    return float(np.interp(lightness, lch[:, 0], lch[:, 1]))


def hue_at(lab: FloatArray, lightness: float) -> float:
    """Return the hue angle [degrees, −180–180) of a series of washes at one lightness L*."""
    a, b = (np.interp(lightness, lab[:, 0], lab[:, axis]) for axis in (1, 2))
    return float(np.degrees(np.arctan2(b, a)))


def nearest(colours: FloatArray, target: FloatArray) -> float:
    """Return the smallest difference [ΔE00] of colours, (…, 3), from a target."""
    return float(delta_e_2000(colours, target).min())


# Thinning.


@pytest.mark.parametrize("red", ["warm-red", "scarlet"])
def test_a_warm_red_thinned_goes_coral_not_clean_pink(studio: Studio, red: str) -> None:
    wash = studio.colours(red)
    assert 10 <= hue_at(wash, 75) <= 40  # peach and coral lie between pink (0) and orange (55)
    for pink in ("magenta", "vivid-pink", "rose"):
        assert hue_at(studio.colours(pink), 75) < hue_at(wash, 75) - 20


def test_a_cool_crimson_thinned_goes_rosier_but_stays_muted(studio: Studio) -> None:
    crimson = studio.colours("cool-crimson")
    assert hue_at(crimson, 70) < hue_at(crimson, 40) - 5
    for pink in ("magenta", "vivid-pink", "rose"):
        assert chroma_at(crimson, 70) < 0.85 * chroma_at(studio.colours(pink), 70)


@pytest.mark.parametrize("lightness", [60, 70, 80])
def test_no_red_thinned_is_as_colourful_in_the_pink_hues_as_a_pink(
    studio: Studio, lightness: float
) -> None:
    """Chroma along the direction of pink (hue 345) is what a pink petal asks for."""

    def pinkness(tube: str) -> float:
        wash = studio.colours(tube)
        away = np.radians(hue_at(wash, lightness) - 345)
        return float(chroma_at(wash, lightness) * np.cos(away))

    reds = [pinkness(tube) for tube in ("warm-red", "scarlet", "middle-red", "cool-crimson")]
    for tube in ("magenta", "vivid-pink"):
        assert pinkness(tube) > 1.2 * max(reds)


def test_diluting_moves_smoothly_to_paper_white(studio: Studio) -> None:
    loads = np.geomspace(1.0, 1e-5, 120)
    paper = studio.colours("magenta", loads=[0.0])[0]
    for tube in studio.catalogue.tubes:
        wash = studio.colours(tube, loads=loads)
        steps = delta_e_2000(wash[1:], wash[:-1])
        assert steps.max() < 2.5, tube  # 10 % less paint is a small step everywhere
        assert nearest(wash[-1], paper) < 0.05, tube
        assert (np.diff(wash[:, 0]) > -1e-6).all() or tube.endswith("white"), tube


# Mixing.


@pytest.mark.parametrize(("pink", "parts"), [("magenta", (1, 1)), ("vivid-pink", (2, 1))])
def test_pink_and_golden_yellow_make_a_real_red(
    studio: Studio, pink: str, parts: tuple[int, int]
) -> None:
    strong = lab_to_lch(studio.colours(pink, "golden-yellow", parts=parts))[0]
    assert 25 <= strong[2] <= 40
    assert strong[1] > 50


def test_warm_red_and_ultramarine_make_a_grey_muted_purple(studio: Studio) -> None:
    muted = studio.colours("warm-red", "ultramarine")
    single = studio.colours("dioxazine-violet")
    for lightness in (35, 40, 50):  # in thin washes every purple is pale
        assert chroma_at(muted, lightness) < 0.7 * chroma_at(single, lightness)


@pytest.mark.parametrize(
    ("blue", "parts"),
    [("ultramarine", (1, 1)), ("green-leaning-blue", (2, 1)), ("middle-blue", (2, 1))],
)
def test_magenta_and_a_blue_make_a_clean_purple(
    studio: Studio, blue: str, parts: tuple[int, int]
) -> None:
    """Phthalocyanine blue is the stronger of the two: equal parts lean to the blue."""
    clean = studio.colours("magenta", blue, parts=parts)
    muted = studio.colours("warm-red", blue)
    single = studio.colours("dioxazine-violet")
    for lightness in (40, 50, 60):
        assert -65 < hue_at(clean, lightness) < -35  # 295–325, violet to purple
        assert chroma_at(clean, lightness) > 1.4 * chroma_at(muted, lightness)
        assert chroma_at(clean, lightness) > 0.8 * chroma_at(single, lightness)


def hue_bins(studio: Studio, tubes: list[str]) -> int:
    """Return in how many of 36 hue bins the tubes reach C* > 40 at L* 45–75."""
    colours = np.concatenate([studio.all_recipes(tubes, size).reshape(-1, 3) for size in (1, 2, 3)])
    lightness, chroma, hue = lab_to_lch(colours).T
    clean = (lightness > 45) & (lightness < 75) & (chroma > 40)
    return len(np.unique(hue[clean] // 10))


@pytest.mark.parametrize("blue", ["ultramarine", "cobalt-blue", "green-leaning-blue"])
def test_cyan_magenta_yellow_reach_more_of_the_wheel_than_red_blue_yellow(
    studio: Studio, blue: str
) -> None:
    modern = hue_bins(studio, ["green-leaning-blue", "magenta", "green-yellow"])
    school = hue_bins(studio, ["warm-red", blue, "middle-yellow"])
    assert modern >= school + 6


@pytest.mark.parametrize(
    ("tube", "complement"),
    [
        ("magenta", "blue-leaning-green"),
        ("warm-red", "blue-leaning-green"),
        ("orange", "ultramarine"),
        ("dioxazine-violet", "green-yellow"),
    ],
)
def test_a_little_of_the_complement_greys_a_colour(
    studio: Studio, tube: str, complement: str
) -> None:
    chroma = [
        lab_to_lch(studio.colours(tube, complement, parts=parts))[2, 1]
        for parts in ((1, 0), (8, 1), (4, 1), (2, 1))
    ]
    assert chroma == sorted(chroma, reverse=True)
    assert chroma[2] < 0.85 * chroma[0]


@pytest.mark.parametrize(
    ("one", "other", "greyest"),
    [
        ("ultramarine", "red-brown-earth", 3.0),
        ("ultramarine", "transparent-brown", 4.0),
        ("ultramarine", "dark-brown-earth", 3.0),
        ("ultramarine", "orange", 4.0),
        ("cobalt-blue", "red-brown-earth", 5.0),
        ("green-leaning-blue", "pyrrole-orange", 3.0),
        ("cool-crimson", "blue-leaning-green", 4.0),
        ("magenta", "yellow-leaning-green", 4.0),
        ("dioxazine-violet", "green-yellow", 4.0),
    ],
)
def test_the_pairs_that_painters_grey_with_have_a_neutral_mix(
    studio: Studio, one: str, other: str, greyest: float
) -> None:
    mixes = lab_to_lch(studio.all_recipes([one, other], 2)[0])
    assert mixes[mixes[:, 0] < 60, 1].min() <= greyest


def test_every_yellow_and_every_blue_make_a_green(studio: Studio) -> None:
    """In equal parts: olive with a golden yellow, sea green with a lemon, never brown or blue."""

    def of_kind(kind: str, *besides: str) -> list[str]:
        return [
            name
            for name, tube in studio.catalogue.tubes.items()
            if {pigment.code.rstrip("0123456789:") for pigment, _ in tube.pigments} == {kind}
            and name not in besides
        ]

    yellows = of_kind("PY", "yellow-ochre", "greenish-gold")
    for yellow, blue in product(yellows, of_kind("PB")):
        strong = studio.colours(yellow, blue)
        assert 95 <= hue_at(strong, 55) % 360 <= 200, (yellow, blue)


@pytest.mark.parametrize("blue", ["ultramarine", "green-leaning-blue"])
def test_red_yellow_and_blue_together_go_grey_brown(studio: Studio, blue: str) -> None:
    mud = studio.colours("warm-red", "golden-yellow", blue)
    for parent in ("warm-red", "golden-yellow"):
        assert chroma_at(mud, 65) < 0.55 * chroma_at(studio.colours(parent), 65)
    assert 0 < hue_at(mud, 65) < 90  # brown lies between red and yellow


def test_a_mixture_is_darker_than_the_mean_of_its_parts(studio: Studio) -> None:
    """Of transparent paints; the mean is of CIELAB, that of a mosaic seen from afar is lighter."""
    clear = [t for t in studio.catalogue.tubes if studio.grade(t) is Transparency.TRANSPARENT]
    alone = {tube: studio.colours(tube)[0, 0] for tube in clear}
    for one, other in combinations(clear, 2):
        mixed = studio.colours(one, other)[0, 0]
        assert mixed < (alone[one] + alone[other]) / 2 + 1.0, (one, other)


# Kinds of tubes.


def test_transparent_and_opaque_tubes_come_out_as_painters_know_them(studio: Studio) -> None:
    for tube in ("magenta", "rose", "dioxazine-violet", "green-leaning-blue", "ultramarine"):
        assert studio.grade(tube) is Transparency.TRANSPARENT, tube
    for tube in ("cadmium-yellow", "cadmium-red", "titanium-white", "brick-red-earth"):
        assert studio.grade(tube) >= Transparency.SEMI_OPAQUE, tube


def test_a_pink_with_white_in_it_is_not_transparent(studio: Studio) -> None:
    assert studio.grade("pale-pink") >= Transparency.SEMI_OPAQUE


@pytest.mark.parametrize("strong", ["rose", "magenta", "vivid-pink"])
def test_a_wash_of_a_strong_pink_matches_the_pale_pink_tube(studio: Studio, strong: str) -> None:
    washes = studio.colours(strong, loads=FINE_LOADS)
    for pale in studio.colours("pale-pink"):
        assert nearest(washes, pale) < 5


@pytest.mark.parametrize(
    ("full", "weak"),
    [
        ("rose", "soft-rose"),
        ("warm-red", "warm-red-study"),
        ("ultramarine", "ultramarine-study"),
        ("green-leaning-blue", "green-leaning-blue-study"),
        ("arylide-yellow", "middle-yellow-study"),
    ],
)
def test_near_duplicates_differ_in_strength_only(studio: Studio, full: str, weak: str) -> None:
    washes = studio.colours(full, loads=FINE_LOADS)
    assert max(nearest(washes, colour) for colour in studio.colours(weak)) < 0.5
    assert nearest(studio.colours(full)[0], studio.colours(weak)[0]) > 2  # the strokes do differ


# Flowers.


def test_nearly_all_swatches_can_be_painted_with_one_or_two_tubes(studio: Studio) -> None:
    tubes = list(studio.catalogue.tubes)
    colours = np.concatenate([studio.all_recipes(tubes, size).reshape(-1, 3) for size in (1, 2)])
    colours = colours[np.argsort(colours[:, 0])]
    swatches = [s for flower in studio.catalogue.flowers.values() for s in flower.swatches]
    reached = 0
    for swatch in swatches:
        target = np.array(swatch.lab)
        # Leaving out what lies farther off saves time; it could only lower the count.
        low, high = np.searchsorted(colours[:, 0], [target[0] - 10, target[0] + 10])
        near = colours[low:high]
        near = near[np.abs(near[:, 1:] - target[1:]).max(axis=1) < 20]
        reached += len(near) > 0 and nearest(near, target) <= TOLERANCE
    assert reached >= 0.95 * len(swatches)


@pytest.mark.parametrize(("flower", "name"), CLEAN_PINKS)
def test_clean_pinks_need_a_pink_tube(studio: Studio, flower: str, name: str) -> None:
    target = studio.swatch(flower, name)
    pinks = [t for t in studio.catalogue.tubes if t not in studio.without(PINK_PIGMENTS)]
    assert nearest(studio.all_recipes(pinks, 2), target) < TOLERANCE


def test_no_two_other_tubes_reach_a_clean_pink(studio: Studio) -> None:
    others = studio.without(PINK_PIGMENTS)
    reached = [studio.all_recipes(others, size).reshape(-1, 3) for size in (1, 2)]
    # Of three tubes: those whose washes come nearest, since a third tube can only dull the mix.
    target = studio.swatch("cyclamen", "petal")
    near = sorted(others, key=lambda tube: nearest(studio.colours(tube), target))[:16]
    colours = np.concatenate([*reached, studio.all_recipes(near, 3).reshape(-1, 3)])
    for flower, name in CLEAN_PINKS:
        assert nearest(colours, studio.swatch(flower, name)) > TOLERANCE, (flower, name)


def test_clean_violets_need_a_violet_a_pink_or_a_crimson(studio: Studio) -> None:
    """Crimson and ultramarine are the old way to a violet; other reds make none with any blue."""
    others = studio.without(PINK_PIGMENTS | VIOLET_PIGMENTS | {"pr83-crimson"})
    dull = np.concatenate([studio.all_recipes(others, size).reshape(-1, 3) for size in (1, 2)])
    clean = studio.all_recipes(["dioxazine-violet", "magenta", "ultramarine"], 2)
    for flower, name in CLEAN_VIOLETS:
        target = studio.swatch(flower, name)
        assert nearest(dull, target) > TOLERANCE, (flower, name)
        assert nearest(clean, target) < TOLERANCE, (flower, name)
