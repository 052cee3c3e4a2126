"""Whether a catalogue holds what a scenario names, told in the words of its fields."""

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.records import Catalogue
from fewtubes.scenario.demands import currency_fault, missing_from
from fewtubes.scenario.records import Scenario

__all__ = ["check_names"]


def check_names(scenario: Scenario, catalogue: Catalogue) -> None:
    """Raise `InputError` with every name that the catalogue does not hold.

    Parameters
    ----------
    scenario
        Names a currency, flowers, tubes, a paper and a light.
    catalogue
        Is to hold them.
    """
    collector, wishes = FaultCollector(), scenario.wishes
    collector.note_fault("currency", currency_fault(scenario.currency, catalogue))
    flowers = [wish.name for wish in scenario.flowers]
    for key, names, held, kind in (
        ("flowers", flowers, catalogue.flowers, "flower"),
        ("owned", wishes.owned, catalogue.tubes, "tube"),
        ("box", [tube.id for tube in wishes.box.tubes], catalogue.tubes, "tube"),
        ("must_have", wishes.must_have, catalogue.tubes, "tube"),
        ("never", wishes.never, catalogue.tubes, "tube"),
        ("paper", [scenario.paper], catalogue.papers, "paper"),
        ("light", [scenario.light], catalogue.lights, "light"),
    ):
        for sentence in missing_from(names, held, kind, collector.suggestion):
            collector.note(key, sentence)
    collector.raise_if_any()
