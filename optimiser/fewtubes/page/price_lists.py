"""By which price list a question is asked: one of those that the page was started with."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from fewtubes.catalogue.price_list import with_prices
from fewtubes.catalogue.records import Catalogue
from fewtubes.page.fields import first_of
from fewtubes.page.form import scenario_of
from fewtubes.page.tabs import FormValues
from fewtubes.scenario.demands import currencies_to_choose
from fewtubes.scenario.records import Scenario
from fewtubes.words.printable import printable

if TYPE_CHECKING:
    from fewtubes.page.run_state import RunState

__all__ = [
    "PRICE_LIST",
    "asked_of",
    "currencies_of",
    "list_called",
    "list_words",
    "prices_chosen",
    "prices_here",
]

PRICE_LIST = "price-list"
"""Field of the price list that is chosen, as it was named when the page was started."""

LONGEST_PATH = 300
"""Characters of a folder's name."""


def prices_chosen(values: FormValues, lists: Sequence[Path]) -> Path | None:
    """Return the price list that is chosen, else the first; None for the catalogue's own prices."""
    chosen = first_of(values, PRICE_LIST).strip()
    return next((one for one in lists if str(one) == chosen), next(iter(lists), None))


def asked_of(values: FormValues, run: "RunState") -> Scenario:
    """Return the scenario that was filled in, by the price list that is chosen.

    Raises
    ------
    InputError
        As of `scenario_of`, or if a further price list cannot be read any more.
    """
    lists = run.settings.prices
    chosen = prices_chosen(values, lists)
    catalogue = run.catalogue
    if chosen is not None and chosen != lists[0]:
        catalogue = with_prices(catalogue, chosen)
    scenario = scenario_of(values, catalogue, run.box)
    return scenario if chosen is None else replace(scenario, prices=str(chosen))


def currencies_of(catalogue: Catalogue, further: Sequence[Path]) -> tuple[str, ...]:
    """Return the currencies of a catalogue and of further price lists, each once.

    Raises
    ------
    InputError
        With the faults of a list.
    """
    priced = [catalogue, *(with_prices(catalogue, one) for one in further)]
    return tuple(dict.fromkeys(code for one in priced for code in currencies_to_choose(one)))


def list_called(named: str, lists: Sequence[Path]) -> Path | None:
    """Return the one price list whose folder is called as that in a scenario's file; or None."""
    name = Path(named).name
    called = [one for one in lists if one.resolve().name == name]
    return called[0] if len(called) == 1 else None


def list_words(one: Path, lists: Sequence[Path]) -> str:
    """Return what a price list is called: its folder, with the way there where two are alike."""
    alike = [other for other in lists if other.resolve().name == one.resolve().name]
    return printable(one.resolve().name if len(alike) == 1 else str(one), LONGEST_PATH)


def prices_here(values: FormValues, lists: Sequence[Path]) -> str:
    """Return whose prices count, e.g. ``prices are those of the catalogue``."""
    ours = prices_chosen(values, lists)
    whose = "the catalogue" if ours is None else list_words(ours, lists)
    return f"prices are those of {whose}"
