"""What all handlers of one run share: the catalogue, the tabs, the templates."""

import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

import anyio
from jinja2 import Environment
from markupsafe import Markup
from starlette.responses import HTMLResponse

from fewtubes.catalogue.records import LASTS, Catalogue, Hazard, Lightfastness, Role
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.mixing.recipes import STRENGTHS
from fewtubes.page.aside_job import AsideJob, start_aside
from fewtubes.page.aside_task import AsideTask
from fewtubes.page.aside_words import ASIDE_WORDS
from fewtubes.page.assortment import Assortment, assortment_of
from fewtubes.page.at_home import HomeFile, wish_of, wishes_offered
from fewtubes.page.fields import LABELS
from fewtubes.page.files_to_take import files_to_take
from fewtubes.page.fit_job import FitJob, start_fit
from fewtubes.page.fit_task import FitTask
from fewtubes.page.folded import INSIDE
from fewtubes.page.form import first_values, importance_of, taken_hex
from fewtubes.page.form_size import FormSize, form_size
from fewtubes.page.home_place import forget_own_box, home_file
from fewtubes.page.job import Job
from fewtubes.page.memory import Memory, catalogue_key
from fewtubes.page.order_words import ORDER_WORDS
from fewtubes.page.own_flowers import typed_flowers
from fewtubes.page.own_rows import own_rows
from fewtubes.page.paints_form import points_of
from fewtubes.page.photograph_words import found_words, photograph_name
from fewtubes.page.price_lists import currencies_of, list_words
from fewtubes.page.settings import Settings
from fewtubes.page.sums_form import sums_typed
from fewtubes.page.tables_named import beside, flowers_named
from fewtubes.page.tabs import Tab, Tabs
from fewtubes.page.unpacking import Unpacker
from fewtubes.page.worker import Task
from fewtubes.report.illustrated.markup import environment
from fewtubes.report.illustrated.page import COSTS
from fewtubes.report.sentences.asked import asked_words
from fewtubes.report.sentences.fitting import ESTIMATE, UNSEEN
from fewtubes.report.sentences.misses import misses_words
from fewtubes.report.sentences.more_money import left_words, more_money_words
from fewtubes.report.sentences.painters import bought_words
from fewtubes.report.sentences.proof import plan_standing
from fewtubes.report.sentences.purchase import bought_at_words, delivery_aside
from fewtubes.report.sentences.steadiness import steadiness_aside
from fewtubes.report.sentences.trade_offs import fading_words
from fewtubes.scenario.demands import TRANSPARENCY_FLOORS
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.names import named_tubes
from fewtubes.words.counting import counted
from fewtubes.words.lightfastness import LIGHTFASTNESS_WORDS
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.shares import percent
from fewtubes.words.washes import strength_words

__all__ = ["MANY", "MOST_JOBS", "MOST_PHOTOGRAPHS", "MOST_PROCESSES", "RunState"]

MOST_JOBS = 4
"""Questions that are answered at a time, one a tab."""

MOST_PROCESSES = 8
"""Processes at a time, those that compare palettes after their answer included."""

MANY = 2
"""Price lists from which one is chosen; prices of tubes then hang on that."""

MOST_PHOTOGRAPHS = 4
"""Photographs held at a time, one that is unpacked and those that wait for it."""


@dataclass(eq=False)
class RunState:
    """The state of one run; the catalogue alone changes, when tubes are added to it."""

    settings: Settings
    catalogue: Catalogue
    assortment: Assortment
    form_size: FormSize
    tabs: Tabs
    start: Callable[[Task], Job]
    start_fit: Callable[[FitTask], FitJob]
    start_aside: Callable[[AsideTask], AsideJob]
    templates: Environment
    currencies: tuple[str, ...] = ()
    """That can be asked in, by one price list or another."""
    own_flowers: tuple[str, ...] = ()
    """Names of the flowers in the table that the page was started with."""
    home: HomeFile | None = None
    """The box at home: the one that the page was started with, or the page's own; or None."""
    home_fault: str = ""
    """Why the page's own box is not there, as a sentence."""
    memory: Memory | None = None
    """Earlier questions; None if nothing is remembered."""
    beginning: anyio.Lock = field(default_factory=anyio.Lock)
    """Held while work is begun, so that none is begun twice or beyond the limit."""
    adding: anyio.Lock = field(default_factory=anyio.Lock)
    """Held while tubes are added to the catalogue."""
    unpacker: Unpacker = field(default_factory=Unpacker)
    photographs: threading.Semaphore = field(
        default_factory=lambda: threading.BoundedSemaphore(MOST_PHOTOGRAPHS)
    )
    """Held while a photograph is taken in and looked at."""

    @classmethod
    def of(
        cls,
        settings: Settings,
        catalogue: Catalogue,
        assortment: Assortment,
        start: Callable[[Task], Job],
        start_fit: Callable[[FitTask], FitJob] = start_fit,
        *,
        start_aside: Callable[[AsideTask], AsideJob] = start_aside,
    ) -> "RunState":
        """Return the state of a run that begins."""
        home, fault = home_file(settings, catalogue)
        run = cls(
            settings=settings,
            catalogue=catalogue,
            assortment=assortment,
            form_size=form_size(catalogue),
            tabs=Tabs(lambda: first_values(run.catalogue, home.box if home else None)),
            start=start,
            start_fit=start_fit,
            start_aside=start_aside,
            templates=_templates(),
            own_flowers=flowers_named(settings.flowers),
            currencies=currencies_of(catalogue, settings.prices[1:]),
            home=home,
            home_fault=fault,
            memory=None if settings.data is None else Memory(settings.data),
        )
        return run

    @property
    def flowers_file(self) -> str:
        """Name of the table of flowers that the page was started with; blank without one."""
        table = self.settings.flowers
        return "" if table is None else printable(table.name)

    @property
    def box(self) -> BoxAtHome | None:
        """The box at home as its file has it now; None without one."""
        return None if self.home is None else self.home.box

    @property
    def catalogue_key(self) -> str:
        """By what questions of this catalogue are known."""
        return catalogue_key(self.settings.catalogue)

    def forget_box(self) -> Path | None:
        """Forget the box at home that is the page's own, damaged or not; none that was named.

        Returns the file to which it was a link, and which stays; None if nothing stays.

        Raises
        ------
        OutputError
            If it could not be removed.
        """
        if self.home is not None:
            return self.home.forget()
        if not self.home_fault:
            return None
        stays = forget_own_box(self.settings)
        self.home, self.home_fault = home_file(self.settings, self.catalogue)
        return stays

    @property
    def saved_in(self) -> str:
        """The folder of a catalogue and the file of a box that the page writes when told to."""
        folder = self.settings.catalogue
        names = [] if folder is None else [printable(folder.resolve().name)]
        named = self.home is not None and not self.home.remembered
        return joined([*names, *([printable(self.home.name)] if self.home and named else [])])

    def restock(self, catalogue: Catalogue) -> None:
        """Offer what a catalogue holds to which tubes were added."""
        settings = self.settings
        catalogue = beside(catalogue, prices=settings.usual_prices, flowers=settings.flowers)
        usual = first_values(catalogue)
        cache = Cache(self.settings.cache)
        optics = optics_for(catalogue, usual["paper"][0], usual["light"][0], cache)
        self.assortment = assortment_of(catalogue, optics, priced=len(settings.prices) < MANY)
        self.form_size = form_size(catalogue)
        self.catalogue = catalogue
        self.own_flowers = flowers_named(settings.flowers)
        self.currencies = currencies_of(catalogue, settings.prices[1:])

    def close(self) -> None:
        """Stop all work; returns when its processes are gone."""
        self.unpacker.close()
        self.tabs.stop_all()

    def render(
        self, template: str, tab: Tab | None, *, status: int = 200, **more: object
    ) -> HTMLResponse:
        """Return a page; a tab's notice is said on the first one."""
        notice = ""
        if tab is not None:
            notice, tab.notice = tab.notice, ""
        text = self.templates.get_template(template).render(
            tab=tab, run=self, notice=notice, **more
        )
        return HTMLResponse(text, status_code=status)

    def choices(self) -> dict[str, object]:
        """Return what the form offers to choose from."""
        lists = self.settings.prices
        return {
            "currencies": self.currencies,
            "price_lists": [(str(one), list_words(one, lists)) for one in lists],
            "papers": self.catalogue.papers.values(),
            "lights": self.catalogue.lights.values(),
            "categories": [
                (category.name, LIGHTFASTNESS_WORDS[category])
                for category in Lightfastness
                if category is not Lightfastness.V
            ],
            "grades": list(TRANSPARENCY_FLOORS),
            "washes": [(repr(strength), strength_words(strength)) for strength in STRENGTHS[:-1]],
            "hazards": [hazard.value for hazard in Hazard],
        }


def _templates() -> Environment:
    made = environment("fewtubes.page")
    made.filters["drawn"] = Markup  # pictures and sections that the library drew
    made.filters["wished"] = lambda tube, values: wish_of(values, tube)
    made.globals.update(
        {**ASIDE_WORDS, **ORDER_WORDS},
        COSTS=COSTS,
        ESTIMATE=ESTIMATE,
        INSIDE=INSIDE,
        UNSEEN=UNSEEN,
        points_of=points_of,
        LABELS=LABELS,
        LASTS=LASTS,
        asked_words=asked_words,
        bought_at_words=bought_at_words,
        bought_words=bought_words,
        delivery_aside=delivery_aside,
        counted=counted,
        fading_words=fading_words,
        files_to_take=files_to_take,
        found_words=found_words,
        importance_of=importance_of,
        money=money,
        named_tubes=named_tubes,
        misses_words=misses_words,
        more_money_words=more_money_words,
        own_rows=own_rows,
        percent=percent,
        photograph_name=photograph_name,
        plan_standing=plan_standing,
        left_words=left_words,
        steadiness_aside=steadiness_aside,
        sums_typed=sums_typed,
        roles=[role.value for role in Role],
        taken_hex=taken_hex,
        typed_flowers=typed_flowers,
        wishes_offered=wishes_offered,
    )
    return made
