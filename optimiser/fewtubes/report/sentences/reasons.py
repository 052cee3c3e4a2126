"""Why a colour stays out of reach, and which single tube would bring it, in words."""

import math

from fewtubes.mixing.recipes import SIZE_WORDS
from fewtubes.report.sentences.purchase import added_words
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.plan_parts import Obstacle, PlannedSample, Remedy
from fewtubes.words.lists import joined
from fewtubes.words.matches import difference, match_words
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.recipes import in_mix_words

__all__ = [
    "bare_paper_words",
    "nearer_words",
    "no_single_words",
    "obstacle_words",
    "reason_words",
]

OBSTACLE_WORDS = {
    Obstacle.BUDGET: "it takes more money, or giving up at least as much elsewhere",
    Obstacle.WISHES: "the wishes rule out the tubes it needs",
    Obstacle.CURRENCY: "tubes that it needs are not sold in this currency",
    Obstacle.NOT_FOR_SALE: "tubes that it needs are not for sale",
    Obstacle.STOCK: "of tubes that it needs too little is in stock",
    Obstacle.ONE_PAINT: "it takes two strengths of one paint, of which one is bought at most",
    Obstacle.CATALOGUE: "no mix of {in_mix} of the catalogue comes near enough",
    Obstacle.SMALL_MIXES: (
        "it takes a mix of more tubes than the {most} that are wished for at most; with"
        " most_in_mix = 3 it can be had"
    ),
}

NO_REMEDY = (
    Obstacle.CATALOGUE,
    Obstacle.SMALL_MIXES,
    Obstacle.ONE_PAINT,
    Obstacle.CURRENCY,
    Obstacle.NOT_FOR_SALE,
    Obstacle.STOCK,
)
"""Obstacles of which it goes without saying that no single tube that is sold would do."""

LIMITED_WORDS = "it takes more money or more tubes, or giving up at least as much elsewhere"
"""Instead of the budget alone, where the number of tubes is limited too."""

MOST_REMEDIES = 3
"""Tubes named in a sentence; the tables hold them all."""


def obstacle_words(obstacle: Obstacle | None, scenario: Scenario) -> str:
    """Return why colours stay out of reach; an empty text for those that are covered."""
    if obstacle is Obstacle.BUDGET and scenario.most_tubes is not None:
        return LIMITED_WORDS
    most = scenario.wishes.most_in_mix
    said = "" if obstacle is None else OBSTACLE_WORDS[obstacle]
    return said.format(in_mix=in_mix_words(most), most=SIZE_WORDS[most])


def bare_paper_words(planned: PlannedSample, scenario: Scenario) -> str:
    """Return that the paper may be left bare instead, where that comes near enough; or ``""``."""
    if planned.bare_paper > scenario.tolerance or planned.is_bare_paper:
        return ""
    off = difference(planned.bare_paper, scenario.tolerance)
    near = f"{off}, {match_words(planned.bare_paper)}"
    return f"Or leave the paper bare: {near}."


def reason_words(planned: PlannedSample, scenario: Scenario) -> str:
    """Return why a colour stays out of reach and what would bring it, in whole sentences."""
    sentences = []
    if planned.obstacle is not None:
        sentences.append(f"Why: {obstacle_words(planned.obstacle, scenario)}.")
    if planned.remedies:
        sentences.append(_remedy_sentence(planned.remedies, scenario.currency))
    elif planned.obstacle not in NO_REMEDY:
        sentences.append(no_single_words(scenario.currency))
    if planned.nearer is not None:
        sentences.append(nearer_words(planned, scenario))
    if planned.together:
        two = joined([_remedy(remedy, scenario.currency) for remedy in planned.together])
        cost = money(sum(remedy.cost for remedy in planned.together), scenario.currency)
        sentences.append(f"Two together would bring it, for {cost}: {two}.")
    return " ".join(sentences)


def no_single_words(currency: str, what: str = "it") -> str:
    """Return that no single tube would do; of those not sold in the currency nothing is said."""
    return f"No one tube more that is sold in {currency} would bring {what}."


def nearer_words(planned: PlannedSample, scenario: Scenario) -> str:
    """Return which single tube would bring a colour nearest, from what to what; or ``""``."""
    nearer = planned.nearer
    if nearer is None:
        return ""
    price = added_words(nearer.cost, scenario.currency, nearer.source, in_set=True)
    name = f"{printable(nearer.tube.name)} ({price})"
    after = difference(nearer.match, scenario.tolerance)
    if math.isinf(planned.match):
        return f"The single tube that would bring it nearest is {name}: {after}."
    before = difference(planned.match, scenario.tolerance)
    return f"The single tube that would bring it nearest is {name}: from {before} to {after}."


def _remedy_sentence(remedies: tuple[Remedy, ...], currency: str) -> str:
    named = [_remedy(remedy, currency) for remedy in remedies[:MOST_REMEDIES]]
    rest = len(remedies) - len(named)
    if rest:
        named.append(f"{rest} more")
    return f"One tube more would bring it: {joined(named, 'or')}."


def _remedy(remedy: Remedy, currency: str) -> str:
    refused = "" if remedy.allowed else ", which the wishes rule out"
    # What is sold has a price; what costs nothing is in the box, but set aside by a wish.
    price = added_words(remedy.cost, currency, remedy.source, in_set=remedy.in_set)
    return f"{printable(remedy.tube.name)} ({price}{refused})"
