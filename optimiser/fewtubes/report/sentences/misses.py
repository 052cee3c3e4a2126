"""What the wish for nearness to what is out of reach came to, in words."""

from fewtubes.shopping.plan import Plan
from fewtubes.words.proof.misses import nearest_words

__all__ = ["misses_words"]


def misses_words(plan: Plan) -> str:
    """Return how near the plan comes to what is out of reach beside its equals; "" if not asked.

    A plan taken for steadiness is another one, of which nothing is said.
    """
    misses, steadiness = plan.misses, plan.steadiness
    if misses is None or (steadiness is not None and steadiness.taken):
        return ""
    return nearest_words(
        misses.among,
        complete=misses.complete,
        mean=misses.mean,
        without_wish=misses.without_wish,
        extra_cost=misses.extra_cost,
        currency=plan.scenario.currency,
    )
