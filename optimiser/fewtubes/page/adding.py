"""Fitted tubes go into the painter's own catalogue, and into the box at home with it or not at all.

Beside the box, the folder that the page was started with is all that it ever writes, and that when
it is told to.
"""

from collections.abc import Mapping, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, replace
from pathlib import Path

from fewtubes.catalogue.names import composed
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.errors import Fault, InputError
from fewtubes.files.journal import leftovers
from fewtubes.files.writing import write_together
from fewtubes.fitting.fit import Fit
from fewtubes.fitting.fitted import FittedTube
from fewtubes.keeping.fitted_tubes import with_fitted
from fewtubes.page.at_home import HomeFile
from fewtubes.page.fields import first_of
from fewtubes.page.tabs import FormValues

__all__ = ["Added", "added", "chosen_tubes"]


@dataclass(frozen=True, eq=False)
class Added:
    """What became of the tubes."""

    catalogue: Catalogue
    """As it is now."""
    ids: Mapping[str, str]
    """Of each tube by its name."""
    replaced: tuple[str, ...]
    """Ids of tubes that were there before."""
    told: tuple[str, ...]
    """Where lightfastness and hazards come from."""


def chosen_tubes(fit: Fit, values: FormValues) -> tuple[FittedTube, ...]:
    """Return the tubes that were ticked, with the names that were typed.

    Raises
    ------
    InputError
        If none is ticked, or one has no name.
    """
    ticked = set(values.get("take", ()))
    chosen = []
    for place, tube in enumerate(fit.tubes):
        if str(place) not in ticked:
            continue
        name = composed(" ".join(first_of(values, f"name-{place}").split()))
        if not name:
            raise InputError([Fault("add", f"tube {place + 1} has no name; give it one.")])
        chosen.append(replace(tube, painted=replace(tube.painted, name=name)))
    if not chosen:
        raise InputError([Fault("add", "no tube is ticked; tick those to be added.")])
    return tuple(chosen)


def added(
    tubes: Sequence[FittedTube],
    fit: Fit,
    folder: Path,
    home: HomeFile | None,
    *,
    may_replace: bool,
) -> Added:
    """Add tubes to a catalogue's folder and to the box at home, to both or to neither.

    Parameters
    ----------
    tubes
        Of the fit, under the names that they are to have.
    fit
        Says on which paper they were painted.
    folder
        Of the catalogue.
    home
        The box at home, if there is one; a tube that it holds already is left as full as it is.
    may_replace
        Whether tubes of the same name give way.

    Raises
    ------
    InputError
        As of `with_fitted`, or if the box cannot be read.
    OutputError
        If something could not be written; nothing was changed then.
    """
    if leftovers(folder):
        write_together({folder: {}})  # what a run left that was cut off there is settled first
    kept = with_fitted(folder, tubes, fit.paper, replace=may_replace)
    ids = list(kept.ids.values())
    files: dict[Path, dict[str, str]] = {folder: dict(kept.files)}
    earlier: dict[Path, dict[str, bytes | str | None]] = {folder: dict(kept.earlier)}
    with ExitStack() as held:
        if home is not None:
            place, name, text, before = held.enter_context(home.with_put(ids))
            files.setdefault(place, {})[name] = text
            earlier.setdefault(place, {})[name] = before
        write_together(files, earlier=earlier)
    catalogue = read_catalogue(folder)
    if home is not None:
        home.restock(catalogue)
    return Added(catalogue, kept.ids, kept.replaced, kept.told)
