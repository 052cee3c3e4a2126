"""What is known about how good the answer is, in the terminal."""

from rich.console import Console

from fewtubes.report.sentences.proof import (
    proof_words,
    space_words,
    steady_proof_words,
    ties_words,
)
from fewtubes.report.terminal.layout import heading, paragraph
from fewtubes.shopping.plan import Plan

__all__ = ["print_proof"]


def print_proof(plan: Plan, console: Console) -> None:
    """Print whether the answer is proven, in which space, and how many palettes rank equal."""
    heading(console, "How sure that is")
    steadiness = plan.steadiness
    ranks_best = steadiness is None or steadiness.ranks_best
    said = proof_words(plan)
    if steadiness is not None and not ranks_best:
        said = steady_proof_words(plan, steadiness)
    paragraph(console, said)
    paragraph(console, space_words(plan))
    if ranks_best or (steadiness is not None and not steadiness.taken):
        paragraph(console, ties_words(plan))
