"""How steady the chosen palette is, and whether another near it is steadier.

One set of draws compares; a second, independent one tells the figures and says whether a lead is
more than luck. Nothing is taken for steadiness that does not stand that second trial.
"""

from dataclasses import dataclass

import numpy as np

from fewtubes.coverage.samples import lab_table
from fewtubes.mixing.matching import Match, best_matches
from fewtubes.selection.certificate import Status
from fewtubes.selection.instance import Palette
from fewtubes.shopping.choose import Chosen, matches_of
from fewtubes.shopping.puddles import Puddling
from fewtubes.shopping.puddling import mixed_for
from fewtubes.shopping.question import Question
from fewtubes.shopping.rivals import MOST_WEIGHED, Rivals, rivals_of
from fewtubes.shopping.steadiness import MonteCarlo, Rival, Steadiness
from fewtubes.shopping.trial import Trial, paired, spread_of

__all__ = ["COMPARING", "TELLING", "weigh"]

COMPARING, TELLING = range(2)
"""Numbers of the two sets of draws."""

RECIPES_TRIED = 4
"""Best recipes, each over another set of tubes, among which the steadiest is sought."""

SURE_AMONG_MANY = 3.0
"""Standard errors that a recipe must lead the nearest one by; three are tried for each of dozens of
samples, and no second trial confirms them one by one, so that two would let luck in.
"""


@dataclass(frozen=True, eq=False)
class _Contender:
    """A palette with its recipes, and how it did when palettes were compared."""

    palette: Palette
    matches: tuple[Match | None, ...]
    expected: float
    other_recipes: int


def weigh(
    question: Question,
    chosen: Chosen,
    trials: MonteCarlo,
    *,
    seconds: float,
    puddling: Puddling = Puddling.EACH_COLOUR,
) -> tuple[Chosen, Steadiness]:
    """Try the chosen palette and its rivals, and take the steadiest if that is asked.

    Parameters
    ----------
    question, chosen
        The choice, solved, with the recipes of the plan.
    trials
        What is asked.
    seconds
        Time for the search for rivals, and for their puddles.
    puddling
        For what puddles are shared, by the plan and so by its rivals; if the steadiest recipes are
        to be chosen, none are.
    """
    rivals = rivals_of(question, chosen, within=trials.within, seconds=seconds)
    comparing = Trial.of(question, trials, COMPARING, rivals.palettes)
    recipes = _Recipes(question, chosen, puddling, seconds)
    plain, *others = (_contender(comparing, palette, recipes) for palette in rivals.palettes)
    other = max(others, key=lambda contender: contender.expected, default=None)
    telling = Trial.of(question, trials, TELLING, rivals.palettes)
    taken, against = plain, other
    if trials.choose and other is not None and _rival(telling, plain, other).steadier:
        taken, against = other, plain
    return (
        Chosen(chosen.choice, taken.palette, taken.matches),
        _steadiness(telling, chosen, rivals, taken=taken, against=against),
    )


@dataclass(frozen=True, eq=False)
class _Recipes:
    """The recipes of each palette where they are not chosen for steadiness."""

    question: Question
    chosen: Chosen
    puddling: Puddling
    seconds: float

    def of(self, palette: Palette) -> tuple[Match | None, ...]:
        """Return what a plan of this palette would tell."""
        if palette.bought == self.chosen.palette.bought:
            return self.chosen.matches
        matches = matches_of(self.question, palette)
        if self.puddling is Puddling.EACH_COLOUR:
            return matches
        rival = Chosen(self.chosen.choice, palette, matches)
        seconds = self.seconds / MOST_WEIGHED
        return mixed_for(self.question, rival, seconds=seconds, puddling=self.puddling).matches


def _contender(trial: Trial, palette: Palette, recipes: _Recipes) -> _Contender:
    """Return a palette with its usual recipes or, if the plan is to be steady, its steadiest."""
    if trial.trials.choose:
        ranked = _ranked(trial.question, palette, most=RECIPES_TRIED)
        nearest = tuple(matches[0] if matches else None for matches in ranked)
        matches = _steadiest_recipes(trial, palette, ranked)
    else:
        nearest = matches = recipes.of(palette)
    return _Contender(
        palette=palette,
        matches=matches,
        expected=float(trial.coverage(trial.stays(palette, matches)).mean()),
        other_recipes=sum(a is not b for a, b in zip(nearest, matches, strict=True)),
    )


def _ranked(question: Question, palette: Palette, *, most: int) -> tuple[tuple[Match, ...], ...]:
    """Return the best recipes for each sample from a palette and the owned tubes, best first."""
    numbers = sorted(question.owned.union(palette.bought))
    return best_matches(
        {question.tubes[number].id: question.tubes[number] for number in numbers},
        lab_table(question.samples),
        optics=question.optics,
        space=question.space,
        tolerance=question.scenario.tolerance,
        most=most,
    )


def _steadiest_recipes(
    trial: Trial, palette: Palette, ranked: tuple[tuple[Match, ...], ...]
) -> tuple[Match | None, ...]:
    """Return for each sample the recipe within tolerance that stays so in most draws.

    The nearest one is kept unless the lead over it is more than luck.
    """
    tolerance = trial.question.scenario.tolerance
    tried = [
        [
            match
            for place, match in enumerate(matches)
            if place == 0 or match.difference <= tolerance
        ]
        for matches in ranked
    ]
    stays = [
        trial.stays(palette, [(*matches, None)[min(place, len(matches))] for matches in tried])
        for place in range(RECIPES_TRIED)
    ]
    chosen: list[Match | None] = []
    for t, matches in enumerate(tried):
        places = range(len(matches))
        best = max(places, key=lambda place: stays[place][:, t].mean(), default=0)
        lead, error = paired(stays[best][:, t].astype(np.float64) - stays[0][:, t])
        chosen.append(matches[best if lead > SURE_AMONG_MANY * error else 0] if matches else None)
    return tuple(chosen)


def _rival(telling: Trial, plan: _Contender, other: _Contender) -> Rival:
    """Return how the other palette compares with the plan, under draws that chose neither."""
    question = telling.question
    own = telling.coverage(telling.stays(plan.palette, plan.matches))
    coverage = telling.coverage(telling.stays(other.palette, other.matches))
    lead, error = paired(coverage - own)
    return Rival(
        bought=tuple(question.tubes[number] for number in other.palette.bought),
        cost=other.palette.cost,
        coverage=other.palette.value / sum(question.instance.weights),
        spread=spread_of(coverage),
        lead=lead,
        lead_error=error,
    )


def _steadiness(
    telling: Trial,
    chosen: Chosen,
    rivals: Rivals,
    *,
    taken: _Contender,
    against: _Contender | None,
) -> Steadiness:
    """Return the figures of the plan under draws that did not pick it (see `Steadiness`)."""
    best = chosen.choice.palettes[0]
    stays = telling.stays(taken.palette, taken.matches)
    total = sum(telling.question.instance.weights)
    return Steadiness(
        trials=telling.trials,
        stays=tuple(stays.mean(axis=0).tolist()),
        spread=spread_of(telling.coverage(stays)),
        weighed=len(rivals.palettes),
        all_weighed=rivals.complete,
        proven=chosen.choice.certificate.status is Status.PROVEN,
        rival=None if against is None else _rival(telling, taken, against),
        taken=taken.palette is not chosen.palette,
        ranks_best=_ranks_best(telling, chosen, taken.palette),
        given_up=(best.value - taken.palette.value) / total,
        extra_cost=taken.palette.cost - best.cost,
        other_recipes=taken.other_recipes,
    )


def _ranks_best(telling: Trial, chosen: Chosen, palette: Palette) -> bool:
    """Whether a palette is among the best; with equal figures another may come less near."""
    choice = chosen.choice
    if telling.question.scenario.nearer:
        return palette.bought in {one.bought for one in choice.palettes}
    return palette.rank == choice.palettes[0].rank
