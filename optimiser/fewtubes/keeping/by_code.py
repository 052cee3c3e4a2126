"""What the Colour Index names of a tube let one expect of it, until its label says otherwise.

Taken from the profiles of the demo catalogue that bear the name, whose traits are orientation from
memory: the lightfastness of the worst of them, all hazards that any of them has.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from fewtubes.catalogue.records import Hazard, Lightfastness, Pigment, Trait
from fewtubes.catalogue.sizes import LONGEST_NOTE
from fewtubes.fitting.sheet import LabelSays
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = ["ASK_THE_LABEL", "ORIENTATION", "UNKNOWN", "Expected", "expected_of"]

UNKNOWN = Lightfastness.III
"""Taken for a pigment that nothing is known of: fair, so no wish for lasting paint trusts it."""

ORIENTATION = (
    "What is taken from a Colour Index name is orientation: the maker's label, the safety data"
    " sheet, local rules and qualified advice decide."
)

ASK_THE_LABEL = "read the label and the safety data sheet"
"""What care a hazard calls for where nothing is noted of it."""


@dataclass(frozen=True)
class Expected:
    """What a tube is taken to be."""

    lightfastness: Lightfastness
    staining: Trait | None
    """None where it is not known, or profiles of the name disagree."""
    granulating: Trait | None
    hazards: tuple[Hazard, ...]
    hazard_note: str
    told: str
    """Where that comes from, in a sentence."""


def expected_of(
    name: str, codes: Sequence[str], profiles: Iterable[Pigment], label: LabelSays
) -> Expected:
    """Return what a tube of these pigments is taken to be.

    Parameters
    ----------
    name
        Of the tube, for what is told.
    codes
        Colour Index generic names on its label, such as PB29; empty where not known.
    profiles
        Those that traits are taken from.
    label
        What the maker's label says; it stands before everything else.
    """
    known = tuple(profiles)
    by_code = {code: _bearing(code, known) for code in codes}
    named = tuple(dict.fromkeys(profile for found in by_code.values() for profile in found))
    unknown = [code for code, found in by_code.items() if not found]
    sure = bool(codes) and not unknown
    categories = [profile.lightfastness for profile in named] + ([] if sure else [UNKNOWN])
    hazards = label.hazards
    if hazards is None:
        held = {hazard for profile in named for hazard in profile.hazards}
        hazards = tuple(hazard for hazard in Hazard if hazard in held)
    return Expected(
        lightfastness=label.lightfastness or max(categories),
        staining=_agreed([profile.staining for profile in named]) if sure else None,
        granulating=_agreed([profile.granulating for profile in named]) if sure else None,
        hazards=hazards,
        hazard_note=_note(hazards, named, label),
        told=_told(name, codes, unknown, max(categories), label),
    )


def _bearing(code: str, profiles: Sequence[Pigment]) -> list[Pigment]:
    """Return the profiles of a name; without any, those that differ in the crystal alone.

    PB15:3 is one crystal of PB15, which labels often say for any of them.
    """
    exact = [profile for profile in profiles if profile.code == code]
    return exact or [p for p in profiles if p.code and _crystals(p.code) == _crystals(code)]


def _crystals(code: str) -> str:
    return code.partition(":")[0]


def _agreed(traits: Sequence[Trait | None]) -> Trait | None:
    """Return the trait that all have, None if they differ."""
    return traits[0] if len(set(traits)) == 1 else None


def _note(hazards: Sequence[Hazard], named: Sequence[Pigment], label: LabelSays) -> str:
    """Return what care the hazards call for; "" without any."""
    if label.hazards is None:
        notes = [profile.hazard_note for profile in named if profile.hazard_note]
    else:
        notes = [p.hazard_note for p in named if p.hazard_note and set(p.hazards) & set(hazards)]
    said = list(dict.fromkeys([*([label.hazard_note] if label.hazard_note else []), *notes]))
    note = "; ".join(said) or (ASK_THE_LABEL if hazards else "")
    return printable(note, LONGEST_NOTE)


def _told(
    name: str,
    codes: Sequence[str],
    unknown: Sequence[str],
    category: Lightfastness,
    label: LabelSays,
) -> str:
    """Return where lightfastness and hazards come from, in a sentence."""
    tube = printable(name)
    known = [code for code in codes if code not in unknown]
    harm = "" if label.hazards is not None else ", and a hazard that is not noted may be there"
    if label.lightfastness is not None:
        said = f"{tube}: lightfastness {label.lightfastness.name} as its label says"
        if label.hazards is not None or not codes:
            return f"{said}{harm}."
        usual = f"; hazards as {joined(known)} usually has" if known else ""
        doubt = f"; nothing is known of {joined(list(unknown))}{harm}" if unknown else ""
        return f"{said}{usual}{doubt}."
    if not codes:
        why = "no Colour Index name is known"
    elif unknown:
        why = f"nothing is known of {joined(list(unknown))}"
    else:
        return f"{tube}: lightfastness {category.name} and hazards as {joined(known)} usually has."
    fading = "taken as fading until the label says otherwise"
    return f"{tube}: {why}, so it is {fading} (lightfastness {category.name}){harm}."
