"""What to buy bit by bit, in the terminal: a block for each sum."""

from rich.console import Console

from fewtubes.comparison.instalment_findings import Instalment, Instalments
from fewtubes.report.sentences.asked import counting_words
from fewtubes.report.sentences.instalment_lines import seller_lines
from fewtubes.report.sentences.instalments import (
    COMPUTED,
    answer_sentence,
    covered_sentence,
    fading_sentence,
    left_sentence,
    newly_sentence,
    nothing_sentence,
    proof_sentences,
    terms_sentences,
    title_words,
)
from fewtubes.report.sentences.instalments_at_once import (
    comparison_rows,
    comparison_sentence,
    demanded_sentence,
)
from fewtubes.report.sentences.purchase import seller_words
from fewtubes.report.terminal.care import print_care
from fewtubes.report.terminal.head import print_in_full, print_question
from fewtubes.report.terminal.layout import heading, paragraph, plain, put, table
from fewtubes.shopping.bought import Bought
from fewtubes.shopping.list_lines import LineKind
from fewtubes.words.counting import counted
from fewtubes.words.money import amount
from fewtubes.words.printable import printable
from fewtubes.words.tubes import codes_words, packs_words

__all__ = ["print_instalments"]

INNER = "  "
"""Before what stands beneath a seller, and again beneath a set."""


def print_instalments(found: Instalments, console: Console, *, full: bool = False) -> None:
    """Print what to buy with each sum, what can be painted from then on, and what is proven.

    Parameters
    ----------
    found
        What was found.
    console
        Where to print; its width and colours are respected.
    full
        Whether every colour that can newly be painted is named.
    """
    print_question(found.question, console, what="Bit by bit")
    paragraph(console, terms_sentences(found))
    heading(console, "Answer")
    paragraph(console, answer_sentence(found))
    paragraph(console, comparison_sentence(found))
    fading = fading_sentence(found)
    if fading:
        paragraph(console, fading)
    for place, time in enumerate(found.times):
        heading(console, title_words(found, place))
        _print_bought(found, time, console)
        said = [left_sentence(found, place)]
        if time.bought or place == 0:
            said += [covered_sentence(found, place), newly_sentence(found, time, full=full)]
        if any(said):
            paragraph(console, " ".join(one for one in said if one))
    _print_comparison(found, console)
    heading(console, "How sure that is")
    paragraph(console, f"{proof_sentences(found)} {COMPUTED}")
    counting = counting_words(found.question.counted_to)
    if counting:
        paragraph(console, counting)
    if not full:
        print_in_full(console, "every colour that can newly be painted")
    print_care([purchase.tube for purchase in found.purchases], console)


def _print_bought(found: Instalments, time: Instalment, console: Console) -> None:
    """Print the tubes to buy at one time, with their price."""
    if not time.bought:
        paragraph(console, nothing_sentence(found, found.times.index(time)))
        return
    if time.purchase is not None:
        _print_by_seller(found, time.purchase, console)
        return
    price = found.question.scenario.currency
    made = table("tube", "pigments", "lasts", "packs", price, right=(price,))
    for purchase in time.bought:
        tube = purchase.tube
        made.add_row(
            plain(printable(tube.name)),
            plain(codes_words(tube)),
            tube.lightfastness.name,
            packs_words((pack.count, pack.offer.ml) for pack in purchase.packs),
            amount(purchase.cost),
        )
    if len(time.bought) > 1:
        made.add_row("", "", "", plain("total", "bold"), plain(amount(time.cost), "bold"))
    put(console, made)


def _print_by_seller(found: Instalments, purchase: Bought, console: Console) -> None:
    """Print what is bought of each seller at one time, and the deliveries."""
    price = found.question.scenario.currency
    made = table("tube", "pigments", "lasts", "packs", price, right=(price,))
    asides = []
    for parcel in purchase.parcels:
        made.add_row(plain(seller_words(parcel), "bold"))
        for line in seller_lines(parcel):
            inner = INNER * 2 if line.kind is LineKind.IN_SET else INNER
            packs = counted(line.count, "set") if line.count else line.packs
            made.add_row(
                plain(f"{inner}{line.name}"),
                "" if line.tube is None else plain(codes_words(line.tube)),
                "" if line.tube is None else line.tube.lightfastness.name,
                f"({packs})" if line.kind is LineKind.IN_SET else packs,
                "" if line.price is None else amount(line.price),
            )
            if line.spare:
                asides.append(f"{line.name[:1].upper()}{line.name[1:]}: {line.spare}.")
    made.add_row(plain("total", "bold"), "", "", "", plain(amount(purchase.cost), "bold"))
    put(console, made)
    for aside in asides:
        paragraph(console, aside)


def _print_comparison(found: Instalments, console: Console) -> None:
    """Print what is covered from each time on beside what could be, bought at once."""
    heading(console, "Beside buying at once from nothing")
    currency = found.question.scenario.currency
    titles = ("time", f"had {currency}", f"spent {currency}", "covers", "at once", "given up")
    made = table(*titles, right=titles)
    for row in comparison_rows(found):
        made.add_row(row.time, row.had, row.spent, row.covers, row.at_once, row.given_up)
    put(console, made)
    demanded = demanded_sentence(found)
    if demanded:
        paragraph(console, demanded)
