"""A plan made by hand from records, and a terminal of known width to print it on.

All names and prices are invented. Weights: 5000 + 2000 of 10,000 are covered, so coverage is 0.7.
"""

import io
import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from rich.console import Console
from tests.remixed import mixed_of
from tests.unchecked import unchecked

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Hazard, Lightfastness, Offer, Pigment, Trait, Tube
from fewtubes.colour.bands import BAND_COUNT
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.coverage.samples import Sample
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.opacity import Transparency
from fewtubes.mixing.recipes import Recipe
from fewtubes.report.terminal.plan import print_plan
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.selection.certificate import Certificate, Method, Status
from fewtubes.shopping.packs import Pack
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import (
    Caution,
    FlowerCoverage,
    Obstacle,
    PlannedSample,
    PlannedTube,
    Remedy,
    TradeOff,
)

Printed = Callable[..., str]


@pytest.fixture(scope="module")
def optics(tmp_path_factory: pytest.TempPathFactory) -> Optics:
    """Return the demo catalogue's usual paper and light."""
    catalogue = read_catalogue(None)
    cache = Cache(tmp_path_factory.mktemp("cache"))
    return optics_for(catalogue, next(iter(catalogue.papers)), next(iter(catalogue.lights)), cache)


def make_tube(
    id_: str,
    name: str,
    code: str,
    *,
    price: int = 650,
    lightfastness: Lightfastness = Lightfastness.I,
    hazard: Hazard | None = None,
) -> Tube:
    """Return a tube of one pigment in one pack of 5 ml."""
    pigment = Pigment(
        id=f"{id_}-pigment",
        code=code,
        name="made-up",
        chemical_class="made-up",
        lightfastness=lightfastness,
        blue_wool=None,
        staining=Trait.YES,
        granulating=Trait.NO,
        hazards=(hazard,) if hazard else (),
        hazard_note="",
        K=np.full(BAND_COUNT, 0.5),
        S=np.full(BAND_COUNT, 0.1),
    )
    return Tube(id_, name, 1.0, ((pigment, 1.0),), (Offer(5.0, price, "EUR"),))


MAGENTA = make_tube("magenta", "magenta", "PV19")
GOLD = make_tube("gold", "golden yellow", "PY150", hazard=Hazard.NICKEL, price=600)
BLUE = make_tube("blue", "blue", "PB29", lightfastness=Lightfastness.II)
VIOLET = make_tube("violet", "deep violet", "PV23", price=725)

SCENARIO = Scenario(
    title="A window box",
    shows="that a box of few tubes will do",
    currency="EUR",
    budget=20,
    most_tubes=3,
    tolerance=4.0,
    flowers=(FlowerWish("rose", 2.0),),
    own_colours=(),
)


def rose_called(name: str) -> FlowerWish:
    """Return the wish for a rose under any name."""
    return unchecked(FlowerWish("rose", 2.0), name=name)


def planned_tube(tube: Tube, *, owned: bool = False, count: int = 1) -> PlannedTube:
    """Return a tube of the palette."""
    return PlannedTube(
        tube=tube,
        owned=owned,
        packs=() if owned else (Pack(tube.offers[0], count),),
        contrast_ratio=0.12,
        transparency=Transparency.SEMI_TRANSPARENT,
        white_filled=False,
        recipes=1,
        only_it_brings=0.2,
    )


COVERED = PlannedSample(
    sample=Sample("rose", "petal", (60.0, 40.0, -10.0), 5000),
    covered=True,
    recipe=Recipe(("magenta", "gold"), (2, 1), 0.5),
    match=1.34,
    mix_lab=(60.5, 41.0, -11.0),
    match_if_unsteady=2.9,
    obstacle=None,
    remedies=(),
)
MISSED = PlannedSample(
    sample=Sample("rose", "throat", (40.0, 20.0, -50.0), 3000),
    covered=False,
    recipe=Recipe(("blue",), (1,), 1.0),
    match=6.12,
    mix_lab=(42.0, 15.0, -45.0),
    match_if_unsteady=9.0,
    obstacle=Obstacle.BUDGET,
    remedies=(Remedy(VIOLET, 725, allowed=True),),
)
STEP = replace(
    COVERED,
    sample=Sample(
        "rose", "between petal and fold", (50.0, 45.0, -8.0), 2000, between=("petal", "fold")
    ),
)

PLAN = Plan(
    scenario=SCENARIO,
    catalogue_label="demo catalogue",
    tubes=(planned_tube(MAGENTA, count=2), planned_tube(GOLD), planned_tube(BLUE, owned=True)),
    set_aside=(),
    cost=1900,
    coverage=0.7,
    flowers=(FlowerCoverage("rose", 2.0, 0.7, 2, 3),),
    samples=(COVERED, MISSED, STEP),
    lightfastness=TradeOff(Lightfastness.II, (BLUE,), 0.6, spared_proven=True),
    opacity=TradeOff(Transparency.SEMI_TRANSPARENT, (MAGENTA, GOLD), 0.1, spared_proven=False),
    cautions=(Caution("Wash hands."), Caution("Holds nickel.", ("golden yellow",))),
    certificate=Certificate(Status.PROVEN, Method.SEARCH, 7000, 7000, 1234, 0.5),
    ties=1,
    ties_complete=True,
    recipe_count=4_000_000,
    mixed=mixed_of((COVERED, MISSED, STEP)),
)
"""2 × 6.50 + 6.00 = 19.00 of 20.00 are spent."""

EMPTY = replace(
    PLAN,
    mixed=mixed_of(()),
    tubes=(),
    cost=0,
    coverage=0.0,
    flowers=(FlowerCoverage("rose", 2.0, 0.0, 0, 1),),
    samples=(
        replace(
            MISSED,
            recipe=None,
            match=math.inf,
            match_if_unsteady=math.inf,
            obstacle=Obstacle.CATALOGUE,
            remedies=(),
        ),
    ),
    lightfastness=TradeOff(None, (), 0.0, spared_proven=True),
    opacity=TradeOff(None, (), 0.0, spared_proven=True),
    certificate=Certificate(Status.PROVEN, Method.SEARCH, 0, 0, 1, 0.0),
)

HOSTILE_NAMES = (
    "=1+1",
    "[bold red]loud[/bold red]",
    "[/]",
    "\x1b[31mred\x07",
    "x" * 10_000,
    ":tube:",
)


@pytest.fixture
def plan() -> Plan:
    """Return a plan of three tubes, one of them owned, and three colours, one out of reach."""
    return PLAN


@pytest.fixture
def empty_plan() -> Plan:
    """Return a plan that buys nothing and covers nothing."""
    return EMPTY


@pytest.fixture(
    params=HOSTILE_NAMES, ids=["formula", "markup", "closing", "escape", "long", "emoji"]
)
def hostile(request: pytest.FixtureRequest) -> tuple[str, Plan]:
    """Return a name that means harm, and a plan that bears it wherever a name may stand."""
    name: str = request.param
    tube = replace(MAGENTA, id="magenta", name=name)
    sample = replace(COVERED, sample=replace(COVERED.sample, flower=name, name=name))
    missed = replace(
        MISSED,
        sample=replace(MISSED.sample, flower=name),
        recipe=Recipe(("magenta",), (1,), 1.0),
        remedies=(Remedy(replace(VIOLET, name=name), 725, allowed=False),),
    )
    return name, replace(
        PLAN,
        scenario=unchecked(SCENARIO, title=name, shows=name, flowers=(rose_called(name),)),
        catalogue_label=name,
        tubes=(planned_tube(tube), *PLAN.tubes[1:]),
        set_aside=(tube,),
        flowers=(FlowerCoverage(name, 2.0, 0.7, 2, 3),),
        samples=(sample, missed),
        mixed=mixed_of((sample, missed)),
        lightfastness=replace(PLAN.lightfastness, limited_by=(tube,)),
        cautions=(Caution("Take care.", (name,)),),
    )


@pytest.fixture
def printed() -> Printed:
    """Return a function that prints a plan, in full unless told otherwise, as text."""

    def print_it(plan: Plan, *, width: int = 80, full: bool = True, colours: bool = False) -> str:
        console = Console(
            file=io.StringIO(),
            width=width,
            force_terminal=colours,
            color_system="truecolor" if colours else None,
            legacy_windows=False,
            _environ={},
        )
        print_plan(plan, console, full=full)
        assert isinstance(console.file, io.StringIO)
        return console.file.getvalue()

    return print_it


@pytest.fixture
def flat() -> Callable[[str], str]:
    """Return a function that undoes line breaks and columns: all white space becomes one blank."""
    return lambda text: " ".join(text.split())
