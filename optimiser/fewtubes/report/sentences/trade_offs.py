"""What the palette gives up in lightfastness and transparency, in words."""

from fewtubes.catalogue.records import LASTS, Lightfastness
from fewtubes.mixing.opacity import Transparency
from fewtubes.report.sentences.painters import kind_bought
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import TradeOff
from fewtubes.words.counting import counted
from fewtubes.words.lightfastness import graded_words, which_fade
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.proof.claims import AT_LEAST, BEST_WITHOUT
from fewtubes.words.shares import percents_apart

__all__ = ["fading_words", "grade_words", "short_trade_off_words", "trade_off_words"]


def grade_words(worst: Lightfastness | Transparency) -> str:
    """Return a grade in words, e.g. ``II, very good (ASTM D4303)`` or ``semi-opaque``."""
    if isinstance(worst, Lightfastness):
        return f"{graded_words(worst)} (ASTM D4303)"
    return worst.word


def trade_off_words(trade_off: TradeOff, plan: Plan) -> str:
    """Return the worst grade of the palette, who causes it, and the coverage without them."""
    if trade_off.worst is None:
        return "No tube is used."
    if not trade_off.limited_by:
        return f"All tubes: {grade_words(trade_off.worst)}. There is no better grade."
    names = joined([printable(tube.name) for tube in trade_off.limited_by])
    return (
        f"The worst grade is {grade_words(trade_off.worst)}, because of {names}."
        f" {_spared_words(trade_off, plan, 'without any tube of that grade or worse')}"
    )


def short_trade_off_words(respect: str, trade_off: TradeOff, plan: Plan) -> str:
    """Return the same in a few words behind the respect; "" if nothing is given up in it.

    Parameters
    ----------
    respect
        In which the tubes are graded, e.g. ``Lightfastness``.
    """
    worst = trade_off.worst
    if worst is None or not trade_off.limited_by:
        return ""
    grade = worst.name if isinstance(worst, Lightfastness) else worst.word
    limited = [printable(tube.name) for tube in trade_off.limited_by]
    who = limited[0] if len(limited) == 1 else counted(len(limited), "tube")
    spared, whole = percents_apart(trade_off.spared, plan.coverage)
    least = AT_LEAST.worded(proven=trade_off.spared_proven)
    covers = (
        f"{least}as much{_price_of(trade_off, plan)}"
        if trade_off.spared >= plan.coverage
        else f"{least}{spared} instead of {whole}"
    )
    return f"{respect}: {grade} at worst ({who}); better alone: {covers}."


def fading_words(plan: Plan) -> str:
    """Return which tubes fade and what it takes to do without; empty if all of them last."""
    trade_off = plan.lasting
    if trade_off is None:
        return ""
    which = f"with tubes that all last ({LASTS.name} or better)"
    return f"{which_fade(trade_off.limited_by)} {_spared_words(trade_off, plan, which)}"


def _spared_words(trade_off: TradeOff, plan: Plan, which: str) -> str:
    """Return the coverage of the best choice of some kind, and its price."""
    least = AT_LEAST.worded(proven=trade_off.spared_proven)
    spared, whole = percents_apart(trade_off.spared, plan.coverage)
    covers = (
        f"{least}as much"
        if trade_off.spared >= plan.coverage
        else f"{least}{spared} instead of {whole}"
    )
    best = BEST_WITHOUT.worded(proven=trade_off.spared_proven)
    return f"{best} {which} covers {covers}{_price_of(trade_off, plan)}."


def _price_of(trade_off: TradeOff, plan: Plan) -> str:
    """Return what covering as much without the worst tubes takes beyond the plan, or ``""``."""
    if trade_off.spared_tubes is None or trade_off.spared_cost is None:
        return ""
    dearer = trade_off.spared_cost - plan.cost
    more = trade_off.spared_tubes - len(plan.bought)
    takes = []
    if more:
        kind = kind_bought(plan.scenario.group)
        takes.append(f"{counted(abs(more), kind)} {'more' if more > 0 else 'fewer'}")
    if dearer:
        sum_ = money(abs(dearer), plan.scenario.currency)
        takes.append(f"{sum_} {'more' if dearer > 0 else 'less'}")
    fade = _more_that_fade(trade_off, plan)
    if fade:
        but = f"{fade:,} more of the tubes {'fades' if fade == 1 else 'fade'}"
        return f", takes {joined(takes)}, but {but}" if takes else f", but {but}"
    if not takes:
        return ", for as many tubes and the same money"
    return f", {'but' if more > 0 or dearer > 0 else 'and'} takes {joined(takes)}"


def _more_that_fade(trade_off: TradeOff, plan: Plan) -> int:
    """Return how many more of the tubes without the worst ones fade than of the plan's."""
    if trade_off.spared_fading is None:
        return 0
    fading = sum(planned.tube.lightfastness.fades for planned in plan.bought)
    return max(0, trade_off.spared_fading - fading)
