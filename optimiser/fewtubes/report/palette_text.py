"""The tubes of a plan in the terminal: what to buy, what is used of one's own, what limits both."""

from collections.abc import Sequence

from rich.console import Console
from rich.text import Text

from fewtubes.catalogue.records import Lightfastness, Tube
from fewtubes.mixing.opacity import Transparency
from fewtubes.report.layout import heading, paragraph, plain, put, table
from fewtubes.report.words import (
    LIGHTFASTNESS_WORDS,
    amount,
    counted,
    joined,
    percent,
)
from fewtubes.shopping.plan import Plan, PlannedTube, Trait

__all__ = ["grade_words", "print_owned", "print_to_buy", "print_traits", "use_words"]


def print_to_buy(plan: Plan, console: Console) -> None:
    """Print the tubes to buy with packs and prices, and the total."""
    heading(console, "To buy")
    if not plan.bought:
        paragraph(console, "Nothing: no tube that may be bought would bring more.")
        return
    price = f"price {plan.scenario.currency}"
    made = table("tube", "pigments", "lasts", "hides", "packs", price, right=(price,))
    for tube in plan.bought:
        made.add_row(*_cells(tube), _packs(tube), plain(amount(tube.cost)))
    made.add_row("", "", "", "", plain("total", "bold"), plain(amount(plan.cost), "bold"))
    put(console, made)


def print_owned(plan: Plan, console: Console) -> None:
    """Print the owned tubes, those that are used and those that the wishes set aside."""
    owned = [tube for tube in plan.tubes if tube.owned]
    if owned:
        heading(console, "Of your own")
        made = table("tube", "pigments", "lasts", "hides")
        for tube in owned:
            made.add_row(*_cells(tube))
        put(console, made)
    if plan.set_aside:
        names = joined([tube.name for tube in plan.set_aside])
        paragraph(console, f"Set aside, because the wishes keep them out of use: {names}.")


def print_traits(plan: Plan, console: Console) -> None:
    """Print lightfastness and opacity of the palette, what limits them and what sparing costs."""
    heading(console, "How long it lasts, how much it hides")
    for question, trait in (
        ("Least lightfast", plan.lightfastness),
        ("Most opaque", plan.opacity),
    ):
        paragraph(console, f"{question}: {_trait_words(trait, plan.coverage)}")


def grade_words(worst: Lightfastness | Transparency) -> str:
    """Return a grade in words, e.g. ``II, very good (ASTM D4303)`` or ``semi-opaque``."""
    if isinstance(worst, Lightfastness):
        return f"{worst.name}, {LIGHTFASTNESS_WORDS[worst]} (ASTM D4303)"
    return worst.word


def use_words(tube: PlannedTube) -> str:
    """Return what a tube is good for in the plan, e.g. ``in 3 mixes, alone brings 12 %``."""
    if not tube.recipes:
        return "in no mix of this plan"
    return f"in {counted(tube.recipes, 'mix/mixes')}; {percent(tube.only_it_brings)} hangs on it"


def _cells(tube: PlannedTube) -> tuple[Text, ...]:
    """Return name with use, pigments, lightfastness and transparency."""
    name = plain(tube.tube.name).append("\n").append_text(plain(use_words(tube), "dim"))
    if tube.white_filled:
        name.append("\n").append_text(plain("half or more of it is white pigment", "dim"))
    return (
        name,
        plain(", ".join(dict.fromkeys(tube.tube.codes))),
        plain(tube.tube.lightfastness.name),
        plain(tube.transparency.word),
    )


def _packs(tube: PlannedTube) -> Text:
    return plain(", ".join(f"{pack.count} × {pack.offer.ml:g} ml" for pack in tube.packs))


def _trait_words(trait: Trait, coverage: float) -> str:
    """Return one respect of the palette in words.

    Parameters
    ----------
    trait
        The worst grade, the tubes that make it so, the coverage without them.
    coverage
        Coverage of the plan [0–1].
    """
    if trait.worst is None:
        return "no tube, so nothing to say."
    because = f"{grade_words(trait.worst)}, because of {_names(trait.limited_by)}."
    them = "it" if len(trait.limited_by) == 1 else "them"
    least = "" if trait.spared_proven else "at least "
    if trait.spared >= coverage:
        return f"{because} The best choice without {them} covers {least}as much."
    return (
        f"{because} The best choice without {them} covers {least}{percent(trait.spared)} instead of"
        f" {percent(coverage)}."
    )


def _names(tubes: Sequence[Tube]) -> str:
    return joined([tube.name for tube in tubes])
