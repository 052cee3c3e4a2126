"""The demo catalogue's tables: complete, consistent, regenerable and physically possible."""

import csv
import importlib.util
import re
from itertools import pairwise
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from tests.faults import faults_of_catalogue

from fewtubes.catalogue.location import demo_catalogue_folder
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Role
from fewtubes.colour.bands import WAVELENGTH_NM, FloatArray
from fewtubes.colour.cielab import lab_to_lch, xyz_to_lab
from fewtubes.colour.light import tristimulus_weights, white_point
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.mixture import Optics, mixture_lab
from fewtubes.mixing.recipes import PARTS, STRENGTHS, shares
from fewtubes.mixing.surface import beneath_surface, with_surface

FOLDER = demo_catalogue_folder()

BANDS = [f"nm{wavelength:.0f}" for wavelength in WAVELENGTH_NM]

COLUMNS = {
    "pigments.csv": "pigment code name class lightfastness blue_wool staining granulating"
    " hazard hazard_note",
    "bands.csv": "pigment quantity shape centre_nm width_nm height",
    "spectra.csv": " ".join(["pigment", "quantity", *BANDS]),
    "tubes.csv": "tube name strength note",
    "tube_pigments.csv": "tube pigment share",
    "offers.csv": "tube ml price currency",
    "flowers.csv": "flower swatch role L a b importance",
    "paper_shapes.csv": "paper name plateau violet_drop violet_centre_nm violet_width_nm"
    " warmth_drop warmth_centre_nm warmth_width_nm",
    "papers.csv": " ".join(["paper", "name", *BANDS]),
    "lights.csv": "light name nm power",
}

MAY_BE_BLANK = {"blue_wool", "hazard", "hazard_note", "note", "centre_nm", "width_nm"}

KEYS = {
    "pigments.csv": ("pigment",),
    "spectra.csv": ("pigment", "quantity"),
    "tubes.csv": ("tube",),
    "tube_pigments.csv": ("tube", "pigment"),
    "offers.csv": ("tube", "ml"),
    "flowers.csv": ("flower", "swatch"),
    "papers.csv": ("paper",),
    "lights.csv": ("light", "nm"),
}

ORIENTATION = {
    "green-yellow": ((86, 90, 97), (93, 50, 102)),
    "golden-yellow": ((58, 68, 66), (82, 55, 82)),
    "warm-red": ((44, 70, 30), (68, 46, 20)),
    "cool-crimson": ((34, 50, 18), (68, 38, 0)),
    "magenta": ((40, 62, 355), (68, 48, 345)),
    "vivid-pink": ((56, 76, 355), (74, 52, 346)),
    "dioxazine-violet": ((24, 42, 310), (58, 36, 302)),
    "ultramarine": ((34, 58, 292), (66, 36, 280)),
    "green-leaning-blue": ((38, 48, 265), (70, 35, 243)),
    "turquoise": ((55, 40, 207), (80, 25, 203)),
    "blue-leaning-green": ((45, 52, 172), (75, 35, 172)),
    "red-brown-earth": ((44, 40, 48), (72, 25, 52)),
}
"""Tube → L*, C*, hue of a strong stroke and of a wash; regression aim, from memory, no source."""

ORIENTATION_TOLERANCE = (5, 5, 6)
"""In L*, C* and hue [degrees]; the wash is compared at its own L*."""

SAMPLE_SIZE = 2800
SAMPLE_SEED = 1980


def rows(name: str) -> list[dict[str, str]]:
    with (FOLDER / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.fixture(scope="module")
def catalogue() -> Catalogue:
    return read_catalogue()


@pytest.fixture(scope="module")
def optics(catalogue: Catalogue) -> Optics:
    return Optics.of(catalogue.papers["cotton-white"], catalogue.lights["D65"])


@pytest.fixture(scope="module")
def make_tables() -> ModuleType:
    path = Path(__file__).parents[2] / "catalogue" / "make_tables.py"
    spec = importlib.util.spec_from_file_location("make_tables", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


# Form.


def test_the_catalogue_is_read_without_a_fault() -> None:
    assert faults_of_catalogue() == ()


@pytest.mark.parametrize("name", COLUMNS)
def test_columns_are_those_of_the_readme(name: str) -> None:
    with (FOLDER / name).open(encoding="utf-8", newline="") as file:
        assert next(csv.reader(file)) == COLUMNS[name].split()
    readme = (FOLDER / "README.md").read_text(encoding="utf-8")
    assert f"`{name}`" in readme
    for column in COLUMNS[name].split():
        assert f"`{column}`" in readme or column in BANDS, column


@pytest.mark.parametrize("name", COLUMNS)
def test_no_cell_is_blank_where_it_must_not_be(name: str) -> None:
    for number, row in enumerate(rows(name), start=2):
        for column, cell in row.items():
            assert cell == cell.strip()
            assert cell or column in MAY_BE_BLANK, f"{name} row {number}, {column}"


def test_a_shape_lacks_centre_and_width_only_if_it_is_even() -> None:
    for row in rows("bands.csv"):
        assert (row["shape"] == "even") == (row["centre_nm"] == "") == (row["width_nm"] == "")


@pytest.mark.parametrize("name", KEYS)
def test_keys_are_unique(name: str) -> None:
    keys = [tuple(row[column] for column in KEYS[name]) for row in rows(name)]
    assert len(keys) == len(set(keys))


def test_bands_and_lights_ascend() -> None:
    assert [float(name[2:]) for name in BANDS] == WAVELENGTH_NM.tolist()
    for light in {row["light"] for row in rows("lights.csv")}:
        wavelengths = [int(row["nm"]) for row in rows("lights.csv") if row["light"] == light]
        assert wavelengths == list(range(380, 781, 5))


def test_references_between_the_tables_resolve() -> None:
    pigments = {row["pigment"] for row in rows("pigments.csv")}
    tubes = {row["tube"] for row in rows("tubes.csv")}
    for name in ("bands.csv", "spectra.csv", "tube_pigments.csv"):
        assert {row["pigment"] for row in rows(name)} == pigments, name
    for name in ("tube_pigments.csv", "offers.csv"):
        assert {row["tube"] for row in rows(name)} == tubes, name


def test_there_are_as_many_rows_as_the_design_asks_for(catalogue: Catalogue) -> None:
    """The fewest that the demo is to hold: 60 tubes, 40 profiles, 30 flowers and leaves."""
    assert len(catalogue.tubes) >= 60
    assert len(catalogue.pigments) >= 40
    assert len(catalogue.flowers) >= 30
    assert set(catalogue.lights) == {"D65", "D50", "A", "LED-B3"}
    assert next(iter(catalogue.papers)) == "cotton-white"
    assert len(catalogue.papers) >= 4


def test_codes_are_colour_index_generic_names() -> None:
    """Pattern after ASTM D5067, 3.1.1."""
    for row in rows("pigments.csv"):
        assert re.fullmatch(r"[PN](Y|O|R|V|B|G|Br|Bk|W)\d+(:\d+)?", row["code"]), row["code"]
        assert row["pigment"].startswith(row["code"].lower().replace(":", "-"))


def test_shares_of_a_tube_sum_to_1(catalogue: Catalogue) -> None:
    for tube in catalogue.tubes.values():
        assert sum(share for _, share in tube.pigments) == pytest.approx(1)


def test_larger_packs_cost_more_but_less_per_millilitre(catalogue: Catalogue) -> None:
    """Common practice, no source."""
    for tube in catalogue.tubes.values():
        offers = sorted(tube.offers, key=lambda offer: offer.ml)
        assert 1 <= len(offers) <= 3
        for small, large in pairwise(offers):
            assert large.price > small.price
            assert large.price / large.ml < small.price / small.ml


def test_every_flower_has_petals_or_leaves_in_light_and_shade(catalogue: Catalogue) -> None:
    for flower in catalogue.flowers.values():
        assert 4 <= len(flower.swatches) <= 6, flower.name
        roles = {swatch.role for swatch in flower.swatches}
        assert roles & {Role.PETAL, Role.LEAF}, flower.name


# Regeneration.


def test_tables_regenerate_identically(make_tables: ModuleType, tmp_path: Path) -> None:
    assert make_tables.main(["--folder", str(tmp_path)]) == 0
    for name in make_tables.TABLES:
        assert (tmp_path / name).read_bytes() == (FOLDER / name).read_bytes(), name


def test_a_stale_table_is_noticed(
    make_tables: ModuleType, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    make_tables.main(["--folder", str(tmp_path)])
    assert make_tables.main(["--folder", str(tmp_path), "--check"]) == 0
    (tmp_path / "spectra.csv").write_text("pigment\n", encoding="utf-8")
    assert make_tables.main(["--folder", str(tmp_path), "--check"]) == 1
    assert "spectra.csv is stale" in capsys.readouterr().err


def test_an_unknown_shape_is_refused(make_tables: ModuleType) -> None:
    with pytest.raises(ValueError, match="shape 'spike' is none of even, peak, below, above"):
        make_tables.shape_curve("spike", 500, 20)


# Physics.


def recipe_reflectances(catalogue: Catalogue) -> FloatArray:
    """Return reflectances of a random sample of recipes on white cotton paper, (recipes, bands)."""
    rng = np.random.default_rng(SAMPLE_SEED)
    tubes = list(catalogue.tubes.values())
    K, S = np.array([tube.K for tube in tubes]), np.array([tube.S for tube in tubes])
    loads = np.zeros((SAMPLE_SIZE, len(tubes)))
    for recipe in loads:
        size = int(rng.integers(1, 4))
        chosen = rng.choice(len(tubes), size, replace=False)
        recipe[chosen] = rng.choice(STRENGTHS) * rng.choice(shares(PARTS[size]))
    ground = beneath_surface(catalogue.papers["cotton-white"].reflectance)
    return with_surface(film_reflectance(loads @ K, loads @ S, ground))


@pytest.fixture(scope="module")
def under_light_c(catalogue: Catalogue) -> tuple[FloatArray, FloatArray]:
    """Return XYZ (Y of white = 1) and CIELAB of the sample under illuminant C.

    Pointer's and MacAdam's limits are tabled for illuminant C (colour-science).
    """
    import colour

    light = colour.SDS_ILLUMINANTS["C"]
    weights = tristimulus_weights(np.array(light.wavelengths), np.array(light.values))
    xyz = recipe_reflectances(catalogue) @ weights
    return xyz / 100, xyz_to_lab(xyz, white_point(weights))


def test_nearly_all_recipes_lie_in_pointers_gamut(
    under_light_c: tuple[FloatArray, FloatArray],
) -> None:
    """M. R. Pointer, The gamut of real surface colours, Color Res. Appl. 5(3), 1980, 145–155.

    His tables end at L* 90; paler washes cannot be judged. Share wanted: 97 %, our own threshold.
    """
    import colour

    xyz, lab = under_light_c
    tabled = (lab[:, 0] >= 15) & (lab[:, 0] <= 90)
    assert tabled.sum() >= 2000
    assert colour.is_within_pointer_gamut(xyz[tabled]).mean() >= 0.97


def test_all_recipes_lie_within_macadams_limits(
    under_light_c: tuple[FloatArray, FloatArray],
) -> None:
    """D. L. MacAdam, JOSA 25, 1935, 361–367; the tables run from Y = 10 to 95 %."""
    import colour

    xyz, _ = under_light_c
    tabled = xyz[(xyz[:, 1] >= 0.10) & (xyz[:, 1] <= 0.95)]
    assert len(tabled) >= 2000
    assert colour.is_within_macadam_limits(colour.XYZ_to_xyY(tabled), "C").all()


def test_reflectances_are_between_the_surface_and_the_paper_or_white(catalogue: Catalogue) -> None:
    reflectance = recipe_reflectances(catalogue)
    assert reflectance.min() >= 0.04  # what the surface alone sends back
    assert reflectance.max() <= 1.0


def test_spectra_are_smooth(catalogue: Catalogue) -> None:
    """No step between neighbouring bands is steeper than the steepest single shape makes it.

    That is a peak of 16 nm: 10/16 · exp(−½) = 0.379 of its height in 10 nm. An edge of 8 nm rises
    by tanh(10 / (4 · 8)) = 0.303.
    """
    for pigment in catalogue.pigments.values():
        K = pigment.K
        assert np.abs(np.diff(K)).max() <= 0.38 * np.ptp(K), pigment.id


@pytest.mark.parametrize("tube", ORIENTATION)
def test_classes_land_near_the_orientation_table(
    catalogue: Catalogue, optics: Optics, tube: str
) -> None:
    K, S = catalogue.tubes[tube].K[None], catalogue.tubes[tube].S[None]
    strong, wash = (np.array(aim) for aim in ORIENTATION[tube])
    curve = mixture_lab(np.geomspace(1, 0.01, 200)[:, None], K, S, optics)
    at_wash = np.array([np.interp(wash[0], curve[:, 0], curve[:, axis]) for axis in range(3)])
    for aim, found in ((strong, lab_to_lch(curve[0])), (wash, lab_to_lch(at_wash))):
        off = found - aim
        off[2] = (off[2] + 180) % 360 - 180
        assert (np.abs(off) <= ORIENTATION_TOLERANCE).all(), (found.round(1), aim)
