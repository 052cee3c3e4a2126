"""From the palette chosen to the plan that is reported."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from fewtubes.catalogue.exact import Number
from fewtubes.catalogue.records import Pigment, Tube
from fewtubes.mixing.matching import Match, match_if_unsteady
from fewtubes.scenario.names import named_tubes
from fewtubes.selection.certificate import Choice
from fewtubes.shopping.bought import Bought
from fewtubes.shopping.cautions import cautions_for
from fewtubes.shopping.choose import Chosen
from fewtubes.shopping.fewer_pictures import fewer_pictures
from fewtubes.shopping.more_money import more_money
from fewtubes.shopping.nearer import nearer_tubes, two_together
from fewtubes.shopping.obstacles import obstacle, remedies
from fewtubes.shopping.overtaken import overtaking, with_what_would_bring
from fewtubes.shopping.paint_plan import paint_of_one_picture, paint_plan
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import FlowerCoverage, PlannedSample, PlannedTube
from fewtubes.shopping.puddles import Puddles
from fewtubes.shopping.question import Question
from fewtubes.shopping.running_low import runs_low
from fewtubes.shopping.sourced import with_sources
from fewtubes.shopping.steadiness import Steadiness
from fewtubes.shopping.trade_offs import TradeOffs, trade_offs

__all__ = ["MixedChoice", "plan_for", "planned_parts"]

WHITE_CODE = "PW"
WHITE_SHARE = 0.5
"""Share of white pigment from which a coloured tube counts as white-filled."""


@dataclass(frozen=True, eq=False)
class MixedChoice:
    """A choice with its puddles, and how steady it is."""

    chosen: Chosen
    """Its recipes are those that the puddles make."""
    puddles: Puddles
    steadiness: Steadiness | None = None


def plan_for(
    question: Question,
    mixed: MixedChoice,
    *,
    seconds: Callable[[], float],
    again: Callable[[Choice], MixedChoice],
) -> tuple[MixedChoice, Plan]:
    """Return the plan, and the choice that it is of.

    That is another than the one given where the search for that was stopped and what is weighed
    beside it turns out to be better: then it is the answer. Each time it ranks better than before,
    so this comes to an end, mostly at once.

    Parameters
    ----------
    question, mixed
        The question and its choice.
    seconds
        Tells the time for each trade-off when it is asked about.
    again
        Mixes another choice in the same manner.
    """
    parts = planned_parts(question, mixed.chosen)
    within_reach = with_what_would_bring(question, parts[1], mixed.chosen.palette)
    better = overtaking(question, mixed.chosen.choice, within_reach)
    if better is not None:
        return plan_for(question, again(better), seconds=seconds, again=again)
    value = mixed.chosen.palette.value
    weighed = trade_offs(question, parts[0], value=value, seconds=seconds)
    better = overtaking(question, mixed.chosen.choice, weighed.found)
    if better is not None:
        return plan_for(question, again(better), seconds=seconds, again=again)
    return mixed, _plan(question, mixed, parts, weighed, seconds=seconds)


def _plan(
    question: Question,
    mixed: MixedChoice,
    parts: tuple[tuple[PlannedTube, ...], tuple[PlannedSample, ...], Bought],
    weighed: TradeOffs,
    *,
    seconds: Callable[[], float],
) -> Plan:
    """Return the plan of a choice for good."""
    scenario, instance = question.scenario, question.instance
    chosen, (tubes, samples, purchase) = mixed.chosen, parts
    return Plan(
        scenario=scenario,
        catalogue_label=question.catalogue.label,
        names=named_tubes(scenario, question.catalogue),
        tubes=tubes,
        set_aside=tuple(
            question.catalogue.tubes[id_]
            for id_ in scenario.wishes.all_owned
            if id_ in question.refused
        ),
        cost=chosen.palette.cost,
        purchase=purchase,
        coverage=_share(chosen.palette.value, sum(instance.weights)),
        flowers=_flowers(question, samples),
        samples=samples,
        lightfastness=weighed.lightfastness,
        lasting=weighed.lasting,
        opacity=weighed.opacity,
        cautions=cautions_for(tubes),
        certificate=chosen.choice.certificate,
        more_money=more_money(
            question,
            chosen.choice.palettes[0],
            chosen.choice.certificate,
            seconds=seconds(),
        ),
        ties=len(chosen.choice.palettes),
        ties_complete=chosen.choice.complete,
        recipe_count=_recipe_count(len(question.tubes) - len(question.refused), question),
        mixed=mixed.puddles,
        misses=chosen.misses,
        steadiness=mixed.steadiness,
        counted_exactly=question.counted_exactly,
        one_of_each_paint=instance.doubles,
        fitted_paints=question.fitted_paints,
        paint=paint_plan(
            question,
            tubes,
            paint_of_one_picture(question, mixed.puddles, chosen.matches),
            cost=chosen.palette.cost,
            fewer=fewer_pictures(
                question, chosen.palette, chosen.choice.certificate, seconds=seconds()
            ),
        ),
    )


def planned_parts(
    question: Question, chosen: Chosen
) -> tuple[tuple[PlannedTube, ...], tuple[PlannedSample, ...], Bought]:
    """Return tubes, colours and purchase of a plan without what is weighed and proven beside."""
    samples = _samples(question, chosen)
    purchase = question.purchase(chosen.palette.bought)
    return _tubes(question, chosen, samples, purchase), samples, purchase


def _samples(question: Question, chosen: Chosen) -> tuple[PlannedSample, ...]:
    """Return every sample with its recipe, or why it has none."""
    palette = question.owned.union(chosen.palette.bought)
    covered = set(chosen.palette.covered)
    samples = tuple(
        _sample(question, t, chosen.matches[t], palette, covered=t in covered)
        for t in range(len(question.samples))
    )
    lost = {t: s.match for t, s in enumerate(samples) if not s.covered and not s.remedies}
    nearer = nearer_tubes(question, palette, lost)
    return tuple(
        with_sources(
            question,
            replace(s, nearer=nearer.get(t), together=two_together(question, t, palette))
            if t in lost
            else s,
            palette,
        )
        for t, s in enumerate(samples)
    )


def _sample(
    question: Question, t: int, match: Match | None, palette: frozenset[int], *, covered: bool
) -> PlannedSample:
    """Return one sample, by number, with its best match."""
    sample = question.samples[t]
    return PlannedSample(
        sample=sample,
        covered=covered,
        recipe=match.recipe if match else None,
        match=match.difference if match else math.inf,
        mix_lab=match.lab if match else question.paper_lab,
        match_if_unsteady=(
            match_if_unsteady(match.recipe, sample.lab, question.catalogue.tubes, question.optics)
            if match
            else math.inf
        ),
        obstacle=None if covered else obstacle(question, t),
        remedies=() if covered else remedies(question, t, palette),
        bare_paper=question.paper_differences[t],
    )


def _tubes(
    question: Question,
    chosen: Chosen,
    samples: tuple[PlannedSample, ...],
    purchase: Bought,
) -> tuple[PlannedTube, ...]:
    """Return the tubes bought, then those owned."""
    numbers = (*chosen.palette.bought, *sorted(question.owned))
    return tuple(_tube(question, chosen, samples, purchase, number=n) for n in numbers)


def _tube(
    question: Question,
    chosen: Chosen,
    samples: tuple[PlannedSample, ...],
    purchase: Bought,
    *,
    number: int,
) -> PlannedTube:
    """Return one tube of the palette, by number."""
    tube, instance = question.tubes[number], question.instance
    others = question.owned.union(chosen.palette.bought) - {number}
    kept = sum(
        weight
        for weight, sets in zip(instance.weights, instance.minimal_sets, strict=True)
        if any(map(others.issuperset, sets))
    )
    owned = number in question.owned
    recipes = sum(
        planned.covered and planned.recipe is not None and tube.id in planned.recipe.tubes
        for planned in samples
    )
    wishes = question.scenario.wishes
    left = wishes.box.left(tube.id) if owned else None
    low = bool(
        recipes
        and left is not None
        and runs_low(
            tube,
            left,
            millilitres=wishes.millilitres,
            planned=question.paint_planned(chosen.palette.bought).get(tube.id, 0.0),
        )
    )
    return PlannedTube(
        tube=tube,
        owned=owned,
        packs=() if owned else purchase.packs_of(tube.id),
        sets=() if owned else purchase.sets_of(tube.id),
        contrast_ratio=question.contrast_ratios[tube.id],
        transparency=question.transparencies[tube.id],
        white_filled=_is_white_filled(tube),
        recipes=recipes,
        only_it_brings=_share(chosen.palette.value - kept, sum(instance.weights)),
        left=left,
        runs_low=low,
        again=question.cost(tube) if low and question.is_sold(tube) else None,
    )


def _is_white_filled(tube: Tube) -> bool:
    """Whether half or more of a tube that also holds a coloured pigment is white."""
    white = sum(share for pigment, share in tube.pigments if _is_white(pigment))
    return WHITE_SHARE <= white < 1


def _is_white(pigment: Pigment) -> bool:
    """Whether a pigment is white; of one fitted from a tube of several the shares are not known."""
    return bool(pigment.codes) and all(code.startswith(WHITE_CODE) for code in pigment.codes)


def _flowers(question: Question, samples: tuple[PlannedSample, ...]) -> tuple[FlowerCoverage, ...]:
    """Return the coverage of every flower and own colour."""
    scenario = question.scenario
    wished = [(flower.name, flower.importance) for flower in scenario.flowers]
    wished += [(colour.name, colour.importance) for colour in scenario.own_colours]
    return tuple(_flower(name, importance, samples) for name, importance in wished)


def _flower(name: str, importance: Number, samples: tuple[PlannedSample, ...]) -> FlowerCoverage:
    """Return the coverage of one flower or own colour."""
    own = [planned for planned in samples if planned.sample.flower == name]
    covered = [planned for planned in own if planned.covered]
    return FlowerCoverage(
        name=name,
        importance=importance,
        coverage=_share(
            sum(planned.sample.weight for planned in covered),
            sum(planned.sample.weight for planned in own),
        ),
        covered=len(covered),
        total=len(own),
    )


def _share(part: int, whole: int) -> float:
    """Return part ÷ whole, 0 where there is nothing."""
    return part / whole if whole else 0.0


def _recipe_count(tube_count: int, question: Question) -> int:
    """Return the number of recipes from a number of tubes, bare paper among them."""
    return 1 + len(question.space.strengths) * sum(
        math.comb(tube_count, size) * len(parts) for size, parts in question.space.parts.items()
    )
