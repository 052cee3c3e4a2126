"""The pages of questions beside the choice of tubes, and how they are asked and followed."""

from collections.abc import Mapping

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from fewtubes.comparison.box_findings import Box
from fewtubes.comparison.mixes import Mixes
from fewtubes.comparison.reasons import Why
from fewtubes.errors import InputError
from fewtubes.page.answering import TYPES
from fewtubes.page.aside_task import (
    BOX,
    INSTALMENTS,
    MIX,
    WHY,
    AsideAsked,
    AsideTask,
    BoxAsked,
    ContentsAsked,
    WhyAsked,
)
from fewtubes.page.asking import BUSY, back, found_tab, no_tab, question_page
from fewtubes.page.at_home import OWNED, left_chosen, marked_box, wish_of
from fewtubes.page.drawn_instalments import DrawnInstalments
from fewtubes.page.fields import first_of
from fewtubes.page.followed import progress_of
from fewtubes.page.form import puddling_of
from fewtubes.page.intake import read_form
from fewtubes.page.mix_form import MixForm, mix_asked, mix_form
from fewtubes.page.own_rows import own_rows
from fewtubes.page.price_lists import asked_of, prices_chosen
from fewtubes.page.run_state import MOST_JOBS, MOST_PROCESSES, RunState
from fewtubes.page.tabs import FormValues, Tab
from fewtubes.report.answer_files import box_files, mix_files, why_files
from fewtubes.scenario.home_box import BoxAtHome, TubeAtHome

__all__ = [
    "aside_file",
    "aside_progress",
    "aside_working",
    "ask_box",
    "ask_mix",
    "ask_why",
    "begin_aside",
    "box_page",
    "mix_page",
    "stop_aside",
    "why_page",
]

CAME_FROM = {WHY: "answer", BOX: "", MIX: MIX, INSTALMENTS: INSTALMENTS}
"""Where a question was asked, to go back to if there is no answer."""


async def ask_why(request: Request) -> Response:
    """Ask why the last answer has these tubes."""
    tab = found_tab(request)
    if tab is None or tab.last is None:
        return no_tab(request)
    asked = WhyAsked(tab.last.answer.plan, puddling_of(tab.last.values))
    return await begin_aside(request, tab, asked)


async def ask_box(request: Request) -> Response:
    """Ask what the tubes marked as at home are worth for what is chosen, or what they are."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None:
        return no_tab(request)
    try:
        tab.values = (await read_form(request)).values
        asked = _box_asked(tab.values, run)
    except InputError as error:
        return question_page(request, tab, faults=error.faults)
    return await begin_aside(request, tab, asked)


async def ask_mix(request: Request) -> Response:
    """Ask how to mix one colour."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None:
        return no_tab(request)
    try:
        tab.mix_values = (await read_form(request)).values
        asked = mix_asked(tab.mix_values, run, tab)
    except InputError as error:
        tab.aside_fault = " ".join(str(fault) for fault in error.faults)
        return back(tab, MIX)
    return await begin_aside(request, tab, asked)


async def why_page(request: Request) -> Response:
    """Show why these tubes."""
    return _shown(request, WHY)


async def box_page(request: Request) -> Response:
    """Show what the box is worth."""
    return _shown(request, BOX)


async def mix_page(request: Request) -> Response:
    """Show the mixes of a colour, and ask for another."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None:
        return no_tab(request)
    fault, tab.aside_fault = tab.aside_fault, ""
    form = mix_form(tab, run, dict(request.query_params))
    return _page(run, tab, MIX, fault=fault, form=form)


async def aside_working(request: Request) -> Response:
    """Show how far the work is."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None:
        return no_tab(request)
    if tab.aside_job is None:
        return back(tab, tab.aside_place)
    page: Response = run.render("aside.html", tab, job=tab.aside_job)
    return page


async def aside_progress(request: Request) -> Response:
    """Tell the script how far the work is."""
    tab = found_tab(request)
    if tab is None:
        return JSONResponse({"state": "none"}, status_code=404)
    return JSONResponse(progress_of(tab.aside_job))


async def stop_aside(request: Request) -> Response:
    """Stop the work; what was found before stays."""
    tab = found_tab(request)
    if tab is None:
        return no_tab(request)
    job, tab.aside_job = tab.aside_job, None
    if job is None:
        return back(tab)
    await run_in_threadpool(job.stop)
    tab.notice = "Stopped; nothing was changed."
    return back(tab, CAME_FROM[job.place])


async def aside_file(request: Request) -> Response:
    """Return a file of what was found."""
    tab, name = found_tab(request), request.path_params["name"]
    files = {} if tab is None else _files(tab, request.path_params["place"])
    if name not in files:
        return no_tab(request)
    disposition = {"Content-Disposition": f'attachment; filename="{name}"'}
    media_type = TYPES[name.rpartition(".")[2]]
    return Response(files[name].encode("utf-8"), media_type=media_type, headers=disposition)


async def begin_aside(request: Request, tab: Tab, asked: AsideAsked) -> Response:
    """Begin the work that is asked for, in place of any of the kind that goes on for this tab."""
    run: RunState = request.app.state.run
    settings = run.settings
    task = AsideTask(
        asked,
        settings.catalogue,
        settings.cache,
        settings.seconds,
        prices=prices_chosen(_asked_with(tab, asked), settings.prices),
        flowers=settings.flowers,
    )
    async with run.beginning:
        if tab.aside_job is not None:
            await run_in_threadpool(tab.aside_job.stop)
            tab.aside_job = None
        if run.tabs.running() >= MOST_JOBS:
            tab.notice = BUSY
            return back(tab, CAME_FROM[asked.place])
        for job in run.tabs.giving_way(MOST_PROCESSES - 1):
            await run_in_threadpool(job.stop)
        tab.aside_place = CAME_FROM[asked.place]
        tab.aside_job = await run_in_threadpool(run.start_aside, task)
    return back(tab, "aside/work")


def _asked_with(tab: Tab, asked: AsideAsked) -> FormValues:
    """Return the form by which something is asked: that of the last answer if it is about that."""
    of_answer = asked.place in (WHY, INSTALMENTS) and tab.last is not None
    return tab.last.values if of_answer and tab.last is not None else tab.values


def _box_asked(values: FormValues, run: RunState) -> AsideAsked:
    """Return what is asked of the box: of what is to be painted, or of itself if that is nothing.

    What must be bought is what the painter is about to buy.
    """
    if values.get("flower") or own_rows(values):
        scenario = asked_of(values, run)
        return BoxAsked(scenario, scenario.wishes.must_have)
    marked = marked_box(values, run.box, run.catalogue)
    owned = [
        TubeAtHome(id_)
        for id_ in run.catalogue.tubes
        if wish_of(values, id_) == OWNED and left_chosen(values, id_) is None
    ]
    box = BoxAtHome((*marked.tubes, *owned), title=marked.title)
    return ContentsAsked(box, first_of(values, "paper"), first_of(values, "light"))


def _shown(request: Request, place: str) -> Response:
    tab, run = found_tab(request), request.app.state.run
    if tab is None:
        return no_tab(request)
    if place not in tab.asides:
        return back(tab, CAME_FROM[place])
    return _page(run, tab, place)


def _page(
    run: RunState, tab: Tab, place: str, *, fault: str = "", form: MixForm | None = None
) -> Response:
    page: Response = run.render(
        f"{place}.html", tab, found=tab.asides.get(place), fault=fault, form=form
    )
    return page


def _files(tab: Tab, place: str) -> Mapping[str, str]:
    """Return the files of what was found, by name."""
    match tab.asides.get(place):
        case Why() as why:
            return why_files(why, tab.spreadsheet)
        case Box() as box:
            return box_files(box, tab.spreadsheet)
        case Mixes() as mixes:
            return mix_files(mixes, tab.spreadsheet)
        case DrawnInstalments() as bought:
            return bought.files(tab.spreadsheet)
    return {}
