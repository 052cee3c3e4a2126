"""What is said to and of a class that paints: who it is, what it avoids and why, plain cautions.

The cautions are common practice, no source; they end by deferring to label, safety data sheet,
local rules and those who answer for the class.
"""

from collections.abc import Iterator

from fewtubes.scenario.class_wish import ClassWish, Pupils, TubesFor
from fewtubes.words.counting import counted
from fewtubes.words.money import money

__all__ = [
    "class_words",
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


def painters_words(group: ClassWish) -> str:
    """Return how many paint and who they are, e.g. ``12 children``."""
    return counted(group.painters, PEOPLE[group.pupils])


def sharing_words(group: ClassWish) -> str:
    """Return how tubes are shared, e.g. ``a tube of each paint for everybody``."""
    if group.tubes is TubesFor.ONE_EACH:
        return "a tube of each paint for everybody"
    if group.tubes is TubesFor.PANS:
        return f"a pan of {group.pan:g} ml of each paint for everybody, filled from the tubes"
    each = counted(group.pictures, "picture")
    return f"all share the tubes, with paint for {each} each"


def class_words(group: ClassWish, currency: str) -> str:
    """Return what a class asks, and why it avoids what it avoids, in whole sentences."""
    return " ".join(_class_words(group, currency))


def _class_words(group: ClassWish, currency: str) -> Iterator[str]:
    yield f"For a class of {painters_words(group)}: {sharing_words(group)}."
    if group.levy_hundredths is not None:
        yield f"Each pays {money(group.levy_hundredths, currency)}, which makes the sum above."
    people = PEOPLE[group.pupils].partition("/")[2]
    if group.avoids_every_hazard:
        yield (
            f"Every hazard is avoided because {people} paint, who do not yet know how to handle"
            " one; avoid_hazards under [wishes] says otherwise."
        )
    if group.pupils is Pupils.CHILDREN:
        yield "Children mix two tubes at most, since that is what they can mix again."


def painter_cautions(pupils: Pupils | None) -> tuple[str, ...]:
    """Return what every painter is told, in plain words; None stands for a painter alone."""
    return PLAIN.get(pupils or Pupils.BEGINNERS, PLAIN[Pupils.BEGINNERS])


def leader_words(pupils: Pupils | None) -> str:
    """Return who decides what is fit to use, for whoever leads the class."""
    return LEADERS.get(pupils or Pupils.BEGINNERS, LEADERS[Pupils.BEGINNERS])
