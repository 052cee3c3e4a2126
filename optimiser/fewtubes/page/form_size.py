"""How large a form may be: enough for the whole catalogue, with some to spare."""

from dataclasses import dataclass

from fewtubes.catalogue.records import Catalogue

__all__ = ["FormSize", "form_size"]

SPARE_FIELDS = 1000
"""For all that is not a flower or a tube of the catalogue."""

SPARE_BYTES = 512 * 1024
"""For the same; colours of the painter's own and long names filled in to the brim stay below."""

FIELD_BYTES = 250
"""A field without what it holds: boundary and head of a part (RFC 7578), a name, a number."""

ENCODED = 3
"""Bytes that one byte takes at most, written as %hh (URL standard, percent-encoding)."""


@dataclass(frozen=True)
class FormSize:
    """Limits of one form."""

    fields: int
    bytes: int


def form_size(catalogue: Catalogue) -> FormSize:
    """Return how large the form of a catalogue may be.

    A flower has two fields, whether it is ticked and its importance; a tube has one.
    """
    fields = 2 * len(catalogue.flowers) + len(catalogue.tubes)
    named = sum(len(name.encode()) for name in (*catalogue.flowers, *catalogue.tubes))
    return FormSize(
        fields=SPARE_FIELDS + fields,
        bytes=SPARE_BYTES + FIELD_BYTES * fields + ENCODED * named,
    )
