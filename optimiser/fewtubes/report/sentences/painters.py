"""What is said to and of a class that paints: who it is, what it avoids and why, plain cautions.

The cautions are common practice, no source; they end by deferring to label, safety data sheet,
local rules and those who answer for the class.
"""

from collections.abc import Iterator

from fewtubes.scenario.class_wish import ClassWish, Pupils, TubesFor
from fewtubes.shopping.class_share import ClassShare, ClassTube
from fewtubes.shopping.plan import Plan
from fewtubes.words.amounts import coarse, millilitres
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row, joined
from fewtubes.words.money import amount, money
from fewtubes.words.printable import printable

__all__ = [
    "bought_words",
    "class_limits_words",
    "class_share_words",
    "class_tube_cells",
    "class_words",
    "kind_bought",
    "leader_words",
    "painter_cautions",
    "painters_words",
    "sharing_words",
]

PEOPLE = {
    Pupils.CHILDREN: "child/children",
    Pupils.BEGINNERS: "beginner/beginners",
    Pupils.GROWN_UPS: "grown-up/grown-ups",
}

PLAIN = {
    Pupils.CHILDREN: (
        "Never put the brush in your mouth.",
        "Do not eat or drink while you paint.",
        "Do not scrape dry paint, and do not spray or splash.",
        "Wash your hands when you have finished.",
        "Paint in your mouth or your eyes? Tell a grown-up at once.",
    ),
    Pupils.BEGINNERS: (
        "No brush in the mouth, and no eating, drinking or smoking while you paint.",
        "No sanding, no spraying, no dry powder.",
        "Wash your hands afterwards. Keep paint and rinsing water from children and pets.",
    ),
}
"""Common practice, no source; grown-ups are told what beginners are."""

TOGETHER = (
    "Paint is reckoned for all tubes of a kind together; where they are of two sizes{more} it is to"
    " be shared out."
)
MORE_THAN_ONE = ", or more than one for each,"

WHY_NONE = {
    Pupils.CHILDREN: "since children paint, whose fingers and brushes end up in their mouths",
    Pupils.BEGINNERS: "since beginners paint, who have not learnt yet how to handle them",
}
"""Our own caution."""

JUST_ENOUGH = "just enough"

SMALL = 0.2
"""Of what is needed: less beyond it is no more than just enough where it is reckoned from pictures,
which is right to a factor of two at best; our own choice."""

LEAST_REST = 1e-6
"""Less paint [ml] is what sums of doubles feign."""

LEADERS = {
    Pupils.CHILDREN: (
        "For whoever leads the class: use paint that is labelled as fit for children of this age;"
        " that the catalogue names no hazard does not make it so. Label and safety data sheet"
        " decide; ask beforehand what local rules and the school demand."
    ),
    Pupils.BEGINNERS: (
        "For whoever leads the class: label, safety data sheet, local rules and qualified advice"
        " decide; ask beforehand what the house demands."
    ),
}


ALONE = "Label, safety data sheet, local rules and qualified advice decide."


def kind_bought(group: ClassWish | None) -> str:
    """Return what is counted when a palette is: for a class paints, of which there may be many."""
    return "tube" if group is None else "paint"


def painters_words(group: ClassWish) -> str:
    """Return how many paint and who they are, e.g. ``12 children``."""
    return counted(group.painters, PEOPLE[group.pupils])


def sharing_words(group: ClassWish) -> str:
    """Return how tubes are shared, e.g. ``a tube of each paint for everybody``."""
    each = f", with paint for {_pictures_each(group)}" if group.plans_pictures else ""
    if group.tubes is TubesFor.ONE_EACH:
        return f"a tube of each paint for everybody{each}"
    if group.tubes is TubesFor.PANS:
        pan = f"a pan of {group.pan:g} ml of each paint for everybody"
        return f"{pan}, filled from the tubes{each}"
    return f"all share the tubes{each}"


def _pictures_each(group: ClassWish) -> str:
    return f"{counted(group.pictures_each, 'picture')} each"


def class_words(group: ClassWish, currency: str) -> str:
    """Return what a class asks, and why it avoids what it avoids, in whole sentences."""
    return " ".join(_class_words(group, currency))


def _class_words(group: ClassWish, currency: str) -> Iterator[str]:
    yield f"For a class of {painters_words(group)}: {sharing_words(group)}."
    if group.levy_hundredths is not None:
        yield f"Each pays {money(group.levy_hundredths, currency)}, which makes the sum above."
    if group.avoids_every_hazard:
        yield (
            f"Every hazard is avoided, {WHY_NONE[group.pupils]}; avoid_hazards under [wishes] says"
            " otherwise."
        )
    elif group.pupils is not Pupils.GROWN_UPS:
        yield "Of hazards no more is avoided than is wished, as the scenario says, whoever paints."
    if group.pupils is Pupils.CHILDREN:
        yield "Children mix two tubes at most, since that is what they can mix again."


def bought_words(plan: Plan) -> str:
    """Return how many tubes there are to buy, of a class for how many, e.g. ``3 paints …``."""
    share = plan.class_share
    if share is None:
        return counted(len(plan.bought), "tube")
    tubes = counted(sum(tube.bought for tube in share.tubes), "tube")
    return (
        f"{counted(len(plan.bought), 'paint')} for {painters_words(share.group)}, {tubes} in all,"
    )


def class_limits_words(group: ClassWish | None) -> str:
    """Return whom a choice is proven for, e.g. `` for 12 painters (a tube of each)``; or ``""``."""
    if group is None:
        return ""
    return f" for {counted(group.painters, 'painter')} ({_each(group)})"


def _each(group: ClassWish) -> str:
    paint = f"paint for {_pictures_each(group)}" if group.plans_pictures else ""
    if group.tubes is TubesFor.SHARED:
        return paint
    kept = "a tube" if group.tubes is TubesFor.ONE_EACH else f"a pan of {group.pan:g} ml"
    return f"{kept} of each{f', {paint}' if paint else ''}"


def class_share_words(share: ClassShare, currency: str) -> Iterator[str]:
    """Yield the cost a head with its sum, what is left of the money, and what is taken as given."""
    if share.cost:
        yield from _paid_words(share, currency)
    else:
        yield "Nothing is bought, so nobody has anything to pay."
    if share.owned:
        names = joined([printable(tube.name) for tube in share.owned])
        yield f"Of your own: {names}; taken to be enough for all, so see that it is."
    needed = [tube.needed for tube in share.tubes if tube.needed > 1 and tube.needed_ml]
    if needed:
        more = MORE_THAN_ONE if max(needed) > share.group.painters else ""
        yield TOGETHER.format(more=more)


def _paid_words(share: ClassShare, currency: str) -> Iterator[str]:
    """Yield the cost a head with its sum, and what is left of the money."""
    heads, over = share.group.painters, share.together - share.cost
    summed = f"{heads:,} × {amount(share.a_head)} = {money(share.together, currency)}"
    said = f"{money(share.a_head, currency)} a head"
    if over:
        cost = f"{money(over, currency)} more than the {money(share.cost, currency)} that it costs"
        yield f"{said}, rounded up to the hundredth: {summed}, {cost}."
    else:
        yield f"{said}, to the hundredth: {summed}."
    if share.left > 0:
        back = f", {money(share.back_a_head, currency)} a head to give back"
        rest = f"{money(share.left, currency)} of the money is left"
        yield f"{rest}{back if share.back_a_head else ''}."


def class_tube_cells(tube: ClassTube) -> tuple[str, str, str, str]:
    """Return name, what is needed, what is bought, what is left over of one paint."""
    needed = [f"{tube.needed:,} tubes"] if tube.needed > 1 else []
    needed += [_ml(tube.needed_ml, tube)] if tube.needed_ml else []
    return (
        printable(tube.tube.name),
        in_a_row(needed) or "any",
        f"{counted(tube.bought, 'tube')}, {tube.bought_ml:g} ml",
        _left_over(tube),
    )


def _ml(ml: float, tube: ClassTube) -> str:
    """Return an amount exactly where it is counted, and roughly where it is reckoned."""
    return f"{ml:g} ml" if tube.counted else millilitres(ml, tube.kept_ml)


def _left_over(tube: ClassTube) -> str:
    """Return how many tubes are left over, and what the others hold beyond what is needed."""
    rest = _rest(tube)
    if not tube.spare:
        return rest or "nothing"
    tubes = counted(tube.spare, "tube")
    if rest == JUST_ENOUGH:
        return f"{tubes}; the others are {rest}"
    return f"{tubes}, and {rest} in the others" if rest else tubes


def _rest(tube: ClassTube) -> str:
    """Return what the tubes needed hold beyond it; blank if nothing, or if any amount will do.

    What is reckoned is told as what is left of the figure told of it, and not at all where it is
    lost in how roughly that is known.
    """
    rest = tube.kept_ml - tube.needed_ml
    if not tube.needed_ml:
        return ""
    if tube.counted:
        return f"{rest:g} ml" if rest > LEAST_REST else ""
    told = tube.kept_ml - coarse(tube.needed_ml)
    if rest < SMALL * tube.needed_ml or told <= 0:
        return JUST_ENOUGH
    return millilitres(told)


def painter_cautions(pupils: Pupils | None) -> tuple[str, ...]:
    """Return what every painter is told, in plain words; None stands for a painter alone."""
    return PLAIN.get(pupils or Pupils.BEGINNERS, PLAIN[Pupils.BEGINNERS])


def leader_words(pupils: Pupils | None) -> str:
    """Return who decides what is fit to use, for whoever leads the class, or paints alone."""
    if pupils is None:
        return ALONE
    return LEADERS.get(pupils, LEADERS[Pupils.BEGINNERS])
