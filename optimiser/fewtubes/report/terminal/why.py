"""The reasons for a plan in the terminal: tubes, colours out of reach, tight choices."""

from collections.abc import Iterator, Sequence

from rich.console import Console

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.reasons import OneOfThese, TubeReason, Unreached, Why
from fewtubes.coverage.samples import Sample
from fewtubes.report.sentences.asked import counting_words
from fewtubes.report.sentences.purchase import bought_at_words, stand_in_words
from fewtubes.report.sentences.reasons import nearer_words, no_single_words, obstacle_words
from fewtubes.report.sentences.routes import MOST_SINGLES, cheapest_words, singles_words
from fewtubes.report.terminal.care import print_care
from fewtubes.report.terminal.head import print_answer, print_asked, print_in_full
from fewtubes.report.terminal.layout import bullet, heading, paragraph
from fewtubes.report.terminal.missed import missed_tubes, print_missed
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.plan_parts import Obstacle, PlannedSample
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row, joined
from fewtubes.words.matches import difference
from fewtubes.words.printable import printable
from fewtubes.words.proof.choice import not_on_sale_words
from fewtubes.words.shares import percent, percents_apart

__all__ = ["one_of_these_words", "print_why", "reason_sentences", "unreached_words"]

MOST_COLOURS = 6
"""Colours named in a sentence; the tables hold them all."""

FEW_CHOICES = 3
"""Tight choices told in short."""


def print_why(why: Why, console: Console, *, full: bool = False) -> None:
    """Print the reasons for a plan.

    Parameters
    ----------
    why
        The reasons.
    console
        Where to print.
    full
        Whether to name the colours that hang on each tube, all that would bring a colour, and all
        tight choices.
    """
    plan = why.plan
    label, names = plan.catalogue_label, plan.names
    print_asked(plan.scenario, label, console, names=names, what="Why these tubes", full=False)
    print_answer(plan, console)
    counting = counting_words(plan.counted_to)
    if counting:
        paragraph(console, counting)
    if full or why.tubes:
        heading(console, "What hangs on each tube")
    if not why.tubes and full:
        paragraph(console, "Nothing is bought.")
    for reason in why.tubes:
        _print_reason(reason, why, console, full=full)
    heading(console, "What stays out of reach, and why")
    if not why.unreached:
        paragraph(console, "Nothing: every colour is covered.")
    if full:
        for missed in why.unreached:
            bullet(console, f"{unreached_words(missed, why)}")
    else:
        print_missed(plan, console, reasons=True)
    _print_one_of_these(why, console, full=full)
    if not full:
        print_in_full(console, "which colours hang on each tube, all that would bring a colour")
    print_care(_named_tubes(why, full=full), console)


def _print_reason(reason: TubeReason, why: Why, console: Console, *, full: bool) -> None:
    tube = reason.planned
    name = f"{printable(tube.tube.name)} ({bought_at_words(tube, why.plan)})"
    if full:
        paragraph(console, name, style="bold")
        paragraph(console, " ".join(reason_sentences(reason, why)), indent=4)
        return
    lost = counted(len(reason.only_it_brings), "colour")
    hangs = (
        f"{lost}, {percent(tube.only_it_brings)}, hang on it"
        if tube.only_it_brings
        else ("no colour hangs on it alone")
    )
    wished = "You asked for it. " if reason.wished else ""
    bullet(console, f"{name}: {hangs}. {wished}{_stand_in_words(reason, why)}")


def _print_one_of_these(why: Why, console: Console, *, full: bool) -> None:
    """Print the tight choices, in short the first of them."""
    if not full and not why.plan.bought:
        return
    heading(console, "One of these must be bought")
    if not why.one_of_these:
        paragraph(console, "There is no colour for which only a few tubes will do.")
    shown = why.one_of_these if full else why.one_of_these[:FEW_CHOICES]
    for choice in shown:
        bullet(console, f"{one_of_these_words(choice)}")
    rest = len(why.one_of_these) - len(shown)
    if rest:
        paragraph(console, f"… and {counted(rest, 'more choice')} like these.")


def _named_tubes(why: Why, *, full: bool) -> Iterator[Tube]:
    """Yield the tubes that are bought, or named as another way."""
    for reason in why.tubes:
        yield reason.planned.tube
        if reason.stand_in is not None:
            yield reason.stand_in.tube
    if not full:
        yield from missed_tubes(why.plan)
    for missed in why.unreached if full else ():
        for route in missed.singles[:MOST_SINGLES]:
            yield from route.tubes
        if missed.cheapest is not None:
            yield from missed.cheapest.tubes
    for choice in why.one_of_these[: None if full else FEW_CHOICES]:
        yield from choice.tubes


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
    named = f"{printable(stand_in.tube.name)} ({stand_in_words(stand_in, plan)})"
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
