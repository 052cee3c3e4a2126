"""What is bought of whom, as values that JSON knows.

``goods`` and ``delivery`` of all sellers together are the plan's ``cost``. ``id`` and ``seller``
are null where packs are of no seller in particular; ``charge`` is what a delivery costs there,
``delivery`` what this one costs; ``free_from`` is null where delivery is never free.
``not_needed`` tells how many packs the palette does not need, ``why`` the reason, and
``why_not_needed`` why a tube lies idle in a set.
"""

from fewtubes.shopping.bought import Bought, BoughtPack, BoughtSet, Parcel
from fewtubes.shopping.plan import Plan
from fewtubes.words.money import amount
from fewtubes.words.printable import printable

__all__ = ["bought_values", "purchase_values"]


def purchase_values(plan: Plan) -> dict[str, object]:
    """Return the key ``purchase``, or nothing where sellers are not told apart."""
    if not plan.purchase.by_seller:
        return {}
    return {"purchase": bought_values(plan.purchase)}


def bought_values(bought: Bought) -> dict[str, object]:
    """Return what is bought of each seller, and what all deliveries cost."""
    return {
        "deliveries": amount(bought.deliveries),
        "sellers": [_parcel(parcel) for parcel in bought.parcels],
    }


def _parcel(parcel: Parcel) -> dict[str, object]:
    seller = parcel.seller
    free = None if seller is None else seller.free_from
    return {
        "id": None if seller is None else printable(seller.id),
        "seller": None if seller is None else printable(seller.name),
        "goods": amount(parcel.goods),
        "delivery": amount(parcel.delivery),
        "charge": amount(0 if seller is None else seller.delivery),
        "free_from": None if free is None else amount(free),
        "least_order": amount(0 if seller is None else seller.least_order),
        "packs": [_pack(bought) for bought in parcel.packs],
        "sets": [_set(bought) for bought in parcel.sets],
    }


def _pack(bought: BoughtPack) -> dict[str, object]:
    pack = bought.pack
    return {
        "tube": printable(bought.tube.id),
        "ml": float(pack.offer.ml),
        "count": pack.count,
        "price_each": amount(pack.each),
        "price": amount(pack.cost),
        "not_needed": bought.surplus,
        "why": None if bought.why is None else str(bought.why),
    }


def _set(bought: BoughtSet) -> dict[str, object]:
    why = {tube.id: reason for tube, reason in bought.idle}
    return {
        "set": printable(bought.tube_set.id),
        "name": printable(bought.tube_set.name),
        "count": bought.count,
        "price_each": amount(bought.tube_set.price),
        "price": amount(bought.cost),
        "holds": [
            {
                "tube": printable(pack.tube),
                "ml": float(pack.ml),
                "count": pack.count,
                "why_not_needed": str(why[pack.tube]) if pack.tube in why else None,
            }
            for pack in bought.tube_set.packs
        ],
    }
