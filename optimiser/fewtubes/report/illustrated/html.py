"""Markup that is safe by construction: whatever is not markup already is escaped."""

from collections.abc import Iterable
from html import escape

from fewtubes.words.printable import printable

__all__ = ["FIXED_BLANK", "Html", "element", "listed", "paragraph", "together"]

LONGEST_TEXT = 4000
"""Characters in one piece of text; longer than anything the program itself has to say."""

FIXED_BLANK = "\u00a0"
"""A blank at which no line is broken."""

VOID = frozenset({"br", "hr", "meta"})
"""Elements that have no end."""


class Html(str):
    """Text that is markup; only `element` and pictures make it."""

    __slots__ = ()


def element(name: str, /, *content: str, **attributes: str) -> Html:
    """Return an element.

    Parameters
    ----------
    name
        The element's name, in the program's own words.
    content
        Markup as it stands, other text escaped.
    attributes
        Values are escaped; a trailing underscore is dropped and others become hyphens, so that
        ``class_`` and ``aria_label`` can be written.
    """
    written = "".join(
        f' {key.removesuffix("_").replace("_", "-")}="{_text(value)}"'
        for key, value in attributes.items()
    )
    if name in VOID:
        return Html(f"<{name}{written}>")
    return Html(f"<{name}{written}>{''.join(map(_safe, content))}</{name}>\n")


def paragraph(*content: str, class_: str = "") -> Html:
    """Return a paragraph."""
    return element("p", *content, **({"class_": class_} if class_ else {}))


def listed(items: Iterable[str], *, class_: str = "") -> Html:
    """Return a list without order."""
    attributes = {"class_": class_} if class_ else {}
    return element("ul", *(element("li", item) for item in items), **attributes)


def together(*content: str) -> Html:
    """Return pieces of markup and text one after the other."""
    return Html("".join(map(_safe, content)))


def _safe(content: str) -> str:
    return content if isinstance(content, Html) else _text(content)


def _text(text: str) -> str:
    """Return a text escaped; a number is not parted from the unit beside it."""
    pieces = (printable(piece, LONGEST_TEXT) for piece in text.split(FIXED_BLANK))
    escaped = escape(FIXED_BLANK.join(pieces), quote=True)
    return escaped.replace(" %", f"{FIXED_BLANK}%").replace("ΔE00 ", f"ΔE00{FIXED_BLANK}")
