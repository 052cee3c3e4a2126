"""What is to be spent when, and how much being able to paint at each time counts."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import accumulate
from math import gcd

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.commas import comma_hint
from fewtubes.catalogue.limits import NumberRange, shown
from fewtubes.catalogue.money import amount_fault, hundredths
from fewtubes.scenario.demands import BUDGET, budget_of
from fewtubes.words.counting import counted

__all__ = ["MOST_SUMS", "SUM", "Terms", "terms_of"]

MOST_SUMS = 12
"""A year of monthly sums."""

SUM = NumberRange(0, BUDGET.high)
"""One sum [currency]; 0 where there is nothing to spend for once."""

WEIGHT = NumberRange(0, 100, above=True)
"""How much coverage at one time counts, relative to the others. With two decimals, weights of times
and colours multiplied stay far below what 64 bits hold."""

NO_SUM = (
    "there is no sum to spend; give one for each time that something can be bought, the first for"
    " now."
)


@dataclass(frozen=True)
class Terms:
    """Sums in the order in which they can be spent, and the weight of each time."""

    sums: tuple[int, ...]
    """[hundredths of the currency], the first for now."""
    weights: tuple[Decimal, ...]
    """Of coverage from each sum on, relative to one another, above 0."""

    @property
    def money(self) -> tuple[int, ...]:
        """What may have been spent up to each time [hundredths of the currency]."""
        return tuple(accumulate(self.sums))

    @property
    def importances(self) -> tuple[int, ...]:
        """The weights as whole numbers without a common divisor, in the same proportions."""
        whole = [int(weight * 100) for weight in self.weights]
        return tuple(number // gcd(*whole) for number in whole)


def terms_of(sums: Sequence[object], weights: Sequence[object] | None) -> Terms:
    """Return the terms from what was given.

    Parameters
    ----------
    sums
        Amounts [currency], 0 or more, at most two decimals, 1 to `MOST_SUMS` of them.
    weights
        One a sum, above 0 and at most 100, at most two decimals. If None or empty, the last counts
        1, the one before it 2 and so on, so that being able to paint now goes first.

    Raises
    ------
    InputError
        With every fault found, under ``sums`` and ``weights``.
    """
    collector = FaultCollector()
    _refuse_no_row("sums", sums, "[8, 5, 5]", collector)
    _refuse_no_row("weights", weights or (), "[3, 2, 1]", collector)
    collector.raise_if_any()
    amounts = _amounts("sums", sums, SUM, "8.00", collector)
    if not sums:
        collector.note("sums", NO_SUM)
    elif len(sums) > MOST_SUMS:
        collector.note("sums", f"there are {len(sums)} sums; at most {MOST_SUMS} are allowed.")
    elif len(amounts) == len(sums):
        together = sum(amounts)
        if together == 0:
            collector.note("sums", "all sums are 0, which buys nothing; give one above 0.")
        elif fault := amount_fault(together, BUDGET):
            collector.note("sums", f"all of them together {fault}.")
    counts = _amounts("weights", weights or (), WEIGHT, "1.5", collector)
    if weights and sums and len(weights) != len(sums):
        collector.note(
            "weights",
            f"there {_are(len(weights), 'weight')} for {counted(len(sums), 'sum')}; give one for"
            " each sum, or none at all.",
        )
    collector.raise_if_any()
    falling = (Decimal(count) for count in range(len(amounts), 0, -1))
    return Terms(
        sums=tuple(hundredths(amount) for amount in amounts),
        weights=tuple(counts) or tuple(falling),
    )


def _refuse_no_row(where: str, given: object, example: str, collector: FaultCollector) -> None:
    """Note a value that is no row of numbers, such as a single one."""
    if isinstance(given, str) or not isinstance(given, Sequence):
        collector.note(where, f"is {given!r}; give a row of numbers, such as {example}.")


def _are(number: int, thing: str) -> str:
    return f"{'is' if number == 1 else 'are'} {counted(number, thing)}"


def _amounts(
    where: str,
    given: Sequence[object],
    allowed: NumberRange,
    example: str,
    collector: FaultCollector,
) -> list[Decimal]:
    """Return the numbers without fault; note all others, by their place in the row."""
    found = []
    for place, (value, amount) in enumerate(_read(given), start=1):
        if amount is None:
            hint = comma_hint(value) if isinstance(value, str) else ""
            hint = hint or f", such as {example}"
            fault = f"is {shown(value)}, which is not a plain number{hint}"
        else:
            fault = amount_fault(amount, allowed) or ""
        if fault:
            collector.note(where, f"number {place} {fault}.")
        elif amount is not None:
            found.append(amount)
    return found


def _read(given: Sequence[object]) -> Iterator[tuple[object, Decimal | None]]:
    for value in given:
        yield value, budget_of(value)
