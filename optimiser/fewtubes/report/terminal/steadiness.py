"""How sure the answer is when paint and hand vary, in the terminal.

A lead that may be luck is never called one; what is given up for steadiness is always told.
"""

import math

from rich.console import Console

from fewtubes.report.sentences.steadiness import (
    assumption_words,
    expected_words,
    recipes_words,
    rival_words,
    weighed_words,
)
from fewtubes.report.terminal.layout import heading, paragraph, plain, put, table
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedSample
from fewtubes.shopping.steadiness import Steadiness
from fewtubes.words.printable import printable
from fewtubes.words.shares import percent, points

__all__ = ["print_steadiness"]

LONGEST_LABEL = 36
"""Characters of a flower or swatch beside its share."""


def print_steadiness(plan: Plan, steadiness: Steadiness, console: Console) -> None:
    """Print how often each recipe stays within tolerance, and what that makes of the coverage.

    Parameters
    ----------
    plan, steadiness
        The answer, and what was found of it.
    console
        Where to print.
    """
    heading(console, "If paint and hand vary")
    paragraph(console, assumption_words(plan, steadiness))
    paragraph(console, expected_words(plan, steadiness))
    shares = table("flower", "colour", "within tolerance", right=("within tolerance",))
    for planned, stays in zip(plan.samples, steadiness.stays, strict=True):
        shares.add_row(
            plain(printable(planned.sample.flower, LONGEST_LABEL)),
            plain(printable(planned.sample.name, LONGEST_LABEL)),
            plain(_stays_words(planned, stays)),
        )
    put(console, shares)
    paragraph(console, _shares_note(steadiness))
    for words in (
        weighed_words(steadiness),
        rival_words(plan, steadiness),
        recipes_words(steadiness),
    ):
        if words:
            paragraph(console, words)


def _stays_words(planned: PlannedSample, stays: float) -> str:
    """Return a share; of a colour out of reach it is luck."""
    if planned.covered:
        return "always, as bare paper" if planned.is_bare_paper else percent(stays)
    return f"out of reach; by luck {percent(stays)}" if stays else "out of reach"


def _shares_note(steadiness: Steadiness) -> str:
    """Return how sure the shares of single colours are, in a sentence."""
    error = math.sqrt(0.25 / steadiness.trials.draws)  # of a share of a half, the least sure
    return f"Standard error of each of these shares: {points(error)} at most."
