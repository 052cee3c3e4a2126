"""What a plan tells of paint: what each tube gives for one picture, and how long its packs last."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from fewtubes.catalogue.records import Tube
from fewtubes.mixing.covering_power import covering_power
from fewtubes.mixing.matching import Match
from fewtubes.scenario.picture_wish import PictureWish
from fewtubes.shopping.paint_use import paint_taken, painted_areas, painted_puddles
from fewtubes.shopping.plan_parts import PlannedTube
from fewtubes.shopping.puddles import Puddles
from fewtubes.shopping.question import Question

__all__ = ["FewerPictures", "PaintOfTube", "PaintPlan", "paint_of_one_picture", "paint_plan"]


@dataclass(frozen=True, eq=False)
class PaintOfTube:
    """The paint that a tube of the palette gives."""

    tube: Tube
    """As in the catalogue."""
    ml: float
    """What one picture takes [ml]; 0 if the tube is in no mix."""
    cm2_per_ml: float
    """How far a millilitre of it goes in a full-strength stroke [cm²]."""
    bought_ml: float
    """What its packs hold [ml]; 0 for an owned tube."""
    price: float
    """Of its packs [hundredths of the currency], of a set its part by volume; 0 if owned."""

    @property
    def guessed(self) -> bool:
        """Whether how far it goes is not told by the catalogue."""
        return self.tube.cm2_per_ml is None

    @property
    def lasts(self) -> float | None:
        """For how many pictures the packs last; None for an owned tube, infinite if unused."""
        if not self.bought_ml:
            return None
        return self.bought_ml / self.ml if self.ml else math.inf

    @property
    def used(self) -> float:
        """What the paint in one picture has cost [hundredths of the currency]."""
        return self.price * self.ml / self.bought_ml if self.bought_ml else 0.0


@dataclass(frozen=True)
class FewerPictures:
    """What the money would cover if less paint had to be bought."""

    coverage: float
    """Of the best choice where any pack will do [0–1]; more than the plan covers."""
    pictures: int
    """Pictures for which its tubes can be bought in packs that are large enough, 0 if for none."""


@dataclass(frozen=True, eq=False)
class PaintPlan:
    """Paint for the pictures planned."""

    picture: PictureWish
    """How many, and what one is like."""
    tubes: tuple[PaintOfTube, ...]
    """Of the palette, in the order of the plan."""
    cost: int
    """Of all that is bought [hundredths of the currency]."""
    fewer: FewerPictures | None = None
    """Where fewer pictures would leave money for more coverage; None where they would not, or
    where that is not known."""

    @property
    def lasts(self) -> float:
        """For how many pictures all that is bought lasts; infinite if none of it is used."""
        return min((it.lasts for it in self.tubes if it.lasts is not None), default=math.inf)

    @property
    def used(self) -> float:
        """What the paint bought that is in one picture has cost [hundredths of the currency]."""
        return sum(it.used for it in self.tubes)

    @property
    def bought_a_picture(self) -> float:
        """What is bought, divided by the pictures planned [hundredths of the currency]."""
        return self.cost / self.picture.pictures

    def planned_ml(self, tube: str) -> float:
        """Return what all pictures planned take of a tube, by id [ml]; 0 if it is in no mix."""
        return sum(it.ml for it in self.tubes if it.tube.id == tube) * self.picture.pictures


def paint_of_one_picture(
    question: Question, puddles: Puddles, matches: Sequence[Match | None]
) -> dict[str, float]:
    """Return the paint that one picture takes [ml], by tube; tubes in no mix are left out.

    Parameters
    ----------
    question
        Tells what a picture is like; what is usual if none are planned.
    puddles, matches
        What is mixed, and the recipe of each sample.
    """
    areas = painted_areas(question.scenario, question.samples)
    painted = painted_puddles(puddles.mixed, matches, areas)
    picture = question.scenario.picture or PictureWish()
    return paint_taken(painted, question.catalogue.tubes, picture)


def paint_plan(
    question: Question,
    tubes: Sequence[PlannedTube],
    taken: Mapping[str, float],
    *,
    cost: int,
    fewer: FewerPictures | None = None,
) -> PaintPlan | None:
    """Return the paint of a plan; None where no pictures are planned.

    Parameters
    ----------
    question
        The question.
    tubes
        Those of the plan, with what is bought of them.
    taken
        What one picture takes [ml], by tube.
    cost
        Of all that is bought [hundredths of the currency].
    fewer
        What fewer pictures would leave money for.
    """
    picture = question.scenario.picture
    if picture is None:
        return None
    paint = tuple(_paint_of(planned, taken.get(planned.tube.id, 0.0)) for planned in tubes)
    return PaintPlan(picture=picture, tubes=paint, cost=cost, fewer=fewer)


def _paint_of(planned: PlannedTube, ml: float) -> PaintOfTube:
    """Return the paint of one tube, of which one picture takes so much [ml]."""
    held, price = _held(planned)
    return PaintOfTube(
        tube=planned.tube,
        ml=ml,
        cm2_per_ml=covering_power(planned.tube),
        bought_ml=held,
        price=price,
    )


def _held(planned: PlannedTube) -> tuple[float, float]:
    """Return what is bought of a tube [ml], and its price [hundredths of the currency].

    The price of a set is divided over what it holds by volume.
    """
    held = sum(pack.count * pack.offer.ml for pack in planned.packs)
    price = float(planned.cost)
    for bought in planned.sets:
        packs = bought.tube_set.packs
        whole = sum(pack.count * pack.ml for pack in packs)
        own = sum(pack.count * pack.ml for pack in packs if pack.tube == planned.tube.id)
        held += bought.count * own
        price += bought.cost * own / whole
    return held, price
