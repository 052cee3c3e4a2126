"""The page on which buying bit by bit is asked of an answer's question, and looked at."""

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fewtubes.errors import InputError
from fewtubes.page.aside_task import INSTALMENTS, InstalmentsAsked
from fewtubes.page.asides import begin_aside
from fewtubes.page.asking import back, found_tab, no_tab
from fewtubes.page.drawn_instalments import DrawnInstalments
from fewtubes.page.intake import read_form
from fewtubes.page.remembered import remember
from fewtubes.page.sums_form import SUMS, sums_asked, sums_typed

__all__ = ["ask_instalments", "instalments_inks", "instalments_page"]


async def ask_instalments(request: Request) -> Response:
    """Ask what to buy with each of several sums, for the question of the last answer."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None or tab.last is None:
        return no_tab(request)
    scenario = tab.last.answer.plan.scenario
    try:
        sent = (await read_form(request)).values
        tab.values = {**tab.values, SUMS: [*sent.get(SUMS, ())]}
        asked = InstalmentsAsked(scenario, sums_asked(sent, scenario.currency))
    except InputError as error:
        tab.sum_faults = error.faults
        return back(tab, INSTALMENTS)
    begun = await begin_aside(request, tab, asked)
    await run_in_threadpool(remember, run, tab, {**tab.last.values, SUMS: tab.values[SUMS]})
    return begun


async def instalments_page(request: Request) -> Response:
    """Show what is bought with each sum, and ask for other sums."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None:
        return no_tab(request)
    found = tab.asides.get(INSTALMENTS)
    if tab.last is None and found is None:
        return back(tab)
    faults, tab.sum_faults = tab.sum_faults, ()
    page: Response = run.render(
        "instalments.html",
        tab,
        found=found,
        sums=sums_typed(tab.values),
        faults=[(fault.where, fault.what) for fault in faults],
        status=422 if faults else 200,
    )
    return page


async def instalments_inks(request: Request) -> Response:
    """Return the colour of the paper that was asked for, and the inks, as a style sheet."""
    tab = found_tab(request)
    found = None if tab is None else tab.asides.get(INSTALMENTS)
    text = found.inks if isinstance(found, DrawnInstalments) else ""
    return Response(text, media_type="text/css")
