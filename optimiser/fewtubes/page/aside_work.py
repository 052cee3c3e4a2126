"""The process that answers a question beside the choice of tubes."""

import traceback
from collections.abc import Callable
from multiprocessing.connection import Connection

from fewtubes.errors import FewtubesError
from fewtubes.page.aside_task import (
    AsideFound,
    AsideTask,
    BoxAsked,
    ContentsAsked,
    Found,
    InstalmentsAsked,
    MixAsked,
    WhyAsked,
)
from fewtubes.page.worker import Ended, Progress

__all__ = ["aside_found", "aside_work"]

FAILED = "The program failed; what it says of it stands in the terminal."


def aside_work(task: AsideTask, connection: Connection) -> None:
    """Answer and tell of it; the entry of the process."""
    with connection:
        try:
            found = aside_found(task, progress=lambda words: connection.send(Progress(words)))
            connection.send(AsideFound(found))
        except FewtubesError as error:
            connection.send(Ended(str(error)))
        except (BrokenPipeError, EOFError):
            return  # nobody is listening any more
        except Exception:
            traceback.print_exc()
            connection.send(Ended(FAILED))


def aside_found(task: AsideTask, *, progress: Callable[[str], None]) -> Found:
    """Return the answer.

    Parameters
    ----------
    task
        What is asked, and from what.
    progress
        Called with a few words whenever a stage begins.

    Raises
    ------
    FewtubesError
        If there is none: the tables have faults, or the demands clash.
    """
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.comparison.box import box
    from fewtubes.comparison.box_contents import box_contents
    from fewtubes.comparison.instalments import instalments
    from fewtubes.comparison.mixes import mix
    from fewtubes.comparison.why_of import why_of
    from fewtubes.coverage.cache import Cache
    from fewtubes.page.drawn_instalments import drawn_instalments
    from fewtubes.page.tables_named import beside
    from fewtubes.shopping.shop import Limits

    progress("reading the catalogue")
    read = read_catalogue(task.catalogue)
    tables = beside(read, prices=task.prices, flowers=task.flowers)
    cache, asked = Cache(task.cache), task.asked
    limits = Limits(seconds=task.seconds)
    match asked:
        case WhyAsked():
            return why_of(
                tables,
                asked.plan,
                limits=limits,
                progress=progress,
                cache=cache,
                puddling=asked.puddling,
            )
        case BoxAsked():
            return box(
                tables,
                asked.scenario,
                about_to_buy=asked.about_to_buy,
                limits=limits,
                progress=progress,
                cache=cache,
            )
        case ContentsAsked():
            paper, light = asked.paper, asked.light
            return box_contents(tables, asked.box, paper=paper, light=light, cache=cache)
        case MixAsked():
            return mix(
                tables,
                asked.colour,
                tubes=asked.tubes,
                tolerance=asked.tolerance,
                paper=asked.paper,
                light=asked.light,
                lightfastness=asked.lightfastness,
                cache=cache,
                progress=progress,
            )
        case InstalmentsAsked():
            bought = instalments(
                tables,
                asked.scenario,
                sums=asked.sums,
                limits=limits,
                progress=progress,
                cache=cache,
            )
            progress("drawing the answer")
            return drawn_instalments(bought)
