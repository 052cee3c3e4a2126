"""One set of tubes for several scenarios, in the terminal."""

from rich.console import Console

from fewtubes.comparison.one_set_findings import OneSet, SetForAll
from fewtubes.report.sentences.asked import counting_words
from fewtubes.report.sentences.one_set import (
    asked_sentence,
    proof_sentence,
    set_sentence,
    short_of_sentence,
)
from fewtubes.report.terminal.care import print_care
from fewtubes.report.terminal.layout import heading, paragraph, plain, put, table
from fewtubes.words.money import amount
from fewtubes.words.printable import printable
from fewtubes.words.proof.claims import AT_MOST
from fewtubes.words.shares import percent
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
    said = [short_of_sentence(found), COMPUTED, counting_words(found.counted_to)]
    paragraph(console, " ".join(one for one in said if one))
    tubes = {
        it.tube.id: it.tube for chosen in (found.by_mean, found.by_worst) for it in chosen.tubes
    }
    print_care([*tubes.values()], console)


def _print_set(found: OneSet, chosen: SetForAll, title: str, console: Console) -> None:
    """Print one of the two sets."""
    heading(console, title)
    paragraph(console, set_sentence(found, chosen))
    if chosen.tubes:
        made = table("tube", "pigments", "lasts", "packs", found.currency, right=(found.currency,))
        for bought in chosen.tubes:
            tube = bought.tube
            made.add_row(
                plain(printable(tube.name)),
                plain(codes_words(tube)),
                tube.lightfastness.name,
                packs_words((pack.count, pack.offer.ml) for pack in bought.packs),
                amount(bought.cost),
            )
        if len(chosen.tubes) > 1:
            made.add_row("", "", "", plain("total", "bold"), plain(amount(chosen.cost), "bold"))
        put(console, made)
    paragraph(console, proof_sentence(found, chosen))


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
        made.add_row(
            plain(printable(scenario.title)), percent(float(mean)), percent(float(worst)), own
        )
    put(console, made)
    paragraph(console, "Its own best is for its own budget and wishes.")
