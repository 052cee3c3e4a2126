"""A scenario: one question to the program, as a value that checks itself and does not change.

It can be built in Python with plain values; what is out of bounds is told in the words of the
fields, all faults at once. Whether a catalogue holds what a scenario names is asked elsewhere
(`fewtubes.scenario.names`).
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeVar

import numpy as np

from fewtubes import defaults
from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.exact import Number
from fewtubes.catalogue.limits import (
    IMPORTANCE,
    LIGHTNESS,
    OPPONENT,
    REFLECTANCE,
    shown,
    text_fault,
)
from fewtubes.catalogue.money import hundredths
from fewtubes.catalogue.names import composed
from fewtubes.catalogue.records import Hazard, Lightfastness
from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.display import hex_to_lab
from fewtubes.errors import InputError
from fewtubes.mixing.opacity import Transparency
from fewtubes.scenario.demands import (
    COVERAGE,
    LONGEST_PURPOSE,
    MOST_TUBES,
    TOLERANCE,
    WASH,
    WISHED_MILLILITRES,
    budget_fault,
    budget_of,
    clashes,
    repeats,
    taken_fault,
)

__all__ = ["FlowerWish", "OwnColour", "Scenario", "Wishes"]

T = TypeVar("T")

Lab = tuple[float, float, float]

NOTHING_TO_PAINT = "there is nothing to paint; name at least one flower or colour of your own."


@dataclass(frozen=True)
class FlowerWish:
    """A flower of the catalogue to be painted.

    Parameters
    ----------
    name
        As in the catalogue.
    importance
        How much it counts beside the others, above 0 and at most 1,000; an `int`, `float` or
        `Fraction`, taken exactly as written.

    Raises
    ------
    InputError
        If the name is blank or the importance out of bounds.
    """

    name: str
    importance: Number = 1

    def __post_init__(self) -> None:
        collector = FaultCollector()
        object.__setattr__(self, "name", _text(self.name, "name", collector))
        collector.note_fault("importance", IMPORTANCE.fault(self.importance))
        collector.raise_if_any()


@dataclass(frozen=True, eq=False)
class OwnColour:
    """A colour of the painter's own, to be painted beside or instead of flowers.

    Parameters
    ----------
    name
        What it is called in recipes.
    importance
        As of a `FlowerWish`.
    lab
        CIELAB relative to the white of the scenario's light.
    reflectance
        Measured reflectance [0–1] on the bands, shape (36,), 380 to 730 nm every 10 nm; turned
        into CIELAB under the scenario's light. Exactly one of `lab` and `reflectance` is given.

    Raises
    ------
    InputError
        With every fault found.

    Examples
    --------
    >>> OwnColour.from_hex("pot of blue glaze", "#5f86a8").lab[0] > 50
    True
    """

    name: str
    importance: Number = 1
    lab: Lab | None = None
    reflectance: FloatArray | None = None

    def __post_init__(self) -> None:
        collector = FaultCollector()
        object.__setattr__(self, "name", _text(self.name, "name", collector))
        collector.note_fault("importance", IMPORTANCE.fault(self.importance))
        if (self.lab is None) == (self.reflectance is None):
            collector.note("lab or reflectance", "give the colour in exactly one of the two ways.")
        if self.lab is not None:
            _check_lab(self.lab, collector)
        if self.reflectance is not None:
            _check_reflectance(self.reflectance, collector)
        collector.raise_if_any()

    @classmethod
    def from_hex(cls, name: str, colour: str, importance: Number = 1) -> "OwnColour":
        """Return the colour that a screen (sRGB) shows for ``#rrggbb``.

        Raises
        ------
        InputError
            If the colour is not written so, or the name or importance will not do.
        """
        collector = FaultCollector()
        lab: Lab = (0.0, 0.0, 0.0)
        try:
            lightness, a, b = hex_to_lab(colour).tolist()
            lab = (lightness, a, b)
        except ValueError:
            what = f"is {colour!r}; it must be written as #rrggbb, such as #c21e56."
            collector.note("colour", what)
        collector.raise_if_any()
        return cls(name, importance, lab=lab)


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
        included; None for no floor.
    avoid_hazards
        What no tube may hold, owned ones included.
    millilitres
        Paint that every tube bought must hold [ml], 0 to 1,000; 0 = any pack will do.
    thinnest_wash
        Weakest wash strength allowed [0–1]; e.g. 0.5 for colour that is laid thick.
    least_coverage
        Coverage that must be reached [0–1].

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
    least_coverage: Number = 0

    def __post_init__(self) -> None:
        collector = FaultCollector()
        for key in ("owned", "must_have", "never", "avoid_hazards"):
            object.__setattr__(self, key, _each_once(getattr(self, key), key, collector))
        for key, allowed in (
            ("millilitres", WISHED_MILLILITRES),
            ("thinnest_wash", WASH),
            ("least_coverage", COVERAGE),
        ):
            collector.note_fault(key, allowed.fault(getattr(self, key)))
        collector.raise_if_any()
        for key, sentence in clashes(self.owned, self.must_have, self.never):
            collector.note(key, sentence)
        collector.raise_if_any()


@dataclass(frozen=True, eq=False, init=False)
class Scenario:
    """A budget, the flowers and colours to be painted, and the wishes.

    Parameters
    ----------
    budget
        Most that may be spent, in the currency (not in hundredths of it), above 0 and at most
        1,000,000, at most two decimals; an `int`, `float`, `Decimal` or text, kept as `Decimal`.
    currency
        ISO 4217 code of prices in the catalogue, such as ``"EUR"``.
    flowers
        Names of flowers of the catalogue, pairs of a name and an importance, or `FlowerWish`.
    own_colours
        Colours of one's own; at least one flower or colour is needed.
    title
        What the plan is called.
    shows
        What the scenario is meant to show; mostly blank.
    most_tubes
        Most tubes to buy, 1 to 1,000; None for no limit.
    tolerance
        Largest match that counts as covered [ΔE00], above 0 and at most 20.
    wishes
        Side conditions on the tubes.
    paper, light
        Ids of the catalogue.

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
    fewtubes.errors.InputError: tolerance: is -1; it must be above 0 and at most 20.
    """

    budget: Decimal
    currency: str
    flowers: tuple[FlowerWish, ...]
    own_colours: tuple[OwnColour, ...]
    title: str
    shows: str
    most_tubes: int | None
    tolerance: float
    wishes: Wishes
    paper: str
    light: str

    def __init__(
        self,
        *,
        budget: Decimal | float | str,
        currency: str,
        flowers: Iterable[FlowerWish | str | tuple[str, Number]] = (),
        own_colours: Iterable[OwnColour] = (),
        title: str = "My flowers",
        shows: str = "",
        most_tubes: int | None = None,
        tolerance: float = defaults.TOLERANCE,
        wishes: Wishes | None = None,
        paper: str = defaults.PAPER,
        light: str = defaults.LIGHT,
    ) -> None:
        collector = FaultCollector()
        values = {
            "budget": _budget(budget, collector),
            "currency": _text(currency, "currency", collector),
            "flowers": _flowers(flowers, collector),
            "own_colours": tuple(own_colours),
            "title": _text(title, "title", collector),
            "shows": _text(shows, "shows", collector, longest=LONGEST_PURPOSE) if shows else "",
            "most_tubes": most_tubes,
            "tolerance": tolerance,
            "wishes": Wishes() if wishes is None else wishes,
            "paper": _text(paper, "paper", collector),
            "light": _text(light, "light", collector),
        }
        for key, value in values.items():
            object.__setattr__(self, key, value)
        if most_tubes is not None:
            collector.note_fault("most_tubes", MOST_TUBES.fault(most_tubes, whole=True))
        collector.note_fault("tolerance", TOLERANCE.fault(tolerance))
        _check_names(self.flowers, self.own_colours, collector)
        collector.raise_if_any()

    @property
    def budget_hundredths(self) -> int:
        """The budget as a whole number of hundredths of the currency."""
        return hundredths(self.budget)


def _budget(budget: Decimal | float | str, collector: FaultCollector) -> Decimal:
    """Return a budget as it was written; 1 after a fault."""
    amount = budget_of(budget)
    fault = f"is {budget!r}, which is no amount; give one such as 35.00"
    if amount is not None:
        fault = budget_fault(amount) or ""
    collector.note_fault("budget", fault)
    return Decimal(1) if amount is None or fault else amount


def _flowers(
    flowers: Iterable[FlowerWish | str | tuple[str, Number]], collector: FaultCollector
) -> tuple[FlowerWish, ...]:
    """Return flowers as wishes; faults of each are told under ``flowers``."""
    found = []
    for flower in (flowers,) if isinstance(flowers, str) else flowers:
        if isinstance(flower, FlowerWish):
            found.append(flower)
            continue
        name, importance = (flower, 1) if isinstance(flower, str) else flower
        try:
            found.append(FlowerWish(name, importance))
        except InputError as error:
            for fault in error.faults:
                collector.note("flowers", f"the {fault.where} of {shown(name)} {fault.what}")
    return tuple(found)


def _check_names(
    flowers: Sequence[FlowerWish], own_colours: Sequence[OwnColour], collector: FaultCollector
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


def _text(text: str, key: str, collector: FaultCollector, **limits: int) -> str:
    """Return a text on one line, in composed form."""
    if not isinstance(text, str):
        collector.note(key, f"is {text!r}; it must be a text.")
        return ""
    found = composed(" ".join(text.split()))
    collector.note_fault(key, text_fault(found, **limits))
    return found


def _each_once(values: Iterable[T], key: str, collector: FaultCollector) -> tuple[T, ...]:
    """Return the values as a tuple; a single text is a slip, since it would be read by letters."""
    if isinstance(values, str):
        collector.note(key, f"is the text {shown(values)}; give a list, such as [{values!r}].")
        return ()
    return tuple(dict.fromkeys(values))


def _check_lab(lab: Lab, collector: FaultCollector) -> None:
    if len(lab) != 3:
        collector.note("lab", f"has {len(lab)} numbers; give three: L*, a* and b*.")
        return
    for axis, value, allowed in zip(
        ("L*", "a*", "b*"), lab, (LIGHTNESS, OPPONENT, OPPONENT), strict=True
    ):
        fault = allowed.fault(value)
        collector.note_fault("lab", fault and f"{axis} {fault}")


def _check_reflectance(reflectance: FloatArray, collector: FaultCollector) -> None:
    shape = np.shape(reflectance)
    if shape != (BAND_COUNT,):
        what = f"has the shape {shape}; it must be ({BAND_COUNT},), 380 to 730 nm every 10 nm."
        collector.note("reflectance", what)
        return
    for value in (float(np.min(reflectance)), float(np.max(reflectance))):
        fault = REFLECTANCE.fault(value)
        if fault:
            collector.note_fault("reflectance", f"holds a value that {fault}")
            return
