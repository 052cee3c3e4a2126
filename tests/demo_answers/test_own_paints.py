"""The worked example of one's own paints: swatches, fit, prices, plan; and what is true of it.

The paints of the example are invented, so that their true curves are known here, as they never are
to a painter: what the plan says of its mixes is held against them.
"""

from pathlib import Path

import numpy as np
import pytest
from tests.readme import renew_own_paints
from typer.testing import CliRunner

from fewtubes.card.layout_file import read_layout
from fewtubes.card.reading import read_cards
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.difference import delta_e_2000
from fewtubes.command_line.main import app
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import usual_optics
from fewtubes.fitting.fit import fit
from fewtubes.mixing.mixture import film_lab
from fewtubes.scenario.reading import read_scenario
from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.shop import shop

EXAMPLE = renew_own_paints.FOLDER


@pytest.fixture(scope="module")
def catalogue(tmp_path_factory: pytest.TempPathFactory) -> Catalogue:
    """Return the catalogue that the three commands of the README make."""
    folder = tmp_path_factory.mktemp("my-paints")
    for command in (
        ["catalogue", "new", str(folder), "--with-flowers"],
        ["fit", str(EXAMPLE / "swatches.csv"), "--into", str(folder)],
        ["catalogue", "import", str(EXAMPLE / "prices.csv"),
         "--columns", str(EXAMPLE / "price-columns.toml"), "--into", str(folder)],
    ):  # fmt: skip
        done = CliRunner().invoke(app, command)
        assert done.exit_code == 0, done.output
    return read_catalogue(folder)


@pytest.fixture(scope="module")
def plan(catalogue: Catalogue, shared_cache: Cache) -> Plan:
    question = read_scenario(EXAMPLE / "question.toml", catalogue)
    return shop(catalogue, question, cache=shared_cache)


def test_all_tubes_are_fitted_and_priced_but_the_one_from_the_drawer(catalogue: Catalogue) -> None:
    names = {tube.name for tube in catalogue.tubes.values()}
    assert names == {name for name, _ in renew_own_paints.TUBES}
    assert all(tube.fitted for tube in catalogue.tubes.values())
    assert [id_ for id_, tube in catalogue.tubes.items() if not tube.offers] == ["old-yellow"]
    # 3,60 in the list of prices.
    assert min(offer.price for offer in catalogue.tubes["own-yellow"].offers) == 360


def test_it_shows_what_it_says(plan: Plan) -> None:
    assert plan.certificate.status is Status.PROVEN
    assert plan.fitted_paints
    bought = {planned.tube.id for planned in plan.bought}
    assert bought == {"own-yellow", "own-pink", "own-warm-blue"}
    assert plan.coverage == pytest.approx(7 / 8, abs=0.03)
    poppy = [sample for sample in plan.samples if sample.sample.flower == "poppy, field"]
    assert any(remedy.tube.id == "own-red" for sample in poppy for remedy in sample.remedies)


def _true_labs(plan: Plan, places: dict[str, int], cache: Cache) -> np.ndarray:
    """Return CIELAB that the plan's recipes truly have, shape (recipes, 3)."""
    paints, _ = renew_own_paints.true_paints()
    loads = np.zeros((len(plan.samples), len(paints.K)))
    for row, sample in zip(loads, plan.samples, strict=True):
        recipe = sample.recipe
        assert recipe is not None
        for tube, part in zip(recipe.tubes, recipe.parts, strict=True):
            row[places[tube]] = recipe.strength * part / sum(recipe.parts)
    return film_lab(loads @ paints.K, loads @ paints.S, usual_optics(read_catalogue(), cache))


def test_its_mixes_are_truly_near_what_it_says(
    plan: Plan, catalogue: Catalogue, shared_cache: Cache
) -> None:
    places = {id_: place for place, id_ in enumerate(catalogue.tubes)}
    off = delta_e_2000(
        _true_labs(plan, places, shared_cache),
        np.array([sample.mix_lab for sample in plan.samples]),
    )
    # What a fit to screen colours must reach (tests/benchmarks/bench_fit.py).
    assert np.median(off) <= 1.6
    assert np.quantile(off, 0.9) <= 4.0


def test_the_photographed_card_tells_of_the_same_paints(
    catalogue: Catalogue, shared_cache: Cache
) -> None:
    reading = read_cards([EXAMPLE / "card.jpg"], read_layout(EXAMPLE / "card-layout.toml"))
    assert reading.notes == ()
    found = fit(reading.sheet, cache=shared_cache)
    paints, _ = renew_own_paints.true_paints()
    optics = usual_optics(read_catalogue(), shared_cache)
    for tube, K, S in zip(found.tubes, paints.K, paints.S, strict=True):
        washes = np.array([1.0, 0.5, 0.25, 0.125])[:, None]
        true = film_lab(washes * K, washes * S, optics)
        fitted = film_lab(washes * tube.K, washes * tube.S, optics)
        # The median asked of a photographed card, doubled for the single wash.
        assert np.median(delta_e_2000(true, fitted)) < 5.0
    assert {tube.painted.codes for tube in found.tubes} == {
        tuple(codes.split(" + ")) if codes else () for _, codes in renew_own_paints.TUBES
    }


def test_the_files_of_the_example_are_those_that_are_drawn(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(renew_own_paints, "FOLDER", tmp_path)
    renew_own_paints.renew()
    for name in ("swatches.csv", "card-layout.toml"):  # a JPEG may differ from machine to machine
        assert (tmp_path / name).read_text("utf-8") == (EXAMPLE / name).read_text("utf-8")
