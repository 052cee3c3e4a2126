"""fewtubes: the few watercolour tubes that mix most of a bouquet, within a budget.

Read a catalogue, say what is to be painted and what may be spent, and ask::

    import fewtubes

    catalogue = fewtubes.read_catalogue()
    scenario = fewtubes.Scenario(budget=20, currency="EUR", flowers=["foxglove"])
    plan = fewtubes.shop(catalogue, scenario)

`shop` answers which tubes to buy, `why` the reasons, `compare` what more or less money would give,
`box` what the owned tubes are worth, `unmixable` which tubes no others replace, `mix` how one
colour is mixed, `instalments` what to buy bit by bit; `batch` answers many scenarios at once, and
`one_set` which tubes serve all of them. Whatever is wrong with the input is an `InputError`; all
errors are `FewtubesError`. Everything is imported when it is first used, so that this costs
nothing.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fewtubes.catalogue.price_list import with_prices
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.catalogue.records import Catalogue, Hazard, Lightfastness, Role
    from fewtubes.catalogue.sellers import Seller, SetPack, TubeSet
    from fewtubes.comparison.box import box
    from fewtubes.comparison.box_findings import Box
    from fewtubes.comparison.compare import compare
    from fewtubes.comparison.comparison import Comparison
    from fewtubes.comparison.extent import Extent
    from fewtubes.comparison.instalment_findings import Instalment, Instalments, Purchase
    from fewtubes.comparison.instalments import instalments
    from fewtubes.comparison.mixes import Mixes, mix
    from fewtubes.comparison.one_set import one_set
    from fewtubes.comparison.one_set_findings import OneSet, SetForAll
    from fewtubes.comparison.reasons import Why
    from fewtubes.comparison.tube_ranking import MixedTube, MixedTubes
    from fewtubes.comparison.unmixable import unmixable
    from fewtubes.comparison.why import why
    from fewtubes.coverage.cache import Cache, default_cache
    from fewtubes.errors import (
        ClashError,
        DefectError,
        Fault,
        FewtubesError,
        InputError,
        LimitError,
        OutputError,
    )
    from fewtubes.fitting.fit import Fit, fit
    from fewtubes.fitting.fitted import FittedTube
    from fewtubes.fitting.settings import FitSettings
    from fewtubes.fitting.sheet import SwatchSheet
    from fewtubes.fitting.swatch_file import read_swatches
    from fewtubes.mixing.opacity import Transparency
    from fewtubes.mixing.recipes import Recipe
    from fewtubes.scenario.box_file import read_box
    from fewtubes.scenario.class_wish import ClassWish
    from fewtubes.scenario.flower_file import with_flowers
    from fewtubes.scenario.home_box import BoxAtHome, TubeAtHome
    from fewtubes.scenario.overrides import with_overrides
    from fewtubes.scenario.own_flowers import OwnFlower, OwnSwatch
    from fewtubes.scenario.picture_wish import PictureWish
    from fewtubes.scenario.reading import read_scenario
    from fewtubes.scenario.records import Scenario, Wishes
    from fewtubes.scenario.wanted import FlowerWish, OwnColour
    from fewtubes.selection.certificate import Certificate
    from fewtubes.shopping.bought import Bought, BoughtPack, BoughtSet, Parcel, Surplus
    from fewtubes.shopping.packs import Pack
    from fewtubes.shopping.paint_plan import FewerPictures, PaintOfTube, PaintPlan
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
    from fewtubes.shopping.puddles import FewestPuddles, Puddle, Puddles, Puddling
    from fewtubes.shopping.shop import Limits, shop
    from fewtubes.shopping.steadiness import MonteCarlo
    from fewtubes.term.findings import Batch, BatchRow
    from fewtubes.term.library import batch

__all__ = [
    "Batch",
    "BatchRow",
    "Bought",
    "BoughtPack",
    "BoughtSet",
    "Box",
    "BoxAtHome",
    "Cache",
    "Catalogue",
    "Caution",
    "Certificate",
    "ClashError",
    "ClassWish",
    "Comparison",
    "DefectError",
    "Extent",
    "Fault",
    "FewerPictures",
    "FewestPuddles",
    "FewtubesError",
    "Fit",
    "FitSettings",
    "FittedTube",
    "FlowerCoverage",
    "FlowerWish",
    "Hazard",
    "InputError",
    "Instalment",
    "Instalments",
    "Lightfastness",
    "LimitError",
    "Limits",
    "MixedTube",
    "MixedTubes",
    "Mixes",
    "MonteCarlo",
    "Obstacle",
    "OneSet",
    "OutputError",
    "OwnColour",
    "OwnFlower",
    "OwnSwatch",
    "Pack",
    "PaintOfTube",
    "PaintPlan",
    "Parcel",
    "PictureWish",
    "Plan",
    "PlannedSample",
    "PlannedTube",
    "Puddle",
    "Puddles",
    "Puddling",
    "Purchase",
    "Recipe",
    "Remedy",
    "Role",
    "Scenario",
    "Seller",
    "SetForAll",
    "SetPack",
    "Surplus",
    "SwatchSheet",
    "TradeOff",
    "Transparency",
    "TubeAtHome",
    "TubeSet",
    "Why",
    "Wishes",
    "__version__",
    "batch",
    "box",
    "compare",
    "default_cache",
    "fit",
    "instalments",
    "mix",
    "one_set",
    "read_box",
    "read_catalogue",
    "read_scenario",
    "read_swatches",
    "shop",
    "unmixable",
    "why",
    "with_flowers",
    "with_overrides",
    "with_prices",
]

__version__ = "0.5.0"

HOMES = {
    "catalogue.price_list": ("with_prices",),
    "catalogue.reading": ("read_catalogue",),
    "catalogue.records": ("Catalogue", "Hazard", "Lightfastness", "Role"),
    "catalogue.sellers": ("Seller", "SetPack", "TubeSet"),
    "comparison.box": ("box",),
    "comparison.box_findings": ("Box",),
    "comparison.compare": ("compare",),
    "comparison.comparison": ("Comparison",),
    "comparison.extent": ("Extent",),
    "comparison.instalment_findings": ("Instalment", "Instalments", "Purchase"),
    "comparison.instalments": ("instalments",),
    "comparison.mixes": ("Mixes", "mix"),
    "comparison.one_set": ("one_set",),
    "comparison.one_set_findings": ("OneSet", "SetForAll"),
    "comparison.reasons": ("Why",),
    "comparison.tube_ranking": ("MixedTube", "MixedTubes"),
    "comparison.unmixable": ("unmixable",),
    "comparison.why": ("why",),
    "coverage.cache": ("Cache", "default_cache"),
    "errors": (
        "ClashError",
        "DefectError",
        "Fault",
        "FewtubesError",
        "InputError",
        "LimitError",
        "OutputError",
    ),
    "fitting.fit": ("Fit", "fit"),
    "fitting.fitted": ("FittedTube",),
    "fitting.settings": ("FitSettings",),
    "fitting.sheet": ("SwatchSheet",),
    "fitting.swatch_file": ("read_swatches",),
    "mixing.opacity": ("Transparency",),
    "mixing.recipes": ("Recipe",),
    "scenario.box_file": ("read_box",),
    "scenario.class_wish": ("ClassWish",),
    "scenario.flower_file": ("with_flowers",),
    "scenario.home_box": ("BoxAtHome", "TubeAtHome"),
    "scenario.own_flowers": ("OwnFlower", "OwnSwatch"),
    "scenario.overrides": ("with_overrides",),
    "scenario.picture_wish": ("PictureWish",),
    "scenario.reading": ("read_scenario",),
    "scenario.records": ("Scenario", "Wishes"),
    "scenario.wanted": ("FlowerWish", "OwnColour"),
    "selection.certificate": ("Certificate",),
    "shopping.bought": ("Bought", "BoughtPack", "BoughtSet", "Parcel", "Surplus"),
    "shopping.packs": ("Pack",),
    "shopping.paint_plan": ("FewerPictures", "PaintOfTube", "PaintPlan"),
    "shopping.plan": ("Plan",),
    "shopping.plan_parts": (
        "Caution",
        "FlowerCoverage",
        "Obstacle",
        "PlannedSample",
        "PlannedTube",
        "Remedy",
        "TradeOff",
    ),
    "shopping.puddles": ("FewestPuddles", "Puddle", "Puddles", "Puddling"),
    "shopping.shop": ("Limits", "shop"),
    "shopping.steadiness": ("MonteCarlo",),
    "term.findings": ("Batch", "BatchRow"),
    "term.library": ("batch",),
}
"""The module that each name comes from; the imports above tell the same to type checkers."""

HOME_OF = {name: home for home, names in HOMES.items() for name in names}


def __getattr__(name: str) -> object:
    """Return what a name stands for, importing its module when it is first asked for (PEP 562)."""
    if name not in HOME_OF:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found = getattr(import_module(f"{__name__}.{HOME_OF[name]}"), name)
    globals()[name] = found
    return found


def __dir__() -> list[str]:
    """Return the names that are offered, imported yet or not, and those that every module has."""
    return sorted({*__all__, *(name for name in globals() if name.startswith("__"))})
