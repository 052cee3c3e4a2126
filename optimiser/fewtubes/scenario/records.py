"""A scenario: one question to the program, as a value that checks itself and does not change.

It can be built in Python with plain values; what is out of bounds is told in the words of the
fields, all faults at once. Whether a catalogue holds what a scenario names is asked elsewhere
(`fewtubes.scenario.names`).
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from fewtubes import defaults
from fewtubes.catalogue.collector import FaultCollector, settle_numbers
from fewtubes.catalogue.exact import Number
from fewtubes.catalogue.limits import shown
from fewtubes.catalogue.money import hundredths
from fewtubes.errors import InputError
from fewtubes.scenario.checks import (
    checked_budget,
    checked_text,
    each_once,
    member,
)
from fewtubes.scenario.class_wish import BUDGET_MISSING, ClassWish
from fewtubes.scenario.demands import (
    LONGEST_PURPOSE,
    MOST_TUBES,
    TOLERANCE,
    budget_of,
    repeats,
    taken_fault,
)
from fewtubes.scenario.own_flowers import OwnFlower
from fewtubes.scenario.preference import Prefer
from fewtubes.scenario.wanted import FlowerWish, OwnColour
from fewtubes.scenario.wished import Wishes

__all__ = ["Scenario", "Wishes"]

Wanted = FlowerWish | OwnFlower | str | tuple[str, Number]
"""What stands for a flower where a scenario is made."""

NOTHING_TO_PAINT = "there is nothing to paint; name at least one flower or colour of your own."


@dataclass(frozen=True, eq=False, init=False)
class Scenario:
    """A budget, the flowers and colours to be painted, and the wishes.

    Parameters
    ----------
    budget
        Most that may be spent, for a whole class if one paints, in the currency (not in hundredths
        of it), above 0 and at most 1,000,000, at most two decimals; an `int`, `float`, `Decimal` or
        text, kept as `Decimal`.
    currency
        ISO 4217 code of prices in the catalogue, such as ``"EUR"``.
    flowers
        Names of flowers of the catalogue, pairs of a name and an importance (or a mapping),
        `FlowerWish`, or whole flowers of one's own, `OwnFlower`.
    own_colours
        Colours of one's own; at least one flower or colour is needed.
    title
        What the plan is called.
    shows
        What the scenario is meant to show; mostly blank.
    most_tubes
        Most tubes to buy, 1 to 1,000; None for no limit.
    tolerance
        Largest match that counts as covered [ΔE00], 0.01 to 20.
    wishes
        Side conditions on the tubes.
    paper, light
        Ids of the catalogue.
    prefer
        What decides between choices that cover as much with as few tubes: ``"lasting"``, as few
        tubes that fade as may be and then the price, or ``"cheapest"``, the price alone.
    nearer
        Whether of choices that are equal so far, but for the price, the one is taken that also
        brings what is out of reach as near as it can.
    group
        The class that paints, if one does. With a levy the budget is that of all together and need
        not be given; one that is given must be just that. What the pupils ask for is put into the
        wishes.

    Raises
    ------
    InputError
        With every fault found, each under the name of its field.

    Examples
    --------
    >>> scenario = Scenario(budget="12.50", currency="EUR", flowers=["foxglove", ("daffodil", 2)])
    >>> scenario.budget, scenario.budget_hundredths
    (Decimal('12.50'), 1250)
    >>> Scenario(budget=20, currency="EUR", flowers=["foxglove"], tolerance=-1)
    Traceback (most recent call last):
    fewtubes.errors.InputError: tolerance: is -1; it must be from 0.01 to 20.
    """

    budget: Decimal
    currency: str
    flowers: tuple[FlowerWish | OwnFlower, ...]
    own_colours: tuple[OwnColour, ...]
    title: str
    shows: str
    most_tubes: int | None
    tolerance: float
    wishes: Wishes
    paper: str
    light: str
    prefer: Prefer
    nearer: bool
    group: ClassWish | None

    def __init__(
        self,
        *,
        budget: Decimal | float | str | None = None,
        currency: str,
        flowers: Mapping[str, Number] | Iterable[Wanted] = (),
        own_colours: Iterable[OwnColour] = (),
        title: str = "My flowers",
        shows: str = "",
        most_tubes: int | None = None,
        tolerance: float = defaults.TOLERANCE,
        wishes: Wishes | None = None,
        paper: str = defaults.PAPER,
        light: str = defaults.LIGHT,
        prefer: Prefer | str = defaults.PREFER,
        nearer: bool = False,
        group: ClassWish | None = None,
    ) -> None:
        collector = FaultCollector()
        if group is not None:
            group = member(group, "group", ClassWish, collector)
        values = {
            "budget": _budget(budget, group, collector),
            "currency": checked_text(currency, "currency", collector),
            "flowers": _flowers(flowers, collector),
            "own_colours": each_once(own_colours, "own_colours", OwnColour, collector),
            "title": checked_text(title, "title", collector),
            "shows": checked_text(shows, "shows", collector, longest=LONGEST_PURPOSE)
            if shows
            else "",
            "most_tubes": most_tubes,
            "tolerance": tolerance,
            "wishes": _wishes(wishes, group, collector),
            "paper": checked_text(paper, "paper", collector),
            "light": checked_text(light, "light", collector),
            "prefer": member(prefer, "prefer", Prefer, collector) or Prefer.LASTING,
            "nearer": nearer,
            "group": group,
        }
        for key, value in values.items():
            object.__setattr__(self, key, value)
        ranges, tubes = {"most_tubes": MOST_TUBES, "tolerance": TOLERANCE}, ("most_tubes",)
        settle_numbers(
            self,
            ranges,
            whole=tubes,
            flags=("nearer",),
            optional=tubes,
            collector=collector,
        )
        _check_names(self.flowers, self.own_colours, collector)
        collector.raise_if_any()

    @property
    def own_flowers(self) -> tuple[OwnFlower, ...]:
        """Those of its flowers that are the painter's own, whole."""
        return tuple(flower for flower in self.flowers if isinstance(flower, OwnFlower))

    def with_budget(self, budget: Decimal) -> "Scenario":
        """Return the scenario with another budget [currency]; a levy no longer says what it is.

        Nor is told what it is meant to show.
        """
        group = None if self.group is None else replace(self.group, levy=None)
        return replace(self, budget=budget, group=group, shows="")

    @property
    def budget_hundredths(self) -> int:
        """The budget as a whole number of hundredths of the currency."""
        return hundredths(self.budget)


def _budget(
    budget: Decimal | float | str | None, group: ClassWish | None, collector: FaultCollector
) -> Decimal:
    """Return the budget [currency], that of a class with a levy included; 1 after a fault."""
    together = None if group is None else group.budget
    if budget is None and together is not None:
        return together
    if budget is None:
        collector.note("budget", BUDGET_MISSING)
        return Decimal(1)
    found = checked_budget(budget, collector)
    if group is not None and budget_of(budget) == found:
        collector.note_fault("budget", group.budget_clash(found))
    return found


def _wishes(wishes: Wishes | None, group: ClassWish | None, collector: FaultCollector) -> Wishes:
    """Return the wishes, what a class asks besides included."""
    found = Wishes()
    if wishes is not None:
        found = member(wishes, "wishes", Wishes, collector) or found
    return found if group is None else group.of(found)


def _flowers(
    flowers: Mapping[str, Number] | Iterable[Wanted],
    collector: FaultCollector,
) -> tuple[FlowerWish | OwnFlower, ...]:
    """Return flowers as wishes, or as one's own; faults of each are told under ``flowers``."""
    found: list[FlowerWish | OwnFlower] = []
    if isinstance(flowers, Mapping):
        flowers = flowers.items()
    if not isinstance(flowers, Iterable):
        collector.note("flowers", f"is {flowers!r}; give a list of names, such as ['foxglove'].")
        return ()
    for flower in (flowers,) if isinstance(flowers, str) else flowers:
        if isinstance(flower, FlowerWish | OwnFlower):
            found.append(flower)
            continue
        pair = (flower, 1) if isinstance(flower, str) else flower
        if not isinstance(pair, tuple | list) or len(pair) != 2:
            what = "each must be a name, or a name and its importance"
            collector.note("flowers", f"holds {flower!r}; {what}.")
            continue
        name, importance = pair
        try:
            found.append(FlowerWish(name, importance))
        except InputError as error:
            for fault in error.faults:
                collector.note("flowers", f"the {fault.where} of {shown(name)} {fault.what}")
    return tuple(found)


def _check_names(
    flowers: Sequence[FlowerWish | OwnFlower],
    own_colours: Sequence[OwnColour],
    collector: FaultCollector,
) -> None:
    """Note that there is nothing to paint, or that two names cannot be told apart."""
    if not flowers and not own_colours and collector.is_empty:
        collector.note("flowers", NOTHING_TO_PAINT)
    for key, names in (
        ("flowers", [wish.name for wish in flowers]),
        ("own_colours", [colour.name for colour in own_colours]),
    ):
        for _, sentence in repeats(names):
            collector.note_fault(key, sentence)
    for colour in own_colours:
        fault = taken_fault(colour.name, [wish.name for wish in flowers])
        collector.note_fault("own_colours", fault and f"the name {fault}")
