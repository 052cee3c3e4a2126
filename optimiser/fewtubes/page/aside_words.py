"""What is said on the pages of questions beside the choice of tubes."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from fewtubes.catalogue.records import LASTS, Tube
from fewtubes.colour.display import lab_to_hex
from fewtubes.comparison.box_contents import BoxContents
from fewtubes.comparison.box_findings import Box
from fewtubes.comparison.mixes import Mixes, RatedMatch
from fewtubes.comparison.reasons import Why
from fewtubes.report.sentences.box_gains import together_words
from fewtubes.report.sentences.mixes import lead_words
from fewtubes.report.sentences.painters import bought_words
from fewtubes.report.sentences.proof import note_words
from fewtubes.report.sentences.purchase import delivery_aside
from fewtubes.report.sentences.routes import MOST_SINGLES
from fewtubes.report.terminal.box import (
    addition_note,
    addition_words,
    double_words,
    idle_words,
    intended_words,
)
from fewtubes.report.terminal.why import one_of_these_words, reason_sentences, unreached_words
from fewtubes.shopping.plan import Plan
from fewtubes.words.counting import counted
from fewtubes.words.hazards import harm_words
from fewtubes.words.left import left_words
from fewtubes.words.lightfastness import LIGHTFASTNESS_WORDS
from fewtubes.words.lists import joined
from fewtubes.words.matches import difference, limit_words, match_words
from fewtubes.words.money import amount, money
from fewtubes.words.printable import printable
from fewtubes.words.proof.choice import Standing, standing_label
from fewtubes.words.recipes import recipe_words
from fewtubes.words.shares import percent
from fewtubes.words.unsteady import steadiness_words, unsteady_figure

__all__ = [
    "ASIDE_WORDS",
    "MixRow",
    "box_answer",
    "box_care",
    "contents_answer",
    "contents_care",
    "mix_answer",
    "mix_care",
    "mix_fading",
    "mix_rows",
    "mix_title",
    "plan_of_box",
    "purchases",
    "why_answer",
    "why_care",
    "why_others",
]

MOST_ADDITIONS = 8
"""Purchases listed; the table holds them all."""

LONGEST_NAME = 100
"""Characters of a colour as it was typed."""


@dataclass(frozen=True)
class MixRow:
    """A mix beside the colour wanted."""

    wanted: str
    """As a screen shows it, #rrggbb; as the mix."""
    mixed: str
    words: str
    covered: bool


def why_answer(why: Why) -> str:
    """Return what is bought and what it covers, in a sentence."""
    plan = why.plan
    paid = f"{money(plan.cost, plan.scenario.currency)}{delivery_aside(plan)}"
    to_buy = f"{bought_words(plan)} for {paid}"
    return (
        f"{to_buy if plan.bought else 'Nothing to buy'}, covering {percent(plan.coverage)} of what"
        f" is to be painted. {note_words(plan)}."
    )


def why_others(why: Why, answer: Plan | None) -> str:
    """Return that the reasons are not those for the last answer, "" if they are."""
    if answer is None or _choice(answer) == _choice(why.plan):
        return ""
    return (
        "These are the reasons for an earlier answer, not for your last one; ask there why it has"
        " its tubes."
    )


def _choice(plan: Plan) -> tuple[object, ...]:
    colours = [(planned.sample.flower, planned.sample.name) for planned in plan.samples]
    return plan.coverage, plan.cost, {planned.tube.id for planned in plan.bought}, colours


def why_care(why: Why) -> str:
    """Return which of the tubes named are harmful, and who decides."""
    return _care(_why_tubes(why))


def _why_tubes(why: Why) -> Iterator[Tube]:
    for reason in why.tubes:
        yield reason.planned.tube
        if reason.stand_in is not None:
            yield reason.stand_in.tube
    for missed in why.unreached:
        for route in (*missed.singles[:MOST_SINGLES], *filter(None, [missed.cheapest])):
            yield from route.tubes
    for choice in why.one_of_these:
        yield from choice.tubes


def box_answer(box: Box) -> str:
    """Return what is in the box and what it covers alone."""
    if not box.owned:
        return "No tube is marked as at home."
    names = joined([_with_left(tube, box.scenario.wishes.box.left(tube.id)) for tube in box.owned])
    aside = ""
    if box.set_aside:
        aside = f" The wishes keep out of use: {joined([_name(it) for it in box.set_aside])}."
    return (
        f"{counted(len(box.owned), 'tube')}: {names}. Alone they cover {percent(box.coverage)} of"
        f" what is to be painted, bare paper included.{aside}"
    )


def contents_answer(contents: BoxContents) -> str:
    """Return what is in the box, and how full it is."""
    if not contents.tubes:
        return "No tube is marked as at home."
    names = joined([_with_left(kept.tube, kept.left) for kept in contents.tubes])
    return f"{counted(len(contents.tubes), 'tube')}: {names}."


def plan_of_box(box: Box) -> str:
    """Return which tubes are about to be bought."""
    if not box.intended_from_plan:
        return "These are the tubes that must be bought."
    standing = Standing.BEST if box.plan_proven else Standing.OPEN
    label = standing_label(standing, fitted=box.fitted_paints)
    return f"These are the tubes of the plan for this question, {label}."


def purchases(box: Box) -> list[tuple[str, str, str, str]]:
    """Return name, price, what it adds and a note of each purchase listed."""
    return [
        (
            _name(item.tube),
            amount(item.cost),
            percent(item.gain),
            addition_note(item),
        )
        for item in box.additions[:MOST_ADDITIONS]
    ]


def box_care(box: Box) -> str:
    """Return which of the tubes named are harmful, and who decides."""
    added = [item.tube for item in box.additions[:MOST_ADDITIONS]]
    return _care([*box.owned, *added, *(item.tube for item in box.intended)])


def contents_care(contents: BoxContents) -> str:
    """Return which of the tubes in the box are harmful, and who decides."""
    return _care([kept.tube for kept in contents.tubes])


def mix_rows(mixes: Mixes) -> list[MixRow]:
    """Return each mix with how near and how forgiving it is."""
    return [
        MixRow(
            wanted=_shown(mixes.lab),
            mixed=_shown(rated.match.lab),
            words=_mix_words(rated, mixes),
            covered=rated.match.difference <= mixes.tolerance,
        )
        for rated in mixes.rated
    ]


def mix_answer(mixes: Mixes) -> str:
    """Return how many of the mixes count as covering, and what they were mixed from."""
    within = sum(rated.match.difference <= mixes.tolerance for rated in mixes.rated)
    return (
        f"{_how_many(within, len(mixes.rated))} within {limit_words(mixes.tolerance)}; mixed from"
        f" {counted(len(mixes.tubes), 'tube')}. Unsteady: the largest difference when each part and"
        " the wash are off by 20 %. Computed, not measured: try a mix before you rely on it."
    )


def _how_many(within: int, shown: int) -> str:
    """Return how many of the mixes shown lie within something, as the beginning of a sentence."""
    if shown == 1:
        return "The one mix shown is" if within else "The one mix shown is not"
    if within == shown:
        return f"All {shown} mixes shown are"
    if not within:
        return f"None of the {shown} mixes shown is"
    return f"Of {shown} mixes shown, {within} {'is' if within == 1 else 'are'}"


def mix_title(mixes: Mixes) -> str:
    """Return the colour that is mixed, as it was asked for."""
    return printable(mixes.wanted, LONGEST_NAME)


def mix_fading(mixes: Mixes) -> str:
    """Return which tubes of the mixes fade, and that none of them leads; "" if all last."""
    fading = [tube for tube in _mixed_tubes(mixes) if tube.lightfastness > LASTS]
    if not fading:
        return ""
    names = [
        f"{_name(tube)} (lightfastness {tube.lightfastness.name},"
        f" {LIGHTFASTNESS_WORDS[tube.lightfastness]})"
        for tube in fading
    ]
    fading_words = f"In light {joined(names)} {'fades' if len(names) == 1 else 'fade'}."
    return " ".join(filter(None, [fading_words, lead_words(mixes)]))


def mix_care(mixes: Mixes) -> str:
    """Return which of the tubes mixed are harmful, and who decides."""
    return _care(_mixed_tubes(mixes))


def _mixed_tubes(mixes: Mixes) -> list[Tube]:
    held = dict.fromkeys(id_ for rated in mixes.rated for id_ in rated.match.recipe.tubes)
    return [mixes.tubes[id_] for id_ in held]


def _mix_words(rated: RatedMatch, mixes: Mixes) -> str:
    names = {id_: _name(tube) for id_, tube in mixes.tubes.items()}
    match = rated.match
    words = (
        f"{recipe_words(match.recipe, names)} — {difference(match.difference, mixes.tolerance)},"
        f" {match_words(match.difference)}"
    )
    if match.recipe.is_bare_paper:
        return words
    return (
        f"{words}; {steadiness_words(rated.if_unsteady, mixes.tolerance)} (unsteady"
        f" {unsteady_figure(rated.if_unsteady, mixes.tolerance)})"
    )


def _care(tubes: Iterable[Tube]) -> str:
    return harm_words(tubes, told_by="The page of an answer")


def _shown(lab: tuple[float, float, float]) -> str:
    return lab_to_hex(np.array(lab))


def _with_left(tube: Tube, left: float | None) -> str:
    return _name(tube) if left is None else f"{_name(tube)} ({left_words(left)})"


def _name(tube: Tube) -> str:
    return printable(tube.name)


ASIDE_WORDS: Mapping[str, Callable[..., object]] = {
    one.__name__: one
    for one in (
        addition_words,
        box_answer,
        box_care,
        contents_answer,
        contents_care,
        double_words,
        idle_words,
        intended_words,
        mix_answer,
        mix_care,
        mix_fading,
        mix_rows,
        mix_title,
        one_of_these_words,
        plan_of_box,
        purchases,
        reason_sentences,
        together_words,
        unreached_words,
        why_answer,
        why_care,
        why_others,
    )
}
"""By the name under which templates call them."""
