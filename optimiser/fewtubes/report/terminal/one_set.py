"""One set of tubes for several scenarios, in the terminal."""

from rich.console import Console
from rich.table import Table

from fewtubes.comparison.one_set_findings import OneSet, SetForAll
from fewtubes.report.sentences.asked import counting_words
from fewtubes.report.sentences.one_set import (
    asked_sentence,
    least_sentence,
    painter_sentence,
    proof_sentence,
    set_sentence,
)
from fewtubes.report.terminal.care import print_care
from fewtubes.report.terminal.layout import heading, paragraph, plain, put, table
from fewtubes.words.lightfastness import fade_sentence
from fewtubes.words.money import amount
from fewtubes.words.printable import printable
from fewtubes.words.proof.claims import AT_MOST
from fewtubes.words.shares import percent, percents_apart
from fewtubes.words.tubes import codes_words, packs_words

__all__ = ["print_one_set"]

COMPUTED = "Paints are computed, not measured: try a mix before you rely on it."

SAME = "The set of the best mean serves worst best, too."


def print_one_set(found: OneSet, console: Console) -> None:
    """Print both sets, what each scenario has of them, and what is proven."""
    put(console, plain("One set for all scenarios", "bold"))
    paragraph(console, asked_sentence(found))
    _print_set(found, found.by_mean, "Best on average", console)
    if found.same:
        heading(console, "Best where it serves worst")
        paragraph(console, f"{SAME} {proof_sentence(found, found.by_worst)}")
    else:
        _print_set(found, found.by_worst, "Best where it serves worst", console)
    _print_served(found, console)
    said = [
        least_sentence(found),
        painter_sentence(found),
        COMPUTED,
        counting_words(found.counted_to),
    ]
    paragraph(console, " ".join(one for one in said if one))
    tubes = {it.id: it for chosen in (found.by_mean, found.by_worst) for it in chosen.tubes}
    print_care([*tubes.values()], console)


def _print_set(found: OneSet, chosen: SetForAll, title: str, console: Console) -> None:
    """Print one of the two sets."""
    heading(console, title)
    paragraph(console, set_sentence(found, chosen))
    if chosen.purchase.parcels:
        put(console, _list_of(found, chosen))
    paragraph(console, proof_sentence(found, chosen))
    fading = fade_sentence(chosen.tubes)
    if fading:
        paragraph(console, fading)


def _list_of(found: OneSet, chosen: SetForAll) -> Table:
    """Return what to buy as a table, with sellers where they are told apart."""
    sellers = ("seller",) if chosen.purchase.by_seller else ()
    made = table(
        "tube", "pigments", "lasts", "packs", *sellers, found.currency, right=(found.currency,)
    )
    rows = 0
    for parcel in chosen.purchase.parcels:
        name = "" if parcel.seller is None else printable(parcel.seller.name)
        of = [plain(name)] if sellers else []
        for bought in parcel.packs:
            tube, pack = bought.tube, bought.pack
            told = [plain(printable(tube.name)), plain(codes_words(tube))]
            packs = packs_words([(pack.count, pack.offer.ml)])
            made.add_row(*told, tube.lightfastness.name, packs, *of, amount(pack.cost))
        others = [(it.tube_set.name, f"{it.count} ×", it.cost) for it in parcel.sets]
        if parcel.delivery:
            others.append(("delivery", "", parcel.delivery))
        for what, packs, cost in others:
            made.add_row(plain(printable(what)), "", "", packs, *of, amount(cost))
        rows += len(parcel.packs) + len(others)
    if rows > 1:
        blank = [""] * (3 + len(sellers))
        made.add_row("", *blank[1:], plain("total", "bold"), plain(amount(chosen.cost), "bold"))
    return made


def _print_served(found: OneSet, console: Console) -> None:
    """Print what each scenario has of the sets, beside its own best."""
    heading(console, "What each scenario has of it")
    titles = ("first set", "second set", "its own best")
    made = table("scenario", *titles, right=titles)
    for scenario, mean, worst in zip(
        found.scenarios, found.by_mean.coverages, found.by_worst.coverages, strict=True
    ):
        own = "cannot be met"
        if scenario.own is not None:
            most = AT_MOST.worded(proven=scenario.own.proven)
            own = f"{most}{percent(scenario.own.bound)}"
        shares = percents_apart(float(mean), float(worst))
        made.add_row(plain(printable(scenario.title)), *shares, own)
    put(console, made)
    paragraph(console, "Its own best is for its own budget and wishes.")
