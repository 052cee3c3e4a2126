"""What calls for care in a tube, in words."""

from collections.abc import Iterable, Sequence

from fewtubes.catalogue.records import Hazard, Tube
from fewtubes.catalogue.sizes import LONGEST_NOTE
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = ["avoided_words", "care_words", "harm_words", "hazard_words"]

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

    For example ``holds cobalt; noted: make no dust``.
    """
    named = _named(tube)
    notes = "; ".join(_unended(note) for note in tube.hazard_notes)
    said = [f"holds {joined(named)}"] if named else []
    return "; ".join([*said, *([f"noted: {notes}"] if notes else [])])


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
