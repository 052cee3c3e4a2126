"""What to take care of with the tubes of a palette.

All of it is common practice, no source. It is orientation, not advice, and always ends by deferring
to those who may give advice.
"""

from collections.abc import Iterator, Sequence

from fewtubes.catalogue.records import Hazard, Lightfastness, Pigment
from fewtubes.shopping.plan_parts import Caution, PlannedTube
from fewtubes.words.hazards import names_only, statements
from fewtubes.words.lightfastness import LIGHT_TEST

__all__ = ["cautions_for"]

HAZARD_TEXTS = {
    Hazard.CADMIUM: "Holds cadmium, which is toxic when swallowed or breathed in and builds up in"
    " the body: never dry, sand or spray it; keep it off skin and away from food.",
    Hazard.CHROMIUM: "Holds chromium: make no dust and no spray of it; some of its compounds are"
    " far more toxic than others, so look the tube up.",
    Hazard.COBALT: "Holds cobalt, which can set off allergies and harms when breathed in: make no"
    " dust and no spray of it.",
    Hazard.COPPER: "Holds copper, bound tightly as a rule: make no dust and no spray of it, and"
    " keep it out of drains and ponds.",
    Hazard.LEAD: "Holds lead, which is toxic even in small amounts, above all for children and"
    " before birth: wear gloves, never dry, sand or spray it, and keep it out of any household"
    " with children.",
    Hazard.MANGANESE: "Holds manganese, which harms when breathed in: make no dust and no spray of"
    " it.",
    Hazard.NICKEL: "Holds nickel, which can set off allergies and harms when breathed in: make no"
    " dust and no spray of it, and keep it off the skin.",
    Hazard.ZINC: "Holds zinc, which harms life in water: keep paint and rinsing water out of drains"
    " and ponds as far as local rules ask.",
    Hazard.OTHER: "Calls for care for another reason than one of these metals: heed what the"
    " catalogue notes, the label and the safety data sheet before it is opened.",
}
"""Common practice, no source."""

SHORT_HAZARDS = {
    Hazard.CADMIUM: "Holds cadmium, toxic: never dry, sand or spray it; keep it off skin and food.",
    Hazard.CHROMIUM: "Holds chromium: no dust, no spray; look the tube up.",
    Hazard.COBALT: "Holds cobalt (allergies): no dust, no spray.",
    Hazard.COPPER: "Holds copper: no dust, no spray, none into drains and ponds.",
    Hazard.LEAD: "Holds lead, toxic, above all for children and before birth: wear gloves; never"
    " dry, sand or spray it; not where children live.",
    Hazard.MANGANESE: "Holds manganese: no dust, no spray.",
    Hazard.NICKEL: "Holds nickel (allergies): no dust, no spray, off the skin.",
    Hazard.ZINC: "Holds zinc: keep it out of drains and ponds.",
    Hazard.OTHER: "Calls for care: heed what is noted, label and safety data sheet before opening.",
}
"""The same, a line each, where an answer is kept short; common practice, no source."""

NO_DUST = ("make no dust and no spray", "never dry, sand or spray it")
"""In the texts above; a note on a hazard mostly says the same in one of the words of `DUST`."""

DUST = frozenset({"avoid dust and spray", "no dry dust", "no spraying"})

SAID_OF_ALL = frozenset({"no brush-licking"})
"""What a note may say and the texts for all painting say anyway."""

FUGITIVE_FROM = Lightfastness.IV
"""Category from which a colour fades within a few years on a wall (common practice, no source)."""

FUGITIVE_TEXT = (
    "Fades in light (ASTM D4303 category IV or V): keep it for sketchbooks and for work that is"
    " scanned or printed, not for work that hangs or is sold."
)
SHORT_FUGITIVE = "Fades within a few years on a wall: not for work that hangs or is sold."
WHITE_TEXT = (
    "Half or more of it is white pigment: it covers what lies beneath, turns mixes chalky, and is"
    " no replacement for a transparent tint of the same colour."
)
SHORT_WHITE = "Half or more white pigment: it covers what lies beneath and turns mixes chalky."

FITTED_TEXT = (
    "Fitted from painted swatches: a fit is an estimate, and lightfastness is not seen in a swatch."
    f" {LIGHT_TEST}"
)
SHORT_FITTED = "Fitted from swatches: an estimate, which tells nothing of how long it lasts."

GENERAL_TEXTS = (
    "Do not point a brush with the lips or put it in the mouth; do not eat, drink or smoke while"
    " painting; wash hands afterwards, and keep painting vessels apart from those for food.",
    "Do not sand or spray dried paint, and do not handle pigment as dry powder without the"
    " protection that its safety data sheet asks for.",
    "Keep paints, rinsing water and rags away from small children and pets; for children and"
    " classes choose paint that is labelled as fit for them.",
)
"""Common practice, no source."""

SHORT_GENERAL = (
    "No brush in the mouth; no eating, drinking or smoking meanwhile; wash hands.",
    "No sanding, no spraying, no dry powder.",
    "Keep paint and rinsing water from children and pets; for children use paint labelled as fit"
    " for them.",
)
"""The same in the same order, in a few words."""

DEFERRING_TEXT = (
    "These are usual cautions, not advice, and what a tube holds is taken from the catalogue, not"
    " from the tube: the maker's label, the safety data sheet, local rules and qualified advice"
    " decide."
)
SHORT_DEFERRING = "Label, safety data sheet, local rules and qualified advice decide."


def cautions_for(tubes: Sequence[PlannedTube]) -> tuple[Caution, ...]:
    """Return the cautions for the tubes of a palette.

    First what concerns single tubes: hazards in the order of `Hazard`, what the catalogue notes of
    them beyond that, and traits. Then what holds for all painting; the last one defers to label,
    safety data sheet, local rules and qualified advice.
    """
    return (
        *_about_tubes(tubes),
        *(
            Caution(text, short=short)
            for text, short in zip(GENERAL_TEXTS, SHORT_GENERAL, strict=True)
        ),
        Caution(DEFERRING_TEXT, short=SHORT_DEFERRING),
    )


def _about_tubes(tubes: Sequence[PlannedTube]) -> Iterator[Caution]:
    """Yield each caution that concerns some of the tubes, with their names."""
    notes = dict.fromkeys(note for tube in tubes for note in _added(tube))
    concerned = [
        *((HAZARD_TEXTS[it], SHORT_HAZARDS[it], _holding(it, tubes)) for it in Hazard),
        *((_noted(note), "", _noting(note, tubes)) for note in notes),
        (
            FUGITIVE_TEXT,
            SHORT_FUGITIVE,
            [tube for tube in tubes if tube.tube.lightfastness >= FUGITIVE_FROM],
        ),
        (FITTED_TEXT, SHORT_FITTED, [tube for tube in tubes if tube.tube.fitted]),
        (WHITE_TEXT, SHORT_WHITE, [tube for tube in tubes if tube.white_filled]),
    ]
    for text, short, some in concerned:
        if some:
            yield Caution(text, tuple(tube.tube.name for tube in some), short)


def _holding(hazard: Hazard, tubes: Sequence[PlannedTube]) -> list[PlannedTube]:
    return [tube for tube in tubes if hazard in tube.tube.hazards]


def _noting(note: str, tubes: Sequence[PlannedTube]) -> list[PlannedTube]:
    return [tube for tube in tubes if note in _added(tube)]


def _added(tube: PlannedTube) -> list[str]:
    """Return what the catalogue notes of a tube's pigments beyond what other cautions say."""
    return [note for pigment, _ in tube.tube.pigments if (note := _beyond(pigment))]


def _beyond(pigment: Pigment) -> str:
    """Return those statements of a note that the texts of its hazards do not make; "" if none.

    A statement is left out whole or not at all, and only if each of its clauses is known to be said
    already: other words in another order may say something else.
    """
    said = {clause for hazard in pigment.hazards for clause in _said_of(hazard)} | SAID_OF_ALL
    every = statements(pigment.hazard_note)
    more = [
        one
        for one in every
        if not names_only(one.rstrip("."), pigment.hazards)
        and {clause.strip() for clause in one.casefold().rstrip(".").split(",")} - said - {""}
    ]
    return pigment.hazard_note if more == every else "; ".join(more)


def _said_of(hazard: Hazard) -> Iterator[str]:
    """Yield the clauses of a note that the text of a hazard says already."""
    if hazard is Hazard.OTHER:
        return
    text = HAZARD_TEXTS[hazard]
    yield f"holds {hazard.value}"
    if f"{hazard.value}, bound" in text:
        yield f"holds bound {hazard.value}"
    if any(words in text for words in NO_DUST):
        yield from DUST


def _noted(note: str) -> str:
    """Return the catalogue's own words as a sentence."""
    return f"The catalogue notes: {note}{'' if note.endswith(('.', '!', '?')) else '.'}"
