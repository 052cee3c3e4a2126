"""What the palette cannot do, in the illustrated report: reach, colours missed, trade-offs."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from fewtubes.catalogue.records import Tube
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.markup import drawn, fill
from fewtubes.report.sentences.purchase import sold_words
from fewtubes.report.sentences.reasons import no_single_words, obstacle_words
from fewtubes.report.sentences.trade_offs import trade_off_words
from fewtubes.shopping.plan_parts import PlannedSample
from fewtubes.shopping.sources import Source
from fewtubes.words.counting import counted
from fewtubes.words.money import money
from fewtubes.words.printable import printable

__all__ = ["missed_section", "reach_section", "trade_off_section"]

MOST_HELPERS = 8
"""Tubes listed that would bring a colour within reach; the recipes and tables name the others."""

MOST_NAMED = 6
"""Colours named in one cell."""


@dataclass(frozen=True, eq=False)
class _Helper:
    """A tube that alone would bring some of the missed colours."""

    tube: Tube
    cost: int
    allowed: bool
    brings: tuple[PlannedSample, ...]
    source: Source | None = None

    @property
    def weight(self) -> int:
        """Importance of all it would bring."""
        return sum(planned.sample.weight for planned in self.brings)


@dataclass(frozen=True)
class _Row:
    """A further tube, as in `missed.html`."""

    name: str
    price: str
    brings: str


def reach_section(basis: Basis) -> Markup:
    """Return the plane of hue and chroma with its key."""
    key = [f"{part.letter} – {printable(part.name)}" for part in basis.flowers if part.letter]
    return fill("reach.html", picture=drawn(basis.hue_plane, prefix="plane-"), key="; ".join(key))


def missed_section(basis: Basis) -> Markup:
    """Return what is out of reach, why, and which tube would bring most of it."""
    plan = basis.plan
    missed = [planned for planned in plan.samples if not planned.covered]
    obstacles = Counter(planned.obstacle for planned in missed)
    helpers = _helpers(missed)
    rest = len(helpers) - MOST_HELPERS
    return fill(
        "missed.html",
        missed=counted(len(missed), "colour") if missed else "",
        total=len(plan.samples),
        reasons=[
            f"{counted(count, 'colour')}: {obstacle_words(obstacle, plan.scenario)}."
            for obstacle, count in obstacles.items()
            if obstacle is not None
        ],
        no_single="" if helpers else no_single_words(plan.scenario.currency, "any of them"),
        helpers=[_row(helper, plan.scenario.currency) for helper in helpers[:MOST_HELPERS]],
        more=counted(rest, "further tube") if rest > 0 else "",
    )


def trade_off_section(basis: Basis) -> Markup:
    """Return the palette's worst lightfastness and opacity and what better would cost."""
    plan = basis.plan
    return fill(
        "trade_offs.html",
        lasting=trade_off_words(plan.lightfastness, plan),
        hiding=trade_off_words(plan.opacity, plan),
    )


def _helpers(missed: Sequence[PlannedSample]) -> list[_Helper]:
    """Return the tubes that alone would bring missed colours, those that bring most first."""
    found: dict[str, _Helper] = {}
    for planned in missed:
        for remedy in planned.remedies:
            known = found.get(remedy.tube.id)
            brings = (*(known.brings if known else ()), planned)
            source = remedy.source or (known.source if known else None)
            found[remedy.tube.id] = _Helper(
                remedy.tube, remedy.cost, remedy.allowed, brings, source
            )
    ranked = found.values()
    return sorted(ranked, key=lambda h: (not h.allowed, -h.weight, h.cost, h.tube.id))


def _row(helper: _Helper, currency: str) -> _Row:
    refused = "" if helper.allowed else " (ruled out by the wishes)"
    names = [
        f"{printable(planned.sample.flower)}: {printable(planned.sample.name)}"
        for planned in helper.brings[:MOST_NAMED]
    ]
    more_price = "" if helper.source is None else " more"
    rest = len(helper.brings) - len(names)
    more = f" and {rest} more" if rest else ""
    return _Row(
        name=f"{sold_words(helper.tube, helper.source)}{refused}",
        price=f"{money(helper.cost, currency)}{more_price}",
        brings=f"{'; '.join(names)}{more}",
    )
