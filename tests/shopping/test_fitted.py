"""Fitted paints and tubes that are not for sale, from the tables to the plan."""

import io
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from shutil import copytree

import pytest
from rich.console import Console
from tests.fitted_tables import fit, likely_about

from fewtubes.catalogue.location import demo_catalogue_folder
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.why import why
from fewtubes.coverage.cache import Cache
from fewtubes.errors import ClashError
from fewtubes.report.sentences.reasons import reason_words
from fewtubes.report.terminal.check import check_tables, print_check
from fewtubes.report.terminal.why import unreached_words
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.shopping.plan_parts import Obstacle
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.refusals import Refusal
from fewtubes.shopping.shop import shop
from fewtubes.shopping.steadiness import MonteCarlo

MakeScenario = Callable[..., Scenario]

FITTED = ("pr122-magenta", "pb29-ultramarine")
HOLDING = ("magenta", "violet-mixed", "ultramarine", "ultramarine-study", "blue-grey-mixed")
"""Tubes of the demo that hold them, read from its table."""

UNSOLD = "magenta"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the demo's tables with two pigments fitted and one of their tubes not for sale."""
    folder = tmp_path_factory.mktemp("fitted") / "tables"
    copytree(demo_catalogue_folder(), folder)
    fit(folder, *FITTED)
    offers = (folder / "offers.csv").read_text(encoding="utf-8").splitlines(keepends=True)
    kept = [line for line in offers if not line.startswith(f"{UNSOLD},")]
    (folder / "offers.csv").write_text("".join(kept), encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def own(folder: Path) -> Catalogue:
    return read_catalogue(folder)


def posed(catalogue: Catalogue, asked: Scenario, cache: Cache) -> Question:
    return pose(catalogue, asked, cache=cache, progress=lambda _stage: None)


def test_check_remarks_on_both_and_finds_no_fault(folder: Path) -> None:
    console = Console(file=io.StringIO(), width=400)
    print_check(check_tables(folder, ()), console)
    assert isinstance(console.file, io.StringIO)
    said = console.file.getvalue()
    assert (
        "5 tubes fitted from swatches: magenta, violet-mixed, ultramarine, ultramarine-st" in said
    )
    assert (
        "1 tube not for sale, without a pack in offers.csv, so of use only when owned: magenta."
    ) in said


def test_check_names_the_first_of_many(folder: Path, tmp_path: Path) -> None:
    unpriced = copytree(folder, tmp_path / "unpriced")
    (unpriced / "offers.csv").write_text("tube,ml,price,currency\n", encoding="utf-8")
    console = Console(file=io.StringIO(), width=2000)
    print_check(check_tables(unpriced, ()), console)
    assert isinstance(console.file, io.StringIO)
    assert "72 tubes not for sale" in console.file.getvalue()
    assert " and 60 more." in console.file.getvalue()


def test_a_tube_not_for_sale_is_refused_unless_owned(
    own: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    question = posed(own, scenario("cyclamen"), cache)
    assert question.refused == {UNSOLD: Refusal.NOT_FOR_SALE}
    owned = posed(own, scenario("cyclamen", wishes=Wishes(owned=(UNSOLD,))), cache)
    assert owned.refused == {}
    assert owned.numbers[UNSOLD] in owned.owned


def test_it_cannot_be_a_must_have_tube(
    own: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    asked = scenario("cyclamen", wishes=Wishes(must_have=(UNSOLD,)))
    with pytest.raises(ClashError) as told:
        shop(own, asked, cache=cache)
    assert "it is not for sale: the catalogue has no pack of it; name" in str(told.value)
    assert "name it as owned if you have it, or give it a pack in offers.csv." in str(told.value)


def test_a_must_have_tube_that_is_at_home_and_not_for_sale_is_told_so(
    own: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """To name it as owned would not do: a tube is either owned or must be bought."""
    asked = scenario("cyclamen", wishes=Wishes(must_have=(UNSOLD,), box=BoxAtHome([UNSOLD])))
    with pytest.raises(ClashError, match="the box at home has it, so take it off the tubes that"):
        shop(own, asked, cache=cache)


def test_what_only_it_brings_is_told_to_be_not_for_sale(
    own: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """All but a blue and a yellow without packs: neither makes a pink."""
    unsold = {
        id_: tube if id_ in ("ultramarine", "middle-yellow") else replace(tube, offers=())
        for id_, tube in own.tubes.items()
    }
    asked = scenario("cyclamen", budget=100_000)
    reasons = why(replace(own, tubes=unsold), asked, cache=cache)
    (pink,) = [missed for missed in reasons.unreached if missed.planned.sample.name == "petal"]
    assert pink.planned.obstacle is Obstacle.NOT_FOR_SALE
    for words in (unreached_words(pink, reasons), reason_words(pink.planned, asked)):
        assert "tubes that it needs are not for sale" in words
        assert "would bring it" not in words


def test_a_catalogue_without_any_price_serves_a_full_box(
    own: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    tubes = {id_: replace(tube, offers=()) for id_, tube in own.tubes.items()}
    asked = scenario("cyclamen", currency="CHF", wishes=Wishes(owned=("magenta", "lemon")))
    plan = shop(replace(own, tubes=tubes), asked, cache=cache)
    assert (plan.cost, plan.bought) == (0, ())
    assert plan.coverage > 0.5
    assert [planned.tube.id for planned in plan.fitted] == ["magenta"]


def test_what_is_proven_is_so_for_fitted_paints_that_could_be_chosen(
    own: Catalogue, demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    assert not posed(demo, scenario("cyclamen"), cache).fitted_paints
    assert posed(own, scenario("cyclamen"), cache).fitted_paints
    never = tuple(id_ for id_ in HOLDING if id_ != UNSOLD)  # which nobody can buy anyway
    without = scenario("cyclamen", wishes=Wishes(never=never))
    assert not posed(own, without, cache).fitted_paints
    assert not shop(own, without, cache=cache).fitted_paints


def test_recipes_and_the_cache_hang_on_the_fit_and_not_on_its_spread(
    own: Catalogue, demo: Catalogue, scenario: MakeScenario, tmp_path: Path
) -> None:
    """K and S are as in the demo, so nothing is mixed anew and everything is as it was."""
    asked = scenario("cyclamen", budget=100_000, wishes=Wishes(owned=(UNSOLD,)))
    kept, plans = [], []
    for catalogue in (demo, own):
        few = {id_: catalogue.tubes[id_] for id_ in ("ultramarine", "middle-yellow", UNSOLD)}
        plans.append(shop(replace(catalogue, tubes=few), asked, cache=Cache(tmp_path)))
        kept.append({path.name: path.stat().st_mtime_ns for path in tmp_path.iterdir()})
    assert kept[0]
    assert kept[0] == kept[1]
    first, second = ([planned.recipe for planned in plan.samples] for plan in plans)
    assert first == second


def with_spread(catalogue: Catalogue, spread: float) -> Catalogue:
    """Return the catalogue with fitted pigments as unsure as that."""
    tubes = {}
    for id_, tube in catalogue.tubes.items():
        pigments = tuple(
            (replace(pigment, likely=likely_about(pigment, spread=spread)), share)
            if pigment.fitted
            else (pigment, share)
            for pigment, share in tube.pigments
        )
        tubes[id_] = replace(tube, pigments=pigments)
    return replace(catalogue, tubes=tubes)


def test_the_surer_the_fit_the_more_can_be_expected(
    own: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """With the same errors of the hand; spreads beyond any paint's, so that luck plays no part."""
    asked = scenario("cyclamen", budget=100_000, wishes=Wishes(owned=("magenta", "ultramarine")))
    expected = []
    for spread in (0.0, 0.3, 0.9):
        catalogue = with_spread(own, spread)
        plan = shop(catalogue, asked, cache=cache, trials=MonteCarlo(draws=100))
        assert plan.steadiness is not None
        expected.append(plan.steadiness.spread.expected)
    assert expected == sorted(expected, reverse=True)
    assert expected[0] > expected[-1] + 0.1
