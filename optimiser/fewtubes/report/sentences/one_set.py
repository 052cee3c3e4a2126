"""One set of tubes for several scenarios, in sentences."""

from fewtubes.comparison.one_set_findings import OneSet, SetForAll
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.proof.choice import Standing
from fewtubes.words.proof.one_set import set_proof
from fewtubes.words.shares import percent, percents_apart

__all__ = [
    "asked_sentence",
    "painter_sentence",
    "proof_sentence",
    "set_sentence",
    "short_of_sentence",
]


def asked_sentence(found: OneSet) -> str:
    """Return what was asked, in whole sentences."""
    most = "" if found.most_tubes is None else f", at most {counted(found.most_tubes, 'tube')}"
    owned = f" At home: {joined([tube.name for tube in found.owned])}." if found.owned else ""
    counts = {scenario.share for scenario in found.scenarios}
    weighed = "each counts the same" if len(counts) == 1 else "counted as it was asked for"
    return (
        f"One set of tubes for {counted(len(found.scenarios), 'scenario')}, {weighed}; at most"
        f" {money(found.budget, found.currency)}{most}. What any of them refuses is refused, what"
        f" must be bought for any is bought. Tubes from: {found.catalogue_label}.{owned}"
    )


def set_sentence(found: OneSet, chosen: SetForAll) -> str:
    """Return what a set costs and covers, in a sentence; so that the two sets are told apart."""
    other = found.by_worst if chosen is found.by_mean else found.by_mean
    mean, _ = percents_apart(float(chosen.mean), float(other.mean))
    least, _ = percents_apart(float(chosen.worst), float(other.worst))
    tubes = counted(len(chosen.tubes), "tube") if chosen.tubes else "nothing"
    worst = min(range(len(chosen.coverages)), key=lambda place: chosen.coverages[place])
    return (
        f"{tubes} to buy for {money(chosen.cost, found.currency)}. Covered:"
        f" {mean} on average, at worst {least}"
        f" ({found.scenarios[worst].title})."
    )


def painter_sentence(found: OneSet) -> str:
    """Return that classes and pictures planned are left out; "" where there are none."""
    if not found.for_one_painter:
        return ""
    return (
        "Classes and pictures planned are left out of account here: it is one set for one painter."
    )


def proof_sentence(found: OneSet, chosen: SetForAll) -> str:
    """Return how far a set is proven, in whole sentences."""
    by_mean = chosen is found.by_mean
    standing = Standing.BEST
    if not chosen.proven:
        standing = Standing.MOST_COVERED if chosen.settled else Standing.OPEN
    return set_proof(
        standing,
        by_mean=by_mean,
        has=float(chosen.mean if by_mean else chosen.worst),
        bound=chosen.bound,
        fitted=found.fitted_paints,
        seconds=chosen.seconds,
    )


def short_of_sentence(found: OneSet) -> str:
    """Return which scenarios ask for a coverage that a set does not reach; "" if none does."""
    told = []
    for name, chosen in (("the first", found.by_mean), ("the second", found.by_worst)):
        short = [
            f"{scenario.title} (asks for {percent(scenario.least)})"
            for scenario, has in zip(found.scenarios, chosen.coverages, strict=True)
            if float(has) < scenario.least
        ]
        if short:
            told.append(f"{name} set leaves short {joined(short)}")
    return (
        f"The coverage asked for at least is not asked of one set: {'; '.join(told)}."
        if told
        else ""
    )
