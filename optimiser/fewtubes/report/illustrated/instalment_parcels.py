"""What one time's purchase buys where, as a table by seller in the report of buying bit by bit."""

from collections.abc import Callable, Sequence

from markupsafe import Markup

from fewtubes.catalogue.records import Tube
from fewtubes.report.illustrated.markup import fill
from fewtubes.report.sentences.instalment_lines import PurchaseLine, seller_lines
from fewtubes.report.sentences.purchase import seller_words
from fewtubes.shopping.bought import Bought, Parcel
from fewtubes.shopping.list_lines import LineKind
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.money import amount
from fewtubes.words.tubes import codes_words
from fewtubes.words.unparted import FIXED_BLANK

__all__ = ["purchase_table"]

Dabs = Callable[[Sequence[Tube]], Markup]


def purchase_table(purchase: Bought, dabs: Dabs, currency: str) -> Markup:
    """Return the table of a purchase, a part for each seller.

    Parameters
    ----------
    purchase
        What is bought.
    dabs
        Draws a dab of each tube.
    currency
        ISO 4217 code.
    """
    parcels = purchase.parcels
    packs = sum(one.pack.count for parcel in parcels for one in parcel.packs)
    sets = sum(one.count for parcel in parcels for one in parcel.sets)
    told = [counted(packs, "pack")] if packs or not sets else []
    return fill(
        "parcels.html",
        nothing="",
        currency=currency,
        parcels=[_parcel(parcel, dabs) for parcel in parcels],
        packs=joined([*told, *([counted(sets, "set")] if sets else [])]),
        total=amount(purchase.cost),
        idle=[],
    )


def _parcel(parcel: Parcel, dabs: Dabs) -> dict[str, object]:
    """Return what is bought of one seller, as `parcels.html` has it."""
    lines = [*seller_lines(parcel)]
    delivery = [line for line in lines if line.kind is LineKind.DELIVERY]
    return {
        "seller": seller_words(parcel),
        "lines": [_line(line, dabs) for line in lines if line not in delivery],
        "goods": amount(parcel.goods) if parcel.delivery else "",
        "delivery": "".join(line.name[:1].upper() + line.name[1:] for line in delivery),
        "charge": amount(parcel.delivery),
        "together": amount(parcel.cost),
    }


def _line(line: PurchaseLine, dabs: Dabs) -> dict[str, object]:
    """Return a line of the table: a pack, a set or a tube in a set."""
    tube = line.tube
    name = line.name if tube is not None else line.name[:1].upper() + line.name[1:]
    packs = counted(line.count, "set") if tube is None else line.packs.replace(" ", FIXED_BLANK)
    return {
        "name": name,
        "dab": Markup() if tube is None else dabs([tube]),
        "codes": "" if tube is None else codes_words(tube),
        "grade": "" if tube is None else tube.lightfastness.name,
        "lasts": "",
        "packs": packs,
        "price": "" if line.price is None else amount(line.price),
        "in_set": line.kind is LineKind.IN_SET,
        "spare": line.spare,
        "sold_out": "",
    }
