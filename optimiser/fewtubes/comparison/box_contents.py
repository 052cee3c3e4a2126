"""What is in the box at home, whatever is to be painted."""

from dataclasses import dataclass

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.records import Catalogue, Offer, Tube
from fewtubes.comparison.box import doubles
from fewtubes.comparison.box_findings import Double
from fewtubes.coverage.cache import Cache, cache_of
from fewtubes.coverage.optics import usual_optics
from fewtubes.scenario.called import id_is_a_name
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.names import settled_box
from fewtubes.words.left import NEARLY_EMPTY

__all__ = ["BoxContents", "KeptTube", "box_contents"]


@dataclass(frozen=True, eq=False)
class KeptTube:
    """A tube of the box at home, with what the catalogue says of it."""

    tube: Tube
    left: float
    """A share [0–1]."""

    @property
    def again(self) -> Offer | None:
        """Its pack of the least price, once it is nearly empty or empty; None if none is sold."""
        if self.left > NEARLY_EMPTY:
            return None
        return min(self.tube.offers, key=lambda offer: offer.price, default=None)


@dataclass(frozen=True, eq=False)
class BoxContents:
    """The tubes of a box, and which of them look alike."""

    title: str
    tubes: tuple[KeptTube, ...]
    """In the order of the box, empty ones included."""
    doubles: tuple[Double, ...]
    """Pairs of those that are not empty and hardly differ."""
    id_is_a_name: tuple[tuple[Tube, Tube], ...] = ()
    """Tubes of the box whose id is what another tube is called, each with that other."""


def box_contents(
    catalogue: Catalogue,
    box: BoxAtHome,
    *,
    paper: str | None = None,
    light: str | None = None,
    cache: Cache | None = None,
) -> BoxContents:
    """Return what is in a box.

    Parameters
    ----------
    catalogue, box
        As read; the catalogue is to hold the tubes.
    paper, light
        Ids of the catalogue, by which likeness is judged; the usual ones if None.
    cache
        Where the weights of a light are kept from run to run; by default nowhere.

    Raises
    ------
    InputError
        If the catalogue does not hold what is named.
    """
    collector = FaultCollector()
    box = settled_box(box, catalogue, collector)
    collector.raise_if_any()
    optics = usual_optics(catalogue, cache_of(cache), paper=paper, light=light)
    return BoxContents(
        title=box.title,
        tubes=tuple(KeptTube(catalogue.tubes[kept.id], kept.left) for kept in box.tubes),
        doubles=doubles(optics, [catalogue.tubes[id_] for id_ in box.at_hand]),
        id_is_a_name=id_is_a_name([kept.id for kept in box.tubes], catalogue.tubes),
    )
