"""Numbers of things, in the singular or plural."""

__all__ = ["counted"]


def counted(number: int, thing: str) -> str:
    """Return a number with its thing in the singular or plural, e.g. ``1 tube``, ``1,200 mixes``.

    Parameters
    ----------
    number
        How many.
    thing
        The singular; a plural other than with s follows a stroke, e.g. ``"mix/mixes"``.
    """
    singular, _, plural = thing.partition("/")
    return f"{number:,} {singular if number == 1 else plural or singular + 's'}"
