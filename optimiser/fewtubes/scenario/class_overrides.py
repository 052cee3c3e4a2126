"""What of a class, its mixes and its pictures is replaced by values given besides."""

from dataclasses import replace

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.errors import InputError
from fewtubes.scenario.class_wish import ClassWish, mix_fault
from fewtubes.scenario.demands import IN_MIX
from fewtubes.scenario.picture_wish import PICTURE_NUMBERS, PictureWish
from fewtubes.scenario.records import Scenario

__all__ = ["group_of", "in_mix_of", "pictures_of"]

NO_CLASS = (
    "the scenario has no class; write one under [class], with who the pupils are and how tubes are"
    " shared."
)


def group_of(
    group: ClassWish | None, painters: int | None, collector: FaultCollector, *, budget: bool
) -> ClassWish | None:
    """Return the class with as many painters as are given; a budget that is given ends a levy."""
    if group is None:
        if painters is not None:
            collector.note("painters", NO_CLASS)
        return None
    try:
        changed = group if painters is None else replace(group, painters=painters)
    except InputError as error:
        for fault in error.faults:
            collector.note("painters", fault.what)
        return group
    return replace(changed, levy=None) if budget else changed


def in_mix_of(most: int | None, group: ClassWish | None, collector: FaultCollector) -> int | None:
    """Return how many tubes a mix may hold, noting more than the class may mix."""
    if most is None:
        return None
    fault = IN_MIX.fault(most, whole=True)
    if fault is None and group is not None and most > group.most_in_mix:
        fault = mix_fault(most, group)
    collector.note_fault("most_in_mix", fault)
    return most


def pictures_of(
    paint_for: int | None, scenario: Scenario, collector: FaultCollector
) -> PictureWish | None:
    """Return the pictures planned, as many as are given."""
    picture = scenario.picture
    fault = None
    if paint_for is not None:
        fault = PICTURE_NUMBERS["pictures"].fault(paint_for, whole=True)
        if fault is None and scenario.group is not None:
            fault = "the scenario is of a class, which says how many pictures are painted"
        collector.note_fault("paint_for", fault)
    if paint_for is None or fault:
        return picture
    return replace(picture or PictureWish(), pictures=paint_for)
