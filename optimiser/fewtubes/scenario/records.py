"""A scenario: one question to the program, as a value that checks itself and does not change.

It can be built in Python with plain values; what is out of bounds is told in the words of the
fields, all faults at once. Whether a catalogue holds what a scenario names is asked elsewhere
(`fewtubes.scenario.names`).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal

from fewtubes import defaults
from fewtubes.catalogue.collector import FaultCollector, settle_numbers
from fewtubes.catalogue.exact import Number
from fewtubes.catalogue.money import hundredths
from fewtubes.catalogue.records import Hazard, Lightfastness
from fewtubes.mixing.opacity import Transparency
from fewtubes.mixing.recipes import MOST_IN_MIX, RecipeSpace
from fewtubes.scenario.checks import (
    checked_text,
    each_once,
    member,
)
from fewtubes.scenario.class_wish import ClassWish, budget_asked, pictures_asked
from fewtubes.scenario.demands import (
    COVERAGE,
    IN_MIX,
    LONGEST_PURPOSE,
    MOST_TUBES,
    TOLERANCE,
    WASH,
    WISHED_MILLILITRES,
    clashes,
)
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.own_flowers import OwnFlower
from fewtubes.scenario.picture_wish import PictureWish
from fewtubes.scenario.preference import Prefer
from fewtubes.scenario.wanted import FlowerWish, OwnColour
from fewtubes.scenario.wanted_flowers import Wanted, check_names, flowers_wanted

__all__ = ["Scenario", "Wishes"]

LISTS: dict[str, type] = {"owned": str, "must_have": str, "never": str, "avoid_hazards": Hazard}
NUMBERS = {
    "millilitres": WISHED_MILLILITRES,
    "thinnest_wash": WASH,
    "most_in_mix": IN_MIX,
    "least_coverage": COVERAGE,
}
FLOORS: dict[str, type] = {
    "lightfastness_floor": Lightfastness,
    "transparency_floor": Transparency,
}


@dataclass(frozen=True)
class Wishes:
    """Side conditions on the tubes; tube ids refer to the catalogue.

    Parameters
    ----------
    owned, must_have, never
        Tubes that are there already, that are bought in any case, and that are left out; any
        iterable of ids, kept as a tuple with each once.
    lightfastness_floor, transparency_floor
        Only tubes of this category or better, and at least this transparent, are used, owned ones
        included; None for no floor. The words will do, such as ``"II"`` and ``"transparent"``.
    avoid_hazards
        What no tube may hold, owned ones included; the words will do, such as ``"cadmium"``.
    millilitres
        Paint that every tube bought must hold [ml], 0 to 1,000; 0 = any pack will do.
    thinnest_wash
        Weakest wash strength allowed [0–1]; e.g. 0.5 for colour that is laid thick.
    most_in_mix
        Most tubes in a mix, 1 to 3; e.g. 2 for whoever is new to mixing.
    least_coverage
        Coverage that must be reached [0–1].
    box
        The box at home, whose tubes are owned besides, empty ones left out. What the lists say of a
        tube goes before it: one of the box that must be had is bought anew, one that is never to be
        used is set aside.

    Raises
    ------
    InputError
        With every fault found: a number out of bounds, a tube both wanted and refused.
    """

    owned: tuple[str, ...] = ()
    must_have: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    lightfastness_floor: Lightfastness | None = None
    transparency_floor: Transparency | None = None
    avoid_hazards: tuple[Hazard, ...] = ()
    millilitres: float = 0.0
    thinnest_wash: float = 0.0
    most_in_mix: int = MOST_IN_MIX
    least_coverage: Number = 0
    box: BoxAtHome = field(default_factory=BoxAtHome)

    def __post_init__(self) -> None:
        collector = FaultCollector()
        for key, kind in LISTS.items():
            object.__setattr__(self, key, each_once(getattr(self, key), key, kind, collector))
        for key, grade in FLOORS.items():
            value = getattr(self, key)
            if value is not None:
                object.__setattr__(self, key, member(value, key, grade, collector))
        settle_numbers(
            self,
            NUMBERS,
            whole=("most_in_mix",),
            exactly=("least_coverage",),
            collector=collector,
        )
        if not isinstance(self.box, BoxAtHome):
            what = f"is {self.box!r}; it must be a BoxAtHome, as read_box returns it."
            collector.note("box", what)
        collector.raise_if_any()
        for key, sentence in clashes(self.owned, self.must_have, self.never):
            collector.note(key, sentence)
        collector.raise_if_any()

    @property
    def space(self) -> RecipeSpace:
        """The recipes that are allowed: how thin a wash, and of how many tubes a mix."""
        return RecipeSpace.no_thinner_than(self.thinnest_wash, self.most_in_mix)

    @property
    def all_owned(self) -> tuple[str, ...]:
        """Ids of all tubes that are there already: those of the list, then those of the box."""
        boxed = (id_ for id_ in self.box.at_hand if id_ not in self.must_have)
        return tuple(dict.fromkeys((*self.owned, *boxed)))


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
        The class that paints, if one does. With a levy the budget is that of all together, and one
        that is given must be just that. What the pupils ask for is put into the wishes.
    picture
        Pictures planned, for which paint is reckoned and enough of it bought; None if none are, so
        that any pack will do. How many a class paints, the class says; one that shares its tubes
        plans them in any case.
    prices
        Folder of the price list in force, as whoever asks named it; blank for the catalogue's own.

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
    picture: PictureWish | None
    prices: str

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
        picture: PictureWish | None = None,
        prices: str = "",
    ) -> None:
        collector = FaultCollector()
        if group is not None:
            group = member(group, "group", ClassWish, collector)
        values = {
            "budget": budget_asked(budget, group, collector),
            "currency": checked_text(currency, "currency", collector),
            "flowers": flowers_wanted(flowers, collector),
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
            "picture": pictures_asked(picture, group, collector),
            "prices": checked_text(prices, "prices", collector) if prices else "",
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
        check_names(self.flowers, self.own_colours, collector)
        collector.raise_if_any()

    @property
    def own_flowers(self) -> tuple[OwnFlower, ...]:
        """Those of its flowers that are the painter's own, whole."""
        return tuple(flower for flower in self.flowers if isinstance(flower, OwnFlower))

    def with_budget(self, hundredths: int) -> "Scenario":
        """Return the scenario with another budget [hundredths], without a levy and `shows`."""
        group = None if self.group is None else replace(self.group, levy=None)
        return replace(self, budget=Decimal(hundredths) / 100, group=group, shows="")

    @property
    def budget_hundredths(self) -> int:
        """The budget as a whole number of hundredths of the currency."""
        return hundredths(self.budget)


def _wishes(wishes: Wishes | None, group: ClassWish | None, collector: FaultCollector) -> Wishes:
    """Return the wishes, what a class asks besides included."""
    found = Wishes()
    if wishes is not None:
        found = member(wishes, "wishes", Wishes, collector) or found
    if group is None:
        return found
    return replace(
        found,
        avoid_hazards=tuple(Hazard) if group.avoids_every_hazard else found.avoid_hazards,
        most_in_mix=min(found.most_in_mix, group.most_in_mix),
    )
