"""Earlier questions opened, all that is remembered forgotten or switched off."""

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fewtubes.errors import InputError, OutputError
from fewtubes.page.asking import back, found_tab, no_tab, question_page
from fewtubes.page.fields import first_of
from fewtubes.page.home_place import is_level, with_home
from fewtubes.page.intake import read_form
from fewtubes.page.price_lists import PRICE_LIST, prices_here
from fewtubes.page.remembered import LONGEST_PATH, LONGEST_TITLE
from fewtubes.page.run_state import RunState
from fewtubes.page.scenario_files import told_of_file
from fewtubes.page.tabs import FormValues
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = [
    "forget",
    "open_earlier",
    "switch",
]


OPEN_ONE = "The answer open in a tab stays there, at most until fewtubes is ended."
OPEN_SEVERAL = "The answers open in tabs stay there, at most until fewtubes is ended."
"""What is said of answers when all is forgotten that is kept from run to run."""


async def open_earlier(request: Request) -> Response:
    """Fill the form in as an earlier question was; the tubes at home are those of now."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None or run.memory is None:
        return no_tab(request)
    try:
        key = first_of((await read_form(request)).values, "question")
        held = await run_in_threadpool(run.memory.read)
    except InputError as error:
        return question_page(request, tab, faults=told_of_file(error))
    found = next((one for one in held.questions if one.key == key), None)
    if found is None or found.catalogue != run.catalogue_key:
        tab.notice = "That question is not remembered any more."
        return back(tab)
    values, left_out = _of_flowers_here(found.values, run)
    left_out += _other_list_words(values, run)
    tab.values = {**run.tabs.first_values(), **with_home(values, run.home)}
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
    if answers := run.tabs.answers():
        tab.notice += f" {OPEN_ONE if answers == 1 else OPEN_SEVERAL}"
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


def _other_list_words(values: FormValues, run: RunState) -> str:
    """Return that the price list of an earlier question is not here; blank if it is."""
    named, lists = first_of(values, PRICE_LIST).strip(), run.settings.prices
    if not named or named in map(str, lists):
        return ""
    shown = printable(named, LONGEST_PATH)
    return f"Its price list, {shown}, is not here: {prices_here(values, lists)}. "


def _without_levels(values: FormValues) -> FormValues:
    return {key: typed for key, typed in values.items() if not is_level(key, typed)}
