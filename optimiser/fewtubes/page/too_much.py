"""What is said of a form, or of a file in it, that is larger than the page takes."""

from decimal import ROUND_FLOOR, Decimal

from fewtubes.colour.picture_file import LARGEST_BYTES

__all__ = ["takes_photographs", "too_much_words"]

MEGABYTE = 1_000_000

PHOTOGRAPH = "/photograph"

FILES = {
    "/open": (
        "That is too much for a scenario file: it may have {most} MB. It is a short text that ends"
        " in .toml; go back and choose another file."
    ),
    "/paints/table": (
        "That is too much for a table of swatches: here it may have {most} MB. Go back and choose"
        " a smaller one, or fit it with `fewtubes fit`."
    ),
}
"""Sentences by the end of the address to which a file is sent."""

FORM = (
    "That is too much: what is typed into this form may have {most} MB in all. Go back and shorten"
    " it."
)


def takes_photographs(path: str) -> bool:
    """Return whether a photograph may come to an address."""
    return path.endswith(PHOTOGRAPH)


def too_much_words(path: str, most_bytes: int) -> str:
    """Return what is said of too large a body, by the address that it was sent to.

    Parameters
    ----------
    path
        The address, without the host.
    most_bytes
        Largest size of a form, without a photograph.
    """
    if takes_photographs(path):
        most = LARGEST_BYTES // (1024 * 1024)
        return (
            f"That is too much: a photograph may have {most} MB. Go back, save it smaller and try"
            " again."
        )
    said = next((words for end, words in FILES.items() if path.endswith(end)), FORM)
    return said.format(most=_rounded_down(most_bytes))


def _rounded_down(size: int) -> str:
    """Return a size in megabytes [MB], so that what is told is surely taken."""
    return f"{(Decimal(size) / MEGABYTE).quantize(Decimal('0.1'), ROUND_FLOOR)}"
