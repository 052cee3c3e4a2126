"""The main job: choose the tubes and say how everything is mixed."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from fewtubes.catalogue.collector import FaultCollector, settle_numbers
from fewtubes.catalogue.limits import SECONDS
from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache, cache_of
from fewtubes.defaults import PROOF_SECONDS
from fewtubes.errors import Fault, InputError
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.effort import MIXING_SECONDS
from fewtubes.scenario.checks import member
from fewtubes.scenario.demands import COVERAGE
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Choice, Method
from fewtubes.shopping.choose import Chosen, choose, chosen_of
from fewtubes.shopping.clock import Clock
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.planning import MixedChoice, plan_for
from fewtubes.shopping.puddles import Puddling
from fewtubes.shopping.puddling import Mixed, mixed_for
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.steadiest import weigh
from fewtubes.shopping.steadiness import MonteCarlo

__all__ = ["TRADE_OFF_SHARE", "Answered", "Limits", "answered", "shop"]

TRADE_OFF_SHARE = 0.1
"""Share of the time limit for each question what a better lightfastness or opacity would cost."""

RIVALS_SHARE = 0.1
"""Share of the time limit for the search for palettes near the best, if they are asked for."""


PUDDLES_SHARE = 0.5
"""Share of the time limit for the proof that no fewer puddles will do. It mostly takes hundredths
of a second and is stopped by its branches before, so that a busy machine tells the same puddles."""

PUDDLES_OF_LEFT = 0.1
"""Share of the time left that it may take at most where the time is for the whole answer."""

STEADIEST_PAINT = (
    "the steadiest recipes cannot be chosen where pictures are planned, since the paint that is"
    " needed is reckoned from the fewest puddles; leave out one of the two."
)

PROOF_OF_LEFT = 0.7
RIVALS_OF_LEFT = 0.3
"""Shares of the time left that the proof, and the search for palettes near the best, may take at
most where the time is for the whole answer."""

TRADE_OFF_SEARCHES = 6
"""Searches that follow the choice, at most: what sparing the worst tubes costs in three respects,
what more money would buy and what it takes for all, and what fewer pictures would cover."""


@dataclass(frozen=True)
class Limits:
    """How long the program may think, and by which method.

    Raises
    ------
    InputError
        If the time is below 0 or above a day, the share kept is none, or the method unknown.
    """

    seconds: float = PROOF_SECONDS
    """Time for the proof of the choice [s]; mixing and reporting come on top unless `whole`."""
    method: Method = Method.SEARCH
    """The exact method that chooses and proves."""
    whole: bool = False
    """Whether the time is for the whole answer, mixing included; else mixing may take
    `MIXING_SECONDS` besides."""
    kept: float = 0.0
    """Share of what a whole time leaves after mixing that is kept for what follows the answer
    [0–1]."""

    def __post_init__(self) -> None:
        settle_numbers(self, {"seconds": SECONDS, "kept": COVERAGE}, flags=("whole",))
        collector = FaultCollector()
        object.__setattr__(self, "method", member(self.method, "method", Method, collector))
        collector.raise_if_any()

    def mixing(self) -> Deadline:
        """Return until when mixing may go on; it starts now."""
        return Deadline(self.seconds if self.whole else MIXING_SECONDS)

    def clock(self, mixing: Deadline) -> Clock:
        """Return how time is shared from now on, once everything is mixed."""
        whole = Deadline((1 - self.kept) * mixing.left) if self.whole else None
        return Clock(self.seconds, whole)


@dataclass(frozen=True, eq=False)
class Answered:
    """A plan with the question that it answers, for whatever goes on from it."""

    question: Question
    plan: Plan


def shop(
    catalogue: Catalogue,
    scenario: Scenario,
    *,
    limits: Limits | None = None,
    progress: Callable[[str], None] | None = None,
    cache: Cache | None = None,
    trials: MonteCarlo | None = None,
    puddling: Puddling = Puddling.EACH_FLOWER,
) -> Plan:
    """Return the best plan for a scenario: which tubes to buy, and how everything is mixed.

    Parameters
    ----------
    catalogue, scenario
        As read; the scenario refers to this catalogue.
    limits
        Time limit and method of proof; by default 60 s for the proof, and an hour for mixing.
    progress
        Called with a few words whenever a stage begins.
    cache
        Where mixing results are kept from run to run; by default nowhere (see `default_cache`).
    trials
        Whether and how paint and hand are varied to see how sure the answer is; by default not.
    puddling
        For what puddles, mixes thinned for several colours, are shared: ``"each flower"`` has the
        fewest for each flower, ``"one sitting"`` the fewest for all together, ``"each colour"`` the
        nearest recipe for each colour. Where `trials` are to choose, each colour has its steadiest
        recipe instead.

    Raises
    ------
    InputError
        If the catalogue does not hold what the scenario names, `puddling` is unknown, or `trials`
        are to choose and pictures are planned.
    ClashError
        If the demands cannot all be met.
    LimitError
        If there is too little time or memory for mixing so many tubes.

    Examples
    --------
    >>> from fewtubes import Scenario, default_cache, read_catalogue, shop
    >>> scenario = Scenario(budget=9, currency="EUR", flowers=["primrose"])
    >>> plan = shop(read_catalogue(), scenario, cache=default_cache())
    >>> plan.cost <= scenario.budget_hundredths, plan.certificate.status.name
    (True, 'PROVEN')
    >>> round(float(plan.shopping_list()["price"].sum()), 2) == plan.cost / 100
    True
    """
    return answered(
        catalogue,
        scenario,
        limits=limits,
        progress=progress,
        cache=cache,
        trials=trials,
        puddling=puddling,
    ).plan


def answered(
    catalogue: Catalogue,
    scenario: Scenario,
    *,
    limits: Limits | None = None,
    progress: Callable[[str], None] | None = None,
    cache: Cache | None = None,
    trials: MonteCarlo | None = None,
    puddling: Puddling = Puddling.EACH_FLOWER,
) -> Answered:
    """Return the best plan for a scenario with its question, so that mixing is done once.

    Parameters
    ----------
    catalogue, scenario
        As read; the scenario refers to this catalogue.
    limits
        Time limit and method of proof.
    progress
        Called with a few words whenever a stage begins.
    cache
        Where mixing results are kept from run to run; by default nowhere.
    trials
        Whether and how paint and hand are varied to see how sure the answer is; by default not.
    puddling
        For what puddles are shared; where `trials` are to choose, each colour has its own recipe.

    Raises
    ------
    InputError
        If `puddling` is unknown, or the steadiest recipes are to be chosen and paint to be
        reckoned.
    ClashError
        If the demands cannot all be met.
    LimitError
        If there is too little time or memory for mixing so many tubes.
    """
    limits = limits or Limits()
    puddling = _known(puddling)
    if scenario.picture is not None and trials is not None and trials.choose:
        raise InputError([Fault("trials", STEADIEST_PAINT)])
    mixing = limits.mixing()
    tell = progress or (lambda _stage: None)
    question = pose(
        catalogue,
        scenario,
        cache=cache_of(cache),
        progress=tell,
        deadline=mixing,
        puddling=puddling,
    )
    clock = limits.clock(mixing)
    tell("choosing the tubes and proving the choice")
    seconds = clock.share(1.0, of_left=PROOF_OF_LEFT)
    each = puddling is Puddling.EACH_COLOUR or trials is not None
    chosen = choose(question, seconds=seconds, method=limits.method, of_covered=each)

    def mixed_choice(chosen: Chosen) -> MixedChoice:
        return _mixed_choice(question, chosen, clock, trials=trials, progress=tell)

    def again(choice: Choice) -> MixedChoice:
        return mixed_choice(chosen_of(question, choice, of_covered=each))

    first = mixed_choice(chosen)
    tell("weighing lightfastness and transparency")
    _, plan = plan_for(
        question,
        first,
        seconds=lambda: clock.share(TRADE_OFF_SHARE, of_left=1 / TRADE_OFF_SEARCHES),
        again=again,
    )
    return Answered(question, plan)


def _mixed_choice(
    question: Question,
    chosen: Chosen,
    clock: Clock,
    *,
    trials: MonteCarlo | None,
    progress: Callable[[str], None],
) -> MixedChoice:
    """Return what is mixed for a choice, and how steady that is where it is asked."""
    mixed = steadiness = None
    if trials is None or not trials.choose:
        progress("finding the fewest puddles")
        mixed = _mixed(question, chosen, clock)
        chosen = replace(chosen, matches=mixed.matches)
    if trials is not None:
        progress("varying paint and hand")
        seconds = clock.share(RIVALS_SHARE, of_left=RIVALS_OF_LEFT)
        chosen, steadiness = weigh(
            question, chosen, trials, seconds=seconds, puddling=question.puddling
        )
    if mixed is None:
        own = Puddling.EACH_COLOUR
        mixed = mixed_for(question, chosen, seconds=_for_puddles(clock), puddling=own)
    return MixedChoice(chosen, mixed.puddles, steadiness)


def _mixed(question: Question, chosen: Chosen, clock: Clock) -> Mixed:
    """Return what is mixed; where paint was reckoned for the choice, the very same puddles."""
    if question.scenario.picture is not None:
        mixed = question.paint.mixed(chosen.palette.bought)
        pairs = zip(mixed.matches, chosen.matches, strict=True)
        return Mixed(tuple(own or nearest for own, nearest in pairs), mixed.puddles)
    seconds = _for_puddles(clock)
    return mixed_for(question, chosen, seconds=seconds, puddling=question.puddling)


def _for_puddles(clock: Clock) -> float:
    """Return the time for the proof that no fewer puddles will do [s]."""
    return clock.share(PUDDLES_SHARE, of_left=PUDDLES_OF_LEFT)


def _known(puddling: Puddling) -> Puddling:
    """Return a member from what was given, which may be its word."""
    collector = FaultCollector()
    known = member(puddling, "puddling", Puddling, collector)
    collector.raise_if_any()
    return known or Puddling.EACH_FLOWER
