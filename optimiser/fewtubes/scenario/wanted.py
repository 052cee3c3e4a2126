"""What is to be painted: flowers of the catalogue, and colours of the painter's own."""

from dataclasses import dataclass

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.exact import Number, plain_number
from fewtubes.catalogue.limits import IMPORTANCE
from fewtubes.colour.bands import FloatArray
from fewtubes.scenario.checks import Lab, checked_text, lab_of_hex, settle_colour
from fewtubes.scenario.picture_wish import settle_area

__all__ = ["FlowerWish", "OwnColour"]


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
    area_cm2
        Painted area in one picture [cm²], above 0 and at most 100,000; None for what the
        scenario's `PictureWish` says. Only of use where paint is reckoned.

    Raises
    ------
    InputError
        If the name is blank, or importance or area out of bounds.
    """

    name: str
    importance: Number = 1
    area_cm2: float | None = None

    def __post_init__(self) -> None:
        collector = FaultCollector()
        object.__setattr__(self, "name", checked_text(self.name, "name", collector))
        collector.note_fault("importance", IMPORTANCE.fault(self.importance))
        settle_area(self, collector)
        collector.raise_if_any()
        object.__setattr__(self, "importance", plain_number(self.importance))


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
    area_cm2
        As of a `FlowerWish`.

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
    area_cm2: float | None = None

    def __post_init__(self) -> None:
        collector = FaultCollector()
        object.__setattr__(self, "name", checked_text(self.name, "name", collector))
        collector.note_fault("importance", IMPORTANCE.fault(self.importance))
        settle_colour(self, collector)
        settle_area(self, collector)
        collector.raise_if_any()
        object.__setattr__(self, "importance", plain_number(self.importance))

    @classmethod
    def from_hex(cls, name: str, colour: str, importance: Number = 1) -> "OwnColour":
        """Return the colour that a screen (sRGB) shows for ``#rrggbb``.

        Raises
        ------
        InputError
            If the colour is not written so, or the name or importance will not do.
        """
        return cls(name, importance, lab=lab_of_hex(colour))
