"""The pages on which work is followed and its answer looked at, compared and taken away."""

import anyio
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response

from fewtubes.errors import InputError
from fewtubes.page.aside_task import PLACES
from fewtubes.page.asking import back, found_tab, no_tab
from fewtubes.page.differences import differences
from fewtubes.page.fields import first_of
from fewtubes.page.files_to_take import HANDOUT, REPORT
from fewtubes.page.intake import read_form
from fewtubes.page.job import State
from fewtubes.page.tabs import Held, Tab
from fewtubes.report.plan_files import plan_files
from fewtubes.tables.spreadsheet import Spreadsheet

__all__ = [
    "TYPES",
    "answer",
    "compare",
    "costs",
    "download",
    "inks",
    "keep",
    "progress",
    "spreadsheet",
    "stop",
    "working",
]

SPREADSHEET_PLACES = ("answer", *PLACES)
"""Pages of a tab with tables to take away."""

TYPES = {"csv": "text/csv; header=present", "json": "application/json", "html": "text/html"}
"""Media types by ending; RFC 4180 names the parameter of the first."""

REPORT_SECONDS = 45.0
"""Longest wait for the comparison, to put it into the illustrated report [s]."""

LOOK_SECONDS = 0.1
"""Between two looks whether it is there [s]."""


async def working(request: Request) -> Response:
    """Show how far the work is."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None:
        return no_tab(request)
    if tab.job is None:
        return back(tab, "answer" if tab.last else "")
    if tab.job.state is not State.RUNNING:
        return _told_why(tab)
    notice = tab.notice
    page: Response = run.render("working.html", tab, job=tab.job)
    tab.notice = notice  # this page is left at once: it is said on the next one again
    return page


async def progress(request: Request) -> Response:
    """Tell the script how far the work is."""
    tab = found_tab(request)
    if tab is None:
        return JSONResponse({"state": "none"}, status_code=404)
    job = tab.job
    if job is None:
        return JSONResponse({"state": State.DONE if tab.last else "none"})
    return JSONResponse(
        {"state": job.state, "stages": list(job.stages), "seconds": round(job.seconds)}
    )


async def stop(request: Request) -> Response:
    """Stop the work; the last answer, if any, stays."""
    tab = found_tab(request)
    if tab is None:
        return no_tab(request)
    job, tab.job = tab.job, None
    if job is not None:
        await run_in_threadpool(job.stop)
        tab.notice = "Stopped; nothing was changed."
    return back(tab)


async def answer(request: Request) -> Response:
    """Show the last answer."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None:
        return no_tab(request)
    if tab.last is None:
        return back(tab, "work" if tab.job else "")
    page: Response = run.render("answer.html", tab, answer=tab.last.answer)
    return page


async def costs(request: Request) -> Response:
    """Return coverage against cost for the script, or tell that it is not there yet."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None or tab.last is None:
        return Response(status_code=404)
    job = tab.last.job
    if job.costs is None and not job.ended.is_set():
        return Response(status_code=202)
    page: Response = run.render("costs.html", None, job=job)
    return page


async def keep(request: Request) -> Response:
    """Keep the last answer, to compare the next one with it."""
    tab = found_tab(request)
    if tab is None:
        return no_tab(request)
    if tab.keep():
        tab.notice = "Kept as A. Change something and ask again: the next answer is B."
    return back(tab)


async def compare(request: Request) -> Response:
    """Show the kept answer and the last one side by side."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None:
        return no_tab(request)
    if tab.kept is None or tab.last is None:
        return back(tab, "answer")
    rows = differences(tab.kept.answer, tab.last.answer, run.settings.prices)
    page: Response = run.render("compare.html", tab, rows=rows)
    return page


async def inks(request: Request) -> Response:
    """Return the paper's colour and the inks as a style sheet."""
    tab = found_tab(request)
    text = "" if tab is None or tab.last is None else tab.last.answer.inks
    return Response(text, media_type="text/css")


async def download(request: Request) -> Response:
    """Return one file of an answer, as the library writes it."""
    tab = found_tab(request)
    held = None if tab is None else _held(tab, request.path_params["which"])
    if tab is None or held is None:
        return no_tab(request)
    name = request.path_params["name"]
    if name == REPORT:
        return await _report(held)
    if name == HANDOUT and held.answer.handout:
        return _file(HANDOUT, held.answer.handout)
    files = plan_files(held.answer.plan, spreadsheet=tab.spreadsheet)
    if name not in files:
        return no_tab(request)
    return _file(name, files[name])


async def spreadsheet(request: Request) -> Response:
    """Choose what the tables that are taken away are made for."""
    tab, place = found_tab(request), request.path_params["place"]
    if tab is None or place not in SPREADSHEET_PLACES:
        return no_tab(request)
    try:
        wanted = first_of((await read_form(request)).values, "spreadsheet")
        tab.spreadsheet = Spreadsheet(wanted)
    except (InputError, ValueError):
        return no_tab(request)
    return back(tab, f"{place}#take")


async def _report(held: Held) -> Response:
    """Return the illustrated report, with coverage against cost if that is there in time."""
    job = held.job
    with anyio.move_on_after(REPORT_SECONDS):
        while job.costs is None and not job.ended.is_set():
            await anyio.sleep(LOOK_SECONDS)
    if job.report is None:
        return PlainTextResponse("The report could not be drawn; ask again.\n", status_code=503)
    return _file(REPORT, job.report)


def _file(name: str, text: str) -> Response:
    return Response(
        text.encode("utf-8"),
        media_type=TYPES[name.rpartition(".")[2]],
        headers={"Content-Disposition": f'attachment; filename="{name}"'},
    )


def _held(tab: Tab, which: str) -> Held | None:
    return {"last": tab.last, "kept": tab.kept}.get(which)


def _told_why(tab: Tab) -> Response:
    """Return to the form and say there why the work gave no answer; go on if it gave one."""
    tab.settle()  # it may have come since this tab was looked up
    if tab.job is None and tab.last is not None:
        return back(tab, "answer")
    if tab.job is not None:
        tab.notice = tab.job.sentence
        tab.job = None
    return back(tab)
