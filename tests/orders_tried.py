"""How orders of buying rank, written out for tests that try all of them."""

from collections.abc import Sequence

from fewtubes.selection.instalments import InstalmentInstance
from fewtubes.selection.instance import ChoiceInstance


def doubles(known: ChoiceInstance, bought: frozenset[int]) -> bool:
    """Whether two tubes that are one paint are bought, or one that an owned tube makes."""
    chosen = bought - known.must_have
    return any({a, b} <= bought and {a, b} & chosen for a, b in known.alike) or any(
        owned in known.owned and tube in chosen for owned, tube in known.spare
    )


def rank_of(
    problem: InstalmentInstance,
    held: Sequence[frozenset[int]],
    worth: Sequence[int],
    costs: tuple[int, ...],
) -> tuple[object, ...]:
    """Return by what an order ranks; the least of all is the best.

    Parameters
    ----------
    problem
        What is asked.
    held, worth, costs
        At each time the tubes bought up to then, what they cover, and what was spent.
    """
    known, last = problem.instance, held[-1]
    fades = [known.fades[i] for i in last]
    return (
        -sum(k * v for k, v in zip(problem.importances, worth, strict=True)),
        len(last),
        len(known.fading & last),
        costs[-1],
        max(fades, default=0),
        sum(fades),
        tuple(-v for v in worth),
        costs,
        tuple(tuple(sorted(bought)) for bought in held),
    )
