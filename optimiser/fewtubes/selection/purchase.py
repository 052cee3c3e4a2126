"""The cheapest purchase for a palette: which packs and sets, at which sellers."""

from fewtubes.errors import DefectError
from fewtubes.selection.purchase_cost import cheapest_cost
from fewtubes.selection.purchase_program import counted, solved_purchase
from fewtubes.selection.terms import Purchase, Terms

__all__ = ["cheapest_purchase", "holds"]


def cheapest_purchase(terms: Terms, bought: tuple[int, ...]) -> Purchase | None:
    """Return the cheapest purchase that holds what is needed of each tube; it is remembered.

    It may hold more than is needed, where that is cheaper in all: a set whose other tubes lie
    idle, or a pack that makes delivery free. Of equally cheap purchases it is the one with the
    fewest sellers, then with the fewest packs and sets, then with most paint of the tubes, and
    then always the same.

    Parameters
    ----------
    terms
        What is on sale.
    bought
        Tubes, ascending; no owned ones.

    Returns
    -------
    None if what is needed cannot be had.

    Notes
    -----
    The cost is counted by addition (`cheapest_cost`), the purchase found by an integer program
    that shares no code with it, and it is looked at whether the one is of the other's cost.
    """
    cost = cheapest_cost(terms, bought)
    if cost is None:
        return None
    if not bought:
        return Purchase((), (), (), 0)
    known = terms.worked_out.get(("purchase", bought))
    if isinstance(known, Purchase):
        return known
    found = solved_purchase(terms, bought, terms.needed(bought), cost)
    if not holds(terms, bought, found):
        raise DefectError(f"a purchase does not hold what is needed of tubes {bought}: {found}")
    terms.worked_out["purchase", bought] = found
    return found


def holds(terms: Terms, bought: tuple[int, ...], purchase: Purchase) -> bool:
    """Return whether a purchase is sold as it is, costs what it says and holds what is needed."""
    if counted(terms, purchase.packs, purchase.sets) != purchase:
        return False
    goods = dict.fromkeys((seller for seller, _ in purchase.deliveries), 0)
    paint = {tube: [0, 0] for tube in bought}
    for number, count in purchase.packs:
        pack = terms.packs[number]
        if pack.stock is not None and count > pack.stock:
            return False
        goods[pack.seller] += pack.cost(count)
        if pack.tube in paint:
            paint[pack.tube][0] += count * pack.amount
            paint[pack.tube][1] += count
    for number, count in purchase.sets:
        box = terms.sets[number]
        if box.stock is not None and count > box.stock:
            return False
        goods[box.seller] += count * box.price
        for tube, containers, amount in box.holds:
            if tube in paint:
                paint[tube][0] += count * amount
                paint[tube][1] += count * containers
    return all(
        money >= terms.sellers[seller].least_order for seller, money in goods.items()
    ) and all(
        paint[tube][0] >= need.amount and paint[tube][1] >= need.containers
        for tube, need in zip(bought, terms.needed(bought), strict=True)
    )
