"""The wishes of a scenario: side conditions on tubes and mixes, as a value that checks itself."""

from dataclasses import dataclass, field

from fewtubes.catalogue.collector import FaultCollector, settle_numbers
from fewtubes.catalogue.exact import Number
from fewtubes.catalogue.records import Hazard, Lightfastness
from fewtubes.mixing.opacity import Transparency
from fewtubes.mixing.recipes import MOST_IN_MIX, RecipeSpace
from fewtubes.scenario.checks import each_once, member
from fewtubes.scenario.demands import COVERAGE, IN_MIX, WASH, WISHED_MILLILITRES, clashes
from fewtubes.scenario.home_box import BoxAtHome

__all__ = ["Wishes"]

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
