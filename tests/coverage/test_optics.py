"""A light's weights, remembered."""

import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.bands import FloatArray
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.mixing.mixture import Optics


def same(one: Optics, other: Optics) -> bool:
    """Return whether two optics are equal to the last bit."""
    return all(
        np.array_equal(getattr(one, name), getattr(other, name))
        for name in ("ground", "weights", "white")
    )


@pytest.fixture
def computed(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Return a list that grows by one with every computation of weights."""
    from fewtubes.colour.light import tristimulus_weights  # the one replaced

    calls: list[int] = []

    def counted(light_wavelength_nm: FloatArray, light_power: FloatArray) -> FloatArray:
        calls.append(1)
        return tristimulus_weights(light_wavelength_nm, light_power)

    monkeypatch.setattr("fewtubes.coverage.optics.tristimulus_weights", counted)
    return calls


def test_cold_and_warm_are_the_same(
    catalogue: Catalogue, tmp_path: Path, computed: list[int]
) -> None:
    plain = Optics.of(catalogue.papers["ivory"], catalogue.lights["A"])
    for _ in range(3):
        assert same(optics_for(catalogue, "ivory", "A", Cache(tmp_path)), plain)
    assert len(computed) == 1


def test_papers_share_a_light(catalogue: Catalogue, tmp_path: Path, computed: list[int]) -> None:
    for paper in catalogue.papers:
        found = optics_for(catalogue, paper, "D65", Cache(tmp_path))
        assert same(found, Optics.of(catalogue.papers[paper], catalogue.lights["D65"]))
    assert len(computed) == 1


def test_lights_are_kept_apart(catalogue: Catalogue, tmp_path: Path, computed: list[int]) -> None:
    for _ in range(2):
        for light in catalogue.lights:
            found = optics_for(catalogue, "cream", light, Cache(tmp_path))
            assert same(found, Optics.of(catalogue.papers["cream"], catalogue.lights[light]))
    assert len(computed) == len(catalogue.lights)


def test_an_edited_light_is_computed_anew(
    catalogue: Catalogue, tmp_path: Path, computed: list[int]
) -> None:
    optics_for(catalogue, "cream", "A", Cache(tmp_path))
    light = catalogue.lights["A"]
    redder = replace(light, power=light.power * np.linspace(1, 2, len(light.power)))
    edited = replace(catalogue, lights={**catalogue.lights, "A": redder})
    found = optics_for(edited, "cream", "A", Cache(tmp_path))
    assert same(found, Optics.of(catalogue.papers["cream"], redder))
    assert len(computed) == 2


def test_a_damaged_file_is_computed_anew(
    catalogue: Catalogue, tmp_path: Path, computed: list[int]
) -> None:
    plain = optics_for(catalogue, "cream", "A", Cache(tmp_path))
    (file,) = tmp_path.iterdir()
    file.write_bytes(file.read_bytes()[:-9])
    assert same(optics_for(catalogue, "cream", "A", Cache(tmp_path)), plain)
    assert same(optics_for(catalogue, "cream", "A", Cache(tmp_path)), plain)
    assert len(computed) == 2  # the damaged file was replaced


def test_without_a_cache(catalogue: Catalogue, tmp_path: Path, computed: list[int]) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    plain = Optics.of(catalogue.papers["cream"], catalogue.lights["A"])
    for cache in (Cache(), Cache(tmp_path / "file" / "below")):
        assert same(optics_for(catalogue, "cream", "A", cache), plain)
    assert len(computed) == 2


NONSENSE: dict[str, Callable[[FloatArray], dict[str, npt.NDArray[Any]]]] = {
    "nothing": lambda _: {},
    "another name": lambda weights: {"light": weights},
    "more": lambda weights: {"weights": weights, "more": weights},
    "another shape": lambda weights: {"weights": weights[1:]},
    "no axis": lambda _: {"weights": np.array(1.0)},
    "another type": lambda weights: {"weights": weights.astype(np.float32)},
    "not finite": lambda weights: {"weights": np.where(weights > 1, np.nan, weights)},
    "another scale": lambda weights: {"weights": weights * 2},
    "no blue": lambda weights: {"weights": weights * [1, 1, 0]},
}


@pytest.mark.parametrize("change", NONSENSE.values(), ids=NONSENSE)
def test_sealed_nonsense_is_computed_anew(
    catalogue: Catalogue,
    tmp_path: Path,
    computed: list[int],
    monkeypatch: pytest.MonkeyPatch,
    *,
    change: Callable[[FloatArray], dict[str, npt.NDArray[Any]]],
) -> None:
    """Y of the perfect diffuser is 100 (ASTM E308), whatever the light."""
    plain = optics_for(catalogue, "cream", "A", Cache(tmp_path))
    monkeypatch.setattr(Cache, "load", lambda *_: change(plain.weights))
    assert same(optics_for(catalogue, "cream", "A", Cache(tmp_path)), plain)
    assert len(computed) == 2


LITTLE = """
import resource
from fewtubes.catalogue.location import demo_catalogue_folder
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for

catalogue = read_catalogue(demo_catalogue_folder())
taken = int(open("/proc/self/statm").read().split()[0]) * resource.getpagesize()
resource.setrlimit(resource.RLIMIT_AS, (taken + {free} * 2**20,) * 2)
try:
    optics_for(catalogue, "ivory", "D65", Cache())
except MemoryError:
    print("too little")
"""


@pytest.mark.skipif(sys.platform != "linux", reason="reads /proc")
@pytest.mark.parametrize("free", [110, 160, 210])
def test_what_cannot_be_loaded_is_not_tried(free: int) -> None:
    """Loading colour-science takes 250 MiB of address space; with less it hung, or erred oddly."""
    done = subprocess.run(  # noqa: S603  # our own script
        [sys.executable, "-c", LITTLE.format(free=free)],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert (done.stdout, done.stderr) == ("too little\n", "")
