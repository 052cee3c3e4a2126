"""One door to the exact methods: the search, the integer program, or one checked by the other."""

import time
from dataclasses import replace

from fewtubes.selection.certificate import Choice, Method, Status
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.program import solve_program
from fewtubes.selection.search import MOST_TIES, search

__all__ = ["solve"]


def solve(instance: ChoiceInstance, *, seconds: float, method: Method = Method.SEARCH) -> Choice:
    """Solve an instance by the method asked for.

    With `Method.BOTH` the search answers and the integer program, which shares no code with it,
    proves the answer again in the time left; the certificate names both methods only if both
    proofs are complete, else the search alone.

    Raises
    ------
    RuntimeError
        If both methods prove different answers, which is a defect of the program.
    """
    if method is Method.PROGRAM:
        return solve_program(instance, time_limit_s=seconds, most_ties=MOST_TIES)
    began = time.monotonic()
    choice = search(instance, seconds=seconds)
    if method is Method.SEARCH or choice.certificate.status is Status.STOPPED:
        return choice
    left = max(0.0, seconds - (time.monotonic() - began))
    start = choice.palettes[0] if choice.palettes else None
    second = solve_program(instance, time_limit_s=left, start=start)
    if second.certificate.status is Status.STOPPED:
        return choice
    ranks = [[palette.rank for palette in found.palettes[:1]] for found in (choice, second)]
    if ranks[0] != ranks[1]:
        raise RuntimeError(f"the exact methods disagree: {ranks[0]} and {ranks[1]}")
    certificate = replace(choice.certificate, method=Method.BOTH, seconds=time.monotonic() - began)
    return replace(choice, certificate=certificate)
