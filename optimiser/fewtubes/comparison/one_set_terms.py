"""What is spent on one set for several scenarios, and how much each counts."""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.exact import exact
from fewtubes.catalogue.limits import NumberRange, shown
from fewtubes.catalogue.money import amount_fault
from fewtubes.errors import suggestion
from fewtubes.scenario.demands import BUDGET, budget_of

__all__ = ["shares_of", "sum_of"]

WEIGHT = NumberRange(0, 100, above=True)
"""How much a scenario counts in the mean, relative to the others."""

NO_NUMBER = "which is not a plain number, such as 12.50"


def sum_of(budget: object) -> Decimal | None:
    """Return the money for the one set [currency]; None if it was not said.

    Raises
    ------
    InputError
        If it is no amount, or out of bounds, under ``budget``.
    """
    if budget is None:
        return None
    collector = FaultCollector()
    amount = budget_of(budget)
    fault = f"is {shown(budget)}, {NO_NUMBER}" if amount is None else amount_fault(amount, BUDGET)
    if fault:
        collector.note("budget", f"{fault}.")
    collector.raise_if_any()
    return amount


def shares_of(weights: Mapping[str, object], names: tuple[str, ...]) -> tuple[Fraction, ...]:
    """Return how much each scenario counts, with the sum 1; 1 where nothing is said.

    Raises
    ------
    InputError
        With every weight that is none, or of no scenario, under ``weights``.
    """
    collector = FaultCollector()
    counts = dict.fromkeys(names, Decimal(1))
    for name, value in weights.items():
        amount = budget_of(value)
        if name not in counts:
            what = f"there is no scenario {shown(name)}.{suggestion(name, names)}"
            collector.note("weights", what)
        elif amount is None:
            collector.note("weights", f"of {shown(name)} is {shown(value)}, {NO_NUMBER}.")
        elif fault := amount_fault(amount, WEIGHT):
            collector.note("weights", f"of {shown(name)} {fault}.")
        else:
            counts[name] = amount
    collector.raise_if_any()
    total = sum(map(exact, counts.values()), Fraction(0))
    return tuple(exact(count) / total for count in counts.values())
