"""How much of each tube is needed, in the whole numbers of `fewtubes.selection.terms`."""

from fewtubes.catalogue.exact import Number, exact
from fewtubes.scenario.records import Scenario
from fewtubes.selection.terms import Need

__all__ = ["THOUSANDTHS", "least_needs", "thousandths"]

THOUSANDTHS = 1000
"""Of a millilitre: what paint is counted in, so that sums of packs are exact."""


def thousandths(millilitres: Number) -> int:
    """Return paint [ml] in whole thousandths of a millilitre, to the nearest."""
    return round(exact(millilitres) * THOUSANDTHS)


def least_needs(scenario: Scenario, tube_count: int) -> tuple[Need, ...]:
    """Return what is needed of each tube if it is bought at all, whatever else is bought.

    Parameters
    ----------
    scenario
        Tells the paint that every tube bought must hold.
    tube_count
        Tubes of the catalogue.
    """
    return (Need(amount=thousandths(scenario.wishes.millilitres)),) * tube_count
