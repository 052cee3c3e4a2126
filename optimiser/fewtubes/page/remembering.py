"""Earlier questions opened, all that is remembered forgotten or switched off.

A question is also saved as a scenario's file, and opened from one.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fewtubes.catalogue.files import HeldFile
from fewtubes.errors import Fault, InputError, OutputError
from fewtubes.page.asking import back, found_tab, no_tab, question_page
from fewtubes.page.at_home import OWNED, home_values
from fewtubes.page.fields import first_of
from fewtubes.page.form import scenario_of
from fewtubes.page.from_scenario import PRICES, opened
from fewtubes.page.intake import read_form
from fewtubes.page.remembered import LONGEST_PATH, LONGEST_TITLE, asked_besides
from fewtubes.page.run_state import RunState
from fewtubes.page.tabs import FormValues
from fewtubes.scenario.own_flowers import OwnFlower
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.scenario_text import scenario_text
from fewtubes.scenario.sent_scenario import sent_scenario
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = [
    "forget",
    "open_earlier",
    "open_scenario",
    "save_scenario",
    "switch",
]

PASSED_OVER = {
    "flowers": (
        "The table of flowers that the file names does not come along: flowers of your own are"
        " those that the page was started with (--flowers)."
    ),
    "box": "The box at home that the file names does not come along.",
}
"""What is said of files that a scenario names, by key."""

OTHER_PRICES = (
    "The price list that the file names, {named}, does not come along: prices are those {here}."
    " Another list is named when the page is started (--prices)."
)

NAMED_AGAIN = "A file that you save names it again."

AT_HOME = "Your own tubes at home stay marked."

UNFIT = re.compile(r"[^a-z0-9]+")
"""What does not stand in the name of a file."""


async def open_earlier(request: Request) -> Response:
    """Fill the form in as an earlier question was; the tubes at home are those of now."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None or run.memory is None:
        return no_tab(request)
    try:
        key = first_of((await read_form(request)).values, "question")
        held = await run_in_threadpool(run.memory.read)
    except InputError as error:
        return question_page(request, tab, faults=_told(error))
    found = next((one for one in held.questions if one.key == key), None)
    if found is None or found.catalogue != run.catalogue_key:
        tab.notice = "That question is not remembered any more."
        return back(tab)
    values, left_out = _of_flowers_here(found.values, run)
    tab.values = {**run.tabs.first_values(), **_with_home(values, run)}
    tab.notice = f"Opened. {left_out}Change what you like and ask."
    return back(tab)


async def forget(request: Request) -> Response:
    """Forget all questions, and the box at home that the page remembers itself."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None or run.memory is None:
        return no_tab(request)
    try:
        linked = [
            await run_in_threadpool(run.memory.forget),
            await run_in_threadpool(run.forget_box),
        ]
    except OutputError as error:
        tab.notice = str(error)
        return back(tab)
    if run.home is None or run.home.remembered:
        tab.values = _without_levels(tab.values)
    stays = [printable(str(path), LONGEST_PATH) for path in linked if path is not None]
    tab.notice = "Forgotten: all questions and the box at home that were remembered here."
    if stays:
        tab.notice += f" What a link led to stays as it is: {joined(stays)}."
    return back(tab)


async def switch(request: Request) -> Response:
    """Remember from now on, or remember nothing from now on."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None or run.memory is None:
        return no_tab(request)
    try:
        on = first_of((await read_form(request)).values, "remember") == "yes"
        await run_in_threadpool(lambda: run.memory.switch(on=on))
    except (InputError, OutputError) as error:
        tab.notice = str(error)
        return back(tab)
    told = "Questions are remembered" if on else "Nothing further is remembered"
    tab.notice = f"{told} from now on."
    return back(tab)


async def save_scenario(request: Request) -> Response:
    """Return the question as a scenario's file."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None:
        return no_tab(request)
    try:
        tab.values = (await read_form(request)).values
        scenario = scenario_of(tab.values, run.catalogue, run.box)
        named = first_of(tab.values, PRICES)
        if run.settings.prices is not None:
            named = str(run.settings.prices.resolve())
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
        return question_page(request, tab, faults=_told(error))
    tab.values = {**run.tabs.first_values(), **_with_home(found.values, run)}
    here = run.home is not None and bool(run.home.box.tubes)
    prices = [_prices_words(scenario.prices, run)] if scenario.prices else []
    prices += [NAMED_AGAIN] if scenario.prices and run.settings.prices is None else []
    others = [words for key, words in PASSED_OVER.items() if key in passed]
    notes = [*found.notes, *prices, *others, *([AT_HOME] if here else [])]
    tab.notice = " ".join([f"Opened: {printable(file.name, LONGEST_TITLE)}.", *notes])
    return back(tab)


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


def _prices_words(named: str, run: RunState) -> str:
    """Return that a price list that a scenario names is not looked at, and which one counts."""
    ours = run.settings.prices
    here = "of the catalogue" if ours is None else f"of {printable(str(ours), LONGEST_PATH)}"
    return OTHER_PRICES.format(named=printable(named, LONGEST_TITLE), here=here)


def _sent(file: HeldFile | None, run: RunState) -> tuple[Scenario, HeldFile, frozenset[str]]:
    """Return the scenario in a file that was sent, the file, and the keys it passes over."""
    if file is None:
        raise InputError([Fault("file", "none is chosen; choose one first.")])
    own = bool(run.own_flowers)
    scenario, passed = sent_scenario(file, run.catalogue, own_flowers=own)
    return scenario, file, passed


def _of_flowers_here(values: FormValues, run: RunState) -> tuple[FormValues, str]:
    """Return values without flowers that are not here, and a sentence that names these.

    They were of a table that the page was started with then, or the catalogue has lost them.
    """
    ticked = values.get("flower", ())
    gone = [name for name in ticked if name not in run.catalogue.flowers]
    if not gone:
        return values, ""
    here = [name for name in ticked if name not in gone]
    names = joined([printable(name, LONGEST_TITLE) for name in gone])
    told = (
        f"Not here, and so left out: {names}. A table of your own flowers is named when the page is"
        " started (--flowers). "
    )
    return {**values, "flower": here}, told


def _with_home(values: FormValues, run: RunState) -> FormValues:
    """Return values in which what is at home now is marked, in place of what was at home then."""
    if run.home is None:
        return values
    box = run.home.box
    marked = {key: typed for key, typed in values.items() if not _is_level(key, typed)}
    owned = {
        key
        for key, typed in marked.items()
        if list(typed) == [OWNED] and box.left(key.removeprefix("tube-"))
    }
    return {**home_values(box), **{k: typed for k, typed in marked.items() if k not in owned}}


def _without_levels(values: FormValues) -> FormValues:
    return {key: typed for key, typed in values.items() if not _is_level(key, typed)}


def _is_level(key: str, typed: Sequence[str]) -> bool:
    """Return whether a field marks a tube as at home, with how full it is."""
    return key.startswith("tube-") and "".join(typed).startswith(f"{OWNED} ")


def _told(error: InputError) -> tuple[Fault, ...]:
    """Return faults of a file as faults of its field."""
    return tuple(Fault("scenario", str(fault)) for fault in error.faults)
