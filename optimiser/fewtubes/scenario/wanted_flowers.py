"""What is to be painted, however it was given, and whether its names can be told apart."""

from collections.abc import Iterable, Mapping, Sequence

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.exact import Number
from fewtubes.catalogue.limits import shown
from fewtubes.errors import InputError
from fewtubes.scenario.demands import repeats, taken_fault
from fewtubes.scenario.own_flowers import OwnFlower
from fewtubes.scenario.wanted import FlowerWish, OwnColour

__all__ = ["Wanted", "check_names", "flowers_wanted"]

Wanted = FlowerWish | OwnFlower | str | tuple[str, Number]
"""What stands for a flower where a scenario is made."""

NOTHING_TO_PAINT = "there is nothing to paint; name at least one flower or colour of your own."


def flowers_wanted(
    flowers: Mapping[str, Number] | Iterable[Wanted],
    collector: FaultCollector,
) -> tuple[FlowerWish | OwnFlower, ...]:
    """Return flowers as wishes, or as one's own; faults of each are told under ``flowers``."""
    found: list[FlowerWish | OwnFlower] = []
    if isinstance(flowers, Mapping):
        flowers = flowers.items()
    if not isinstance(flowers, Iterable):
        collector.note("flowers", f"is {flowers!r}; give a list of names, such as ['foxglove'].")
        return ()
    for flower in (flowers,) if isinstance(flowers, str) else flowers:
        if isinstance(flower, FlowerWish | OwnFlower):
            found.append(flower)
            continue
        pair = (flower, 1) if isinstance(flower, str) else flower
        if not isinstance(pair, tuple | list) or len(pair) != 2:
            what = "each must be a name, or a name and its importance"
            collector.note("flowers", f"holds {flower!r}; {what}.")
            continue
        name, importance = pair
        try:
            found.append(FlowerWish(name, importance))
        except InputError as error:
            for fault in error.faults:
                collector.note("flowers", f"the {fault.where} of {shown(name)} {fault.what}")
    return tuple(found)


def check_names(
    flowers: Sequence[FlowerWish | OwnFlower],
    own_colours: Sequence[OwnColour],
    collector: FaultCollector,
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
