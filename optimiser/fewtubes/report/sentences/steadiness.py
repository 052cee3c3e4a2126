"""What is said of how an answer stands variation of paint and hand."""

from fewtubes.mixing.variation import Variation
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.steadiness import Rival, Steadiness
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.proof.claims import UNWEIGHED
from fewtubes.words.shares import asked_percent, percent, points
from fewtubes.words.tubes import FITTED

__all__ = [
    "assumption_words",
    "expected_words",
    "recipes_words",
    "rival_words",
    "steadiness_aside",
    "weighed_words",
]


def steadiness_aside(plan: Plan) -> str:
    """Return what of the coverage can be expected, as the end of a sentence, or ``""``."""
    if plan.steadiness is None:
        return ""
    expected = percent(plan.steadiness.spread.expected)
    return f", if mixed exactly; {expected} can be expected of paint and hand that vary"


def assumption_words(plan: Plan, steadiness: Steadiness) -> str:
    """Return what was varied, by how much and how often, in whole sentences."""
    trials = steadiness.trials
    sizes: Variation = trials.variation
    origin = " Where a paint was fitted its spread is no assumption: it follows from its swatches."
    return (
        f"Simulated: in each of {counted(trials.draws, 'draw')} (seed {trials.seed})"
        f" {_paint_words(plan, sizes)}, every part is off by {percent(sizes.part)} and every wash"
        f" by {percent(sizes.wash)} (standard deviations). These sizes are our own assumption, not"
        f" measured.{origin if plan.fitted else ''} Each colour is mixed once by its recipe and not"
        " corrected by eye, as a painter would."
    )


def _paint_words(plan: Plan, sizes: Variation) -> str:
    """Return how the paints of the palette vary: fitted ones by their swatches, others by batch."""
    batch = (
        f"pigment is stronger or weaker than its profile by {percent(sizes.pigment_strength)} and"
        f" its curves are bent by {percent(sizes.pigment_curve)}"
    )
    fitted = len(plan.fitted)
    if not fitted:
        return f"every {batch}"
    tubes = f"{fitted} of {counted(len(plan.tubes), 'tube')}"
    drawn = (
        f"the paint of {tubes}, {FITTED}, is one of those that fit its swatches as"
        f" well{_taken(sizes)}"
    )
    pigments = [pigment for planned in plan.tubes for pigment, _ in planned.tube.pigments]
    return drawn if all(pigment.fitted for pigment in pigments) else f"{drawn}, every other {batch}"


def _taken(sizes: Variation) -> str:
    """Return how far it is taken from the fit to there, where that is not all the way."""
    return "" if sizes.fit == 1 else f" (taken {percent(sizes.fit)} of the way from the fit)"


def expected_words(plan: Plan, steadiness: Steadiness) -> str:
    """Return the coverage that can be expected, in a sentence."""
    spread = steadiness.spread
    return (
        f"Expected coverage: {percent(spread.expected)} (standard error"
        f" {points(spread.standard_error)}), against {percent(plan.coverage)} with the recipes"
        f" followed exactly; 9 draws of 10 lie between {percent(spread.low)} and"
        f" {percent(spread.high)}."
    )


def weighed_words(steadiness: Steadiness) -> str:
    """Return which palettes were compared, in whole sentences."""
    within = asked_percent(steadiness.trials.within)
    near = (
        f"the palettes that cover at most {within} less than the best,"
        " with no more tubes and within the budget"
        if steadiness.trials.within > 0 and steadiness.proven
        else "the palettes that rank equal best"
    )
    why = UNWEIGHED.worded(proven=steadiness.proven)
    if steadiness.weighed == 1:
        known = "no other is among" if steadiness.all_weighed else "no other was found among"
        return f"Nothing to compare with: {known} {near}.{why}"
    which = f"all of {near}" if steadiness.all_weighed else f"those found that rank first of {near}"
    return f"Compared under the same draws: {counted(steadiness.weighed, 'palette')}, {which}.{why}"


def rival_words(plan: Plan, steadiness: Steadiness) -> str:
    """Return whether another palette is steadier, in whole sentences; "" without another."""
    rival = steadiness.rival
    if rival is None:
        return ""
    other = _palette_words(rival, plan)
    lead = f"{points(abs(rival.lead))} (standard error {points(rival.lead_error)})"
    figures = f"expected coverage {percent(rival.spread.expected)}"
    if steadiness.taken:
        return f"Taken instead of {other}: {figures}, less than this one by {lead}."
    if rival.steadier:
        return (
            f"Steadier would be {other}: {figures}, more than this one by {lead}. To have it,"
            f" ask for the steadiest (--steadiest --within {steadiness.trials.within:g}); recipes"
            " are then chosen for steadiness too, which may change the comparison."
        )
    if rival.less_steady:
        return f"None is steadier. Next comes {other}: {figures}, less than this one by {lead}."
    return (
        f"None is steadier beyond luck. Next comes {other}: {figures}, which differs from this one"
        f" by {lead}, too little to tell."
    )


def recipes_words(steadiness: Steadiness) -> str:
    """Return how many recipes were chosen for steadiness, in a sentence; "" if none could be."""
    if not steadiness.trials.choose:
        return ""
    number = steadiness.other_recipes
    if not number:
        return "Every colour has its nearest recipe; no other near one stays within more often."
    verb = "has" if number == 1 else "have"
    return (
        f"{counted(number, 'colour')} {verb} a recipe within tolerance that is not the nearest, but"
        " stays within tolerance more often."
    )


def _palette_words(rival: Rival, plan: Plan) -> str:
    """Return the tubes of a palette with price and coverage."""
    names = joined([printable(tube.name) for tube in rival.bought]) or "buying nothing"
    price = money(rival.cost, plan.scenario.currency)
    return f"{names} ({price}, covers {percent(rival.coverage)} exactly followed)"
