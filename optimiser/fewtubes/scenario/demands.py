"""The rules a scenario's values obey, wherever they were written: in its file or on a command line.

The numbers are wide limits against slips; the rest is what must fit together.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from decimal import Decimal
from math import isfinite
from numbers import Integral
from types import MappingProxyType

from fewtubes import defaults
from fewtubes.catalogue.limits import NumberRange, listed, shown
from fewtubes.catalogue.money import amount_fault, code_fault, exact_amount
from fewtubes.catalogue.names import alike_key
from fewtubes.catalogue.records import Catalogue
from fewtubes.catalogue.repeats import ALIKE
from fewtubes.mixing.opacity import Transparency
from fewtubes.mixing.recipes import MOST_IN_MIX

__all__ = [
    "ANY_HAZARD",
    "BUDGET",
    "COVERAGE",
    "IN_MIX",
    "LONGEST_PURPOSE",
    "MOST_TUBES",
    "NOTHING_TO_PAINT",
    "TOLERANCE",
    "TRANSPARENCY_FLOORS",
    "WASH",
    "WISHED_MILLILITRES",
    "budget_fault",
    "budget_of",
    "clashes",
    "currencies",
    "currencies_to_choose",
    "currency_fault",
    "repeats",
    "taken_fault",
]

BUDGET = NumberRange(0, 1_000_000, above=True)
"""Budget [currency]."""

MOST_TUBES = NumberRange(1, 1000)
"""Tubes bought."""

TOLERANCE = NumberRange(0.01, 20)
"""Largest match that counts as covered [ΔE00]; at 20 red and orange would be one, and less than a
hundredth is a hundred times finer than the eye and below what the reports print."""

WISHED_MILLILITRES = NumberRange(0, 1_000)
"""Paint that every tube bought must hold [ml]."""

WASH = NumberRange(0, 1)
"""Weakest wash strength."""

IN_MIX = NumberRange(1, MOST_IN_MIX)
"""Most tubes in a mix."""

COVERAGE = NumberRange(0, 1)
"""Coverage that must be reached."""

ANY_HAZARD = "any"
"""Stands for all hazards."""

LONGEST_PURPOSE = 2000
"""Characters of what a scenario is meant to show."""

TRANSPARENCY_FLOORS: Mapping[str, Transparency] = MappingProxyType(
    {grade.word: grade for grade in Transparency if grade is not Transparency.OPAQUE}
)
"""Words for the least transparency of a tube; every tube is at least opaque, so that is none."""

NOTHING_TO_PAINT = (
    "there is nothing to paint: no flower and no colour of your own is named; name at least one"
    " [[flower]] or [[colour]]."
)


def budget_fault(budget: Decimal) -> str | None:
    """Return what is wrong with a budget [currency], as the end of a sentence, or None."""
    if budget == 0:
        return "is 0, which buys nothing; give an amount above 0, such as 35.00"
    return amount_fault(budget, BUDGET)


def budget_of(value: object) -> Decimal | None:
    """Return an amount exactly as it was written, or None if it is no number.

    The shortest text of a float is the one that was typed, so 35.1 is not 35.10000000000000142.
    """
    if isinstance(value, Decimal):
        return None if value.is_snan() else value
    if isinstance(value, str):
        return exact_amount(value)
    if isinstance(value, Integral) and not isinstance(value, bool):
        return Decimal(int(value))
    if isinstance(value, float) and isfinite(value):
        return Decimal(repr(float(value)))
    return None


def repeats(names: Sequence[str]) -> Iterator[tuple[int, str]]:
    """Yield the place of every name that has stood before, with a sentence; blank ones aside."""
    seen: dict[str, str] = {}
    for place, name in enumerate(names):
        if not name:
            continue
        met = seen.get(alike_key(name))
        if met == name:
            yield place, f"{shown(name)} stands there twice; keep one of them"
        elif met is not None:
            alike = f"{shown(name)} cannot be told from {shown(met)}, since {ALIKE}"
            yield place, f"{alike}; rename one"
        seen.setdefault(alike_key(name), name)


def currencies(catalogue: Catalogue) -> tuple[str, ...]:
    """Return the currencies of the catalogue's offers and sets, in the order of the alphabet."""
    packs = {offer.currency for tube in catalogue.tubes.values() for offer in tube.offers}
    return tuple(sorted(packs | {tube_set.currency for tube_set in catalogue.sets.values()}))


def currencies_to_choose(catalogue: Catalogue) -> tuple[str, ...]:
    """Return the currencies to choose from, one at least; see `currency_fault`."""
    return currencies(catalogue) or (defaults.CURRENCY,)


def currency_fault(code: str, catalogue: Catalogue) -> str | None:
    """Return why nothing can be bought in a currency, as the end of a sentence, or None.

    Where nothing at all is for sale any currency will do, since only what is owned is used.
    """
    known = currencies(catalogue)
    if code in known:
        return None
    if known:
        return f"is {shown(code)}; the catalogue has prices in {listed(known)} only"
    return code_fault(code)


def clashes(
    owned: Collection[str], must_have: Collection[str], never: Collection[str]
) -> Iterator[tuple[str, str]]:
    """Yield the key of a list and a sentence for every tube that is asked for and refused."""
    for tube in must_have:
        if tube in owned:
            yield (
                "must_have",
                f"the tube {shown(tube)} is owned, so it need not be bought; take it out of"
                " must_have or out of owned.",
            )
    for key, wanted in (("owned", owned), ("must_have", must_have)):
        for tube in wanted:
            if tube in never:
                yield (
                    "never",
                    f"the tube {shown(tube)} is also in {key}; take it out of one of the two.",
                )


def taken_fault(name: str, flowers: Collection[str]) -> str | None:
    """Return why an own colour may not bear a name next to these flowers, or None."""
    if not name:
        return None
    key = alike_key(name)
    for flower in flowers:
        if name == flower:
            return f"{shown(name)} is a flower's name too; choose another"
        if key == alike_key(flower):
            return (
                f"{shown(name)} cannot be told from the flower {shown(flower)}, since {ALIKE};"
                " choose another"
            )
    return None
