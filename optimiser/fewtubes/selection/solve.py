"""Solves an instance by the exact method asked for: search, integer program, or both in check."""

import time
from collections.abc import Iterator
from dataclasses import replace

from fewtubes.errors import DefectError
from fewtubes.selection.certificate import Choice, Method, Status
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.model import meets_demands
from fewtubes.selection.program import solve_program
from fewtubes.selection.search import MOST_TIES, search
from fewtubes.selection.search_state import SearchState

__all__ = ["contradictions", "solve"]


def solve(
    instance: ChoiceInstance,
    *,
    seconds: float,
    method: Method = Method.SEARCH,
    state: SearchState | None = None,
) -> Choice:
    """Solve an instance by the method asked for; `state` is that of `search`.

    With `Method.BOTH` the search answers and the integer program, which shares no code with it,
    proves the answer again in the time left; the certificate names both methods only if both
    proofs are complete, else the search alone.

    Raises
    ------
    DefectError
        If what the methods say cannot both be true, be it proven or not.
    """
    if method is Method.PROGRAM:
        return solve_program(instance, time_limit_s=seconds, most_ties=MOST_TIES)
    began = time.monotonic()
    choice = search(instance, seconds=seconds, state=state)
    if method is Method.SEARCH or choice.certificate.status is Status.STOPPED:
        return choice
    left = max(0.0, seconds - (time.monotonic() - began))
    start = choice.palettes[0] if choice.palettes else None
    second = solve_program(instance, time_limit_s=left, start=start)
    told = "; ".join(contradictions(instance, choice, second))
    if told:
        raise DefectError(
            f"the two exact methods contradict each other: {told}. This is a fault of the program,"
            " not of what was asked, and neither answer can be relied on."
        )
    if second.certificate.status is Status.STOPPED:
        return choice
    certificate = replace(choice.certificate, method=Method.BOTH, seconds=time.monotonic() - began)
    return replace(choice, certificate=certificate)


def contradictions(instance: ChoiceInstance, first: Choice, second: Choice) -> Iterator[str]:
    """Yield what cannot be true of two answers to an instance, each as part of a sentence."""
    for choice in (first, second):
        yield from _false_figures(instance, choice)
    yield from _denied(first, second)
    yield from _denied(second, first)


def _false_figures(instance: ChoiceInstance, choice: Choice) -> Iterator[str]:
    """Yield what is untrue of an answer by itself, counted anew in whole numbers."""
    certificate, method = choice.certificate, choice.certificate.method
    for palette in choice.palettes:
        if palette != instance.palette(palette.bought) or not meets_demands(instance, palette):
            yield f"the {method} gives tubes {palette.bought} figures that they do not have"
        if palette.value != certificate.value:
            yield f"the {method} certifies {certificate.value} for tubes that cover {palette.value}"
    if certificate.status is Status.PROVEN and certificate.value != certificate.bound:
        yield f"the {method} calls {certificate.value} proven under a bound of {certificate.bound}"
    if certificate.status is Status.PROVEN and not choice.palettes:
        yield f"the {method} proves an answer best and gives none"
    if certificate.status is Status.INFEASIBLE and choice.palettes:
        yield f"the {method} proves that there is no answer and gives one"


def _denied(one: Choice, other: Choice) -> Iterator[str]:
    """Yield what one answer claims and the tubes that the other found disprove."""
    claim = one.certificate
    best = min((palette.rank for palette in one.palettes), default=())
    for palette in other.palettes[:1]:
        method = other.certificate.method
        if claim.status is Status.INFEASIBLE:
            yield f"the {claim.method} proves that there is no answer, the {method} has one"
        elif palette.value > claim.bound:
            yield (
                f"the {claim.method} proves that no choice covers more than {claim.bound}, the"
                f" {method} has one that covers {palette.value}"
            )
        elif claim.status is Status.PROVEN and palette.rank < best:
            yield (
                f"the {claim.method} proves that no choice ranks before {best}, the"
                f" {method} has one of {palette.rank}"
            )
