"""A class that paints together: how many, who they are, and how tubes are shared among them.

Half pans, and that children mix two tubes at most, are common practice, no source. That children
and beginners do without every hazard is our own caution.
"""

from dataclasses import dataclass, replace
from decimal import Decimal
from enum import StrEnum

from fewtubes.catalogue.collector import FaultCollector, settle_numbers
from fewtubes.catalogue.limits import NumberRange
from fewtubes.catalogue.money import hundredths
from fewtubes.mixing.recipes import MOST_IN_MIX
from fewtubes.scenario.checks import checked_budget, member
from fewtubes.scenario.demands import budget_fault, budget_of
from fewtubes.scenario.picture_wish import PICTURE_NUMBERS, PictureWish

__all__ = [
    "BUDGET_MISSING",
    "CHILDREN_MIX",
    "HALF_PAN",
    "PAINTERS",
    "PAN",
    "PICTURES",
    "ClassWish",
    "Pupils",
    "TubesFor",
    "budget_asked",
    "mix_fault",
    "pictures_asked",
    "pictures_clash",
]

PAINTERS = NumberRange(2, 500)
"""Painters of a class."""

PICTURES = NumberRange(1, 1000)
"""Pictures that each of them paints."""

PAN = NumberRange(0.1, 30)
"""Paint that a pan is filled with [ml]."""

HALF_PAN = 1.5
"""What a half pan takes from a tube [ml]; common practice, no source."""

CHILDREN_MIX = 2
"""Most tubes in a mix for children."""


BUDGET_MISSING = (
    "is missing; give an amount above 0, such as 35.00, or a class a levy, what each of it pays."
)


class Pupils(StrEnum):
    """Who paints."""

    CHILDREN = "children"
    BEGINNERS = "beginners"
    GROWN_UPS = "grown-ups"


class TubesFor(StrEnum):
    """How tubes are shared among the painters."""

    ONE_EACH = "one each"
    """Every painter has a tube of each paint."""
    SHARED = "shared"
    """All take from the same tubes, as much as their pictures need."""
    PANS = "pans"
    """Every painter has a pan of each paint, filled from tubes."""


@dataclass(frozen=True)
class ClassWish:
    """A class that is bought for.

    Parameters
    ----------
    painters
        How many paint, 2 to 500.
    tubes
        How they share tubes; the words will do: ``"one each"``, ``"shared"``, ``"pans"``.
    pupils
        Who they are; the words will do: ``"children"``, ``"beginners"``, ``"grown-ups"``. If
        nobody says, they count as beginners, which is the more careful.
    pictures
        How many each of them paints, 1 to 1,000; of the scenario's flowers. None where nobody says:
        then one each, for which paint is reckoned only if all share the tubes.
    pan_millilitres
        Paint in a pan [ml], 0.1 to 30; None for a half pan's usual content. Only of pans.
    levy
        What each painter pays in [currency], above 0, at most two decimals; the budget is then that
        of all together. None where the budget is said otherwise.
    hazards_as_wished
        Whether the scenario itself says which hazards are avoided, none of them even; otherwise
        children and beginners do without all. False for grown-ups, who avoid what is wished anyway.

    Raises
    ------
    InputError
        With every fault found, each under the name of its field.

    Examples
    --------
    >>> from fewtubes.scenario.class_wish import ClassWish
    >>> ClassWish(12, levy="3.50").budget
    Decimal('42.00')
    """

    painters: int
    tubes: TubesFor = TubesFor.ONE_EACH
    pupils: Pupils = Pupils.BEGINNERS
    pictures: int | None = None
    pan_millilitres: float | None = None
    levy: Decimal | None = None
    hazards_as_wished: bool = False

    def __post_init__(self) -> None:
        collector = FaultCollector()
        for key, kind in (("tubes", TubesFor), ("pupils", Pupils)):
            object.__setattr__(self, key, member(getattr(self, key), key, kind, collector))
        settle_numbers(
            self,
            {"painters": PAINTERS, "pictures": PICTURES, "pan_millilitres": PAN},
            whole=("painters", "pictures"),
            flags=("hazards_as_wished",),
            optional=("pictures", "pan_millilitres"),
            collector=collector,
        )
        if self.pupils is Pupils.GROWN_UPS:
            object.__setattr__(self, "hazards_as_wished", False)
        if self.levy is not None:
            object.__setattr__(self, "levy", _checked_levy(self.levy, collector))
        if self.pan_millilitres is not None and self.tubes not in (TubesFor.PANS, None):
            collector.note_fault("pan_millilitres", _pan_fault(self.tubes))
        collector.raise_if_any()
        if self.budget is not None:
            collector.note_fault("levy", _together_fault(self.budget, self.painters))
        if self.plans_pictures:
            collector.note_fault("pictures", _many_pictures_fault(self))
        collector.raise_if_any()

    @property
    def pan(self) -> float:
        """Paint in a pan [ml]."""
        return HALF_PAN if self.pan_millilitres is None else self.pan_millilitres

    @property
    def budget(self) -> Decimal | None:
        """What all pay in together [currency]; None without a levy."""
        return None if self.levy is None else self.levy * self.painters

    def budget_clash(self, budget: Decimal) -> str | None:
        """Return why a budget [currency] cannot stand beside the levy, or None."""
        if self.budget is None or self.budget == budget:
            return None
        return (
            f"is {budget:.2f}, but a levy of {self.levy:.2f} from each of {self.painters:,}"
            f" painters makes {self.budget:.2f}; leave out one of the two, or make them agree"
        )

    @property
    def levy_hundredths(self) -> int | None:
        """What each pays in [hundredths of the currency]; None without a levy."""
        return None if self.levy is None else hundredths(self.levy)

    @property
    def plans_pictures(self) -> bool:
        """Whether paint is to be enough for its pictures, without any being asked for besides."""
        return self.pictures is not None or self.tubes is TubesFor.SHARED

    @property
    def pictures_each(self) -> int:
        """Pictures of each painter; one where nobody says."""
        return 1 if self.pictures is None else self.pictures

    @property
    def all_pictures(self) -> int:
        """Pictures of all painters together."""
        return self.painters * self.pictures_each

    @property
    def avoids_every_hazard(self) -> bool:
        """Whether it does without every hazard because of who paints."""
        return self.pupils is not Pupils.GROWN_UPS and not self.hazards_as_wished

    @property
    def most_in_mix(self) -> int:
        """Most tubes in a mix, because of who paints."""
        return CHILDREN_MIX if self.pupils is Pupils.CHILDREN else MOST_IN_MIX


def _pan_fault(tubes: TubesFor) -> str:
    """Return why what a pan holds may not be said, as the end of a sentence."""
    return (
        f"is said, but tubes is '{tubes.value}'; leave it out, or write tubes ="
        f' "{TubesFor.PANS.value}"'
    )


def budget_asked(
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


def pictures_asked(
    picture: PictureWish | None, group: ClassWish | None, collector: FaultCollector
) -> PictureWish | None:
    """Return the pictures planned, of a class as many as all of it paint; None if none are."""
    found = None if picture is None else member(picture, "picture", PictureWish, collector)
    if group is None or (found is None and not group.plans_pictures):
        return found
    return replace(found or PictureWish(), pictures=group.all_pictures)


def pictures_clash(pictures: int, group: ClassWish) -> str | None:
    """Return why so many pictures cannot stand beside a class, as the end of a sentence."""
    if pictures == group.all_pictures:
        return None
    return (
        f"is '{pictures}', but {group.painters:,} painters with {group.pictures_each:,} each make"
        f" {group.all_pictures:,}; leave it out here, the class tells how many there are"
    )


def _many_pictures_fault(group: ClassWish) -> str | None:
    """Return why all pictures of a class are too many to reckon, as the end of a sentence."""
    fault = PICTURE_NUMBERS["pictures"].fault(group.all_pictures)
    if fault is None:
        return None
    return f"makes pictures of all {group.painters:,} painters whose number {fault}"


def mix_fault(most: object, group: ClassWish) -> str:
    """Return why a mix may not hold so many tubes in a class, as the end of a sentence."""
    return (
        f"is {most}, but {group.pupils.value} mix at most {group.most_in_mix} tubes; leave it out,"
        " or say that the pupils are others"
    )


def _together_fault(budget: Decimal, painters: int) -> str | None:
    """Return what is wrong with all levies together [currency], as the end of a sentence."""
    fault = budget_fault(budget)
    return f"makes a budget of all {painters:,} painters that {fault}" if fault else None


def _checked_levy(levy: Decimal | float | str, collector: FaultCollector) -> Decimal | None:
    """Return a levy as it was written; None after a fault."""
    amount = budget_of(levy)
    fault = f"is {levy!r}, which is no amount; give one such as 3.50"
    if amount is not None:
        fault = budget_fault(amount) or ""
    collector.note_fault("levy", fault)
    return None if fault else amount
