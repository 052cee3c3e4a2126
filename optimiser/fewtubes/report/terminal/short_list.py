"""The tubes of a plan in the terminal, a line each."""

from collections.abc import Sequence

from rich.cells import cell_len
from rich.console import Console

from fewtubes.report.sentences.at_home import at_home_words, low_words
from fewtubes.report.sentences.palette import use_words
from fewtubes.report.terminal.by_seller import (
    print_blocks_by_seller,
    print_idle,
    rows_by_seller,
)
from fewtubes.report.terminal.layout import INDENT, heading, paragraph, plain, put, table
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedTube
from fewtubes.words.lists import in_a_row, joined
from fewtubes.words.money import amount, money
from fewtubes.words.printable import printable
from fewtubes.words.tubes import codes_words, packs_words

__all__ = ["print_list"]

GAP = 2
"""Blanks between two columns."""

ALWAYS = ("tube", "packs")
"""Columns that no list to buy can do without, beside the price."""

AS_ROOM_ALLOWS = ("lasts", "pigments", "hides", "use")
"""The others, the first to be left out last."""


def print_list(plan: Plan, console: Console) -> None:
    """Print what to buy, a line a tube with the columns that there is room for, and what is there.

    Where there is no room for name, packs and price, they stand below each other.
    """
    if plan.bought:
        heading(console, "To buy")
        if plan.purchase.by_seller:
            _print_by_seller(plan, console)
        else:
            _print_bought(plan, console)
    owned = [tube for tube in plan.tubes if tube.owned]
    if owned:
        heading(console, "Of your own")
        paragraph(console, f"{joined([_owned(tube, plan) for tube in owned])}.")
        low = low_words(plan)
        if low:
            paragraph(console, low)
    if plan.set_aside:
        names = joined([printable(tube.name) for tube in plan.set_aside])
        paragraph(console, f"Set aside, because the wishes keep them out of use: {names}.")


def _owned(tube: PlannedTube, plan: Plan) -> str:
    """Return the name of a tube that is there, how full if known, and whether it is in no mix."""
    at_home = at_home_words(tube, plan)
    told = [*([at_home] if at_home else []), *([] if tube.recipes else ["in no mix"])]
    return f"{printable(tube.tube.name)}{f' ({in_a_row(told)})' if told else ''}"


def _print_bought(plan: Plan, console: Console) -> None:
    currency = plan.scenario.currency
    rows = [{**_cells(tube), currency: amount(tube.cost)} for tube in plan.bought]
    rows.append({currency: amount(plan.cost)})
    room = console.width
    titles = _that_fit([*ALWAYS, currency], rows, room)
    if _width(titles, rows) > room:
        for tube in plan.bought:
            cells = _cells(tube)
            paragraph(console, cells["tube"], style="bold")
            said = [cells["pigments"], f"lasts {cells['lasts']}", cells["packs"]]
            paragraph(console, f"{in_a_row(said)}; {money(tube.cost, currency)}", indent=2 * INDENT)
        paragraph(console, f"total {money(plan.cost, currency)}", style="bold")
        return
    made = table(*titles, right=(currency,))
    for row in rows:
        style = "bold" if row is rows[-1] else ""
        named = {**row, titles[-2]: row.get(titles[-2], "total")}
        made.add_row(*(plain(named.get(title, ""), style) for title in titles))
    put(console, made)


def _print_by_seller(plan: Plan, console: Console) -> None:
    currency = plan.scenario.currency
    rows = [*rows_by_seller(plan, _cells)]
    cells = [row for row, _ in rows]
    titles = _that_fit([*ALWAYS, currency], cells, console.width)
    if _width(titles, cells) > console.width:
        print_blocks_by_seller(plan, console)
    else:
        made = table(*titles, right=(currency,))
        for row, style in rows:
            made.add_row(*(plain(row.get(title, ""), style) for title in titles))
        put(console, made)
    print_idle(plan, console)


def _that_fit(titles: list[str], rows: Sequence[dict[str, str]], room: int) -> list[str]:
    """Return the columns that fit beside those named, in the order in which they are read."""
    kept = set(titles)
    order = ["tube", "pigments", "lasts", "hides", "use", "packs", titles[-1]]
    for title in AS_ROOM_ALLOWS:
        if _width([one for one in order if one in kept or one == title], rows) <= room:
            kept.add(title)
    return [title for title in order if title in kept]


def _width(titles: Sequence[str], rows: Sequence[dict[str, str]]) -> int:
    """Return how wide a table of these columns is [cells]."""
    widest = [
        max(cell_len(title), *(cell_len(row.get(title, "")) for row in rows)) for title in titles
    ]
    return sum(widest) + GAP * (len(titles) - 1)


def _cells(tube: PlannedTube) -> dict[str, str]:
    return {
        "tube": printable(tube.tube.name),
        "pigments": codes_words(tube.tube),
        "lasts": tube.tube.lightfastness.name,
        "hides": tube.transparency.word,
        "use": use_words(tube),
        "packs": packs_words((pack.count, pack.offer.ml) for pack in tube.packs),
    }
