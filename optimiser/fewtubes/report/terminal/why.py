"""The reasons for a plan in the terminal: tubes, colours out of reach, tight choices."""

from collections.abc import Iterator, Sequence

from rich.console import Console

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.reasons import OneOfThese, TubeReason, Unreached, Why
from fewtubes.coverage.samples import Sample
from fewtubes.report.sentences.asked import counting_words
from fewtubes.report.sentences.proof import note_words
from fewtubes.report.sentences.reasons import nearer_words, no_single_words, obstacle_words
from fewtubes.report.sentences.routes import MOST_SINGLES, cheapest_words, singles_words
from fewtubes.report.terminal.care import print_care
from fewtubes.report.terminal.layout import heading, paragraph, plain, put
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import Obstacle, PlannedSample
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row, joined
from fewtubes.words.matches import difference
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.proof.choice import not_on_sale_words
from fewtubes.words.shares import percent, percents_apart

__all__ = ["one_of_these_words", "print_why", "reason_sentences", "unreached_words"]

MOST_COLOURS = 6
"""Colours named in a sentence; the tables hold them all."""


def print_why(why: Why, console: Console) -> None:
    """Print the reasons for a plan."""
    plan = why.plan
    put(console, plain(f"Why these tubes: {printable(plan.scenario.title)}", "bold"))
    paragraph(
        console,
        f"{_to_buy(plan)}, covering {percent(plan.coverage)} of what is to be painted."
        f" {note_words(plan)}.",
    )
    counting = counting_words(plan.counted_to)
    if counting:
        paragraph(console, counting)
    heading(console, "What hangs on each tube")
    if not why.tubes:
        paragraph(console, "Nothing is bought.")
    for reason in why.tubes:
        tube = reason.planned
        cost = money(tube.cost, plan.scenario.currency)
        paragraph(console, f"{printable(tube.tube.name)} ({cost})", style="bold")
        paragraph(console, " ".join(reason_sentences(reason, why)), indent=4)
    heading(console, "What stays out of reach, and why")
    if not why.unreached:
        paragraph(console, "Nothing: every colour is covered.")
    for missed in why.unreached:
        paragraph(console, f"- {unreached_words(missed, why)}")
    heading(console, "One of these must be bought")
    if not why.one_of_these:
        paragraph(console, "There is no colour for which only a few tubes will do.")
    for choice in why.one_of_these:
        paragraph(console, f"- {one_of_these_words(choice)}")
    print_care(_named_tubes(why), console)


def _named_tubes(why: Why) -> Iterator[Tube]:
    """Yield the tubes that are bought, or named as another way."""
    for reason in why.tubes:
        yield reason.planned.tube
        if reason.stand_in is not None:
            yield reason.stand_in.tube
    for missed in why.unreached:
        for route in missed.singles[:MOST_SINGLES]:
            yield from route.tubes
        if missed.cheapest is not None:
            yield from missed.cheapest.tubes
    for choice in why.one_of_these:
        yield from choice.tubes


def _to_buy(plan: Plan) -> str:
    if not plan.bought:
        return "Nothing to buy"
    price = money(plan.cost, plan.scenario.currency)
    return f"{counted(len(plan.bought), 'tube')} to buy for {price}"


def reason_sentences(reason: TubeReason, why: Why) -> tuple[str, ...]:
    """Return what hangs on a tube, a sentence each: its colours, the best without, a stand-in."""
    wished = ("You asked for it.",) if reason.wished else ()
    return (
        *wished,
        _only_it_words(reason),
        not_on_sale_words(reason.without, reason.without_bound, why.plan.coverage),
        _stand_in_words(reason, why),
    )


def unreached_words(missed: Unreached, why: Why) -> str:
    """Return a colour out of reach, why it is, and what would bring it."""
    planned, scenario = missed.planned, why.plan.scenario
    nearest = _nearest_words(planned, scenario)
    said = [f"{_place(planned.sample)}{nearest}: {obstacle_words(planned.obstacle, scenario)}."]
    if missed.singles:
        said.append(singles_words(missed.singles, scenario.currency))
    elif missed.cheapest is None:
        if planned.obstacle not in (Obstacle.CURRENCY, Obstacle.NOT_FOR_SALE):
            said.append("No tube of the catalogue would bring it.")
    else:
        said.append(no_single_words(scenario.currency))
    if planned.nearer is not None:
        said.append(nearer_words(planned, scenario))
    if missed.cheapest is not None and len(missed.cheapest.tubes) > 1:
        said.append(cheapest_words(missed.cheapest, scenario.currency))
    return " ".join(said)


def _nearest_words(planned: PlannedSample, scenario: Scenario) -> str:
    """Return how far off what comes nearest is, in brackets; or ``""``."""
    if planned.recipe is None:
        return ""
    what = "bare paper" if planned.recipe.is_bare_paper else "the nearest mix"
    return f" ({what} is off by {difference(planned.match, scenario.tolerance)})"


def one_of_these_words(choice: OneOfThese) -> str:
    """Return for which colours one of a few tubes must be bought, and which one is."""
    names = joined([printable(tube.name) for tube in choice.tubes], "or")
    places = _places([planned.sample for planned in choice.samples])
    must = (
        f"{names} must be bought"
        if len(choice.tubes) == 1
        else f"one of these must be bought: {names}"
    )
    if choice.bought:
        held = joined([printable(tube.name) for tube in choice.bought])
        return f"For {places}, {must}. The plan buys {held}."
    return f"For {places}, {must}. The plan buys none of them."


def _only_it_words(reason: TubeReason) -> str:
    if not reason.only_it_brings:
        return "No colour is lost if it alone is left out and all else is kept."
    lost = reason.planned.only_it_brings
    return (
        f"Left out, with all else kept, it takes {counted(len(reason.only_it_brings), 'colour')}"
        f" along, {percent(lost)} of what is to be painted: {_places(reason.only_it_brings)}."
    )


def _stand_in_words(reason: TubeReason, why: Why) -> str:
    stand_in, plan = reason.stand_in, why.plan
    if stand_in is None:
        return "No single tube that the money allows brings anything in its place."
    named = f"{printable(stand_in.tube.name)} ({money(stand_in.cost, plan.scenario.currency)})"
    if stand_in.coverage == plan.coverage:
        return f"In its place {named} would do as well."
    much = "loses least" if stand_in.coverage < plan.coverage else "brings most"
    instead, whole = percents_apart(stand_in.coverage, plan.coverage)
    return f"In its place {named} {much}: {instead} instead of {whole}."


def _places(samples: Sequence[Sample]) -> str:
    """Return the colours by flower, e.g. ``cyclamen (petal, mouth)``, and how many more."""
    by_flower: dict[str, list[str]] = {}
    for sample in samples[:MOST_COLOURS]:
        by_flower.setdefault(sample.flower, []).append(printable(sample.name))
    named = [f"{printable(flower)} ({in_a_row(names)})" for flower, names in by_flower.items()]
    rest = len(samples) - MOST_COLOURS
    if rest > 0:
        named.append(f"{counted(rest, 'more colour')}")
    return joined(named)


def _place(sample: Sample) -> str:
    return f"{printable(sample.flower)} / {printable(sample.name)}"
