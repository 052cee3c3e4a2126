"""A question saved as a scenario's file, and opened from one that was sent."""

import re
from dataclasses import replace

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import HeldFile
from fewtubes.catalogue.price_list import with_prices
from fewtubes.catalogue.records import Catalogue
from fewtubes.errors import Fault, InputError
from fewtubes.page.asking import back, found_tab, no_tab, question_page
from fewtubes.page.fields import first_of
from fewtubes.page.from_scenario import PRICES, opened
from fewtubes.page.home_place import with_home
from fewtubes.page.intake import read_form
from fewtubes.page.price_lists import (
    PRICE_LIST,
    asked_of,
    list_called,
    list_words,
    prices_chosen,
    prices_here,
)
from fewtubes.page.remembered import LONGEST_TITLE, asked_besides
from fewtubes.page.run_state import RunState
from fewtubes.page.tabs import FormValues
from fewtubes.scenario.own_flowers import OwnFlower
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.scenario_text import scenario_text
from fewtubes.scenario.sent_scenario import sent_scenario
from fewtubes.scenario.toml_file import toml_values
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.words.printable import printable

__all__ = ["open_scenario", "save_scenario", "told_of_file"]

PASSED_OVER = {
    "flowers": (
        "The table of flowers that the file names does not come along: flowers of your own are"
        " those that the page was started with (--flowers)."
    ),
    "box": "The box at home that the file names does not come along.",
}
"""What is said of files that a scenario names, by key."""

OTHER_PRICES = (
    "The price list that the file names, {named}, does not come along: {here}."
    " Another list is named when the page is started (--prices)."
)

NAMED_AGAIN = "A file that you save names it again."

AT_HOME = "Your own tubes at home stay marked."

UNFIT = re.compile(r"[^a-z0-9]+")
"""What does not stand in the name of a file."""


async def save_scenario(request: Request) -> Response:
    """Return the question as a scenario's file."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None:
        return no_tab(request)
    try:
        tab.values = (await read_form(request)).values
        scenario = asked_of(tab.values, run)
        chosen = prices_chosen(tab.values, run.settings.prices)
        named = first_of(tab.values, PRICES) if chosen is None else str(chosen.resolve())
        if named:
            scenario = replace(scenario, prices=named)
        if run.settings.flowers is not None:
            scenario = replace(scenario, flowers=_whole(scenario, run))
        text = f"{asked_besides(tab.values)}{scenario_text(scenario)}"
    except InputError as error:
        return question_page(request, tab, faults=error.faults)
    stem = UNFIT.sub("-", scenario.title.lower()).strip("-")[:60] or "question"
    disposition = {"Content-Disposition": f'attachment; filename="{stem}.toml"'}
    return Response(text.encode("utf-8"), media_type="application/toml", headers=disposition)


async def open_scenario(request: Request) -> Response:
    """Fill the form in from a scenario's file; it stays as it is if the file has a fault."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None:
        return no_tab(request)
    try:
        sent = (await read_form(request)).files.get("scenario")
        scenario, file, passed = await run_in_threadpool(_sent, sent, run)
        found = opened(scenario, run.catalogue)
    except InputError as error:
        return question_page(request, tab, faults=told_of_file(error))
    values, prices = _by_its_list(found.values, scenario.prices, run)
    tab.values = {**run.tabs.first_values(), **with_home(values, run.home)}
    here = run.home is not None and bool(run.home.box.tubes)
    others = [words for key, words in PASSED_OVER.items() if key in passed]
    notes = [*found.notes, *prices, *others, *([AT_HOME] if here else [])]
    tab.notice = " ".join([f"Opened: {printable(file.name, LONGEST_TITLE)}.", *notes])
    return back(tab)


def told_of_file(error: InputError) -> tuple[Fault, ...]:
    """Return faults of a file as faults of its field."""
    return tuple(Fault("scenario", str(fault)) for fault in error.faults)


def _whole(scenario: Scenario, run: RunState) -> tuple[FlowerWish | OwnFlower, ...]:
    """Return the flowers of a scenario; those that the page was given besides with their colours.

    So the file says all by itself.
    """
    flowers = run.catalogue.flowers
    return tuple(
        OwnFlower.of(flowers[one.name], one.importance, one.area_cm2)
        if one.name in run.own_flowers
        else one
        for one in scenario.flowers
    )


def _by_its_list(
    values: FormValues, named: str, run: RunState
) -> tuple[FormValues, tuple[str, ...]]:
    """Return values with the price list chosen that a scenario names, and what is said of it.

    It is one that the page was started with, and known by the name of its folder; the one that the
    file means is never looked at.
    """
    lists = run.settings.prices
    if not named:
        return values, ()
    called = list_called(named, lists)
    if called is not None:
        told = f"Prices are those of {list_words(called, lists)}, as the file names it."
        return {**values, PRICE_LIST: [str(called)]}, (told,)
    shown = printable(named, LONGEST_TITLE)
    told = OTHER_PRICES.format(named=shown, here=prices_here(values, lists))
    return values, (told, *(() if lists else (NAMED_AGAIN,)))


def _sent(file: HeldFile | None, run: RunState) -> tuple[Scenario, HeldFile, frozenset[str]]:
    """Return the scenario in a file that was sent, the file, and the keys it passes over."""
    if file is None:
        raise InputError([Fault("file", "none is chosen; choose one first.")])
    own = bool(run.own_flowers)
    scenario, passed = sent_scenario(file, _priced(file, run), own_flowers=own)
    return scenario, file, passed


def _priced(file: HeldFile, run: RunState) -> Catalogue:
    """Return the catalogue with the prices by which the scenario in a file will be asked."""
    named = (toml_values(file, FaultCollector()) or {}).get("prices")
    called = list_called(named, run.settings.prices) if isinstance(named, str) else None
    known = called is None or called == run.settings.usual_prices
    return run.catalogue if known else with_prices(run.catalogue, called)
