"""Which tubes the wishes keep out of use, and why."""

from collections.abc import Mapping, Sequence
from enum import StrEnum

from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.mixing.opacity import Transparency
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.selection.terms import Need
from fewtubes.shopping.terms import sets_to_be_had, too_little

__all__ = ["BY_WISHES", "Refusal", "refusals", "refused_by_wishes"]


class Refusal(StrEnum):
    """Why a tube is not used, as the end of a sentence."""

    NEVER = "it is on the list of tubes never to be used"
    LIGHTFASTNESS = "it fades more than the lightfastness floor allows"
    TRANSPARENCY = "it hides more than the transparency floor allows"
    HAZARD = "it holds a hazard that is to be avoided"
    NOT_SOLD = "no pack of it is sold in the scenario's currency"
    NOT_FOR_SALE = "it is not for sale: the catalogue has no pack of it"
    TOO_LITTLE = "the sellers have too little of it in stock"


BY_WISHES = frozenset({Refusal.NEVER, Refusal.LIGHTFASTNESS, Refusal.TRANSPARENCY, Refusal.HAZARD})
"""Reasons that hold of a tube that one has, too; the others are that it cannot be bought."""


def refusals(
    catalogue: Catalogue,
    scenario: Scenario,
    transparencies: Mapping[str, Transparency],
    needs: Sequence[Need],
) -> dict[str, Refusal]:
    """Return the reason for every tube that is not used, by id; owned tubes need not be sold.

    Parameters
    ----------
    catalogue, scenario
        The tubes and what sells them; the wishes.
    transparencies
        By tube id.
    needs
        For each tube the least that is needed of it.
    """
    found: dict[str, Refusal] = {}
    sets = tuple(sets_to_be_had(catalogue, scenario))
    in_sets = {id_ for tube_set in sets for id_ in tube_set.tubes}
    owned = scenario.wishes.all_owned
    for (id_, tube), need in zip(catalogue.tubes.items(), needs, strict=True):
        reason = _refusal(tube, transparencies[id_], scenario.wishes)
        if reason is None and id_ not in owned:
            sold = any(offer.currency == scenario.currency for offer in tube.offers)
            if not sold and id_ not in in_sets:
                reason = Refusal.NOT_SOLD if tube.offers else Refusal.NOT_FOR_SALE
            elif too_little(tube, sets, scenario.currency, need):
                reason = Refusal.TOO_LITTLE
        if reason is not None:
            found[id_] = reason
    return found


def refused_by_wishes(refused: Mapping[str, Refusal]) -> frozenset[str]:
    """Return the ids of refused tubes that the wishes refuse, be they sold or not."""
    return frozenset(id_ for id_, why in refused.items() if why in BY_WISHES)


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
