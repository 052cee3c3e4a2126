"""Buying bit by bit: what to buy now, next and after that, each palette holding the one before."""

import time
from collections.abc import Callable, Collection, Sequence
from dataclasses import replace
from decimal import Decimal

from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.comparison.instalment_findings import Instalment, Instalments, Purchase
from fewtubes.comparison.instalment_prices import priced, refuse_unreckoned
from fewtubes.comparison.instalment_terms import Terms, terms_of
from fewtubes.coverage.cache import Cache, cache_of
from fewtubes.errors import ClashError, Fault, InputError
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Certificate, Choice, Method, Status
from fewtubes.selection.instalment_program import proven_again
from fewtubes.selection.instalment_search import search_instalments
from fewtubes.selection.instalments import BuyingOrder, InstalmentChoice, InstalmentInstance
from fewtubes.selection.terms import Purchase as BoughtByNumber
from fewtubes.shopping.bought import Bought, Surplus
from fewtubes.shopping.clash import clash_message, refused_must_have
from fewtubes.shopping.purchasing import bought_of
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.shop import Limits

__all__ = ["instalments"]

NOTHING_TO_ORDER = (
    "the order of tubes that are chosen already is asked for, and none is named; name them as"
    " tubes that must be bought (must_have)."
)


ALL_SUMS = "The budget here is all sums together."

NOT_ALONE = (
    f"is '{Method.PROGRAM}'; an order of buying is found by '{Method.SEARCH}', which the program"
    f" can check: '{Method.BOTH}'."
)


def instalments(
    catalogue: Catalogue,
    scenario: Scenario,
    *,
    sums: Sequence[Decimal | float | str],
    weights: Sequence[Decimal | float | str] | None = None,
    order_only: bool = False,
    limits: Limits | None = None,
    progress: Callable[[str], None] | None = None,
    cache: Cache | None = None,
) -> Instalments:
    """Return what to buy with each of several sums, one after the other.

    Each palette holds the one before; what is not spent is carried on. The best order of buying is
    the one whose coverage at each time, times the weight of the time, has the greatest sum. Under
    sellers' terms each time's purchase pays for its own deliveries, and brings whole what is needed
    of each tube new then; a tube may be bought sooner than it is of use where that is cheaper.

    Parameters
    ----------
    catalogue, scenario
        As read; the scenario refers to this catalogue. Its own budget is not used. Tubes that must
        be bought, the largest number of tubes and the least coverage are demands on what is there
        in the end.
    sums
        Money for each time [currency], the first for now: 0 or more, at most two decimals.
    weights
        How much being able to paint from each time on counts, above 0 and at most 100, at most two
        decimals. By default the last counts 1, the one before it 2 and so on: being able to paint
        now goes first.
    order_only
        Whether the tubes that must be bought are all that is bought, so that only their order is
        sought; the least coverage is then left out of account.
    limits
        Time limit and method of proof; by default 60 s for the proof, and an hour for mixing. With
        ``"exact search and integer program"`` the program proves again that no order covers more,
        which takes long where many sets of tubes reach a colour; it does not answer alone, and not
        under sellers' terms.
    progress
        Called with a few words whenever a stage begins.
    cache
        Where mixing results are kept from run to run; by default nowhere (see `default_cache`).

    Raises
    ------
    InputError
        If the catalogue does not hold what the scenario names, sums or weights are not as they
        must be, there is no tube to order, pictures are planned, or under sellers' terms two of a
        pack cost less than one.
    ClashError
        If the demands cannot all be met with all sums together.
    LimitError
        If there is too little time or memory for mixing so many tubes.

    Examples
    --------
    >>> from fewtubes import Scenario, default_cache, instalments, read_catalogue
    >>> scenario = Scenario(budget=9, currency="EUR", flowers=["primrose"])
    >>> found = instalments(read_catalogue(), scenario, sums=[4, 5], cache=default_cache())
    >>> [time.cost <= time.brought + time.sum for time in found.times], found.proven
    ([True, True], True)
    """
    terms = terms_of(sums, weights)
    tell, limits = progress or (lambda _stage: None), limits or Limits()
    if limits.method is Method.PROGRAM:
        raise InputError([Fault("method", NOT_ALONE)])
    if order_only and not scenario.wishes.must_have:
        raise InputError([Fault("order_only", NOTHING_TO_ORDER)])
    whole = scenario.with_budget(sum(terms.sums))
    mixing = limits.mixing()
    question = pose(catalogue, whole, cache=cache_of(cache), progress=tell, deadline=mixing)
    refuse_unreckoned(question)
    refused_must_have(question)
    seconds = limits.clock(mixing).share(1.0, of_left=1.0)
    tell("choosing the order of buying and proving it")
    problem = InstalmentInstance(priced(question, given=order_only), terms.money, terms.importances)
    choice = search_instalments(problem, seconds=seconds)
    if choice.order is None:
        nothing = Choice((), complete=False, certificate=choice.certificate)
        message = clash_message(question, nothing, seconds=seconds)
        raise ClashError(f"{message}\n{ALL_SUMS}")
    certificate = choice.certificate
    if limits.method is Method.BOTH:
        certificate = _checked(problem, choice.order, certificate, seconds=seconds)
    return Instalments(
        question=question,
        terms=terms,
        order_only=order_only,
        times=_times(question, terms, choice, choice.order),
        certificate=certificate,
    )


def _checked(
    problem: InstalmentInstance, order: BuyingOrder, certificate: Certificate, *, seconds: float
) -> Certificate:
    """Return the certificate, naming both methods if the program proves the value, too."""
    began = time.monotonic()
    left = max(0.0, seconds - certificate.seconds)
    if problem.instance.terms is not None or certificate.status is not Status.PROVEN:
        return certificate
    if not proven_again(problem, order, seconds=left):
        return certificate
    taken = certificate.seconds + time.monotonic() - began
    return replace(certificate, method=Method.BOTH, seconds=taken)


def _times(
    question: Question, terms: Terms, choice: InstalmentChoice, order: BuyingOrder
) -> tuple[Instalment, ...]:
    """Return what is bought at each time and what comes of it."""
    nothing = question.instance.palette(())
    sooner = (nothing, *order.palettes)
    total = sum(question.instance.weights)
    made = []
    brought = 0
    for number, palette in enumerate(order.palettes):
        before, alone = sooner[number], choice.alone[number]
        new = sorted(set(palette.bought) - set(before.bought))
        seen = set(before.covered)
        purchase = _bought(question, new, before.bought, order.purchases[number : number + 1])
        instalment = Instalment(
            sum=terms.sums[number],
            brought=brought,
            bought=tuple(_purchase(question, tube, purchase) for tube in new),
            palette=palette,
            newly=tuple(t for t in palette.covered if t not in seen),
            coverage=_share(palette.value, total),
            best=_share(alone.bound, total),
            best_proven=alone.status is Status.PROVEN,
            given_up=_share(alone.bound - palette.value, total),
            purchase=purchase,
        )
        brought = instalment.carried_on
        made.append(instalment)
    return tuple(made)


def _purchase(question: Question, number: int, bought: Bought | None) -> Purchase:
    tube = question.tubes[number]
    bought = question.purchase((number,)) if bought is None else bought
    return Purchase(tube, bought.packs_of(tube.id))


def _bought(
    question: Question,
    new: Sequence[int],
    before: Collection[int],
    purchases: Sequence[BoughtByNumber],
) -> Bought | None:
    """Return what one time's purchase buys where; None where prices add up.

    Parameters
    ----------
    question
        What is asked.
    new, before
        Tubes bought then and before, by number, ascending.
    purchases
        The purchase of that time; none where prices add up.
    """
    if question.on_sale is None or not purchases:
        return None
    held = question.owned.union(before)

    def idle_why(tube: Tube) -> Surplus:
        if tube.id in question.refused:
            return Surplus.REFUSED
        return Surplus.OWNED if question.numbers[tube.id] in held else Surplus.NO_USE

    return bought_of(question.on_sale, purchases[0], new, tubes=question.tubes, idle_why=idle_why)


def _share(part: int, whole: int) -> float:
    """Return part ÷ whole, 0 where there is nothing."""
    return part / whole if whole else 0.0
