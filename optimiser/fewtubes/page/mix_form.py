"""One colour to be mixed, as it was typed or picked, and from which tubes."""

from collections.abc import Mapping
from dataclasses import dataclass

from fewtubes.catalogue.records import LASTS
from fewtubes.errors import Fault, InputError
from fewtubes.page.aside_task import MixAsked
from fewtubes.page.at_home import OWNED, wish_of
from fewtubes.page.fields import first_of
from fewtubes.page.run_state import RunState
from fewtubes.page.tabs import FormValues, Tab
from fewtubes.scenario.named_colour import lab_named

__all__ = ["FROM", "MixForm", "mix_asked", "mix_form"]

ALL, HOME, PALETTE = "all", "home", "palette"

FROM = {
    ALL: "all tubes of the catalogue",
    HOME: "the tubes marked as at home",
    PALETTE: "the tubes of the last answer",
}
"""From which tubes a colour can be mixed, by word."""

PICKED = "picked"


def mix_asked(values: FormValues, run: RunState, tab: Tab) -> MixAsked:
    """Return what is asked.

    Tolerance, paper and light are those of the question where they can be read, else the usual.

    Raises
    ------
    InputError
        If the colour cannot be read, or there is no such tube.
    """
    by = first_of(values, "mix-by")
    colour = first_of(values, "mix-picked" if by == PICKED else "mix-colour").strip()
    if not colour:
        raise InputError([Fault("colour", "none is given; name a flower's colour, or pick one.")])
    lab_named(colour, run.catalogue)
    usual = run.tabs.first_values()
    asked = tab.last.answer.plan.scenario if tab.last else None
    return MixAsked(
        colour=colour,
        tubes=_tubes(first_of(values, "mix-from") or ALL, run, tab),
        tolerance=float(usual["tolerance"][0]) if asked is None else asked.tolerance,
        paper=usual["paper"][0] if asked is None else asked.paper,
        light=usual["light"][0] if asked is None else asked.light,
        lightfastness=LASTS if values.get("mix-lasting") else None,
    )


@dataclass(frozen=True)
class MixForm:
    """What the form shows."""

    values: FormValues
    """As typed."""
    offered: Mapping[str, str]
    """From which tubes, by word."""
    swatches: tuple[str, ...]
    """Colours of flowers, to be named."""


def mix_form(tab: Tab, run: RunState, asked: Mapping[str, str]) -> MixForm:
    """Return what the form begins with; a colour may be asked for in the address."""
    values: FormValues = dict(tab.mix_values)
    if "colour" in asked:
        values = {**values, "mix-by": ["named"], "mix-colour": [asked["colour"]]}
    offered = {ALL: FROM[ALL]}
    if _home(run, tab):
        offered[HOME] = FROM[HOME]
    if tab.last is not None and tab.last.answer.plan.tubes:
        offered[PALETTE] = FROM[PALETTE]
    return MixForm(
        values=values,
        offered=offered,
        swatches=tuple(
            f"{flower.name} / {swatch.name}"
            for flower in run.catalogue.flowers.values()
            for swatch in flower.swatches
        ),
    )


def _tubes(word: str, run: RunState, tab: Tab) -> tuple[str, ...]:
    if word == HOME and _home(run, tab):
        return _home(run, tab)
    if word == PALETTE and tab.last is not None and tab.last.answer.plan.tubes:
        return tuple(planned.tube.id for planned in tab.last.answer.plan.tubes)
    if word != ALL:
        raise InputError([Fault("tubes", "there are none of that kind; mark some, or take all.")])
    return ()


def _home(run: RunState, tab: Tab) -> tuple[str, ...]:
    return tuple(id_ for id_ in run.catalogue.tubes if wish_of(tab.values, id_) == OWNED)
