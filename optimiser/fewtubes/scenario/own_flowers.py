"""A flower of the painter's own, with its colours, beside those of the catalogue.

It is treated as a flower of the catalogue is: its colours have roles, its petals have steps, and
its importance is divided over its colours by theirs. What a colour counts where nothing is said is
what colours of its role mostly count in the demo catalogue.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.exact import Number, plain_number
from fewtubes.catalogue.limits import IMPORTANCE, shown
from fewtubes.catalogue.names import alike_key
from fewtubes.catalogue.records import Flower, Role, Swatch
from fewtubes.catalogue.sizes import MOST_SWATCHES
from fewtubes.colour.bands import FloatArray
from fewtubes.scenario.checks import (
    Lab,
    checked_text,
    lab_of_hex,
    member,
    settle_colour,
)
from fewtubes.scenario.demands import repeats
from fewtubes.scenario.picture_wish import settle_area

__all__ = [
    "NO_COLOURS",
    "USUAL_IMPORTANCE",
    "OwnFlower",
    "OwnSwatch",
    "held_fault",
    "held_otherwise",
    "usual_importance",
]

USUAL_IMPORTANCE = {Role.PETAL: 3, Role.PETAL_LIGHT: 2, Role.PETAL_SHADE: 2}
"""What most colours of a role count within their flower in the demo catalogue; all others 1."""

NO_COLOURS = "has no colours; give it one at least"


def usual_importance(role: Role) -> int:
    """Return what a colour of a role counts within its flower where nothing is said."""
    return USUAL_IMPORTANCE.get(role, 1)


@dataclass(frozen=True, eq=False)
class OwnSwatch:
    """One colour of a flower of the painter's own.

    Parameters
    ----------
    name
        What the colour is called in recipes, such as ``"light edge"``.
    role
        The part of the plant; the word will do, such as ``"petal light"``.
    lab, reflectance
        As of an `OwnColour`; exactly one of the two is given.
    importance
        Weight among the colours of the flower, above 0 and at most 1,000; None for what is usual
        for the role: a petal 3, its light and its shade 2, all else 1.

    Raises
    ------
    InputError
        With every fault found.

    Examples
    --------
    >>> OwnSwatch.from_hex("fold", "petal shade", "#7a1f3d").importance
    2
    """

    name: str
    role: Role
    lab: Lab | None = None
    reflectance: FloatArray | None = None
    importance: Number | None = None

    def __post_init__(self) -> None:
        collector = FaultCollector()
        object.__setattr__(self, "name", checked_text(self.name, "name", collector))
        role = member(self.role, "role", Role, collector)
        settle_colour(self, collector)
        importance = self.importance
        if importance is None:
            importance = usual_importance(role or Role.PETAL)
        collector.note_fault("importance", IMPORTANCE.fault(importance))
        collector.raise_if_any()
        object.__setattr__(self, "role", role)
        object.__setattr__(self, "importance", plain_number(importance))

    @classmethod
    def from_hex(
        cls, name: str, role: Role | str, colour: str, importance: Number | None = None
    ) -> "OwnSwatch":
        """Return the colour that a screen (sRGB) shows for ``#rrggbb``.

        Raises
        ------
        InputError
            If the colour is not written so, or name, role or importance will not do.
        """
        return cls(name, role, lab=lab_of_hex(colour), importance=importance)  # type: ignore[arg-type]

    @classmethod
    def of(cls, swatch: Swatch) -> "OwnSwatch":
        """Return a colour of a catalogue's flower as one's own."""
        return cls(swatch.name, swatch.role, lab=swatch.lab, importance=swatch.importance)

    def seen(self, lab: Lab) -> Swatch:
        """Return it as a colour of a catalogue's flower.

        Parameters
        ----------
        lab
            What it looks like under the light of the scenario.
        """
        importance = self.importance if self.importance is not None else 1
        return Swatch(self.name, self.role, lab, importance)


@dataclass(frozen=True, eq=False)
class OwnFlower:
    """A flower of the painter's own, to be painted like one of the catalogue.

    It stands among the `flowers` of a `Scenario`.

    Parameters
    ----------
    name
        Of which no other flower or colour of the scenario is, in any capitals, nor a flower of the
        catalogue that has other colours.
    swatches
        Its colours, 1 to 100 of them, each with a name of its own. Between those of its petals lie
        steps as in a flower of the catalogue; a leaf or a fern has no petals and no steps.
    importance, area_cm2
        As of a `FlowerWish`.

    Raises
    ------
    InputError
        With every fault found.

    Examples
    --------
    >>> bell = OwnSwatch.from_hex("bell", "petal", "#8a5fb0")
    >>> leaf = OwnSwatch("leaf", "leaf", lab=(46, -24, 28))
    >>> OwnFlower("my bellflower", [bell, leaf], importance=2).swatches[1].lab
    (46.0, -24.0, 28.0)
    """

    name: str
    swatches: tuple[OwnSwatch, ...]
    importance: Number = 1
    area_cm2: float | None = None

    def __post_init__(self) -> None:
        collector = FaultCollector()
        object.__setattr__(self, "name", checked_text(self.name, "name", collector))
        collector.note_fault("importance", IMPORTANCE.fault(self.importance))
        settle_area(self, collector)
        object.__setattr__(self, "swatches", _swatches(self.swatches, collector))
        collector.raise_if_any()
        object.__setattr__(self, "importance", plain_number(self.importance))

    @classmethod
    def of(
        cls, flower: Flower, importance: Number = 1, area_cm2: float | None = None
    ) -> "OwnFlower":
        """Return a flower of a catalogue as one's own, with the same colours."""
        swatches = tuple(OwnSwatch.of(one) for one in flower.swatches)
        return cls(flower.name, swatches, importance, area_cm2)

    def is_like(self, flower: Flower) -> bool:
        """Return whether a flower of a catalogue has the same name and the same colours."""
        return self.name == flower.name and flower.swatches == tuple(
            None if own.lab is None else own.seen(own.lab) for own in self.swatches
        )


def held_otherwise(
    own: Sequence[OwnFlower], held: Mapping[str, Flower]
) -> Iterator[tuple[OwnFlower, str]]:
    """Yield every flower of one's own that a catalogue holds with other colours.

    Each comes with why it will not do, as the end of a sentence.
    """
    called = {alike_key(name): name for name in held} if own else {}
    for flower in own:
        name = called.get(alike_key(flower.name))
        if name is not None and not flower.is_like(held[name]):
            yield flower, held_fault(flower.name, name)


def held_fault(name: str, held: str) -> str:
    """Return why a flower with own colours may not bear the name of one there is."""
    alike = "" if name == held else f", as {shown(held)}"
    return (
        f"there is a flower {shown(name)} already{alike}; give the one with your own colours"
        " another name, or leave its colours out"
    )


def _swatches(swatches: object, collector: FaultCollector) -> tuple[OwnSwatch, ...]:
    """Return the colours of a flower, each of which must have a name of its own."""
    given = list(swatches) if isinstance(swatches, Iterable) else []
    found = tuple(one for one in given if isinstance(one, OwnSwatch))
    if len(found) < len(given) or not isinstance(swatches, Iterable) or isinstance(swatches, str):
        collector.note("swatches", f"is {swatches!r}; give a list of OwnSwatch.")
        return ()
    collector.note_fault("swatches", _count_fault(len(found)))
    for _, sentence in repeats([one.name for one in found]):
        collector.note_fault("swatches", f"the swatch {sentence}")
    return found


def _count_fault(count: int) -> str | None:
    """Return why a flower may not have so many colours, as the end of a sentence, or None."""
    if not count:
        return NO_COLOURS
    if count > MOST_SWATCHES:
        return f"has {count:,} colours; at most {MOST_SWATCHES:,} are allowed, so leave some out"
    return None
