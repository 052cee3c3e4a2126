"""The box at home: the tubes that are there already, and how full each of them is."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import NumberRange, listed, shown
from fewtubes.catalogue.sizes import MOST_WISHED
from fewtubes.errors import InputError, suggestion
from fewtubes.scenario.checks import checked_text
from fewtubes.words.left import LEFT

__all__ = ["LEFT_RANGE", "BoxAtHome", "TubeAtHome", "left_of", "same_tube"]

LEFT_RANGE = NumberRange(0, 1)
"""What is left of a tube."""

Left = float | str


@dataclass(frozen=True, init=False)
class TubeAtHome:
    """A tube of the box at home.

    Parameters
    ----------
    id
        As in the catalogue.
    left
        What is left in it, a share [0–1] or a word: ``"full"``, ``"half"``, ``"quarter"``,
        ``"nearly empty"``, ``"empty"``; kept as a share.

    Raises
    ------
    InputError
        If the id is blank, or the share out of bounds.
    """

    id: str
    left: float

    def __init__(self, id: str, left: Left = 1.0) -> None:  # noqa: A002  # the name of the field
        collector = FaultCollector()
        object.__setattr__(self, "id", checked_text(id, "id", collector))
        share, fault = left_of(left)
        object.__setattr__(self, "left", share)
        collector.note_fault("left", fault)
        collector.raise_if_any()

    @property
    def is_empty(self) -> bool:
        """Whether nothing is left, so that it is not there to paint with."""
        return self.left == 0


@dataclass(frozen=True, init=False)
class BoxAtHome:
    """The tubes at home, empty ones included, as a file or a program keeps them.

    Parameters
    ----------
    tubes
        Ids, `TubeAtHome`, pairs of an id and what is left, or a mapping of the two; a tube that is
        named alone is full. Kept as a tuple of `TubeAtHome`.
    title
        What the box is called; may be blank.
    catalogue
        Folder of the tables that hold these tubes, as seen from the folder of the box's file; blank
        for whichever is asked about.

    Raises
    ------
    InputError
        With every fault found: a share out of bounds, a tube named twice.

    Examples
    --------
    >>> from fewtubes import BoxAtHome, Wishes
    >>> box = BoxAtHome({"lemon": "half", "magenta": 0.05, "ochre": "empty"})
    >>> box.at_hand
    ('lemon', 'magenta')
    >>> Wishes(box=box, owned=["titanium-white"]).all_owned
    ('titanium-white', 'lemon', 'magenta')
    """

    tubes: tuple[TubeAtHome, ...]
    title: str
    catalogue: str

    def __init__(
        self,
        tubes: Mapping[str, Left] | Iterable[TubeAtHome | str | tuple[str, Left]] = (),
        *,
        title: str = "",
        catalogue: str = "",
    ) -> None:
        collector = FaultCollector()
        for key, text in (("title", title), ("catalogue", catalogue)):
            checked = checked_text(text, key, collector) if text != "" else ""
            object.__setattr__(self, key, checked)
        object.__setattr__(self, "tubes", _tubes(tubes, collector))
        if len(self.tubes) > MOST_WISHED:
            what = f"has {len(self.tubes):,} tubes; at most {MOST_WISHED:,} are allowed."
            collector.note("tubes", what)
        ids = [tube.id for tube in self.tubes]
        for id_ in dict.fromkeys(id_ for id_ in ids if ids.count(id_) > 1):
            collector.note("tubes", f"{shown(id_)} stands there twice; keep one of them.")
        collector.raise_if_any()

    @property
    def at_hand(self) -> tuple[str, ...]:
        """Ids of the tubes that are not empty."""
        return tuple(tube.id for tube in self.tubes if not tube.is_empty)

    def left(self, id_: str) -> float | None:
        """Return what is left of a tube [0–1]; None if it is not in the box."""
        return next((tube.left for tube in self.tubes if tube.id == id_), None)

    def with_tubes(self, ids: Iterable[str], left: Left = 1.0) -> "BoxAtHome":
        """Return the box with these tubes so full, those it holds in their places."""
        put = {id_: TubeAtHome(id_, left) for id_ in ids}
        kept = {tube.id: tube for tube in self.tubes}
        return replace(self, tubes=tuple({**kept, **put}.values()))

    def without(self, ids: Collection[str]) -> "BoxAtHome":
        """Return the box without these tubes."""
        return replace(self, tubes=tuple(tube for tube in self.tubes if tube.id not in ids))


def same_tube(before: str) -> str:
    """Return that a tube stands in the box under another name already, as the end of a sentence."""
    return f"is the same tube as {shown(before)}, which stands there before it; keep one of the two"


def left_of(value: object) -> tuple[float, str | None]:
    """Return the share [0–1] that a word or number stands for, and what is wrong with it or None.

    The fault is told as the end of a sentence; the share is 1 then.
    """
    if isinstance(value, str):
        if value in LEFT:
            return LEFT[value], None
        what = f"is {shown(value)}; allowed: {listed(LEFT)}, or a share from 0 to 1"
        return 1.0, f"{what}.{suggestion(value, LEFT)}"
    fault = LEFT_RANGE.fault(value, named=True)
    if fault:
        return 1.0, f"{fault}, or one of {listed(LEFT)}"
    return float(value), None  # type: ignore[arg-type]  # the range admits nothing but numbers


def _tubes(tubes: object, collector: FaultCollector) -> tuple[TubeAtHome, ...]:
    """Return the tubes in whichever form they are given."""
    if isinstance(tubes, Mapping):
        tubes = tubes.items()
    if isinstance(tubes, str) or not isinstance(tubes, Iterable):
        collector.note("tubes", f"is {tubes!r}; give a list, such as ['magenta'].")
        return ()
    found = []
    for tube in tubes:
        if isinstance(tube, TubeAtHome):
            found.append(tube)
            continue
        pair = (tube, 1.0) if isinstance(tube, str) else tube
        if not isinstance(pair, tuple | list) or len(pair) != 2:
            what = "each must be an id, or an id and what is left of the tube"
            collector.note("tubes", f"holds {tube!r}; {what}.")
            continue
        try:
            found.append(TubeAtHome(*pair))
        except InputError as error:
            for fault in error.faults:
                collector.note("tubes", f"the {fault.where} of {shown(pair[0])} {fault.what}")
    return tuple(found)
