"""The tubes of a plan in the terminal: to buy, one's own, and what they give up."""

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from fewtubes.report.sentences.at_home import at_home_words, low_words
from fewtubes.report.sentences.palette import nothing_words, use_words
from fewtubes.report.sentences.trade_offs import trade_off_words
from fewtubes.report.terminal.by_seller import (
    LISTED,
    print_blocks_by_seller,
    print_idle,
    rows_by_seller,
)
from fewtubes.report.terminal.layout import heading, paragraph, plain, put, table
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedTube
from fewtubes.words.lists import joined
from fewtubes.words.money import amount, money
from fewtubes.words.printable import printable
from fewtubes.words.tubes import FITTED, codes_words, packs_words

__all__ = ["print_owned", "print_to_buy", "print_traits"]

NARROW = 60
"""Columns below which tubes are printed as blocks instead of a table."""

FULL_TITLES = (LISTED, "pigments", "lasts", "hides", "packs")
"""Columns of the list by seller, beside the price."""

WHITE_FILLED = "half or more of it is white pigment"


def print_to_buy(plan: Plan, console: Console) -> None:
    """Print the tubes to buy with packs and prices, and the total."""
    heading(console, "To buy")
    if not plan.bought:
        paragraph(console, f"Nothing: {nothing_words(plan)}")
        return
    if plan.purchase.by_seller:
        _print_by_seller(plan, console)
        return
    if console.width < NARROW:
        _print_blocks(plan, console)
        return
    price = f"price {plan.scenario.currency}"
    made = table("tube", "pigments", "lasts", "hides", "packs", price, right=(price,))
    for tube in plan.bought:
        made.add_row(*_cells(tube), plain(_packs(tube)), plain(amount(tube.cost)))
    made.add_row("", "", "", "", plain("total", "bold"), plain(amount(plan.cost), "bold"))
    put(console, made)


def _print_by_seller(plan: Plan, console: Console) -> None:
    """Print the tubes to buy by seller, with goods, deliveries and the total."""
    if console.width < NARROW:
        print_blocks_by_seller(plan, console)
    else:
        currency = plan.scenario.currency
        made = table(*FULL_TITLES, f"price {currency}", right=(f"price {currency}",))
        for cells, style in rows_by_seller(plan, _named_cells):
            others = (plain(cells.get(title, ""), style) for title in FULL_TITLES[1:])
            made.add_row(_named(cells, style), *others, plain(cells.get(currency, ""), style))
        put(console, made)
    print_idle(plan, console)


def _named(cells: dict[str, str], style: str) -> Padding:
    """Return what is listed with its use below, as far in as it stands."""
    text = cells[LISTED].lstrip()
    name = plain(text, style)
    for told in filter(None, cells.get("use", "").split("\n")):
        name.append("\n").append_text(plain(told, "dim"))
    return Padding(name, (0, 0, 0, len(cells[LISTED]) - len(text)))


def _named_cells(tube: PlannedTube) -> dict[str, str]:
    """Return what stands in the columns of a tube, by title."""
    told = [use_words(tube)]
    if tube.tube.fitted:
        told.append(FITTED)
    if tube.white_filled:
        told.append(WHITE_FILLED)
    return {
        LISTED: printable(tube.tube.name),
        "pigments": codes_words(tube.tube),
        "lasts": tube.tube.lightfastness.name,
        "hides": tube.transparency.word,
        "use": "\n".join(told),
    }


def _print_blocks(plan: Plan, console: Console) -> None:
    """Print the tubes to buy one below the other, where a table would break their names."""
    for tube in plan.bought:
        paragraph(console, tube.tube.name, style="bold")
        codes = codes_words(tube.tube)
        lasting = f"lightfastness {tube.tube.lightfastness.name}, {tube.transparency.word}"
        paragraph(console, f"{codes}; {lasting}", indent=4)
        price = money(tube.cost, plan.scenario.currency)
        paragraph(console, f"{_packs(tube)}, {price}", indent=4)
        paragraph(console, use_words(tube), indent=4)
    paragraph(console, f"total {money(plan.cost, plan.scenario.currency)}", style="bold")


def print_owned(plan: Plan, console: Console) -> None:
    """Print the owned tubes, those that are used and those that the wishes set aside."""
    owned = [tube for tube in plan.tubes if tube.owned]
    if owned:
        heading(console, "Of your own")
        made = table("tube", "pigments", "lasts", "hides")
        for tube in owned:
            made.add_row(*_cells(tube, at_home_words(tube, plan)))
        put(console, made)
        low = low_words(plan)
        if low:
            paragraph(console, low)
    if plan.set_aside:
        names = joined([tube.name for tube in plan.set_aside])
        paragraph(console, f"Set aside, because the wishes keep them out of use: {names}.")


def print_traits(plan: Plan, console: Console) -> None:
    """Print lightfastness and opacity of the palette, what limits them and what sparing costs."""
    heading(console, "What is given up")
    for question, trait in (
        ("How long it lasts", plan.lightfastness),
        ("How much it hides", plan.opacity),
    ):
        paragraph(console, f"{question}: {trade_off_words(trait, plan)}")


def _cells(tube: PlannedTube, at_home: str = "") -> tuple[Text, ...]:
    """Return name with use, pigments, lightfastness and transparency; and how full if known."""
    name = plain(tube.tube.name).append("\n").append_text(plain(use_words(tube), "dim"))
    if at_home:
        name.append("\n").append_text(plain(at_home, "dim"))
    if tube.tube.fitted:
        name.append("\n").append_text(plain(FITTED, "dim"))
    if tube.white_filled:
        name.append("\n").append_text(plain(WHITE_FILLED, "dim"))
    return (
        name,
        plain(codes_words(tube.tube)),
        plain(tube.tube.lightfastness.name),
        plain(tube.transparency.word),
    )


def _packs(tube: PlannedTube) -> str:
    return packs_words((pack.count, pack.offer.ml) for pack in tube.packs)
