"""Money: whole hundredths of a currency, printed exactly."""

from decimal import Decimal

__all__ = ["amount", "money", "scale_mark"]


def amount(price: int) -> str:
    """Return hundredths of a currency as a decimal number, exactly, e.g. ``12.50``."""
    return str((Decimal(price) / 100).quantize(Decimal("0.01")))


def money(price: int, currency: str) -> str:
    """Return hundredths of a currency after its ISO 4217 code, e.g. ``EUR 12.50``."""
    return f"{currency} {amount(price)}"


def scale_mark(price: int) -> str:
    """Return hundredths of a currency for a mark on a scale: whole amounts without decimals."""
    return amount(price).removesuffix(".00")
