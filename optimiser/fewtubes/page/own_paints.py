"""The page of a painter's own paints: a card is printed, swatches are fitted, tubes are kept."""

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from fewtubes.card.asked import PDF_NAME
from fewtubes.card.drawing import card_pdf
from fewtubes.card.layout_text import LAYOUT_NAME, layout_text
from fewtubes.errors import Fault, InputError, OutputError
from fewtubes.page.adding import Added, added, chosen_tubes
from fewtubes.page.asking import BUSY, back, found_tab, no_tab
from fewtubes.page.at_home import KNOWN, home_values
from fewtubes.page.fields import first_of
from fewtubes.page.fit_task import CardSent, FitTask
from fewtubes.page.followed import progress_of
from fewtubes.page.intake import Intake, photograph_turn, read_form
from fewtubes.page.paints_form import card_of, layout_sent
from fewtubes.page.run_state import MOST_JOBS, RunState
from fewtubes.page.tabs import Tab
from fewtubes.report.answer_files import fit_files
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = [
    "add",
    "fit_card",
    "fit_progress",
    "fit_table",
    "fit_working",
    "fitted_file",
    "paints",
    "print_card",
    "stop_fit",
]

PAINTS = "paints"
"""The place of the page within a tab."""

REPLACE = "replace"

Faults = tuple[Fault, ...]


async def paints(request: Request) -> Response:
    """Show what was fitted last, and what swatches can be brought in by."""
    tab = found_tab(request)
    if tab is None:
        return no_tab(request)
    faults, tab.fit_faults = tab.fit_faults, ()
    return _shown(request, tab, faults)


async def print_card(request: Request) -> Response:
    """Return a card to print, or its layout."""
    tab = found_tab(request)
    if tab is None:
        return no_tab(request)
    try:
        tab.fit_values = (await read_form(request)).values
        card = card_of(tab.fit_values)
    except InputError as error:
        return _shown(request, tab, error.faults)
    if request.path_params["name"] == LAYOUT_NAME:
        return _file(LAYOUT_NAME, layout_text(card).encode("utf-8"), "application/toml")
    return _file(PDF_NAME, await run_in_threadpool(card_pdf, card), "application/pdf")


async def fit_table(request: Request) -> Response:
    """Begin to fit tubes to a table of swatches."""
    tab = found_tab(request)
    if tab is None:
        return no_tab(request)
    try:
        intake = await read_form(request)
        tab.fit_values = intake.values
    except InputError as error:
        return _shown(request, tab, error.faults)
    file = intake.files.get("swatches")
    if file is None:
        what = "no table is chosen; choose a file first."
        return _shown(request, tab, (Fault("swatches", what),))
    settings = request.app.state.run.settings
    return await _begin(request, tab, FitTask(file, settings.catalogue, settings.cache))


async def fit_card(request: Request) -> Response:
    """Begin to fit tubes to a photographed card; the photograph is gone when this returns."""
    tab = found_tab(request)
    if tab is None:
        return no_tab(request)
    run: RunState = request.app.state.run
    try:
        async with photograph_turn(request):
            intake = await read_form(request)
            tab.fit_values = intake.values
            card = await run_in_threadpool(_card_sent, intake, run)
    except InputError as error:
        return _shown(request, tab, error.faults)
    return await _begin(request, tab, FitTask(card, run.settings.catalogue, run.settings.cache))


async def fit_working(request: Request) -> Response:
    """Show how far the fit is."""
    tab = found_tab(request)
    if tab is None:
        return no_tab(request)
    run: RunState = request.app.state.run
    if tab.fit_job is None:
        return back(tab, f"{PAINTS}#{'fitted' if tab.fitted else 'main'}")
    return run.render("fitting.html", tab, job=tab.fit_job)


async def fit_progress(request: Request) -> Response:
    """Tell the script how far the fit is."""
    tab = found_tab(request)
    if tab is None:
        return JSONResponse({"state": "none"}, status_code=404)
    return JSONResponse(progress_of(tab.fit_job))


async def stop_fit(request: Request) -> Response:
    """Stop the fit; what was fitted before stays."""
    tab = found_tab(request)
    if tab is None:
        return no_tab(request)
    job, tab.fit_job = tab.fit_job, None
    if job is not None:
        await run_in_threadpool(job.stop)
        tab.notice = "Stopped; nothing was changed."
    return back(tab, PAINTS)


async def fitted_file(request: Request) -> Response:
    """Return a table of what was fitted."""
    tab, name = found_tab(request), request.path_params["name"]
    files = {} if tab is None or tab.fitted is None else fit_files(tab.fitted.fit)
    if name not in files:
        return no_tab(request)
    return _file(name, files[name].encode("utf-8"), "text/csv; header=present")


async def add(request: Request) -> Response:
    """Add fitted tubes to the catalogue and the box that the page was started with."""
    tab = found_tab(request)
    run: RunState = request.app.state.run
    folder = run.settings.catalogue
    if tab is None or tab.fitted is None or folder is None:
        return no_tab(request)
    fit = tab.fitted.fit
    try:
        values = (await read_form(request)).values
        tab.add_values = values
        tubes = chosen_tubes(fit, values)
        async with run.adding:
            done = await run_in_threadpool(
                added, tubes, fit, folder, run.home, may_replace=bool(values.get(REPLACE))
            )
            await run_in_threadpool(run.restock, done.catalogue)
    except InputError as error:
        return _shown(request, tab, error.faults)
    except OutputError as error:
        return _shown(request, tab, (Fault("add", str(error)),))
    tab.add_values = {}
    tab.added = _told(done, run)
    _mark(tab, run, done)
    return back(tab, f"{PAINTS}#added")


async def _begin(request: Request, tab: Tab, task: FitTask) -> Response:
    """Begin a fit in place of any that goes on for this tab."""
    run: RunState = request.app.state.run
    async with run.beginning:
        if tab.fit_job is not None:
            await run_in_threadpool(tab.fit_job.stop)
            tab.fit_job = None
        if run.tabs.running() >= MOST_JOBS:
            tab.notice = BUSY
            return back(tab, PAINTS)
        tab.fit_job = await run_in_threadpool(run.start_fit, task)
    return back(tab, f"{PAINTS}/work")


def _card_sent(intake: Intake, run: RunState) -> CardSent:
    """Return a photograph unpacked, and where swatches are on it."""
    if intake.photograph is None:
        raise InputError([Fault("photograph", "none is chosen; choose a file first.")])
    photograph = run.unpacker.unpack_card(intake.photograph)
    layout = layout_sent(intake, photograph)
    return CardSent(printable(intake.files["photograph"].name), photograph, layout)


def _mark(tab: Tab, run: RunState, done: Added) -> None:
    """Mark the tubes as at home in the form of this tab, if there is a box that holds them."""
    if run.home is None:
        return
    box = run.home.box
    marks = home_values(box)
    new = [f"tube-{id_}" for id_ in done.ids.values() if f"tube-{id_}" in marks]
    known = [*first_of(tab.values, KNOWN).split(), *done.ids.values()]
    tab.values = {
        **tab.values,
        **{field: marks[field] for field in new},
        KNOWN: [" ".join(dict.fromkeys(known))],
    }


def _told(done: Added, run: RunState) -> tuple[str, ...]:
    """Return what became of the tubes, a sentence each."""
    replaced = [printable(name) for name, id_ in done.ids.items() if id_ in done.replaced]
    before = [f"Replaced: {joined(replaced)}."] if replaced else []
    where = f"Saved in {run.saved_in}: {counted(len(done.ids), 'tube')}."
    return (where, *before, *done.told)


def _shown(request: Request, tab: Tab, faults: Faults = ()) -> Response:
    run: RunState = request.app.state.run
    told, tab.added = tab.added, ()
    return run.render(
        "paints.html",
        tab,
        status=422 if faults else 200,
        values=tab.fit_values,
        faults=faults,
        added=told,
        can_add=run.settings.catalogue is not None,
    )


def _file(name: str, content: bytes, media_type: str) -> Response:
    disposition = {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(content, media_type=media_type, headers=disposition)
