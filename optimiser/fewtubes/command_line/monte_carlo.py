"""The options about varying paint and hand, turned into what is asked of the library."""

from fewtubes.catalogue.limits import NumberRange
from fewtubes.command_line.numbers import in_range
from fewtubes.defaults import DRAWS, RIVALS_WITHIN, SEED
from fewtubes.errors import Fault, InputError
from fewtubes.shopping.steadiness import MonteCarlo

__all__ = ["monte_carlo_asked"]

SEEDS = NumberRange(0, 1_000_000_000)
"""Enough to choose from, and few enough digits to copy."""

DRAWS_ASKED = NumberRange(20, 2000)
"""Fewer tell too little; more would fill the memory with large boxes of tubes."""

WITHIN = NumberRange(0, 1)
"""A share of the coverage."""


def monte_carlo_asked(
    *,
    how_sure: bool,
    steadiest: bool,
    within: float | None,
    seed: int | None,
    draws: int | None,
) -> MonteCarlo | None:
    """Return what is asked, or None if nothing is.

    Raises
    ------
    InputError
        If a number is out of bounds, or is given though nothing is asked.
    """
    given = (("--within", within, WITHIN), ("--seed", seed, SEEDS), ("--draws", draws, DRAWS_ASKED))
    if not (how_sure or steadiest):
        alone = "changes nothing alone; add --how-sure or --steadiest."
        faults = [Fault(option, alone) for option, value, _ in given if value is not None]
        if faults:
            raise InputError(faults)
        return None
    in_range(given)
    close = 0.0 if steadiest else RIVALS_WITHIN
    return MonteCarlo(
        seed=SEED if seed is None else seed,
        draws=DRAWS if draws is None else draws,
        within=close if within is None else within,
        choose=steadiest,
    )
