"""Puddles in sentences: what is mixed, in which order, and what each is thinned for."""

from collections.abc import Mapping
from dataclasses import dataclass

from fewtubes.shopping.plan import Plan
from fewtubes.shopping.puddles import OWN_COLOURS, Puddle, Puddling
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable
from fewtubes.words.proof.puddles import (
    fewest_label,
    fewest_words,
    sitting_label,
    sitting_words,
)
from fewtubes.words.recipes import mix_words
from fewtubes.words.washes import strength_words

__all__ = [
    "Subject",
    "addition_words",
    "colour_name",
    "puddle_words",
    "puddles_of",
    "puddling_words",
    "short_puddling_words",
    "subject_fewest_words",
    "subject_label",
    "subjects_of",
    "thinned_words",
]

PUDDLE_WORDS = "A puddle is one mix, thinned with more or less water for several colours."

ORDER_WORDS = (
    "They stand in the order of mixing, light before dark, which keeps the brush clean (common"
    " practice, no source)."
)

LONGEST_LABEL = 60
"""Characters of a colour's name beside its wash."""


def puddling_words(plan: Plan) -> str:
    """Return what puddles are and for what they are shared, in whole sentences."""
    mixed, fitted = plan.mixed, plan.fitted_paints
    if not mixed.mixed:
        return ""
    sitting = sitting_words(mixed.sitting.number, mixed.sitting.bound, fitted=fitted)
    if mixed.puddling is Puddling.ONE_SITTING:
        return f"{PUDDLE_WORDS} {sitting} {ORDER_WORDS}"
    if mixed.puddling is Puddling.EACH_COLOUR:
        steady = plan.steadiness is not None and plan.steadiness.trials.choose
        kind = "steadiest" if steady else "nearest"
        return (
            f"{PUDDLE_WORDS} Here every colour has the {kind} recipe for it alone, so few are"
            f" shared. {sitting} {ORDER_WORDS}"
        )
    if len(mixed.fewest) == 1:
        return f"{PUDDLE_WORDS} {ORDER_WORDS}"
    return (
        f"{PUDDLE_WORDS} Here they are the fewest for each flower, since one sitting usually is one"
        f" flower; {counted(mixed.mixes, 'mix/mixes')} in all. {sitting} {ORDER_WORDS}"
    )


def short_puddling_words(plan: Plan) -> str:
    """Return how short lines of puddles are read, and how many there are, in whole sentences."""
    mixed = plan.mixed
    if not mixed.mixed:
        return ""
    stays = "" if plan.steadiness is None else ", and how often it stays near"
    several = len(mixed.fewest) > 1 or mixed.puddling is Puddling.ONE_SITTING
    sitting = mixed.sitting
    said = sitting_label(sitting.number, sitting.bound, fitted=plan.fitted_paints)
    return (
        "A puddle is one mix, in parts, thinned for several colours; behind each its wash in per"
        f" cent of full strength, and in brackets ΔE00 (1 is hardly seen, 4 side by side){stays}."
        f" Names are shortened.{f' {said}' if several else ''}"
    )


@dataclass(frozen=True)
class Subject:
    """What is painted in one go."""

    name: str
    """Of the flower, or `OWN_COLOURS`."""
    own: bool
    """Whether it is the painter's own colours."""


def subjects_of(plan: Plan) -> list[tuple[Subject, list[int]]]:
    """Return each flower with the places of its samples in the plan; own colours are one."""
    own = {colour.name for colour in plan.scenario.own_colours}
    found: dict[Subject, list[int]] = {}
    for place, planned in enumerate(plan.samples):
        flower = planned.sample.flower
        subject = Subject(OWN_COLOURS, own=True) if flower in own else Subject(flower, own=False)
        found.setdefault(subject, []).append(place)
    return [*found.items()]


def puddles_of(plan: Plan, subject: Subject) -> list[Puddle]:
    """Return the puddles that are mixed for one flower alone, in the order of mixing."""
    return [
        puddle
        for puddle in plan.mixed.mixed
        if puddle.subject == subject.name and puddle.own is subject.own
    ]


def subject_fewest_words(plan: Plan, subject: Subject) -> str:
    """Return how many puddles a flower takes, in a sentence; "" of one that the plan lacks."""
    sitting = plan.mixed.puddling is Puddling.ONE_SITTING
    for fewest in plan.mixed.fewest:
        if fewest.subject == subject.name and fewest.own is subject.own:
            return fewest_words(
                fewest.number,
                fewest.bound,
                mixed=None if sitting else len(puddles_of(plan, subject)),
                fitted=plan.fitted_paints,
            )
    return ""


def subject_label(plan: Plan, subject: Subject) -> str:
    """Return how many puddles a flower takes, in a few words; "" where all flowers share them."""
    if plan.mixed.puddling is Puddling.ONE_SITTING:
        return ""
    for fewest in plan.mixed.fewest:
        if fewest.subject == subject.name and fewest.own is subject.own:
            mixed = len(puddles_of(plan, subject))
            return fewest_label(fewest.number, fewest.bound, mixed=mixed) if mixed else ""
    return ""


def puddle_words(puddle: Puddle, names: Mapping[str, str]) -> str:
    """Return what a puddle is mixed of, and how from an earlier one, without full stop."""
    added = addition_words(puddle, names)
    mix = mix_words(puddle.tubes, puddle.parts, names)
    return f"{mix}; {added}" if added else mix


def addition_words(puddle: Puddle, names: Mapping[str, str]) -> str:
    """Return how a puddle is made from an earlier one, e.g. ``puddle 1 with gold added …``."""
    addition = puddle.addition
    if addition is None:
        return ""
    name = names[addition.tube]
    said = f"that is puddle {addition.puddle} with {name} added"
    # The earlier puddle is one tube alone: the mix itself tells its parts.
    parts = dict(zip(puddle.tubes, puddle.parts, strict=True))
    own = parts.pop(addition.tube)
    if (*parts.values(), own) == (addition.puddle_parts, addition.tube_parts):
        return said
    return (
        f"{said} ({counted(addition.puddle_parts, 'part')} of puddle {addition.puddle} :"
        f" {counted(addition.tube_parts, 'part')} {name})"
    )


def thinned_words(plan: Plan, puddle: Puddle) -> str:
    """Return what a puddle is thinned to for each of its colours, without full stop."""
    washes: dict[float, list[str]] = {}
    for place in puddle.colours:
        recipe = plan.samples[place].recipe
        if recipe is not None:
            washes.setdefault(recipe.strength, []).append(colour_name(plan, place, puddle))
    told = [
        f"{'at' if strength == 1 else 'a'} {strength_words(strength)} for {joined(names)}"
        for strength, names in washes.items()
    ]
    thinned = next((turn for turn, strength in enumerate(washes) if strength < 1), None)
    if thinned is not None:
        told[thinned] = f"thinned to {told[thinned]}"
    return "; ".join(told)


def colour_name(plan: Plan, place: int, puddle: Puddle) -> str:
    """Return the name of a colour among those of its puddle, with its flower where there are more.

    Parameters
    ----------
    place
        Of the sample in the plan.
    """
    sample = plan.samples[place].sample
    own = puddle.own or any(sample.flower == it.name for it in plan.scenario.own_colours)
    if own:
        return printable(sample.flower, LONGEST_LABEL)
    name = printable(sample.name, LONGEST_LABEL)
    return name if puddle.subject else f"{printable(sample.flower, LONGEST_LABEL)} / {name}"
