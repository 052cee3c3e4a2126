"""The options about varying paint and hand, turned into what is asked of the library."""

from fewtubes.catalogue.limits import NumberRange
from fewtubes.errors import Fault, InputError
from fewtubes.shopping.steadiness import DEFAULT_DRAWS, DEFAULT_SEED, NEAR, MonteCarlo

__all__ = ["monte_carlo_asked"]

SEED = NumberRange(0, 1_000_000_000)
"""Enough to choose from, and few enough digits to copy."""

DRAWS = NumberRange(20, 2000)
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
    numbers = {"--within": within, "--seed": seed, "--draws": draws}
    ranges = {"--within": WITHIN, "--seed": SEED, "--draws": DRAWS}
    given = {option: value for option, value in numbers.items() if value is not None}
    if given and not (how_sure or steadiest):
        raise InputError(
            [
                Fault(option, "changes nothing alone; add --how-sure or --steadiest.")
                for option in given
            ]
        )
    faults = [
        Fault(option, f"is {value:g}; it must be {ranges[option]}.")
        for option, value in given.items()
        if not ranges[option].admits(value)
    ]
    if faults:
        raise InputError(faults)
    if not (how_sure or steadiest):
        return None
    close = 0.0 if steadiest else NEAR
    return MonteCarlo(
        seed=DEFAULT_SEED if seed is None else seed,
        draws=DEFAULT_DRAWS if draws is None else draws,
        within=close if within is None else within,
        choose=steadiest,
    )
