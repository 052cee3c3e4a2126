"""The main job: choose the tubes and say how everything is mixed."""

from collections.abc import Callable
from dataclasses import dataclass

from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Method
from fewtubes.shopping.answer import answer
from fewtubes.shopping.choose import choose
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.question import pose
from fewtubes.shopping.steadiest import weigh
from fewtubes.shopping.steadiness import Trials

__all__ = ["Limits", "shop"]

TRADE_OFF_SHARE = 0.1
"""Share of the time limit for each question what a better lightfastness or opacity would cost."""

RIVALS_SHARE = 0.1
"""Share of the time limit for the search for palettes near the best, if they are asked for."""


@dataclass(frozen=True)
class Limits:
    """How long the program may think, and by which method."""

    seconds: float = 60.0
    """Time for the proof of the choice [s]; mixing and reporting come on top."""
    method: Method = Method.SEARCH
    """The exact method that chooses and proves."""


def shop(
    catalogue: Catalogue,
    scenario: Scenario,
    *,
    limits: Limits | None = None,
    progress: Callable[[str], None] | None = None,
    cache: Cache | None = None,
    trials: Trials | None = None,
) -> Plan:
    """Return the best plan for a scenario.

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

    Raises
    ------
    ClashError
        If the demands cannot all be met.
    """
    limits = limits or Limits()
    seconds = limits.seconds
    tell = progress or (lambda _stage: None)
    question = pose(catalogue, scenario, cache=cache or Cache(), progress=tell)
    tell("choosing the tubes and proving the choice")
    chosen = choose(question, seconds=seconds, method=limits.method)
    steadiness = None
    if trials is not None:
        tell("varying paint and hand")
        chosen, steadiness = weigh(question, chosen, trials, seconds=RIVALS_SHARE * seconds)
    tell("weighing lightfastness and transparency")
    return answer(question, chosen, seconds=TRADE_OFF_SHARE * seconds, steadiness=steadiness)
