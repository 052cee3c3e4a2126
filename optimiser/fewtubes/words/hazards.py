"""What calls for care in a tube, in words."""

from collections.abc import Iterable, Sequence

from fewtubes.catalogue.records import Hazard, Tube
from fewtubes.catalogue.sizes import LONGEST_NOTE
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = ["avoided_words", "care_words", "harm_words", "hazard_words", "names_only", "statements"]

DEFERRING = (
    "tells the usual cautions; the maker's label, the safety data sheet, local"
    " rules and qualified advice decide."
)


def hazard_words(tube: Tube) -> str:
    """Return the hazards of a tube as a list in a sentence, e.g. ``cobalt and nickel``.

    One that has no word of its own is told in the words of the catalogue.
    """
    noted = (pigment.hazard_note for pigment, _ in tube.pigments if Hazard.OTHER in pigment.hazards)
    return joined([*_named(tube), *(_unended(note) for note in dict.fromkeys(noted))])


def care_words(tube: Tube) -> str:
    """Return the hazards of a tube and all that the catalogue notes of them; "" if there is none.

    For example ``holds cobalt; noted: make no dust``. What is said already is not said again.
    """
    named = _named(tube)
    noted = [one for note in tube.hazard_notes for one in statements(_unended(note))]
    # What several pigments call for stands where the last of them says so: first what they hold.
    last = {one.casefold(): at for at, one in enumerate(noted)}
    once = [one for at, one in enumerate(noted) if last[one.casefold()] == at]
    notes = "; ".join(one for one in once if not names_only(one, tube.hazards))
    said = [f"holds {joined(named)}"] if named else []
    return "; ".join([*said, *([f"noted: {notes}"] if notes else [])])


def statements(note: str) -> list[str]:
    """Return what a note of the catalogue says, each statement by itself; semicolons part them."""
    return [one for part in note.split(";") if (one := part.strip())]


def names_only(statement: str, hazards: Iterable[Hazard]) -> bool:
    """Return whether a statement says nothing but that something is held which is named anyway.

    Such as ``holds cobalt and nickel`` of both; ``holds bound nickel`` says more.
    """
    held, words = statement.casefold().removeprefix("holds "), {it.value for it in hazards}
    return held != statement.casefold() and set(held.split(" and ")) <= words


def avoided_words(hazards: Sequence[Hazard]) -> str:
    """Return what is to be avoided, e.g. ``no cadmium or lead``."""
    if len(hazards) == len(Hazard):
        return "nothing that the catalogue names as a hazard"
    named = [
        "other hazard that is noted" if hazard is Hazard.OTHER else hazard.value
        for hazard in hazards
    ]
    return f"no {joined(named, 'or')}"


def harm_words(tubes: Iterable[Tube], *, told_by: str = "`fewtubes shop`") -> str:
    """Return which of the tubes just named are harmful, and who decides, in whole sentences.

    Parameters
    ----------
    tubes
        All that are named.
    told_by
        What tells the cautions in full.
    """
    deferring = f"{told_by} {DEFERRING}"
    harmful = {tube.id: tube for tube in tubes if tube.hazards}
    if not harmful:
        return f"The catalogue notes no hazard of the tubes named here. {deferring}"
    named = joined([f"{printable(tube.name)} ({hazard_words(tube)})" for tube in harmful.values()])
    return (
        "Harmful if they get into the mouth, the lungs or on the skin, as the catalogue notes:"
        f" {named}. {deferring}"
    )


def _named(tube: Tube) -> list[str]:
    return [hazard.value for hazard in tube.hazards if hazard is not Hazard.OTHER]


def _unended(note: str) -> str:
    return printable(note, LONGEST_NOTE).rstrip(".")
