"""What a class buys together: the cost a head, what is left of the money, and what is left over."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fewtubes.catalogue.records import Tube
from fewtubes.scenario.class_wish import ClassWish, TubesFor
from fewtubes.shopping.needs import thousandths
from fewtubes.shopping.paint_needs import thousandths_taken
from fewtubes.shopping.plan_parts import PlannedTube

if TYPE_CHECKING:
    from fewtubes.shopping.plan import Plan

__all__ = ["ClassShare", "ClassTube", "class_share", "fewest_tubes"]


@dataclass(frozen=True, eq=False)
class ClassTube:
    """One paint that is bought for a class."""

    tube: Tube
    """As in the catalogue."""
    needed: int
    """Tubes of it that there must be: one for each painter, and of those bought so many as hold
    together what is needed; 1 where any number will do."""
    bought: int
    """Tubes of it in all packs and sets."""
    needed_ml: float
    """Paint that they must hold together [ml]; 0 where any amount will do."""
    bought_ml: float
    """Paint that they hold together [ml]."""
    spare_ml: float = 0.0
    """Paint in the tubes beyond those needed [ml]."""
    counted: bool = True
    """Whether what is needed is counted, in pans or as wished; else it is reckoned from pictures,
    which is known roughly."""

    @property
    def spare(self) -> int | None:
        """Tubes beyond those needed; None where they are not counted."""
        return self.bought - self.needed if self.needed > 1 else None

    @property
    def left_ml(self) -> float | None:
        """Paint beyond what is needed [ml]; None where any amount will do."""
        return max(0.0, self.bought_ml - self.needed_ml) if self.needed_ml else None

    @property
    def kept_ml(self) -> float:
        """Paint in the tubes needed [ml]; in all where tubes are not counted."""
        return self.bought_ml - self.spare_ml


@dataclass(frozen=True, eq=False)
class ClassShare:
    """What a class buys; money in whole hundredths of the currency."""

    group: ClassWish
    """The class."""
    cost: int
    """Of all that is bought, deliveries included."""
    left: int
    """What is left of the budget."""
    tubes: tuple[ClassTube, ...]
    """Those bought, in the order of the plan."""
    owned: tuple[Tube, ...]
    """Those in use that are owned already, of which nothing is bought."""

    @property
    def a_head(self) -> int:
        """Cost a head, rounded up, so that all heads together pay for it."""
        return -(-self.cost // self.group.painters)

    @property
    def together(self) -> int:
        """What all painters bring together if each pays the cost a head."""
        return self.a_head * self.group.painters

    @property
    def back_a_head(self) -> int:
        """What is left of the budget a head, rounded down, so that it can be given back."""
        return max(0, self.left) // self.group.painters


def class_share(plan: "Plan") -> ClassShare | None:
    """Return what the class of a plan buys; None if the scenario is of no class."""
    group = plan.scenario.group
    if group is None:
        return None
    return ClassShare(
        group=group,
        cost=plan.cost,
        left=plan.scenario.budget_hundredths - plan.cost,
        tubes=tuple(_class_tube(plan, group, planned) for planned in plan.bought),
        owned=tuple(planned.tube for planned in plan.tubes if planned.owned and planned.recipes),
    )


def _class_tube(plan: "Plan", group: ClassWish, planned: PlannedTube) -> ClassTube:
    """Return what is needed and bought of one tube."""
    id_ = planned.tube.id
    packs = [(pack.count, pack.offer.ml) for pack in planned.packs]
    packs += [
        (bought.count * pack.count, pack.ml)
        for bought in planned.sets
        for pack in bought.tube_set.packs
        if pack.tube == id_
    ]
    each = group.tubes is TubesFor.ONE_EACH
    wished = plan.scenario.wishes.millilitres * (group.painters if each else 1)
    pans = group.painters * group.pan if group.tubes is TubesFor.PANS else 0.0
    painted = 0.0 if plan.paint is None else plan.paint.planned_ml(id_)
    needed_ml = max(wished, pans, painted)
    sizes = sorted((ml for count, ml in packs for _ in range(count)), reverse=True)
    needed = fewest_tubes(sizes, needed_ml, at_least=group.painters) if each else 1
    return ClassTube(
        tube=planned.tube,
        needed=needed,
        bought=len(sizes),
        needed_ml=needed_ml,
        bought_ml=sum(count * ml for count, ml in packs),
        spare_ml=sum(sizes[needed:]) if each else 0.0,
        counted=painted <= max(wished, pans),
    )


def fewest_tubes(sizes: Sequence[float], needed_ml: float, *, at_least: int) -> int:
    """Return how few of the tubes bought do: the largest, since they hold most.

    Parameters
    ----------
    sizes
        What each holds [ml], falling.
    needed_ml
        What they must hold together [ml].
    at_least
        How many there must be.
    """
    needed, held = thousandths_taken(needed_ml), 0
    for number, ml in enumerate(sizes):
        if number >= at_least and held >= needed:
            return number
        held += thousandths(ml)
    return len(sizes)
