"""What can be said of the tubes one owns, in the terminal."""

from collections.abc import Sequence

from rich.console import Console

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.box_findings import Addition, Box, Double, Intended
from fewtubes.mixing.likeness import TWINS
from fewtubes.report.sentences.asked import counting_words
from fewtubes.report.sentences.box_gains import gain_words, together_words
from fewtubes.report.sentences.namesakes import namesake_sentences
from fewtubes.report.sentences.purchase import source_words
from fewtubes.report.terminal.care import print_care
from fewtubes.report.terminal.head import print_asked, print_in_full
from fewtubes.report.terminal.layout import bullet, heading, paragraph, plain, put, table
from fewtubes.words.counting import counted
from fewtubes.words.left import left_words
from fewtubes.words.lists import in_a_row, joined
from fewtubes.words.matches import difference, match_words
from fewtubes.words.money import amount, money
from fewtubes.words.printable import printable
from fewtubes.words.proof.choice import Standing, standing_label
from fewtubes.words.shares import about_percent, percent

__all__ = [
    "addition_note",
    "addition_words",
    "double_words",
    "idle_words",
    "intended_words",
    "print_box",
]

MOST_ADDITIONS, FEW_ADDITIONS = 8, 3
"""Purchases listed in full, and in short; the table written with --out holds them all."""


def print_box(box: Box, console: Console, *, full: bool = False, catalogue_label: str = "") -> None:
    """Print what is in the box, what is double, what idles, and what to buy next.

    Parameters
    ----------
    box
        What was found.
    console
        Where to print.
    full
        Whether to say which double to keep for what, and to list the purchases that add most.
    catalogue_label
        Where the tubes are from; not said if blank.
    """
    print_asked(
        box.scenario, catalogue_label, console, names=box.names, what="The box for", full=False
    )
    heading(console, "In the box")
    paragraph(console, f"{_contents_words(box)} {counting_words(box.counted_to)}".rstrip())
    for sentence in namesake_sentences(box.id_is_a_name):
        paragraph(console, sentence)
    heading(console, "Doubles")
    if not box.doubles:
        paragraph(console, "No two tubes in use look alike.")
    for double in box.doubles:
        bullet(console, f"{double_words(double, full=full)}")
    heading(console, "What adds nothing to these flowers as long as nothing is bought")
    paragraph(console, idle_words(box))
    heading(console, "The next tube")
    paragraph(console, addition_words(box))
    listed = box.additions[: MOST_ADDITIONS if full else FEW_ADDITIONS]
    _print_additions(listed, box, console)
    _print_intended(box, console)
    added = [item.tube for item in listed]
    if not full:
        print_in_full(console, "which double to keep for what, other tubes that add something")
    print_care([*box.owned, *added, *(item.tube for item in box.intended)], console)


def _print_intended(box: Box, console: Console) -> None:
    heading(console, "About to buy")
    if box.intended and box.intended_from_plan:
        standing = standing_label(
            Standing.BEST if box.plan_proven else Standing.OPEN, fitted=box.fitted_paints
        )
        paragraph(console, f"These are the tubes of the plan for this scenario, {standing}.")
    if not box.owned:
        paragraph(console, _empty_box_words(box))
    elif not box.intended:
        paragraph(console, "Nothing.")
    for intended in box.intended if box.owned else ():
        bullet(console, intended_words(intended))
    for intended in () if box.owned else box.intended:
        gained = gain_words(intended)
        if gained:
            bullet(console, f"{_name(intended.tube)}: {gained[0].lower()}{gained[1:]}")
    together = together_words(box.gain_together)
    if together:
        paragraph(console, together)


def double_words(double: Double, *, full: bool = True) -> str:
    """Return two tubes that look alike and, in full, which of them to keep for what."""
    first, second = _name(double.first), _name(double.second)
    off = difference(double.likeness.difference)
    same = "are the same paint to the eye" if double.likeness.difference <= TWINS else "are close"
    thinned = (
        f" once {_name(double.stronger)} is taken at about"
        f" {about_percent(double.likeness.thinning)} of its strength"
        if double.stronger
        else ""
    )
    alike = (
        f"{first} and {second} {same}: off by at most {off} from full strength to pale"
        f" wash{thinned}."
    )
    if not full:
        return alike
    return (
        f"{alike} Keep for strength: {_kept(double.stronger)}; for lightfastness:"
        f" {_kept(double.longer_lasting)}; for transparency: {_kept(double.clearer)}."
    )


def idle_words(box: Box) -> str:
    """Return the tubes that could be missing, one by one and all together."""
    if len(box.owned) == len(box.set_aside):
        return "Nothing: no tube of the box is in use."
    spare = {double.spare.id: double for double in box.spare if double.spare}
    thinned = " ".join(_spare_words(double) for double in spare.values())
    others = [tube for tube in box.idle if tube.id not in spare]
    return " ".join(filter(None, [thinned, _missing_words(box, others, spared=bool(spare))]))


def _spare_words(double: Double) -> str:
    """Return that water does what the weaker of two tubes of one paint does."""
    weaker, stronger = double.spare, double.stronger
    if weaker is None or stronger is None:
        return ""
    return (
        f"{_name(weaker)}: {_name(stronger)} does the same with more water; where recipes need"
        " the weaker one, that comes of the whole numbers of parts that are tried."
    )


def _missing_words(box: Box, idle: Sequence[Tube], *, spared: bool) -> str:
    """Return which tubes could be missing without loss, those aside that water makes."""
    if not idle:
        other = "other " if spared else ""
        nothing = "" if spared else "Nothing: "
        every = "Every" if spared else "every"
        return f"{nothing}{every} {other}tube in use brings a colour that the others do not."
    names = joined([_name(tube) for tube in idle])
    if len(idle) == 1:
        return f"{names}: without it the rest of the box covers as much."
    if box.lost_without_idle == 0:
        return f"{names}: without any or all of them the rest of the box covers as much."
    if len(idle) < len(box.idle):
        return f"{names}: without any one of them the rest of the box covers as much."
    return (
        f"{names}: each of them could be missing, but not all; without all of them"
        f" {percent(box.lost_without_idle)} of what is to be painted would be lost."
    )


def addition_words(box: Box) -> str:
    """Return the single purchase that adds most for the money, and the one that adds most."""
    per_money, most = box.most_for_money, box.most
    if per_money is None or most is None:
        if box.additions:
            return "No single tube within the budget adds anything; dearer ones would."
        return "No single tube that may be bought adds anything to the box."
    if per_money.tube.id == most.tube.id:
        return f"{_addition(most, box)} adds most, for the money and in all."
    return (
        f"{_addition(per_money, box)} adds most for the money; {_addition(most, box)} adds most in"
        " all."
    )


def intended_words(intended: Intended) -> str:
    """Return whether a tube is in the box already, by whatever name, and what it adds to it."""
    return f"{_in_box_words(intended)} {gain_words(intended)}".rstrip()


def _in_box_words(intended: Intended) -> str:
    name = _name(intended.tube)
    if intended.is_owned:
        aside = ", but the wishes keep it out of use" if intended.set_aside else ""
        return f"{name} is in the box already{aside}."
    if intended.nearest is None or intended.likeness is None:
        return f"{name} is not in the box."
    off = difference(intended.likeness.difference)
    other = _name(intended.nearest)
    if not intended.is_double:
        near = match_words(intended.likeness.difference)
        return f"{name} is not in the box; the nearest to it, {other}, is off by {off}, {near}."
    if intended.likeness.difference <= TWINS:
        return f"{name} is in the box already under another name: {other} (off by at most {off})."
    return f"{name} is nearly in the box already: {other} is off by at most {off}."


def _empty_box_words(box: Box) -> str:
    """Return that none of the tubes about to be bought is in an empty box, by their names."""
    if not box.intended:
        return "The box is empty, so nothing is in it already."
    names = joined([_name(item.tube) for item in box.intended])
    return f"The box is empty, so none of them is in it already: {names}."


def _contents_words(box: Box) -> str:
    if not box.owned:
        return (
            "The box is empty: the scenario names no owned tubes. Name some under `owned`, with"
            " --owned, or in a box at home (--box)."
        )
    aside = ""
    if box.set_aside:
        names = joined([_name(tube) for tube in box.set_aside])
        aside = f" The wishes keep out of use: {names}."
    kept = box.scenario.wishes.box
    owned = joined([_name_and_left(tube, kept.left(tube.id)) for tube in box.owned])
    return (
        f"{counted(len(box.owned), 'tube')}: {owned}. Alone"
        f" they cover {percent(box.coverage)} of what is to be painted, bare paper included.{aside}"
    )


def _print_additions(additions: Sequence[Addition], box: Box, console: Console) -> None:
    if not additions:
        return
    currency = box.scenario.currency
    price, gain, rate = f"price {currency}", "adds", f"for 1 {currency}"
    made = table("tube", price, gain, rate, "", right=(price, gain, rate))
    for item in additions:
        rated = percent(100 * item.gain / item.cost) if item.cost else "–"
        note = addition_note(item)
        cells = (_name(item.tube), amount(item.cost), percent(item.gain), rated, note)
        made.add_row(*(plain(cell) for cell in cells))
    put(console, made)


def addition_note(item: Addition) -> str:
    """Return who sells a tube, where there are several sellers, and whether it is too dear."""
    sold = [] if item.source is None else [source_words(item.source)]
    return in_a_row([*sold, *([] if item.affordable else ["beyond the budget"])])


def _addition(item: Addition, box: Box) -> str:
    cost = money(item.cost, box.scenario.currency)
    if item.source is not None:
        cost = f"{source_words(item.source)}; {cost}"
    return f"{_name(item.tube)} ({cost}, adds {percent(item.gain)})"


def _kept(tube: Tube | None) -> str:
    return "either" if tube is None else _name(tube)


def _name_and_left(tube: Tube, left: float | None) -> str:
    return _name(tube) if left is None else f"{_name(tube)} ({left_words(left)})"


def _name(tube: Tube) -> str:
    return printable(tube.name)
