"""How much of each tube is needed, in the whole numbers of `fewtubes.selection.terms`."""

from fewtubes.catalogue.exact import Number, exact
from fewtubes.scenario.class_wish import TubesFor
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
        Tells the paint that every tube bought must hold, and the class that paints. With a tube for
        each painter there are as many as painters, which hold together what is wished for each;
        pans are filled from what the tubes hold together.
    tube_count
        Tubes of the catalogue.
    """
    wished, group = thousandths(scenario.wishes.millilitres), scenario.group
    need = Need(amount=wished)
    if group is not None and group.tubes is TubesFor.ONE_EACH:
        need = Need(amount=group.painters * wished, containers=group.painters)
    elif group is not None and group.tubes is TubesFor.PANS:
        need = Need(amount=max(wished, group.painters * thousandths(group.pan)))
    return (need,) * tube_count
