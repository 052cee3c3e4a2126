"""The process that fits tubes to swatches; a card's pixels end with it."""

import traceback
from collections.abc import Callable
from multiprocessing.connection import Connection

from fewtubes.errors import Fault, InputError
from fewtubes.page.fit_task import CardSent, FitFound, FitRefused, FitTask
from fewtubes.page.worker import Progress

__all__ = ["fit_work", "found_of"]

FAILED = "The program failed; what it says of it stands in the terminal."


def fit_work(task: FitTask, connection: Connection) -> None:
    """Do the task and tell of it; the entry of the process."""
    with connection:
        try:
            found = found_of(task, progress=lambda words: connection.send(Progress(words)))
            connection.send(found)
        except InputError as error:
            connection.send(FitRefused(error.faults))
        except (BrokenPipeError, EOFError):
            return  # nobody is listening any more
        except Exception:
            traceback.print_exc()
            connection.send(FitRefused((Fault("fit", FAILED),)))


def found_of(task: FitTask, *, progress: Callable[[str], None]) -> FitFound:
    """Return the fitted tubes.

    Parameters
    ----------
    task
        What is to be fitted.
    progress
        Called with a few words whenever a stage begins.

    Raises
    ------
    InputError
        If the swatches cannot be read, or contradict one another or what paint can do.
    """
    from fewtubes.card.reading import card_reading
    from fewtubes.coverage.cache import Cache
    from fewtubes.coverage.optics import usual_optics, usual_paper_lab
    from fewtubes.fitting.fit import fit
    from fewtubes.fitting.swatch_file import read_swatches
    from fewtubes.keeping.at_hand import papers_and_lights
    from fewtubes.page.fitted_cards import fitted_cards

    progress("reading the swatches")
    tables, cache = papers_and_lights(task.catalogue), Cache(task.cache)
    notes: tuple[str, ...] = ()
    if isinstance(task.swatches, CardSent):
        card = task.swatches
        paper = usual_paper_lab(tables, cache)
        reading = card_reading(card.photograph, card.layout, paper_lab=paper, label=card.label)
        sheet, notes = reading.sheet, reading.notes
    else:
        sheet = read_swatches(task.swatches)
    found = fit(sheet, catalogue=tables, cache=cache, progress=progress)
    return FitFound(found, (*found.notes, *notes), fitted_cards(found, usual_optics(tables, cache)))
