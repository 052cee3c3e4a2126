"""The page as an ASGI application."""

from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from importlib.resources import files

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fewtubes.catalogue.records import Catalogue
from fewtubes.page import (
    answering,
    asides,
    asking,
    bit_by_bit,
    flower_making,
    own_paints,
    remembering,
    scenario_files,
)
from fewtubes.page.aside_job import AsideJob, start_aside
from fewtubes.page.aside_task import AsideTask
from fewtubes.page.assortment import Assortment
from fewtubes.page.fit_job import FitJob, start_fit
from fewtubes.page.fit_task import FitTask
from fewtubes.page.guard import Guard
from fewtubes.page.job import Job, start
from fewtubes.page.run_state import RunState
from fewtubes.page.settings import Settings
from fewtubes.page.worker import Task

__all__ = ["make_app"]

STATIC = {
    "page.css": ("fewtubes.page", "static/page.css", "text/css"),
    "page.js": ("fewtubes.page", "static/page.js", "text/javascript"),
    "flower.js": ("fewtubes.page", "static/flower.js", "text/javascript"),
    "paints.js": ("fewtubes.page", "static/paints.js", "text/javascript"),
    "mark.svg": ("fewtubes.page", "static/mark.svg", "image/svg+xml"),
    "illustrated.css": ("fewtubes.report.illustrated", "page.css", "text/css"),
}
"""Package, place in it and media type of each file that pages refer to."""


def make_app(
    settings: Settings,
    catalogue: Catalogue,
    assortment: Assortment,
    *,
    begin: Callable[[Task], Job] = start,
    begin_fit: Callable[[FitTask], FitJob] = start_fit,
    begin_aside: Callable[[AsideTask], AsideJob] = start_aside,
) -> Starlette:
    """Return the application.

    Parameters
    ----------
    settings
        Of this run.
    catalogue, assortment
        What can be chosen from.
    begin, begin_fit, begin_aside
        Begin the long work.
    """
    run = RunState.of(settings, catalogue, assortment, begin, begin_fit, start_aside=begin_aside)
    guard = Middleware(Guard, settings=settings, most_bytes=run.form_size.bytes)
    app = Starlette(
        routes=_routes(),
        middleware=[guard],
        exception_handlers={404: _not_here},
        lifespan=_lifespan,
    )
    app.state.run = run
    return app


def _routes() -> list[Route]:
    gets = {
        "/open/{token}": asking.open_page,
        "/": asking.open_tab,
        "/tab/{tab}/": asking.question,
        "/tab/{tab}/work": answering.working,
        "/tab/{tab}/progress": answering.progress,
        "/tab/{tab}/answer": answering.answer,
        "/tab/{tab}/costs": answering.costs,
        "/tab/{tab}/compare": answering.compare,
        "/tab/{tab}/inks.css": answering.inks,
        "/tab/{tab}/paints": own_paints.paints,
        "/tab/{tab}/paints/work": own_paints.fit_working,
        "/tab/{tab}/paints/progress": own_paints.fit_progress,
        "/tab/{tab}/paints/{name}": own_paints.fitted_file,
        "/tab/{tab}/why": asides.why_page,
        "/tab/{tab}/box": asides.box_page,
        "/tab/{tab}/mix": asides.mix_page,
        "/tab/{tab}/instalments": bit_by_bit.instalments_page,
        "/tab/{tab}/instalments/inks.css": bit_by_bit.instalments_inks,
        "/tab/{tab}/aside/work": asides.aside_working,
        "/tab/{tab}/aside/progress": asides.aside_progress,
        "/tab/{tab}/found/{place}/{name}": asides.aside_file,
        "/tab/{tab}/{which}/{name}": answering.download,
        "/static/{name}": _static,
    }
    posts = {
        "/tab/{tab}/ask": asking.ask,
        "/tab/{tab}/lasting": asking.ask_lasting,
        "/tab/{tab}/photograph": asking.photograph,
        "/tab/{tab}/colours": asking.colours,
        "/tab/{tab}/flower/new": flower_making.new_flower,
        "/tab/{tab}/flower/photograph": flower_making.flower_from_photograph,
        "/tab/{tab}/flower/row/{number}": flower_making.another_row,
        "/tab/{tab}/flower/out/{number}": flower_making.without_flower,
        "/tab/{tab}/flower/table": flower_making.flower_table,
        "/tab/{tab}/at-home": asking.at_home,
        "/tab/{tab}/earlier": remembering.open_earlier,
        "/tab/{tab}/forget": remembering.forget,
        "/tab/{tab}/remember": remembering.switch,
        "/tab/{tab}/scenario": scenario_files.save_scenario,
        "/tab/{tab}/open": scenario_files.open_scenario,
        "/tab/{tab}/paints/table": own_paints.fit_table,
        "/tab/{tab}/paints/photograph": own_paints.fit_card,
        "/tab/{tab}/paints/stop": own_paints.stop_fit,
        "/tab/{tab}/paints/add": own_paints.add,
        "/tab/{tab}/paints/card/{name}": own_paints.print_card,
        "/tab/{tab}/why": asides.ask_why,
        "/tab/{tab}/box": asides.ask_box,
        "/tab/{tab}/mix": asides.ask_mix,
        "/tab/{tab}/instalments": bit_by_bit.ask_instalments,
        "/tab/{tab}/aside/stop": asides.stop_aside,
        "/tab/{tab}/stop": answering.stop,
        "/tab/{tab}/keep": answering.keep,
        "/tab/{tab}/spreadsheet/{place}": answering.spreadsheet,
    }
    return [
        *(Route(path, handler, methods=["GET"]) for path, handler in gets.items()),
        *(Route(path, handler, methods=["POST"]) for path, handler in posts.items()),
    ]


async def _not_here(request: Request, _error: Exception) -> Response:
    """Say on a page of its own that an address leads nowhere."""
    return asking.no_tab(request)


async def _static(request: Request) -> Response:
    found = STATIC.get(request.path_params["name"])
    if found is None:
        return Response(status_code=404)
    package, place, media_type = found
    return Response((files(package) / place).read_bytes(), media_type=media_type)


@asynccontextmanager
async def _lifespan(app: Starlette) -> AsyncIterator[None]:
    """Leave no work behind."""
    yield
    await run_in_threadpool(app.state.run.close)
