"""The main colours of a photograph."""

import io
from inspect import signature
from typing import Any

import numpy as np
import pytest
from PIL import Image
from scipy.cluster import vq

from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.display import hex_to_lab
from fewtubes.colour.photograph import main_colours
from fewtubes.colour.picture_file import Pixels, decoded

GREEN, PINK, YELLOW = (60, 110, 50), (200, 40, 110), (240, 200, 40)


def petals(noise: float = 0.0) -> Pixels:
    """Return a pink square on green with a yellow heart: 70, 26 and 4 hundredths."""
    picture = np.empty((100, 100, 3), dtype=np.float64)
    picture[:] = GREEN
    picture[20:80, 25:75] = PINK  # 60 × 50 = 3,000 of 10,000, of which 400 are
    picture[40:60, 40:60] = YELLOW  # 20 × 20
    picture += np.random.default_rng(0).normal(0, 1, picture.shape) * noise
    return np.clip(picture, 0, 255).astype(np.uint8)


def stored(pixels: Pixels, kind: str, **options: object) -> bytes:
    """Return the picture as a file."""
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, kind, **options)
    return out.getvalue()


def test_flat_colours_are_found_exactly() -> None:
    found = main_colours(petals(), most=6)
    # Shares by counting the squares of `petals`; k-means on three points must find the points.
    assert [(c.hex, round(c.share, 4)) for c in found] == [
        ("#3c6e32", 0.7),
        ("#c8286e", 0.26),
        ("#f0c828", 0.04),
    ]


def test_noise_and_compression_leave_the_colours_in_place() -> None:
    found = main_colours(decoded(stored(petals(8), "JPEG", quality=90)), most=6)
    wanted = np.array([hex_to_lab(text) for text in ("#3c6e32", "#c8286e", "#f0c828")])
    labs = np.array([colour.lab for colour in found])
    nearest = delta_e_2000(wanted[:, None], labs[None]).min(axis=1)
    # Under 3 no painter sees another colour; own cut-off, three times what was seen (about 1).
    assert (nearest < 3).all()


def test_shares_add_up_to_what_is_no_speck() -> None:
    found = main_colours(petals(20), most=8)
    assert 0.9 < sum(colour.share for colour in found) <= 1 + 1e-12
    assert [c.share for c in found] == sorted((c.share for c in found), reverse=True)


def test_the_same_photograph_gives_the_same_colours() -> None:
    assert main_colours(petals(25), most=6) == main_colours(petals(25), most=6)


def test_clusters_are_not_alike() -> None:
    found = main_colours(petals(30), most=12)
    labs = np.array([colour.lab for colour in found])
    apart = delta_e_2000(labs[:, None], labs[None]) + 100 * np.eye(len(labs))
    assert apart.min() >= 5


def test_the_middle_leaves_out_the_background() -> None:
    found = main_colours(petals(), most=6, middle_only=True)
    assert [colour.hex for colour in found] == ["#c8286e", "#f0c828"]


@pytest.mark.parametrize("shape", [(1, 1, 3), (1, 7, 3), (3, 2, 3)])
def test_a_speck_of_one_colour(shape: tuple[int, int, int]) -> None:
    pixels = np.full(shape, 128, dtype=np.uint8)
    for middle in (False, True):
        (colour,) = main_colours(pixels, most=6, middle_only=middle)
        assert (colour.hex, colour.share) == ("#808080", 1.0)


def test_older_names_of_the_seed_give_the_same_colours(monkeypatch: pytest.MonkeyPatch) -> None:
    """Up to scipy 1.14 the argument is called `seed`, from 1.15 on `rng` (its release notes)."""
    found = main_colours(petals(25), most=6)
    kmeans2: Any = vq.kmeans2
    random = "rng" if "rng" in signature(kmeans2).parameters else "seed"

    def older(data: Any, k: int, *, iter: int, minit: str, seed: Any) -> Any:  # noqa: A002
        return kmeans2(data, k, iter=iter, minit=minit, **{random: seed})

    monkeypatch.setattr(vq, "kmeans2", older)
    assert main_colours(petals(25), most=6) == found
