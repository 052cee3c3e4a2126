"""A sound scenario is read as its file says."""

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from fewtubes.catalogue.records import Catalogue, Hazard, Lightfastness
from fewtubes.colour.display import hex_to_lab
from fewtubes.errors import InputError
from fewtubes.mixing.opacity import Transparency
from fewtubes.scenario.reading import faults_of_scenario, read_scenario
from fewtubes.scenario.records import Wishes
from fewtubes.scenario.wanted import FlowerWish

Change = Callable[[str, str], Path]

BARE = """\
title = "One flower"
currency = "GBP"
budget = 4
paper = "plain"
light = "E"
[[flower]]
name = "primrose"
"""


def test_every_key_is_read(sound: Path, catalogue: Catalogue) -> None:
    scenario = read_scenario(sound, catalogue)
    # Origin of all figures here: the text of the sound scenario in conftest.py.
    assert scenario.title == "A window box"
    assert scenario.shows == "that every key is read"
    assert (scenario.currency, scenario.budget_hundredths) == ("EUR", 1250)
    assert (scenario.most_tubes, scenario.tolerance) == (3, 3.5)
    assert (scenario.paper, scenario.light) == ("plain", "E")
    assert scenario.flowers == (FlowerWish("cornflower", 2.0), FlowerWish("primrose", 1.0))
    assert scenario.wishes == Wishes(
        owned=("lemon",),
        must_have=("deep-blue",),
        never=("leaf-green",),
        lightfastness_floor=Lightfastness.II,
        transparency_floor=Transparency.SEMI_TRANSPARENT,
        avoid_hazards=(Hazard.CADMIUM, Hazard.LEAD),
        millilitres=5.0,
        thinnest_wash=0.5,
        most_in_mix=2,
        least_coverage=Fraction(9, 10),
    )


@pytest.mark.parametrize(
    ("line", "prefer"),
    [("", "lasting"), ('prefer = "lasting"\n', "lasting"), ('prefer = "cheapest"\n', "cheapest")],
)
def test_what_is_preferred_is_read(
    line: str, prefer: str, tmp_path: Path, catalogue: Catalogue
) -> None:
    path = tmp_path / "one.toml"
    path.write_text(line + BARE, encoding="utf-8")
    assert read_scenario(path, catalogue).prefer == prefer


@pytest.mark.parametrize(
    ("line", "nearer"), [("", False), ("nearer = false\n", False), ("nearer = true\n", True)]
)
def test_whether_what_is_missed_is_to_come_near_is_read(
    line: str, nearer: bool, tmp_path: Path, catalogue: Catalogue
) -> None:
    path = tmp_path / "one.toml"
    path.write_text(line + BARE, encoding="utf-8")
    assert read_scenario(path, catalogue).nearer is nearer


@pytest.mark.parametrize("value", ['"true"', "1"])
def test_a_wish_that_is_neither_true_nor_false_is_told(
    value: str, tmp_path: Path, catalogue: Catalogue
) -> None:
    path = tmp_path / "one.toml"
    path.write_text(f"nearer = {value}\n{BARE}", encoding="utf-8")
    with pytest.raises(InputError, match="allowed, without quotation marks: true, false"):
        read_scenario(path, catalogue)


def test_own_colours_are_read_in_three_ways(sound: Path, catalogue: Catalogue) -> None:
    dahlia, aster, moss = read_scenario(sound, catalogue).own_colours
    assert (dahlia.name, dahlia.importance, dahlia.reflectance) == ("my dahlia", 0.5, None)
    assert dahlia.lab == tuple(hex_to_lab("#c21e56"))
    assert (aster.importance, aster.lab) == (1.0, (45.0, 30.5, -40.0))
    assert moss.lab is None
    assert moss.reflectance is not None
    assert not moss.reflectance.flags.writeable
    # The measurement is the straight line nm/1000, so interpolation returns it at every band.
    np.testing.assert_allclose(moss.reflectance, np.arange(0.38, 0.735, 0.01), rtol=1e-12)


def test_what_is_left_out_has_defaults(tmp_path: Path, catalogue: Catalogue) -> None:
    path = tmp_path / "bare.toml"
    path.write_text(BARE, encoding="utf-8")
    scenario = read_scenario(path, catalogue)
    # The defaults named in the scenario's format; a change of these is a change of every answer.
    assert (scenario.shows, scenario.most_tubes, scenario.tolerance) == ("", None, 4.0)
    assert scenario.budget_hundredths == 400
    assert scenario.flowers == (FlowerWish("primrose", 1.0),)
    assert scenario.own_colours == ()
    assert scenario.wishes == Wishes()


def test_an_own_colour_alone_is_enough(tmp_path: Path, catalogue: Catalogue) -> None:
    path = tmp_path / "own.toml"
    path.write_text(
        BARE.replace('[[flower]]\nname = "primrose"', '[[colour]]\nname = "x"\nhex = "#102030"'),
        encoding="utf-8",
    )
    scenario = read_scenario(path, catalogue)
    assert scenario.flowers == ()
    assert [colour.name for colour in scenario.own_colours] == ["x"]


def test_any_stands_for_every_hazard(change: Change, catalogue: Catalogue) -> None:
    path = change('["cadmium", "lead"]', '["any"]')
    assert read_scenario(path, catalogue).wishes.avoid_hazards == tuple(Hazard)


@pytest.mark.parametrize(
    ("written", "hundredths"),
    [("12.5", 1250), ("12", 1200), ("12.500", 1250), ("1_000", 100_000), ("0.01", 1)],
)
def test_budgets_are_kept_in_hundredths(
    change: Change, catalogue: Catalogue, written: str, hundredths: int
) -> None:
    path = change("budget = 12.50", f"budget = {written}")
    assert read_scenario(path, catalogue).budget_hundredths == hundredths


def test_a_reflectance_may_be_finer_and_longer(sound: Path, catalogue: Catalogue) -> None:
    rows = "".join(f"{nm},0.25\n" for nm in range(360, 831))
    (sound.parent / "moss.csv").write_text("nm,reflectance\n" + rows, encoding="utf-8")
    moss = read_scenario(sound, catalogue).own_colours[2]
    assert moss.reflectance is not None
    np.testing.assert_array_equal(moss.reflectance, np.full(36, 0.25))


def test_a_byte_order_mark_is_left_out(sound: Path, catalogue: Catalogue) -> None:
    sound.write_bytes(b"\xef\xbb\xbf" + sound.read_bytes())
    assert faults_of_scenario(sound, catalogue) == ()


def test_importance_and_coverage_are_kept_exactly_as_written(
    sound: Path, catalogue: Catalogue
) -> None:
    """What no float can hold: a tenth, and nineteen digits."""
    text = sound.read_text(encoding="utf-8")
    text = text.replace("importance = 2", "importance = 0.1")
    text = text.replace("importance = 0.5", "importance = 1.000000000000000001")
    sound.write_text(text.replace("least_coverage = 0.9", "least_coverage = 0.70"), "utf-8")
    scenario = read_scenario(sound, catalogue)
    assert Fraction(1, 10) in [wish.importance for wish in scenario.flowers]
    own = [colour.importance for colour in scenario.own_colours]
    assert Fraction(10**18 + 1, 10**18) in own
    assert scenario.wishes.least_coverage == Fraction(7, 10)


def test_a_coverage_with_a_huge_exponent_takes_no_time(sound: Path, catalogue: Catalogue) -> None:
    """As a fraction it would have a thousand million digits."""
    text = sound.read_text(encoding="utf-8")
    sound.write_text(text.replace("= 0.9", "= 1e-999999999"), "utf-8")
    assert read_scenario(sound, catalogue).wishes.least_coverage == 0
