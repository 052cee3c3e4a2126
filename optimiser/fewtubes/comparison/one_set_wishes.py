"""What is wished of one set of tubes that serves several scenarios: what all of them wish together.

Every demand of any scenario is kept: what one refuses is refused, the strictest floor and the least
number of tubes hold, and of every tube there is what the most demanding asks for. What any of them
has at home is at home. Mixes are those that each scenario allows. For how many painters and
pictures there is enough is reckoned over all of them (`fewtubes.comparison.one_set_buying`), and
the coverage that a scenario asks for at least is asked for it alone (`JointInstance.least`).
"""

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal

from fewtubes.catalogue.limits import shown
from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.value_digest import digest_of
from fewtubes.errors import ClashError, Fault, InputError
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.names import settled_names
from fewtubes.scenario.preference import Prefer
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.words.lists import joined

__all__ = ["Asking", "asked_together", "common_currency"]

Asking = Mapping[str, tuple[Catalogue, Scenario]]
"""Scenarios by name, each with its catalogue."""


def common_currency(asking: Asking) -> str:
    """Return the one currency of all scenarios.

    Raises
    ------
    InputError
        If they have more than one, or the catalogues hold other tubes.
    """
    used = sorted({scenario.currency for _, scenario in asking.values()})
    if len(used) > 1:
        what = f"are in {joined(used)}; one set of tubes is bought in one currency."
        raise InputError([Fault("scenarios", what)])
    catalogues = {id(catalogue): catalogue for catalogue, _ in asking.values()}
    held = {digest_of((one.tubes, one.sellers, one.sets)) for one in catalogues.values()}
    if len(held) > 1:
        what = (
            "are of catalogues or price lists that differ; one set is bought by one list: name it"
            " for all of them (prices), or leave some out."
        )
        raise InputError([Fault("scenarios", what)])
    return used[0]


def asked_together(asking: Asking, budget: Decimal) -> dict[str, Scenario]:
    """Return each scenario as it is asked of the one set: its colours, and what all of them wish.

    Parameters
    ----------
    asking
        The scenarios.
    budget
        Money for the one set [currency].

    Raises
    ------
    ClashError
        If a tube must be bought for one scenario and another refuses it.
    """
    settled = {name: settled_names(one, tables) for name, (tables, one) in asking.items()}
    wishes = _together(settled)
    limits = [one.most_tubes for one in settled.values() if one.most_tubes is not None]
    classes = any(one.group is not None for one in settled.values())
    lasting = any(one.prefer is Prefer.LASTING for one in settled.values())
    return {
        name: replace(
            one,
            budget=budget,
            most_tubes=min(limits, default=None),
            prefer=Prefer.LASTING if lasting else Prefer.CHEAPEST,
            nearer=False,
            wishes=replace(
                wishes,
                thinnest_wash=one.wishes.thinnest_wash,
                most_in_mix=one.wishes.most_in_mix,
                # What each painter of one class needs is not what each of another does.
                millilitres=one.wishes.millilitres if classes else wishes.millilitres,
            ),
            group=None if one.group is None else replace(one.group, levy=None),
        )
        for name, one in settled.items()
    }


def _together(scenarios: Mapping[str, Scenario]) -> Wishes:
    """Return the wishes of all scenarios in one, but for those about mixes."""
    every = [one.wishes for one in scenarios.values()]
    never = tuple(dict.fromkeys(id_ for one in every for id_ in one.never))
    owned = dict.fromkeys(id_ for one in every for id_ in one.all_owned)
    wanted = dict.fromkeys(id_ for one in every for id_ in one.must_have)
    clashing = [id_ for id_ in wanted if id_ in never]
    if clashing:
        raise ClashError("\n".join(_clash(id_, scenarios) for id_ in clashing))
    lasting = [one.lightfastness_floor for one in every if one.lightfastness_floor is not None]
    clear = [one.transparency_floor for one in every if one.transparency_floor is not None]
    return replace(
        every[0],
        owned=tuple(id_ for id_ in owned if id_ not in never),
        must_have=tuple(id_ for id_ in wanted if id_ not in owned),
        never=never,
        lightfastness_floor=min(lasting, default=None),
        transparency_floor=min(clear, default=None),
        avoid_hazards=tuple(dict.fromkeys(it for one in every for it in one.avoid_hazards)),
        millilitres=max(one.millilitres for one in every),
        least_coverage=0,
        box=BoxAtHome(),
    )


def _clash(id_: str, scenarios: Mapping[str, Scenario]) -> str:
    """Return that one scenario must have what another refuses, in a sentence."""
    wanting = [name for name, one in scenarios.items() if id_ in one.wishes.must_have]
    refusing = [name for name, one in scenarios.items() if id_ in one.wishes.never]
    return (
        f"the tube {shown(id_)} must be bought for {joined(wanting)} and is never to be used for"
        f" {joined(refusing)}; take it off one of the two lists, or leave a scenario out."
    )
