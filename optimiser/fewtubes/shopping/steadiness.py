"""How sure an answer is when paint and hand vary: what is asked, and what is found."""

from dataclasses import dataclass, field

from fewtubes.catalogue.collector import settle_numbers
from fewtubes.catalogue.limits import SEEDS, NumberRange
from fewtubes.catalogue.records import Tube
from fewtubes.defaults import DRAWS, RIVALS_WITHIN, SEED
from fewtubes.errors import Fault, InputError
from fewtubes.mixing.variation import Variation
from fewtubes.scenario.demands import COVERAGE

__all__ = ["MonteCarlo", "Rival", "Spread", "Steadiness"]

MANY_DRAWS = NumberRange(20, 2000)
"""Fewer tell too little; more would fill the memory with large boxes of tubes."""

SURE_ERRORS = 2.0
"""A lead of fewer standard errors than this is not told from luck (about 19 cases of 20)."""


@dataclass(frozen=True)
class MonteCarlo:
    """What is asked.

    Parameters
    ----------
    seed, draws
        Of the random numbers: which, and how many draws.
    within
        Coverage that another palette may fall short of the best by and still be weighed [0–1]; at
        0 only palettes that rank equal are.
    choose
        Whether to take the steadiest palette, and the steadiest recipes, instead of only telling.
    variation
        Sizes of what varies.

    Raises
    ------
    InputError
        If a number is out of bounds: `seed` 0 to 1,000,000,000, `draws` 20 to 2,000, `within` 0
        to 1.
    """

    seed: int = SEED
    draws: int = DRAWS
    within: float = RIVALS_WITHIN
    choose: bool = False
    variation: Variation = field(default_factory=Variation)

    def __post_init__(self) -> None:
        ranges = {"seed": SEEDS, "draws": MANY_DRAWS, "within": COVERAGE}
        settle_numbers(self, ranges, whole=("seed", "draws"), flags=("choose",))
        if not isinstance(self.variation, Variation):
            what = f"is {self.variation!r}; it must be a Variation."
            raise InputError([Fault("variation", what)])


@dataclass(frozen=True)
class Spread:
    """Coverage over the draws [0–1]."""

    expected: float
    standard_error: float
    """Of the expected coverage, by the number of draws."""
    low: float
    high: float
    """5 % of draws lie below `low`, 5 % above `high`."""


@dataclass(frozen=True, eq=False)
class Rival:
    """Another palette, under the same draws."""

    bought: tuple[Tube, ...]
    cost: int
    """Of its packs [hundredths of the currency]."""
    coverage: float
    """Without variation [0–1]."""
    spread: Spread
    lead: float
    """Its expected coverage − that of the plan [−1–1]."""
    lead_error: float
    """Standard error of the lead, draw by draw."""

    @property
    def steadier(self) -> bool:
        """Whether it covers more than the plan beyond luck."""
        return self.lead > SURE_ERRORS * self.lead_error

    @property
    def less_steady(self) -> bool:
        """Whether it covers less than the plan beyond luck."""
        return self.lead < -SURE_ERRORS * self.lead_error


@dataclass(frozen=True, eq=False)
class Steadiness:
    """What is found.

    The palettes are compared by one set of draws and the figures told by another, independent one:
    whichever comes first of many under some draws was lucky in them, and its figures would flatter.
    The second set picks nothing; it can only refuse a palette whose lead it does not bear out.
    """

    trials: MonteCarlo
    stays: tuple[float, ...]
    """For each sample the share of draws in which its recipe is within tolerance [0–1]."""
    spread: Spread
    weighed: int
    """Palettes compared, the one of the plan included."""
    all_weighed: bool
    """Whether these are all that were to be compared."""
    proven: bool
    """Whether the best coverage is proven; if not, only equals were compared."""
    rival: Rival | None
    """The steadiest other one, or, if `taken`, the one that would have been taken otherwise."""
    taken: bool
    """Whether another palette than the one with the smallest mean match was taken."""
    ranks_best: bool
    """Whether the plan ranks with the best in coverage, number, price and lightfastness."""
    given_up: float
    """Best coverage − coverage of the plan, without variation [0–1]."""
    extra_cost: int
    """Price of the plan − that of the best ones [hundredths of the currency]."""
    other_recipes: int
    """Samples that got a recipe which is not the nearest but stays within tolerance more often."""
