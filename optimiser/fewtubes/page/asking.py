"""The pages on which a question is put together and sent off."""

from collections.abc import Collection
from itertools import count

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from fewtubes.catalogue.limits import shown
from fewtubes.catalogue.records import LASTS
from fewtubes.colour.display import HEX
from fewtubes.colour.photograph import MainColour, main_colours
from fewtubes.errors import Fault, InputError, OutputError
from fewtubes.page.at_home import known_values
from fewtubes.page.fields import LABELS
from fewtubes.page.finer_points import finer_words, opens_finer, opens_planned, planned_words
from fewtubes.page.form import monte_carlo_of, puddling_of
from fewtubes.page.intake import Intake, photograph_turn, read_form
from fewtubes.page.own_rows import own_rows
from fewtubes.page.photograph_words import photograph_name
from fewtubes.page.price_lists import asked_of, prices_chosen
from fewtubes.page.remembered import earlier, remember
from fewtubes.page.run_state import MOST_JOBS, MOST_PROCESSES, RunState
from fewtubes.page.tabs import FormValues, Tab
from fewtubes.page.worker import Task
from fewtubes.scenario.demands import LONGEST_PURPOSE
from fewtubes.words.counting import counted
from fewtubes.words.printable import printable

__all__ = [
    "BUSY",
    "ask",
    "ask_lasting",
    "at_home",
    "back",
    "colours",
    "found_tab",
    "no_tab",
    "open_page",
    "open_tab",
    "photograph",
    "question",
    "question_page",
]

PHOTOGRAPH_COLOURS = ("3", "4", "5", "6", "8", "10", "12")
"""How many colours may be asked for."""

USUAL_COLOURS = "6"

BUSY = "Other tabs keep this machine busy already; wait for one of them, or stop it, and ask again."


def found_tab(request: Request) -> Tab | None:
    """Return the tab that a request is about."""
    run: RunState = request.app.state.run
    return run.tabs.find(request.path_params["tab"])


def back(tab: Tab, place: str = "") -> Response:
    """Return the way back to a page of a tab."""
    return RedirectResponse(f"/tab/{tab.id}/{place}", status_code=303)


def no_tab(request: Request) -> Response:
    """Return what is said where there is no such tab."""
    run: RunState = request.app.state.run
    return run.render("no_tab.html", None, status=404)


async def open_page(request: Request) -> Response:
    """Take the token out of the address and into a cookie; the guard lets the right one pass."""
    run: RunState = request.app.state.run
    answer: Response = RedirectResponse("/", status_code=303)
    answer.set_cookie(
        run.settings.cookie,
        run.settings.token,
        httponly=True,
        samesite="strict",
        path="/",
    )
    return answer


async def open_tab(request: Request) -> Response:
    """Begin afresh, beside whatever other tabs do."""
    run: RunState = request.app.state.run
    return back(run.tabs.open())


async def question(request: Request) -> Response:
    """Show the form as it was filled in last."""
    tab = found_tab(request)
    return no_tab(request) if tab is None else question_page(request, tab)


async def ask(request: Request) -> Response:
    """Take the form and begin the work."""
    tab = found_tab(request)
    if tab is None:
        return no_tab(request)
    try:
        values = (await read_form(request)).values
    except InputError as error:
        return question_page(request, tab, faults=error.faults)
    return await _begin(request, tab, values)


async def ask_lasting(request: Request) -> Response:
    """Begin the same work once more, with tubes that last."""
    tab = found_tab(request)
    if tab is None or tab.last is None:
        return no_tab(request)
    return await _begin(request, tab, {**tab.last.values, "lightfastness": [LASTS.name]})


async def _begin(request: Request, tab: Tab, values: FormValues) -> Response:
    """Begin the work that is asked for, in place of any that goes on for this tab."""
    run: RunState = request.app.state.run
    tab.values = values
    try:
        scenario, trials = asked_of(values, run), monte_carlo_of(values)
        puddling = puddling_of(values)
    except InputError as error:
        return question_page(request, tab, faults=error.faults)
    settings = run.settings
    task = Task(
        scenario,
        settings.catalogue,
        settings.cache,
        settings.seconds,
        trials,
        puddling,
        prices=prices_chosen(values, settings.prices),
        flowers=settings.flowers,
    )
    async with run.beginning:  # two windows may send the same tab's form at once
        if tab.job is not None:
            await run_in_threadpool(tab.job.stop)
            tab.job = None
        if run.tabs.running() >= MOST_JOBS:
            tab.notice = BUSY
            return back(tab)
        for job in run.tabs.giving_way(MOST_PROCESSES - 1):
            await run_in_threadpool(job.stop)
        tab.job, tab.asked = await run_in_threadpool(run.start, task), values
    await run_in_threadpool(remember, run, tab)
    return back(tab, "work")


async def photograph(request: Request) -> Response:
    """Find the main colours of a photograph; it is gone when this returns."""
    tab = found_tab(request)
    if tab is None:
        return no_tab(request)
    run: RunState = request.app.state.run
    try:
        async with photograph_turn(request):
            intake = await read_form(request)
            tab.values = intake.values
            tab.found = await run_in_threadpool(_main_colours, intake, run)
    except InputError as error:
        return question_page(request, tab, faults=error.faults)
    tab.values = {**tab.values, "take": [colour.hex for colour in tab.found]}
    return back(tab, "#found")


async def colours(request: Request) -> Response:
    """Take the ticked colours of the photograph among the painter's own."""
    tab = found_tab(request)
    if tab is None:
        return no_tab(request)
    try:
        tab.values = _with_taken((await read_form(request)).values)
    except InputError as error:
        return question_page(request, tab, faults=error.faults)
    return back(tab, "#own")


async def at_home(request: Request) -> Response:
    """Save what is marked as at home to the file of the box, the one the page was started with."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None or run.home is None:
        return no_tab(request)
    try:
        tab.values = (await read_form(request)).values
        box = await run_in_threadpool(run.home.save, tab.values)
    except InputError as error:
        return question_page(request, tab, faults=error.faults)
    except OutputError as error:
        return question_page(request, tab, faults=(Fault("tubes", str(error)),))
    tab.values = {**tab.values, **known_values(box)}
    tab.saved = f"Saved in {printable(run.home.name)}: {counted(len(box.tubes), 'tube')}."
    return back(tab, "#tubes")


def question_page(request: Request, tab: Tab, *, faults: tuple[Fault, ...] = ()) -> Response:
    """Return the form as it was filled in last, with its faults."""
    run: RunState = request.app.state.run
    saved, tab.saved = tab.saved, ""
    flower_said, tab.flower_said = tab.flower_said, ""
    told = [(fault.where if fault.where in LABELS else "flowers", fault.what) for fault in faults]
    return run.render(
        "question.html",
        tab,
        status=422 if faults else 200,
        values=tab.values,
        faults=told,
        saved=saved,
        earlier=earlier(run),
        flower_said=flower_said,
        finer=finer_words(tab.values, run.tabs.first_values()),
        finer_open=opens_finer(tab.values, run.tabs.first_values(), [where for where, _ in told]),
        planned_words=planned_words(tab.values),
        planned_open=opens_planned(tab.values, [where for where, _ in told]),
        counts=PHOTOGRAPH_COLOURS,
        usual_count=USUAL_COLOURS,
        longest_purpose=LONGEST_PURPOSE,
        **run.choices(),
    )


def _main_colours(intake: Intake, run: RunState) -> tuple[MainColour, ...]:
    if intake.photograph is None:
        raise InputError([Fault("photograph", "none is chosen; choose a file first.")])
    wanted = next(iter(intake.values.get("photograph-colours", ())), USUAL_COLOURS)
    most = int(wanted if wanted in PHOTOGRAPH_COLOURS else USUAL_COLOURS)
    middle = bool(intake.values.get("photograph-middle"))
    pixels = run.unpacker.unpack(intake.photograph)
    return main_colours(pixels, most=most, middle_only=middle)


def _with_taken(values: FormValues) -> FormValues:
    """Return the values with a row for each ticked colour that has none yet."""
    rows = own_rows(values)
    names = {row.name for row in rows}
    given = {row.hex.strip().lower() for row in rows}
    added: list[tuple[str, str]] = []
    for hex_ in dict.fromkeys(values.get("take", ())):
        if not HEX.fullmatch(hex_):
            raise InputError([Fault("colours", f"{shown(hex_)} is no colour that was found.")])
        if hex_.lower() not in given:
            name = _free_name(photograph_name(hex_), names)
            names.add(name)
            added.append((name, hex_))
    return {
        **{key: value for key, value in values.items() if key != "take"},
        "colour-name": [*(row.name for row in rows), *(name for name, _ in added)],
        "colour-hex": [*(row.hex for row in rows), *(hex_ for _, hex_ in added)],
        "colour-importance": [*(row.importance for row in rows), *("1" for _ in added)],
    }


def _free_name(stem: str, taken: Collection[str]) -> str:
    """Return a name, with a number behind it if it is taken; the script does the same."""
    numbered = (f"{stem} {number}" for number in count(2))
    return stem if stem not in taken else next(name for name in numbered if name not in taken)
