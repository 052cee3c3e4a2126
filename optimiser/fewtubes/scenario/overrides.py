"""A scenario with some of its values replaced.

The same rules hold as for a whole one; a fault is told of the argument that brought it.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Any, TypeVar

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.commas import comma_hint
from fewtubes.catalogue.limits import NumberRange, shown, word_fault
from fewtubes.catalogue.names import alike_key, composed
from fewtubes.catalogue.records import Catalogue, Hazard, Lightfastness
from fewtubes.mixing.opacity import Transparency
from fewtubes.scenario.called import id_of, looked_up
from fewtubes.scenario.checks import checked_text, member, texts
from fewtubes.scenario.class_overrides import group_of, in_mix_of, pictures_of
from fewtubes.scenario.demands import (
    ANY_HAZARD,
    MOST_TUBES,
    TOLERANCE,
    TRANSPARENCY_FLOORS,
    WISHED_MILLILITRES,
    budget_fault,
    budget_of,
    clashes,
)
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.names import settled_box
from fewtubes.scenario.own_flowers import OwnFlower
from fewtubes.scenario.preference import Prefer
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish

__all__ = ["with_overrides"]

N = TypeVar("N", int, float)
T = TypeVar("T")


def with_overrides(
    scenario: Scenario,
    *,
    catalogue: Catalogue,
    budget: float | Decimal | str | None = None,
    most_tubes: int | None = None,
    tolerance: float | None = None,
    flowers: str | Sequence[str] = (),
    owned: Sequence[str] = (),
    must_have: Sequence[str] = (),
    never: Sequence[str] = (),
    paper: str | None = None,
    light: str | None = None,
    box: BoxAtHome | None = None,
    prefer: Prefer | str | None = None,
    nearer: bool | None = None,
    lightfastness: Lightfastness | str | None = None,
    transparency: Transparency | str | None = None,
    avoid_hazards: Sequence[Hazard | str] = (),
    millilitres: float | None = None,
    most_in_mix: int | None = None,
    painters: int | None = None,
    paint_for: int | None = None,
) -> Scenario:
    """Return the scenario with the values that are given; None and () keep its own.

    What the scenario is meant to show is told of its own values, so any other value drops it.

    Parameters
    ----------
    scenario, catalogue
        The scenario and the catalogue that its names refer to.
    budget
        [currency], above 0, at most two decimals.
    most_tubes, tolerance
        As in the scenario's file; the tolerance is in ΔE00.
    flowers
        Replace the scenario's flowers; one that it named keeps its importance, others have 1. A
        flower of one's own that stands in the scenario may be named as well. Own colours stay.
    owned, must_have, never
        Tubes added to those of the scenario, by id or name.
    paper, light
        Of the catalogue, by id or name.
    box
        The box at home, in the place of the scenario's own.
    prefer
        What decides between choices that cover as much with as few tubes; see `Scenario`.
    nearer
        Whether among equals what is out of reach is to come as near as it can; see `Scenario`.
    lightfastness, transparency
        Floors in the place of the scenario's own; the words will do.
    avoid_hazards
        Hazards added to those that the scenario avoids; the words will do, and ``"any"`` for all.
    millilitres
        Paint that every tube bought must hold [ml], 0 to 1,000, in the place of the scenario's own.
    most_in_mix
        Most tubes in a mix, 1 to 3, in the place of the scenario's own.
    painters
        How many the scenario's class has, 2 to 500, in the place of its own; with a levy the budget
        follows. A `budget` that is given goes before a levy.
    paint_for
        Pictures for which paint is to be enough, 1 to 10,000, in the place of the scenario's own;
        what one is like stays.

    Raises
    ------
    InputError
        With every fault found, if there is any, each under the name of its parameter.

    Examples
    --------
    >>> from fewtubes import Scenario, read_catalogue, with_overrides
    >>> scenario = Scenario(budget=9, currency="EUR", flowers={"primrose": 2})
    >>> richer = with_overrides(scenario, catalogue=read_catalogue(), budget="12.50")
    >>> richer.budget_hundredths, richer.flowers[0].importance
    (1250, 2)
    """
    collector = FaultCollector()
    group = group_of(scenario.group, painters, collector, budget=budget is not None)
    together = None if group is None else group.budget
    changed: dict[str, Any] = {
        "budget": _budget(budget, together or scenario.budget, collector),
        "group": group,
        "most_tubes": _within("most_tubes", most_tubes, MOST_TUBES, collector, whole=True)
        or scenario.most_tubes,
        "tolerance": _within("tolerance", tolerance, TOLERANCE, collector) or scenario.tolerance,
        "flowers": _flowers(flowers, scenario, catalogue, collector),
        "paper": _chosen("paper", paper, catalogue.papers, collector) or scenario.paper,
        "light": _chosen("light", light, catalogue.lights, collector) or scenario.light,
        "prefer": _preferred(prefer, collector) or scenario.prefer,
        "nearer": scenario.nearer if nearer is None else nearer,
        "picture": pictures_of(paint_for, scenario, collector),
    }
    added = {"owned": owned, "must_have": must_have, "never": never}
    lists = _lists(scenario.wishes, added, catalogue, collector)
    if box is not None:
        lists["box"] = settled_box(box, catalogue, collector)
    floors = {
        "lightfastness_floor": _word("lightfastness", lightfastness, Lightfastness, collector),
        "transparency_floor": _clear(transparency, collector),
        "millilitres": _within("millilitres", millilitres, WISHED_MILLILITRES, collector),
        "most_in_mix": in_mix_of(most_in_mix, group, collector),
        "avoid_hazards": _hazards(avoid_hazards, scenario.wishes, collector),
    }
    lists |= {key: value for key, value in floors.items() if value is not None}
    collector.raise_if_any()
    changed["wishes"] = replace(scenario.wishes, **lists)
    if all(getattr(scenario, key) == value for key, value in changed.items()):
        return scenario
    return replace(scenario, shows="", **changed)


def _budget(
    budget: float | Decimal | str | None, default: Decimal, collector: FaultCollector
) -> Decimal:
    """Return the budget, exactly as it was given [currency]."""
    if budget is None:
        return default
    amount = budget_of(budget)
    hint = comma_hint(budget) if isinstance(budget, str) else ""
    fault = f"is not a number{hint or '; give an amount such as 35.00'}"
    if amount is not None:
        fault = budget_fault(amount) or ""
    if amount is None or fault:
        collector.note("budget", f"the budget {fault}.")
        return default
    return amount


def _within(
    key: str,
    value: N | None,
    allowed: NumberRange,
    collector: FaultCollector,
    *,
    whole: bool = False,
) -> N | None:
    """Return the value, noting it if it lies outside its range."""
    if value is not None:
        collector.note_fault(key, allowed.fault(value, whole=whole))
    return value


def _word(key: str, word: object, kind: type[T], collector: FaultCollector) -> T | None:
    """Return the grade that is given, as itself or by its word; None if none is."""
    return None if word is None else member(word, key, kind, collector)


def _clear(word: Transparency | str | None, collector: FaultCollector) -> Transparency | None:
    """Return the least transparency that is given; every tube is opaque or clearer anyway."""
    if not isinstance(word, str) or word.casefold() in TRANSPARENCY_FLOORS:
        return _word("transparency", word, Transparency, collector)
    collector.note_fault("transparency", word_fault(word, TRANSPARENCY_FLOORS))
    return None


def _hazards(
    added: Sequence[Hazard | str], wishes: Wishes, collector: FaultCollector
) -> tuple[Hazard, ...]:
    """Return the hazards to avoid, those that are added included, in the order of `Hazard`."""
    words = (added,) if isinstance(added, str) else added
    if any(isinstance(word, str) and word.casefold() == ANY_HAZARD for word in words):
        return tuple(Hazard)
    asked = [member(word, "avoid_hazards", Hazard, collector) for word in words]
    return tuple(dict.fromkeys((*wishes.avoid_hazards, *filter(None, asked))))


def _chosen(
    key: str, name: str | None, known: Mapping[str, object], collector: FaultCollector
) -> str | None:
    """Return the id, noting it if it is no text or the catalogue does not hold it."""
    if name is None:
        return None
    if not isinstance(name, str):
        return checked_text(name, key, collector)
    (found,) = looked_up([name], known, key, where=key, collector=collector)
    return found


def _preferred(prefer: Prefer | str | None, collector: FaultCollector) -> Prefer | None:
    """Return what is preferred; a word will do."""
    return None if prefer is None else member(prefer, "prefer", Prefer, collector)


def _flowers(
    asked: str | Sequence[str],
    scenario: Scenario,
    catalogue: Catalogue,
    collector: FaultCollector,
) -> tuple[FlowerWish | OwnFlower, ...]:
    """Return the flowers in place of the scenario's; a single name will do."""
    given = texts((asked,) if isinstance(asked, str) and asked else asked, "flowers", collector)
    if not given:
        return scenario.flowers
    held = {**catalogue.flowers, **{flower.name: flower for flower in scenario.own_flowers}}
    names = [id_of(name, held) or name for name in (composed(name) for name in given)]
    looked_up(names, held, "flower", where="flowers", collector=collector)
    for name in (name for name, count in Counter(names).items() if count > 1):
        collector.note("flowers", f"the flower {shown(name)} is named twice; name it once.")
    taken = {alike_key(colour.name) for colour in scenario.own_colours}
    for name in names:
        if alike_key(name) in taken:
            what = f"{shown(name)} is the name of one of the scenario's own colours; rename that."
            collector.note("flowers", what)
    before = {wish.name: wish for wish in scenario.flowers}
    return tuple(before.get(name, FlowerWish(name)) for name in names)


def _lists(
    wishes: Wishes,
    added: dict[str, Sequence[str]],
    catalogue: Catalogue,
    collector: FaultCollector,
) -> dict[str, Any]:
    """Return the lists of tubes, longer by those that are added."""
    added = {
        key: looked_up(
            texts(tubes, key, collector), catalogue.tubes, "tube", where=key, collector=collector
        )
        for key, tubes in added.items()
    }
    lists = {key: tuple(dict.fromkeys((*getattr(wishes, key), *added[key]))) for key in added}
    for key, sentence in clashes(**lists):
        collector.note(key, sentence)
    return lists
