"""How much is compared, and how long that may take."""

from dataclasses import dataclass

from fewtubes.catalogue.collector import settle_numbers
from fewtubes.catalogue.limits import SECONDS, NumberRange
from fewtubes.defaults import (
    NEAR_BEST_LISTED,
    NEAR_BEST_WITHIN,
    PROOF_SECONDS,
    UP_TO_TUBES,
)
from fewtubes.errors import Fault, InputError
from fewtubes.scenario.demands import COVERAGE, MOST_TUBES
from fewtubes.shopping.plan import Plan

__all__ = ["Extent", "extent_for"]

NEAR_BEST = NumberRange(1, 200)
"""Near-best palettes listed; more nobody reads."""


@dataclass(frozen=True)
class Extent:
    """How much is compared, and how long the proofs may take.

    Parameters
    ----------
    up_to
        Largest number of tubes bought.
    near
        Near-best palettes listed at most, at least 1.
    within
        Coverage that a near-best palette may lose [0–1].
    near_size
        Number of tubes of the near-best palettes; None = the largest number that gains anything.
    seconds
        Time for all proofs [s]; mixing comes on top.
    known
        Ids of the tubes bought in palettes found elsewhere; coverage against cost does not fall
        behind them, however short the time.
    puddles
        Whether the puddles that sizes and near-best palettes take are counted.

    Raises
    ------
    InputError
        If a number is out of bounds: tubes 1 to 1,000, palettes 1 to 200, coverage 0 to 1, a day.
    """

    up_to: int = UP_TO_TUBES
    near: int = NEAR_BEST_LISTED
    within: float = NEAR_BEST_WITHIN
    near_size: int | None = None
    seconds: float = PROOF_SECONDS
    known: tuple[frozenset[str], ...] = ()
    puddles: bool = True

    def __post_init__(self) -> None:
        ranges = {
            "up_to": MOST_TUBES,
            "near": NEAR_BEST,
            "within": COVERAGE,
            "near_size": MOST_TUBES,
            "seconds": SECONDS,
        }
        settle_numbers(
            self,
            ranges,
            whole=("up_to", "near", "near_size"),
            flags=("puddles",),
            optional=("near_size",),
        )
        known = isinstance(self.known, tuple)
        if not known or not all(isinstance(tubes, frozenset) for tubes in self.known):
            raise InputError([Fault("known", "must be a tuple of sets (frozenset) of tube ids.")])


REPORT_SECONDS = 30.0
"""Longest time for the proofs of what stands beside a plan in its report [s]."""


def extent_for(plan: Plan, *, seconds: float) -> Extent:
    """Return what is compared for the report of a plan; what is not proven by then is marked.

    Parameters
    ----------
    plan
        The answer.
    seconds
        Time that the proof of the plan itself was given [s].
    """
    return Extent(
        up_to=max(Extent.up_to, len(plan.bought)),
        near=1,
        seconds=min(REPORT_SECONDS, seconds),
        known=(frozenset(planned.tube.id for planned in plan.bought),),
        puddles=False,
    )
