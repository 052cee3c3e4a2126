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

__all__ = ["ASK_THE_LABEL", "NOT_KNOWN", "ORIENTATION", "UNKNOWN", "Expected", "expected_of"]

UNKNOWN = Lightfastness.III
"""Taken for a pigment that nothing is known of: fair, so no wish for lasting paint trusts it."""

ORIENTATION = (
    "What is taken from a Colour Index name is orientation: the maker's label, the safety data"
    " sheet, local rules and qualified advice decide."
)

ASK_THE_LABEL = "read the label and the safety data sheet"
"""What care a hazard calls for where nothing is noted of it."""


NOT_KNOWN = f"not known what is in it: {ASK_THE_LABEL}"
"""Noted of a tube with a pigment that nothing is known of: no wish for harmless paint trusts it."""


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
        held |= set() if sure else {Hazard.OTHER}
        hazards = tuple(hazard for hazard in Hazard if hazard in held)
    return Expected(
        lightfastness=label.lightfastness or max(categories),
        staining=_agreed([profile.staining for profile in named]) if sure else None,
        granulating=_agreed([profile.granulating for profile in named]) if sure else None,
        hazards=hazards,
        hazard_note=_note(hazards, named, label, sure=sure),
        told=_told(name, codes, unknown, label, category=max(categories), hazards=hazards),
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


def _note(
    hazards: Sequence[Hazard], named: Sequence[Pigment], label: LabelSays, *, sure: bool
) -> str:
    """Return what care the hazards call for; "" without any."""
    if label.hazards is None:
        notes = [profile.hazard_note for profile in named if profile.hazard_note]
        notes += [] if sure else [NOT_KNOWN]
    else:
        notes = [p.hazard_note for p in named if p.hazard_note and set(p.hazards) & set(hazards)]
    said = list(dict.fromkeys([*([label.hazard_note] if label.hazard_note else []), *notes]))
    note = "; ".join(said) or (ASK_THE_LABEL if hazards else "")
    return printable(note, LONGEST_NOTE)


def _told(
    name: str,
    codes: Sequence[str],
    unknown: Sequence[str],
    label: LabelSays,
    *,
    category: Lightfastness,
    hazards: Sequence[Hazard],
) -> str:
    """Return where lightfastness and hazards come from, in a sentence."""
    tube = printable(name)
    lasts, harms = label.lightfastness is None, label.hazards is None
    said = [] if lasts else [f"lightfastness {(label.lightfastness or category).name}"]
    said += [] if harms else ["hazards"]
    by_label = f"{joined(said)} as its label says" if said else ""
    taken: list[str] = []
    if codes and not unknown:
        taken += [f"lightfastness {category.name}"] if lasts else []
        taken += [_harm(hazards)] if harms else []
        how = f"as usual of {joined(list(codes))}, {joined(taken)}"
    else:
        why = f"nothing is known of {joined(list(unknown))}" if codes else "no pigment is known"
        taken += [f"as fading (lightfastness {category.name})"] if lasts else []
        taken += ["as calling for care"] if harms else []
        how = f"{why}, so until the label says otherwise it is taken {joined(taken)}"
    return f"{tube}: {'; '.join([*([how] if taken else []), *([by_label] if said else [])])}."


def _harm(hazards: Sequence[Hazard]) -> str:
    """Return what the hazards are, in words."""
    words = [hazard.value if hazard is not Hazard.OTHER else "other" for hazard in hazards]
    return f"care because of {joined(words)}" if words else "no hazard noted"
