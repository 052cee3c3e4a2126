"""Colours out of reach in the terminal, a line each: how near, and which tube would bring it."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from rich.console import Console

from fewtubes.catalogue.records import Tube
from fewtubes.report.sentences.purchase import source_words
from fewtubes.report.sentences.reasons import obstacle_words
from fewtubes.report.terminal.layout import paragraph, plain, put, table
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import Obstacle, PlannedSample, Remedy
from fewtubes.shopping.sources import Source
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row, joined
from fewtubes.words.matches import difference, match_figure
from fewtubes.words.money import amount, free_words
from fewtubes.words.printable import printable

__all__ = ["missed_tubes", "print_missed"]

MOST_MISSED = 12
"""Colours listed; `--full` has them all."""

MOST_HOPELESS = 3
"""Colours listed where nothing is covered: what helps then is told before."""

LONGEST_LABEL = 36
"""Characters of a flower or of a colour of it."""


def print_missed(plan: Plan, console: Console, *, reasons: bool = False) -> None:
    """Print each colour that stays out of reach on a line, those that count most if they are many.

    Steps between swatches are counted only.

    Parameters
    ----------
    plan
        The answer.
    console
        Where to print.
    reasons
        Whether to say why they are out of reach, where the tubes named do not tell.
    """
    missed = [planned for planned in plan.samples if not planned.covered]
    if not missed:
        return
    swatches, shown = _swatches(missed), _shown(plan)
    if shown:
        _print_lines(shown, plan.scenario, console)
    for obstacle in dict.fromkeys(one.obstacle for one in shown) if reasons else ():
        many = sum(one.obstacle is obstacle for one in missed)
        why = obstacle_words(obstacle, plan.scenario)
        if why:
            paragraph(console, f"{counted(many, 'colour')}: {why}.")
    rest = _rest_words(len(swatches) - len(shown), len(missed) - len(swatches))
    if rest:
        paragraph(console, rest)


def missed_tubes(plan: Plan) -> Iterator[Tube]:
    """Yield the tubes that are named as what would bring a colour."""
    for planned in _shown(plan):
        yield from _way(planned, plan.scenario).tubes


def _swatches(samples: Iterable[PlannedSample]) -> list[PlannedSample]:
    """Return the samples out of reach that are no steps."""
    return [one for one in samples if not one.covered and not one.sample.is_step]


def _shown(plan: Plan) -> list[PlannedSample]:
    """Return those that weigh most, if they are too many, in the order in which they stand."""
    missed = _swatches(plan.samples)
    most = MOST_MISSED if plan.coverage else MOST_HOPELESS
    places = sorted(range(len(missed)), key=lambda place: -missed[place].sample.weight)
    return [missed[place] for place in sorted(places[:most])]


def _print_lines(missed: Sequence[PlannedSample], scenario: Scenario, console: Console) -> None:
    ways = [_way(planned, scenario) for planned in missed]
    sold = any(way.sellers for way in ways)
    price = f"{scenario.currency} more" if sold else scenario.currency
    sold_by = ("sold by",) if sold else ()
    own = {colour.name for colour in scenario.own_colours}
    titles = ("out of reach", "ΔE00", "what would bring it", *sold_by, price)
    made = table(*titles, right=("ΔE00", price))
    for planned, way in zip(missed, ways, strict=True):
        sample = planned.sample
        name = printable(sample.flower, LONGEST_LABEL)
        if sample.flower not in own:
            name = f"{name} / {printable(sample.name, LONGEST_LABEL)}"
        off = "–" if math.isinf(planned.match) else match_figure(planned.match, scenario.tolerance)
        sellers = (way.sellers,) if sold else ()
        cells = (name, off, way.said, *sellers, amount(way.cost) if way.cost else "")
        made.add_row(*(plain(cell) for cell in cells))
    put(console, made)


@dataclass(frozen=True)
class _Way:
    """What would bring a colour, or bring it nearer."""

    said: str
    cost: int = 0
    """What it costs [hundredths of the currency]; 0 if nothing is to be bought."""
    tubes: tuple[Tube, ...] = ()
    sellers: str = ""
    """Whom the tubes are bought of; blank where sellers are not told apart."""


def _way(planned: PlannedSample, scenario: Scenario) -> _Way:
    """Return the simplest and cheapest way to bring a colour, or why there is none."""
    if planned.remedies:
        return _single(min(planned.remedies, key=lambda remedy: not remedy.allowed))
    if planned.together:
        tubes = tuple(remedy.tube for remedy in planned.together)
        both = joined([printable(tube.name) for tube in tubes])
        cost = sum(remedy.cost for remedy in planned.together)
        sellers = _sellers([remedy.source for remedy in planned.together])
        return _Way(f"both {both}", cost, tubes, sellers)
    nearer = planned.nearer
    if nearer is not None:
        off = difference(nearer.match, scenario.tolerance)
        said = f"nearer, {off}: {printable(nearer.tube.name)}"
        return _Way(said, nearer.cost, (nearer.tube,), _sellers([nearer.source]))
    if planned.obstacle is Obstacle.BUDGET:
        return _Way("several tubes together")
    return _Way(obstacle_words(planned.obstacle, scenario))


def _single(remedy: Remedy) -> _Way:
    told = [
        *([] if remedy.cost else [free_words(in_set=remedy.in_set)]),
        *([] if remedy.allowed else ["the wishes rule it out"]),
    ]
    name = printable(remedy.tube.name)
    said = f"{name} ({in_a_row(told)})" if told else name
    return _Way(said, remedy.cost, (remedy.tube,), _sellers([remedy.source]))


def _sellers(sources: Sequence[Source | None]) -> str:
    """Return where tubes are bought, each place once."""
    named = [source_words(source) for source in sources if source is not None]
    return joined([*dict.fromkeys(named)])


def _rest_words(swatches: int, steps: int) -> str:
    """Return what else is out of reach and not listed; "" if nothing is."""
    said = [
        *([f"{counted(swatches, 'more colour')} of no greater importance"] if swatches else []),
        *([f"{counted(steps, 'step')} between swatches"] if steps else []),
    ]
    return f"… and {joined(said)}." if said else ""
