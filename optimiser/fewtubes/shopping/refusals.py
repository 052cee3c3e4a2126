"""Which tubes the wishes keep out of use, and why."""

from collections.abc import Mapping
from enum import StrEnum

from fewtubes.catalogue.records import Tube
from fewtubes.mixing.opacity import Transparency
from fewtubes.scenario.records import Scenario, Wishes

__all__ = ["Refusal", "refusals"]


class Refusal(StrEnum):
    """Why a tube is not used, as the end of a sentence."""

    NEVER = "it is on the list of tubes never to be used"
    LIGHTFASTNESS = "it fades more than the lightfastness floor allows"
    TRANSPARENCY = "it hides more than the transparency floor allows"
    HAZARD = "it holds a hazard that is to be avoided"
    NOT_SOLD = "no pack of it is sold in the scenario's currency"
    NOT_FOR_SALE = "it is not for sale: the catalogue has no pack of it"


def refusals(
    tubes: Mapping[str, Tube], scenario: Scenario, transparencies: Mapping[str, Transparency]
) -> dict[str, Refusal]:
    """Return the reason for every tube that is not used, by id; owned tubes need not be sold."""
    found: dict[str, Refusal] = {}
    for id_, tube in tubes.items():
        reason = _refusal(tube, transparencies[id_], scenario.wishes)
        sold = any(offer.currency == scenario.currency for offer in tube.offers)
        if reason is None and not sold and id_ not in scenario.wishes.all_owned:
            reason = Refusal.NOT_SOLD if tube.offers else Refusal.NOT_FOR_SALE
        if reason is not None:
            found[id_] = reason
    return found


def _refusal(tube: Tube, transparency: Transparency, wishes: Wishes) -> Refusal | None:
    """Return why the wishes refuse a tube, or None."""
    lasting, clear = wishes.lightfastness_floor, wishes.transparency_floor
    if tube.id in wishes.never:
        return Refusal.NEVER
    if lasting is not None and tube.lightfastness > lasting:
        return Refusal.LIGHTFASTNESS
    if clear is not None and transparency > clear:
        return Refusal.TRANSPARENCY
    if set(tube.hazards) & set(wishes.avoid_hazards):
        return Refusal.HAZARD
    return None
