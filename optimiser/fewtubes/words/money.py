"""Money: whole hundredths of a currency, printed exactly."""

from decimal import Decimal

__all__ = ["amount", "free_words", "money", "price_words", "scale_mark"]


def amount(price: int) -> str:
    """Return hundredths of a currency as a decimal number, exactly, e.g. ``12.50``."""
    return str((Decimal(price) / 100).quantize(Decimal("0.01")))


def money(price: int, currency: str) -> str:
    """Return hundredths of a currency after its ISO 4217 code, e.g. ``EUR 12.50``."""
    return f"{currency} {amount(price)}"


def price_words(price: int, currency: str, *, in_set: bool) -> str:
    """Return what a tube costs that is not in the palette, or why it costs nothing.

    Parameters
    ----------
    price, currency
        Hundredths, and the ISO 4217 code.
    in_set
        Whether what costs nothing is bought anyway, as in a set or to make the delivery free, or
        saves as much paint of others as it costs.
    """
    return money(price, currency) if price else free_words(in_set=in_set)


def free_words(*, in_set: bool) -> str:
    """Return that a tube costs nothing more, being bought anyway as in a set, or is at home."""
    return "at no further cost" if in_set else "owned"


def scale_mark(price: int) -> str:
    """Return hundredths of a currency for a mark on a scale: whole amounts without decimals."""
    return amount(price).removesuffix(".00")
