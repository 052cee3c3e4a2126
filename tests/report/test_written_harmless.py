"""What painters write in a scenario is harmless in the hand-out and the report: class, sellers.

Names are not checked for HTML when they are read: they may hold any sign that prints. So every page
is parsed with the parser of the standard library (`html.parser`), and has to have the very elements
and attributes that it has with harmless names, while the names stand in it as text.
"""

import csv
import io
import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from tests.remixed import mixed_of
from tests.report.conftest import (
    BLUE,
    COVERED,
    GOLD,
    MAGENTA,
    MISSED,
    PLAN,
    VIOLET,
    planned_tube,
    rose_called,
)
from tests.unchecked import unchecked

from fewtubes.catalogue.sellers import Seller, SetPack, TubeSet
from fewtubes.comparison.reasons import StandIn
from fewtubes.comparison.sold_out import SoldOut
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import Recipe
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.handout_page import handout_page
from fewtubes.report.illustrated.page import illustrated_report
from fewtubes.report.plan_files import plan_files
from fewtubes.scenario.class_wish import ClassWish, Pupils
from fewtubes.shopping.bought import Bought, BoughtPack, BoughtSet, Parcel, Surplus
from fewtubes.shopping.packs import Pack
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import Caution, FlowerCoverage, Remedy
from fewtubes.shopping.sources import Source

HARMLESS = "rose"

HOSTILE = (
    "<script>alert(1)</script>",
    "</style></title><img src=x onerror=alert(1)>",
    "=cmd|'/c calc'!A1",
    "+1+1",
    "@SUM(A1)",
    '" onmouseover="alert(1)',
    "' autofocus onfocus='alert(1)",
    "{{ 7 * 7 }}{% raw %}",
    "&lt;b&gt; &amp; &#60;",
    "javascript:alert(1)//",
    "--></svg><a href=x>",
    "w" * 2000,
)


class Parsed(HTMLParser):
    """Elements with the names of their attributes, the values that lead anywhere, and the text."""

    def __init__(self, page: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[tuple[str, tuple[str, ...]]] = []
        self.leads: set[str] = set()
        self.words: list[str] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element."""
        self.elements.append((tag, tuple(name for name, _ in attrs)))
        self.leads |= {value or "" for name, value in attrs if name in {"href", "src", "action"}}

    def handle_data(self, data: str) -> None:
        """Note a text."""
        self.words.append(data)

    @property
    def text(self) -> str:
        """All of it, with single blanks."""
        return re.sub(r"\s+", " ", "".join(self.words))


def made(name: str) -> tuple[Plan, tuple[SoldOut, ...]]:
    """Return a plan of a class that buys of two sellers, with a name wherever one may stand."""
    stall = Seller("stall", name, 0, None, 0, "EUR", note=name)
    post = Seller("post", f"{name} by post", 390, 3000, 500, "EUR")
    packs = (SetPack("gold", 2.0, 1), SetPack("violet", 2.0, 1))
    box = TubeSet("box", name, "stall", 700, "EUR", packs)
    magenta, violet = replace(MAGENTA, name=name), replace(VIOLET, name=name)
    source = Source(stall, box)
    covered = replace(COVERED, sample=replace(COVERED.sample, flower=name, name=name))
    missed = replace(
        MISSED,
        sample=replace(MISSED.sample, flower=name, name=f"{name} throat"),
        recipe=Recipe(("magenta",), (1,), 1.0),
        remedies=(Remedy(violet, 725, allowed=True, source=source),),
    )
    of_magenta = (Pack(MAGENTA.offers[0], 2),)
    of_box = BoughtSet(box, 1, (GOLD,), ((violet, Surplus.NO_USE), (BLUE, Surplus.OWNED)))
    least = BoughtPack(magenta, of_magenta[0], surplus=1, why=Surplus.LEAST_ORDER)
    scenario = unchecked(
        PLAN.scenario,
        title=name,
        shows=name,
        flowers=(rose_called(name),),
        group=ClassWish(2, pupils=Pupils.CHILDREN),
    )
    plan = replace(
        PLAN,
        scenario=scenario,
        catalogue_label=name,
        tubes=(
            replace(planned_tube(magenta), packs=of_magenta),
            replace(PLAN.tubes[1], packs=(), sets=(of_box,)),
            PLAN.tubes[2],
        ),
        purchase=Bought((Parcel(stall, (), (of_box,), 0), Parcel(post, (least,), (), 390))),
        flowers=(FlowerCoverage(name, 2.0, 0.7, 2, 3),),
        samples=(covered, missed),
        mixed=mixed_of((covered, missed)),
        lightfastness=replace(PLAN.lightfastness, limited_by=(magenta,)),
        cautions=(Caution("Take care.", (name,)),),
    )
    stand_in = StandIn(violet, 725, 0.6, total=1910, source=source)
    return plan, (SoldOut(magenta, stand_in, proven=True),)


def pages(name: str, optics: Optics) -> dict[str, str]:
    """Return the hand-out and the report."""
    plan, sold_out = made(name)
    return {
        "hand-out": handout_page(Basis(plan, optics)),
        "report": illustrated_report(plan, optics, sold_out=sold_out),
    }


@pytest.mark.parametrize("name", HOSTILE, ids=lambda name: name[:12])
def test_no_name_adds_an_element_or_an_attribute(name: str, optics: Optics) -> None:
    harmless = pages(HARMLESS, optics)
    for which, page in pages(name, optics).items():
        found, before = Parsed(page), Parsed(harmless[which])
        assert found.elements == before.elements, which
        assert found.leads == before.leads
        assert name[:20] in found.text  # told as it is, but for its length
        page.encode("utf-8")


def test_the_check_would_find_harm(optics: Optics) -> None:
    page = str(pages(HARMLESS, optics)["report"])  # markup would escape what comes in
    harmed = page.replace(HARMLESS, "<b>rose</b>")
    assert Parsed(harmed).elements != Parsed(page).elements


@pytest.mark.parametrize("name", HOSTILE, ids=lambda name: name[:12])
def test_no_cell_of_the_tables_is_a_formula(name: str) -> None:
    """Signs that spreadsheets take for the start of one: = + - @, tab, carriage return (OWASP)."""
    plan, _ = made(name)
    for file, text in plan_files(plan).items():
        if file.endswith(".csv"):
            for row in csv.reader(io.StringIO(text, newline="")):
                assert not [cell for cell in row if cell[:1] in tuple("=+@\t\r")], file
