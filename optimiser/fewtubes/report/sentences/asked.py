"""What was asked, in words: budget and measure, and the wishes."""

import math
from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from fewtubes.catalogue.records import Lightfastness
from fewtubes.mixing.opacity import Transparency
from fewtubes.mixing.recipes import MOST_IN_MIX, STRENGTHS
from fewtubes.report.sentences.painters import class_words, kind_bought
from fewtubes.scenario.preference import Prefer
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.words.counting import counted
from fewtubes.words.hazards import avoided_words
from fewtubes.words.left import NEARLY_EMPTY, left_words
from fewtubes.words.lists import joined
from fewtubes.words.matches import limit_words
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.recipes import in_mix_words
from fewtubes.words.shares import asked_percent
from fewtubes.words.washes import strength_words

__all__ = [
    "NONE_KNOWN",
    "Names",
    "asked_words",
    "counting_words",
    "floor_words",
    "wish_words",
]

MOST_NAMED = 6
"""Tubes named one by one; beyond, their number tells more than their names."""

Names = Mapping[str, str]
"""What tubes are called, by id; one that is not among them is told by its id."""

NONE_KNOWN: Names = MappingProxyType({})


def asked_words(scenario: Scenario, catalogue_label: str, names: Names = NONE_KNOWN) -> str:
    """Return what was asked, wishes included, in whole sentences.

    Parameters
    ----------
    scenario
        The question.
    catalogue_label
        Where its tubes are from; not said if blank.
    names
        Of the tubes that it names, by id, as `named_tubes` finds them.
    """
    group = scenario.group
    kind = kind_bought(group)
    most = "" if scenario.most_tubes is None else f" and {counted(scenario.most_tubes, kind)}"
    wishes = wish_words(scenario.wishes, names)
    tubes = f"; tubes from: {printable(catalogue_label)}" if catalogue_label else ""
    paint = "" if scenario.picture is None else _paint(scenario.picture.pictures)
    prices = f"; prices from: {printable(scenario.prices)}" if scenario.prices else ""
    return (
        f"Asked: at most {money(scenario.budget_hundredths, scenario.currency)}{most};"
        f" a colour counts as covered up to {limit_words(scenario.tolerance)};"
        f" paper {printable(scenario.paper)},"
        f" light {printable(scenario.light)}{tubes}{prices}.{paint}"
        f"{f' Wished: {wishes}.' if wishes else ''}"
        f"{'' if group is None else f' {class_words(group, scenario.currency)}'}"
        f"{_preferred(scenario)}"
    )


def _paint(pictures: int) -> str:
    """Return that paint is to be enough for pictures, as a further sentence."""
    return f" Paint is to be enough for {counted(pictures, 'picture')}."


def _preferred(scenario: Scenario) -> str:
    """Return that the price goes before lightfastness, where it does, as a further sentence."""
    said = ""
    if scenario.prefer is Prefer.CHEAPEST:
        said = " Of choices that cover as much with as few tubes the cheapest is preferred."
    if scenario.nearer:
        said += (
            " Of choices that equal each other but for the price the one is taken that also comes"
            " nearest to what is out of reach."
        )
    return said


def counting_words(counted_to: int | None) -> str:
    """Return to what accuracy importances are counted; empty if that is exactly, None."""
    if counted_to is None:
        return ""
    return (
        f"The importances have no common measure that is coarse enough; they are counted to 1 in"
        f" {counted_to:,} of the whole, and what is said of coverage holds to that accuracy."
    )


def wish_words(wishes: Wishes, names: Names = NONE_KNOWN) -> str:
    """Return the wishes, parted by semicolons; empty if there is none."""
    return "; ".join(_wishes(wishes, names))


def floor_words(floor: Lightfastness | Transparency) -> str:
    """Return a floor for every tube, e.g. ``lightfastness II or better``."""
    if isinstance(floor, Lightfastness):
        better = "" if floor is Lightfastness.I else " or better"
        return f"lightfastness {floor.name}{better}"
    clearer = "" if floor is Transparency.TRANSPARENT else " or clearer"
    return f"every tube {floor.word}{clearer}"


def _wishes(wishes: Wishes, names: Names) -> Iterator[str]:
    if wishes.lightfastness_floor is not None:
        yield floor_words(wishes.lightfastness_floor)
    if wishes.transparency_floor is not None:
        yield floor_words(wishes.transparency_floor)
    if wishes.avoid_hazards:
        yield avoided_words(wishes.avoid_hazards)
    if wishes.millilitres:
        yield f"at least {wishes.millilitres:g} ml of every tube bought"
    if wishes.thinnest_wash:
        yield f"no wash thinner than {_thinnest(wishes.thinnest_wash)}"
    if wishes.most_in_mix < MOST_IN_MIX:
        yield f"mixes of {in_mix_words(wishes.most_in_mix)}"
    if wishes.least_coverage:
        yield f"at least {asked_percent(wishes.least_coverage)} covered"
    if wishes.must_have:
        yield f"in any case {_tubes(wishes.must_have, names, 'and')}"
    if wishes.never:
        yield f"never {_tubes(wishes.never, names, 'or')}"
    if wishes.all_owned:
        yield f"{counted(len(wishes.all_owned), 'tube')} owned already{_boxed(wishes, names)}"


def _boxed(wishes: Wishes, names: Names) -> str:
    """Return which of the owned tubes are of the box at home, and how full; blank if none is."""
    owned = wishes.all_owned
    boxed = [tube for tube in wishes.box.tubes if tube.id in owned and not tube.is_empty]
    if not boxed:
        return ""
    if len(boxed) > MOST_NAMED:
        low = sum(tube.left <= NEARLY_EMPTY for tube in boxed)
        return f", {len(boxed)} of them in the box at home{f' ({low} nearly empty)' if low else ''}"
    named = joined([f"{_called(tube.id, names)} ({left_words(tube.left)})" for tube in boxed])
    return f", in the box at home {named}"


def _thinnest(strength: float) -> str:
    """Return the thinnest wash allowed: a usual one in words, another exactly as it was given."""
    usual = any(math.isclose(strength, known, rel_tol=1e-6) for known in STRENGTHS)
    if not usual:
        return f"{asked_percent(strength)} of full strength"
    words = strength_words(strength)
    return f"a {words}" if "wash" in words else words


def _tubes(ids: Sequence[str], names: Names, last: str) -> str:
    if len(ids) > MOST_NAMED:
        return f"{counted(len(ids), 'tube')} of the catalogue"
    return joined([_called(id_, names) for id_ in ids], last)


def _called(id_: str, names: Names) -> str:
    return printable(names.get(id_, id_))
