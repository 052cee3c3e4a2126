"""Questions beside the choice: why these tubes, what is in the box, one colour, bit by bit."""

from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from fewtubes.catalogue.records import Lightfastness
from fewtubes.comparison.box_contents import BoxContents
from fewtubes.comparison.box_findings import Box
from fewtubes.comparison.mixes import Mixes
from fewtubes.comparison.reasons import Why
from fewtubes.page.drawn_instalments import DrawnInstalments
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.puddles import Puddling

__all__ = [
    "BOX",
    "INSTALMENTS",
    "MIX",
    "PLACES",
    "WHY",
    "AsideAsked",
    "AsideFound",
    "AsideTask",
    "BoxAsked",
    "ContentsAsked",
    "Found",
    "InstalmentsAsked",
    "MixAsked",
    "WhyAsked",
]

WHY, BOX, MIX, INSTALMENTS = PLACES = ("why", "box", "mix", "instalments")
"""Places of their pages within a tab."""

Found = Why | Box | BoxContents | Mixes | DrawnInstalments


@dataclass(frozen=True, eq=False)
class WhyAsked:
    """Asked: why the tubes of an answer."""

    plan: Plan
    puddling: Puddling
    """For what its puddles are shared."""
    place: str = WHY


@dataclass(frozen=True, eq=False)
class BoxAsked:
    """Asked: which tubes at home are doubles or idle, and what to buy next."""

    scenario: Scenario
    about_to_buy: tuple[str, ...]
    place: str = BOX


@dataclass(frozen=True, eq=False)
class ContentsAsked:
    """Asked: what is at home, whatever is to be painted."""

    box: BoxAtHome
    paper: str
    light: str
    place: str = BOX


@dataclass(frozen=True, eq=False)
class MixAsked:
    """Asked: how to mix one colour."""

    colour: str
    tubes: tuple[str, ...]
    """Ids of those at hand; all of the catalogue if there are none."""
    tolerance: float
    paper: str
    light: str
    lightfastness: Lightfastness | None = None
    place: str = MIX


@dataclass(frozen=True, eq=False)
class InstalmentsAsked:
    """Asked: what to buy with each of several sums, one after the other."""

    scenario: Scenario
    sums: tuple[Decimal, ...]
    """[currency], the first for now."""
    place: str = INSTALMENTS


AsideAsked = WhyAsked | BoxAsked | ContentsAsked | MixAsked | InstalmentsAsked


@dataclass(frozen=True, eq=False)
class AsideTask:
    """What is to be answered, and from what."""

    asked: AsideAsked
    catalogue: Path | None
    cache: Path | None
    seconds: float
    prices: Path | None = None
    """Folder of the price list; None for the catalogue's own prices."""
    flowers: Path | None = None
    """Table of flowers beside the catalogue's; None for none."""


@dataclass(frozen=True, eq=False)
class AsideFound:
    """Told: the answer; `Ended` tells why there is none."""

    found: Found
