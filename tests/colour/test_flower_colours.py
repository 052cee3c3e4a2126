"""The palest and the deepest of a petal are found in pictures whose colours are known."""

from dataclasses import replace

import numpy as np
import pytest
from PIL import Image
from tests.colour.painted_flowers import (
    BACKGROUNDS,
    DEEP,
    LEAF,
    PALE,
    Painted,
    painted,
    photographed,
)

from fewtubes.colour.clusters import clusters, pixels_to_lab
from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.display import hex_to_lab
from fewtubes.colour.flower_colours import APART, Depth, FlowerColour, flower_colours
from fewtubes.colour.photograph import main_colours
from fewtubes.colour.picture_file import decoded
from fewtubes.colour.picture_parts import Standing, picture_parts

SMALL = Painted(side=320)

NEAR = 2.0
"""Own cut-off [ΔE00]. Over 320 pictures of five flowers on four backgrounds, sharp and soft, ends
that are told were at most 1.6 off, and 0.8 with a sharp picture."""


def seen(what: Painted, **camera: float) -> tuple[FlowerColour, ...]:
    return flower_colours(decoded(photographed(painted(what), **camera)))  # type: ignore[arg-type]


def of_flower(found: tuple[FlowerColour, ...], part: int = 0) -> dict[Depth, FlowerColour]:
    return {one.depth: one for one in found if one.part == part and one.standing is Standing.FLOWER}


def apart(found: FlowerColour, true: tuple[float, float, float]) -> float:
    return float(delta_e_2000(np.array(found.lab), np.array(true)))


@pytest.mark.parametrize("background", BACKGROUNDS)
@pytest.mark.parametrize("seed", [0, 1, 2])
def test_pale_edge_and_deep_base_are_found(background: str, seed: int) -> None:
    what = replace(SMALL, background=background, seed=seed, radius=0.28 + 0.06 * seed)
    found = seen(what)
    petal = of_flower(found)
    assert apart(petal[Depth.LIGHTEST], PALE) < NEAR
    assert apart(petal[Depth.DEEPEST], DEEP) < NEAR
    assert petal[Depth.DEEPEST].lab[0] < petal[Depth.BODY].lab[0] < petal[Depth.LIGHTEST].lab[0]
    # The largest part that is not the flower goes round it, and is named as what it is.
    behind = [one for one in found if one.standing is Standing.BACKGROUND]
    assert behind
    assert max(one.share for one in behind) > 0.4
    assert {one.depth for one in behind} == {Depth.BODY}


def test_a_mean_would_tell_neither_end() -> None:
    """That is what single clusters tell, and why ends are looked for."""
    means = main_colours(decoded(photographed(painted(SMALL))), most=4)
    for end in (PALE, DEEP):
        nearest = min(float(delta_e_2000(np.array(one.lab), np.array(end))) for one in means)
        assert nearest > 2 * NEAR


@pytest.mark.parametrize("background", ["white paper", "dark cloth", "table"])
def test_the_leaf_is_a_part_of_its_own(background: str) -> None:
    found = [one for one in seen(replace(SMALL, background=background)) if one.part > 0]
    leaves = [one for one in found if apart(one, LEAF) < NEAR]
    assert [one.depth for one in leaves] == [Depth.BODY]
    assert leaves[0].standing is not Standing.BACKGROUND


@pytest.mark.parametrize("background", ["dark cloth", "blurred green", "table"])
def test_a_white_flower(background: str) -> None:
    edge, base = (94.0, 0.0, 5.0), (70.0, -2.0, 16.0)
    petal = of_flower(seen(replace(SMALL, background=background, pale=edge, deep=base)))
    assert apart(petal.get(Depth.LIGHTEST, petal[Depth.BODY]), edge) < APART
    assert apart(petal[Depth.DEEPEST], base) < NEAR


def test_white_petals_on_white_paper_are_never_surely_told_from_it() -> None:
    """Its base is found; its edge is the paper's colour, and so is the doubt."""
    edge, base = (93.0, 0.0, 6.0), (78.0, -2.0, 18.0)
    found = seen(replace(SMALL, pale=edge, deep=base, radius=0.4))
    assert apart(of_flower(found)[Depth.DEEPEST], base) < NEAR
    assert not [one for one in found if one.standing is Standing.BACKGROUND]
    assert [one for one in found if one.standing is Standing.UNSURE]


def test_petals_of_several_hues_are_parts_of_their_own() -> None:
    """A pansy: violet above, yellow below, as flat halves of a disc on a table."""
    pixels = painted(replace(SMALL, background="table", radius=0.01, leaf=False, noise=3)).copy()
    row, column = np.mgrid[-160:160, -160:160]
    disc = np.hypot(row, column) < 110
    pixels[disc & (row < 0)] = (96, 48, 140)
    pixels[disc & (row >= 0)] = (240, 200, 60)
    found = flower_colours(decoded(photographed(pixels)))
    petals = [one for one in found if one.standing is Standing.FLOWER]
    assert {one.part for one in petals} == {0, 1}
    for true in ("#60308c", "#f0c83c"):
        lab = hex_to_lab(true)
        assert min(float(delta_e_2000(np.array(one.lab), lab)) for one in petals) < NEAR


def test_a_flower_that_fills_the_picture_has_no_background() -> None:
    found = seen(replace(SMALL, radius=1.6, leaf=False))
    assert Standing.BACKGROUND not in {one.standing for one in found}
    petal = {one.depth: one for one in found if one.part == 0}
    assert apart(petal[Depth.DEEPEST], DEEP) < NEAR


def test_glints_and_gaps_are_no_ends() -> None:
    """They are painted (99 and 14 in lightness) and must not come out."""
    found = of_flower(seen(replace(SMALL, radius=0.45), blur=0.0))
    assert found[Depth.LIGHTEST].lab[0] < 90
    assert found[Depth.DEEPEST].lab[0] > 40


def test_one_loud_pixel_does_not_decide() -> None:
    still = decoded(photographed(painted(SMALL)))
    row, column = (side // 2 for side in still.shape[:2])
    loud = still.copy()
    loud[row, column + 12] = 255
    loud[row + 12, column] = 0
    for depth in Depth:
        one, other = of_flower(flower_colours(still))[depth], of_flower(flower_colours(loud))[depth]
        assert float(delta_e_2000(np.array(one.lab), np.array(other.lab))) < NEAR / 2


def test_a_soft_noisy_photograph() -> None:
    what = replace(SMALL, background="table", noise=14.0, radius=0.42)
    petal = of_flower(seen(what, blur=2.5, quality=60))
    # Twice the cut-off: blur carries the table into the edge, and JPEG halves the chroma's detail.
    assert apart(petal[Depth.LIGHTEST], PALE) < 2 * NEAR
    assert apart(petal[Depth.DEEPEST], DEEP) < 2 * NEAR


@pytest.mark.parametrize("shape", [(1, 1, 3), (1, 9, 3), (2, 2, 3), (5, 4, 3), (160, 1, 3)])
def test_a_speck_of_one_colour(shape: tuple[int, int, int]) -> None:
    (colour,) = flower_colours(np.full(shape, 128, dtype=np.uint8))
    assert (colour.hex, colour.depth, colour.share) == ("#808080", Depth.BODY, 1.0)


@pytest.mark.parametrize("seed", range(3))
def test_noise_alone_has_some_colour(seed: int) -> None:
    random = np.random.default_rng(seed)
    for shape in ((3, 4, 3), (40, 60, 3), (160, 160, 3)):
        found = flower_colours(random.integers(0, 256, shape).astype(np.uint8))
        assert found
        assert all(0 < one.share <= 1 for one in found)


def test_a_grey_picture() -> None:
    grey = np.array(Image.fromarray(painted(SMALL)).convert("L").convert("RGB"))
    petal = of_flower(flower_colours(grey))
    assert all(np.hypot(one.lab[1], one.lab[2]) < 0.1 for one in petal.values())
    assert petal[Depth.LIGHTEST].lab[0] - petal[Depth.DEEPEST].lab[0] > 30


def test_the_same_photograph_gives_the_same_colours() -> None:
    data = photographed(painted(SMALL))
    assert flower_colours(decoded(data)) == flower_colours(decoded(data))


def test_flower_first_and_background_last() -> None:
    order = list(Standing)
    parts = picture_parts(decoded(photographed(painted(SMALL))))
    assert [order.index(p.standing) for p in parts] == sorted(
        order.index(p.standing) for p in parts
    )
    assert sum(part.share for part in parts) <= 1 + 1e-9


def test_pixels_are_the_colours_that_screens_write() -> None:
    pixels = np.array([[[200, 40, 110], [0, 0, 0]]], dtype=np.uint8)
    lab = pixels_to_lab(pixels)
    assert np.allclose(lab[0], [hex_to_lab("#c8286e"), hex_to_lab("#000000")], atol=1e-9)


def test_clusters_are_the_points_where_these_are_few() -> None:
    points = np.array([[10.0, 0, 0]] * 5 + [[80.0, 20, -5]] * 3)
    centres, labels = clusters(points, 7)
    assert np.allclose(centres[labels], points)
