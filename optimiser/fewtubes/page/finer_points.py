"""The finer points of a question, which most painters leave as they are: which are changed."""

from collections.abc import Collection, Iterator

from fewtubes.page.fields import LABELS, first_of
from fewtubes.page.planned_form import PLANNED_FIELDS
from fewtubes.page.tabs import FormValues
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = ["FINER_FIELDS", "finer_words", "opens_finer", "opens_planned", "planned_words"]

FINER_FIELDS = (
    "most_tubes",
    "tolerance",
    "lightfastness",
    "transparency",
    "millilitres",
    "least_coverage",
    "thinnest_wash",
    "most_in_mix",
    "paper",
    "light",
    "prefer",
    "nearer",
    "trials",
    "puddling",
    "avoid",
)
"""Fields that are folded away, in their order on the page."""

LONGEST_NUMBER = 12
"""Characters of a number as it was typed."""

USUAL = {"puddling": "flower"}
"""What a field sends that was left alone, where that is not an empty text."""


def finer_words(values: FormValues, first: FormValues) -> str:
    """Return which finer points are not as usual, e.g. ``tolerance and paper``; or ``""``.

    Parameters
    ----------
    values
        As typed.
    first
        What the form begins with.
    """
    return joined([_uncapped(LABELS[field]) for field in _changed(values, first)])


def opens_finer(values: FormValues, first: FormValues, faulty: Collection[str]) -> bool:
    """Return whether the finer points are to be unfolded: one is not as usual, or has a fault."""
    return any(_changed(values, first)) or not set(FINER_FIELDS).isdisjoint(faulty)


def planned_words(values: FormValues) -> str:
    """Return for how many painters and pictures it is asked, e.g. ``12 painters``; or ``""``."""
    painters, pictures = (
        printable(first_of(values, field).strip(), LONGEST_NUMBER)
        for field in ("class_painters", "pictures")
    )
    return joined(
        [
            *([f"{painters} painters"] if painters else []),
            *([f"{pictures} pictures"] if pictures else []),
        ]
    )


def opens_planned(values: FormValues, faulty: Collection[str]) -> bool:
    """Return whether class and pictures are to be unfolded: there are any, or a fault."""
    return bool(planned_words(values)) or not set(PLANNED_FIELDS).isdisjoint(faulty)


def _changed(values: FormValues, first: FormValues) -> Iterator[str]:
    """Yield the fields that were filled in otherwise than the form begins with."""
    for field in FINER_FIELDS:
        given = [text.strip() for text in values.get(field, ())]
        usual = [*first.get(field, (USUAL.get(field, ""),))]
        if given not in ([], usual) and (any(given) or field in first):
            yield field


def _uncapped(label: str) -> str:
    return label[:1].lower() + label[1:]
