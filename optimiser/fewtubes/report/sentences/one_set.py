"""One set of tubes for several scenarios, in sentences."""

from fewtubes.comparison.one_set_findings import LeastCoverage, OneSet, SetForAll
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.proof.choice import Standing
from fewtubes.words.proof.one_set import none_keeps_words, set_proof
from fewtubes.words.shares import asked_percent, percents_apart

__all__ = [
    "asked_sentence",
    "least_sentence",
    "painter_sentence",
    "proof_sentence",
    "set_sentence",
]


def asked_sentence(found: OneSet) -> str:
    """Return what was asked, in whole sentences."""
    most = (
        "" if found.most_tubes is None else f", at most {counted(found.most_tubes, _kind(found))}"
    )
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
    tubes = counted(len(chosen.tubes), _kind(found)) if chosen.tubes else "nothing"
    worst = min(range(len(chosen.coverages)), key=lambda place: chosen.coverages[place])
    return (
        f"{tubes} to buy for {money(chosen.cost, found.currency)}. Covered:"
        f" {mean} on average, at worst {least}"
        f" ({found.scenarios[worst].title})."
    )


def _kind(found: OneSet) -> str:
    """Return what is counted: for a class several tubes of a paint are bought."""
    return "tube" if all(one.painters is None for one in found.scenarios) else "paint"


def painter_sentence(found: OneSet) -> str:
    """Return for how many painters and pictures it is enough; "" for one painter, who plans none.

    How that is reckoned is told with it.
    """
    told = []
    classes = [one.painters for one in found.scenarios if one.painters is not None]
    if classes:
        which = "the class of" if len(classes) == 1 else "the largest class, of"
        told.append(
            f"Of each paint there is enough for {which} {max(classes):,} painters; classes of a"
            " term follow one another, so that tubes and pans go from one to the next."
        )
    planned = [one.pictures for one in found.scenarios if one.pictures]
    if planned:
        over = "" if len(planned) == 1 else f", of {counted(len(planned), 'scenario')} together"
        told.append(f"It holds the paint of {counted(sum(planned), 'picture')}{over}.")
    return " ".join(told)


def proof_sentence(found: OneSet, chosen: SetForAll) -> str:
    """Return how far a set is proven, in whole sentences."""
    by_mean = chosen is found.by_mean
    standing = Standing.BEST
    if not chosen.proven:
        standing = Standing.MOST_COVERED if chosen.settled else Standing.OPEN
    return set_proof(
        standing,
        by_mean=by_mean,
        kept=found.least_coverage is LeastCoverage.KEPT,
        has=float(chosen.mean if by_mean else chosen.worst),
        bound=chosen.bound,
        fitted=found.fitted_paints,
        seconds=chosen.seconds,
    )


def least_sentence(found: OneSet) -> str:
    """Return what became of the coverage that scenarios ask for at least; "" if none does.

    Where it is asked of neither set, with which scenarios either leaves short of it.
    """
    if found.least_coverage is LeastCoverage.NOT_ASKED:
        return ""
    if found.least_coverage is LeastCoverage.KEPT:
        asking = [
            f"{one.title} ({asked_percent(one.least)})" for one in found.scenarios if one.least
        ]
        told = f"Both sets cover what is asked for at least of {joined(asking)}."
        if found.mean_without is None:
            return told
        _, more = percents_apart(float(found.by_mean.mean), found.mean_without)
        return f"{told} Without that, {more} could be had on average."
    why = none_keeps_words(
        settled=found.least_coverage is LeastCoverage.OUT_OF_REACH, fitted=found.fitted_paints
    )
    return f"{why}. So it is asked of neither: {_short_of(found)}."


def _short_of(found: OneSet) -> str:
    """Return which scenarios either set leaves short of what they ask for."""
    told = []
    for name, chosen in (("the first", found.by_mean), ("the second", found.by_worst)):
        short = [
            f"{scenario.title} (asks for {asked_percent(scenario.least)})"
            for scenario, has in zip(found.scenarios, chosen.coverages, strict=True)
            if float(has) < scenario.least
        ]
        if short:
            told.append(f"{name} set leaves short {joined(short)}")
    return "; ".join(told)
