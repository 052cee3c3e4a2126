"""The options about varying paint and hand, turned into what is asked of the library."""

from fewtubes.command_line.asked import told_of_options
from fewtubes.defaults import DRAWS, RIVALS_WITHIN, SEED
from fewtubes.errors import Fault, InputError
from fewtubes.shopping.steadiness import MonteCarlo

__all__ = ["monte_carlo_asked"]


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
    given = {"--within": within, "--seed": seed, "--draws": draws}
    if not (how_sure or steadiest):
        alone = "changes nothing alone; add --how-sure or --steadiest."
        faults = [Fault(option, alone) for option, value in given.items() if value is not None]
        if faults:
            raise InputError(faults)
        return None
    close = 0.0 if steadiest else RIVALS_WITHIN
    with told_of_options():
        return MonteCarlo(
            seed=SEED if seed is None else seed,
            draws=DRAWS if draws is None else draws,
            within=close if within is None else within,
            choose=steadiest,
        )
