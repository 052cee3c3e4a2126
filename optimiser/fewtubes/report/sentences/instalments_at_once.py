"""Buying bit by bit beside buying at once from nothing, in sentences."""

from dataclasses import dataclass

from fewtubes.comparison.instalment_findings import Instalment, Instalments
from fewtubes.words.money import amount, money
from fewtubes.words.proof.claims import AT_MOST
from fewtubes.words.proof.instalments import given_up_words
from fewtubes.words.shares import percents_with_difference

__all__ = [
    "ComparisonRow",
    "beside_sentence",
    "comparison_rows",
    "comparison_sentence",
    "demanded_sentence",
]


def comparison_sentence(found: Instalments) -> str:
    """Return what is given up against buying at once from nothing, in a sentence."""
    most = max(found.times, key=lambda time: time.given_up)
    lost = _with_difference(most)[2] if most.given_up else ""
    return given_up_words(lost, proven=found.best_proven, given=found.order_only)


def beside_sentence(found: Instalments, place: int) -> str:
    """Return what the money of a time would cover at once, in a sentence; blank if no more."""
    time = found.times[place]
    if not time.given_up:
        return ""
    had = money(sum(found.terms.sums[: place + 1]), found.question.scenario.currency)
    _, best, _ = _with_difference(time)
    at_most = AT_MOST.worded(proven=time.best_proven)
    of_these = "of these tubes " if found.order_only else ""
    return f"Bought at once from nothing, the best {of_these}for {had} would cover {at_most}{best}."


def demanded_sentence(found: Instalments) -> str:
    """Return that only the last time is asked for what must be there in the end; "" if nothing is.

    What all the money would cover at once may then be less than what less money would.
    """
    wishes = found.question.scenario.wishes
    demanded = bool(found.question.instance.must_have or wishes.least_coverage)
    if found.order_only or len(found.times) == 1 or not demanded:
        return ""
    return (
        "What must be bought or covered in the end is asked of the last time alone, bought at once"
        " as well; so more money may cover less there than less money before."
    )


@dataclass(frozen=True)
class ComparisonRow:
    """One time beside buying at once from nothing, as a row of texts."""

    time: str
    had: str
    """Money that there was up to then, in the currency."""
    spent: str
    """Of that, what was spent."""
    covers: str
    at_once: str
    given_up: str


def comparison_rows(found: Instalments) -> list[ComparisonRow]:
    """Return what is covered from each time on beside what could be, bought at once."""
    rows = []
    for place, time in enumerate(found.times, start=1):
        covers, best, given_up = percents_with_difference(time.coverage, time.best, time.given_up)
        most = AT_MOST.worded(proven=time.best_proven)
        rows.append(
            ComparisonRow(
                time=str(place),
                had=amount(sum(found.terms.sums[:place])),
                spent=amount(time.palette.cost),
                covers=covers,
                at_once=f"{most}{best}",
                given_up=f"{most}{given_up}" if time.given_up else given_up,
            )
        )
    return rows


def _with_difference(time: Instalment) -> tuple[str, str, str]:
    """Return coverage, the best at once and what is given up, in per cent that agrees."""
    return percents_with_difference(time.coverage, time.best, time.given_up)
