"""Buying bit by bit in sentences: what was asked, what is bought, what can be painted from then."""

from collections import Counter
from collections.abc import Sequence

from fewtubes.comparison.instalment_findings import Instalment, Instalments
from fewtubes.report.sentences.nothing_bought import why_nothing_sentence
from fewtubes.report.sentences.painters import painters_words
from fewtubes.report.sentences.proof import standing_of
from fewtubes.report.sentences.purchase import seller_words
from fewtubes.scenario.preference import Prefer
from fewtubes.words.counting import counted
from fewtubes.words.lightfastness import fade_sentence
from fewtubes.words.lists import in_a_row, joined
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.proof.choice import one_of_each_words
from fewtubes.words.proof.instalments import (
    nothing_note,
    order_note,
    order_proof,
)
from fewtubes.words.shares import asked_percent, percent

__all__ = [
    "COMPUTED",
    "answer_sentence",
    "covered_sentence",
    "fading_sentence",
    "left_sentence",
    "newly_sentence",
    "nothing_sentence",
    "paid_words",
    "proof_sentences",
    "terms_sentences",
    "title_words",
    "turn_words",
]

COMPUTED = "Paints are computed, not measured: try a mix before you rely on it."

UNDER_TERMS = (
    "Each purchase is paid for as a whole, with its own delivery, and brings all that is needed of"
    " each tube that is new with it; a tube is bought sooner than it is of use where that is"
    " cheaper."
)

WAITING = "Nothing yet: the money is kept for later."

NO_MONEY_YET = "Nothing yet: there is no money."

NOTHING = "Nothing."

NOTHING_MORE = "Nothing more."

FEW_SUMS = 3
"""Up to so many sums are named one by one, even if all are alike."""

MOST_FLOWERS = 5
"""Flowers named in short."""


def terms_sentences(found: Instalments) -> str:
    """Return the sums and the weights of the times, in whole sentences."""
    currency = found.question.scenario.currency
    sums = joined([money(one, currency) for one in found.terms.sums])
    if len(found.times) > FEW_SUMS and len(set(found.terms.sums)) == 1:
        sums = f"{len(found.times)} times {money(found.terms.sums[0], currency)}"
    said = [f"To spend: {sums}" + ("." if len(found.times) == 1 else ", one after the other;")]
    if len(found.times) > 1:
        said.append("what is left of one is carried on.")
        said.append(_weights(found))
    if found.order_only:
        said.append("The tubes are given; what is sought is the order of buying them.")
        least = found.question.scenario.wishes.least_coverage
        if least:
            said.append(f"That {asked_percent(least)} be covered is left out of account.")
    elif found.question.instance.must_have and len(found.times) > 1:
        said.append("Tubes that must be bought are there in the end, not always at once.")
    if found.under_terms:
        said.append(UNDER_TERMS)
    if found.question.scenario.nearer:
        said.append("How near it comes to what is out of reach is left out of account here.")
    return " ".join(said)


def _weights(found: Instalments) -> str:
    """Return how much coverage at each time counts, in a sentence."""
    first, *rest = [f"{weight:f}" for weight in found.terms.weights]
    if len(set(found.terms.weights)) == 1:
        return "What can be painted counts the same from each of them on."
    said = f"What can be painted counts {first} from now on, then {joined(rest)}"
    falling = sorted(found.terms.weights, reverse=True) == list(found.terms.weights)
    return f"{said}{', so that being able to paint now goes first' if falling else ''}."


def answer_sentence(found: Instalments) -> str:
    """Return what is bought in all, what it covers on average and how sure that is.

    Where nothing is, it ends with why.
    """
    group, currency = found.question.scenario.group, found.question.scenario.currency
    tubes = counted(len(found.purchases), "tube")
    if group is not None:
        tubes = f"{counted(len(found.purchases), 'paint')} for {painters_words(group)}"
    buying = sum(bool(time.bought) for time in found.times)
    bought = f"{tubes} in {counted(buying, 'purchase')} for {money(found.cost, currency)}"
    if found.deliveries:
        bought += f", {money(found.deliveries, currency)} of it for deliveries"
    last = found.times[-1]
    standing, fitted = standing_of(found.certificate), found.question.fitted_paints
    note = order_note(standing, fitted=fitted) if buying else nothing_note(standing, fitted=fitted)
    mean = ""
    if len(found.times) > 1:
        mean = f", and {percent(found.mean_coverage)} on average over the times, by their weights"
    said = (
        f"{bought if buying else 'Nothing to buy'}; {note}. In the end"
        f" {percent(last.coverage)} of what is to be painted is covered{mean}."
    )
    return " ".join(one for one in (said, why_nothing_sentence(found)) if one)


def fading_sentence(found: Instalments) -> str:
    """Return which of the tubes bought fade in light; "" if all of them last."""
    return fade_sentence((one.tube for one in found.purchases), given=found.order_only)


def paid_words(time: Instalment, currency: str) -> str:
    """Return what is paid at a time, and of whom, in which sets, with what delivery it is got."""
    paid = money(time.cost, currency)
    if time.purchase is None:
        return paid
    parcels = time.purchase.parcels
    sellers = [seller_words(parcel) for parcel in parcels]
    sets = [printable(one.tube_set.name) for parcel in parcels for one in parcel.sets]
    delivery = sum(parcel.delivery for parcel in parcels)
    said = [paid, f"of {joined(sellers)}"] if sellers else [paid]
    if sets:
        said.append(f"in {joined(sets)}")
    surplus = sum(one.surplus for parcel in parcels for one in parcel.packs)
    if surplus:
        said.append(f"with {counted(surplus, 'pack')} besides, not needed")
    if delivery:
        said.append(f"{money(delivery, currency)} of it for delivery")
    return in_a_row(said)


def title_words(found: Instalments, place: int) -> str:
    """Return when something is bought, and with what money, e.g. ``Now: EUR 8.00``."""
    currency, time = found.question.scenario.currency, found.times[place]
    brought = f" and {money(time.brought, currency)} carried on" if time.brought else ""
    return f"{turn_words(found, place)}: {money(time.sum, currency)}{brought}"


def turn_words(found: Instalments, place: int) -> str:
    """Return when something is bought, in few words: ``Now`` or ``Then, 2 of 3``."""
    return "Now" if place == 0 else f"Then, {place + 1} of {len(found.times)}"


def nothing_sentence(found: Instalments, place: int) -> str:
    """Return why nothing is bought at a time, in a sentence; blank where something is."""
    time = found.times[place]
    if time.bought:
        return ""
    if any(one.bought for one in found.times[place + 1 :]):
        return WAITING if time.carried_on else NO_MONEY_YET
    return NOTHING_MORE if found.purchases else NOTHING


def left_sentence(found: Instalments, place: int) -> str:
    """Return what is left over for later, in a sentence; blank if nothing is."""
    time = found.times[place]
    if not time.carried_on:
        return ""
    left = money(time.carried_on, found.question.scenario.currency)
    return f"{left} is left." if place == len(found.times) - 1 else f"{left} is carried on."


def covered_sentence(found: Instalments, place: int) -> str:
    """Return how much can be painted from a time on, in a sentence."""
    time = found.times[place]
    many = f"{len(time.palette.covered)} of {counted(len(found.question.samples), 'colour')}"
    return f"From then on {percent(time.coverage)} can be painted ({many})."


def newly_sentence(found: Instalments, time: Instalment, *, full: bool) -> str:
    """Return what can be painted that could not before, in a sentence; blank if nothing."""
    if not time.newly:
        return ""
    named = _each(found, time.newly) if full else _by_flower(found, time.newly)
    return f"New: {named}."


def _by_flower(found: Instalments, numbers: Sequence[int]) -> str:
    """Return how many colours of which flowers, those with most first."""
    flowers = Counter(found.question.samples[number].flower for number in numbers)
    named = [f"{count} of {printable(name)}" for name, count in flowers.most_common(MOST_FLOWERS)]
    rest = sum(flowers.values()) - sum(count for _, count in flowers.most_common(MOST_FLOWERS))
    return joined([*named, *([f"{rest} of other flowers"] if rest else [])])


def _each(found: Instalments, numbers: Sequence[int]) -> str:
    """Return every colour by its flower, in the order of the scenario."""
    flowers: dict[str, list[str]] = {}
    for number in numbers:
        sample = found.question.samples[number]
        flowers.setdefault(sample.flower, []).append(printable(sample.name))
    said = [
        printable(flower)
        if names == [printable(flower)]
        else f"{printable(flower)}: {joined(names)}"
        for flower, names in flowers.items()
    ]
    return "; ".join(said)


def proof_sentences(found: Instalments) -> str:
    """Return what is proven of the order, in whole sentences."""
    said = order_proof(
        standing_of(found.certificate),
        mean=found.mean_coverage,
        bound=found.mean_bound,
        fading_first=found.question.scenario.prefer is not Prefer.CHEAPEST,
        given=found.order_only,
        under_terms=found.under_terms,
        fitted=found.question.fitted_paints,
        method=found.certificate.method.value,
        seconds=found.certificate.seconds,
    )
    doubles = found.question.instance.doubles and not found.order_only
    return f"{said} {one_of_each_words()}" if doubles else said
