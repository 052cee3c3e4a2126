"""How sure the answer is, as values for `plan.json`; there only when it was asked for."""

from fewtubes.report.words import amount
from fewtubes.shopping.steadiness import Rival, Spread, Steadiness

__all__ = ["steadiness_values"]

DECIMALS = 4
"""Of shares."""


def steadiness_values(steadiness: Steadiness) -> dict[str, object]:
    """Return the key ``steadiness`` of `plan.json`.

    Shares are 0–1, `variation` holds standard deviations of natural logarithms, `stays_within` is
    in the order of ``samples``, and a `lead` is the rival's expected coverage − the plan's.
    """
    trials = steadiness.trials
    sizes = trials.variation
    return {
        "seed": trials.seed,
        "draws": trials.draws,
        "within": _share(trials.within),
        "chosen_for_it": trials.choose,
        "variation": {
            "pigment_strength": _share(sizes.pigment_strength),
            "pigment_curve": _share(sizes.pigment_curve),
            "part": _share(sizes.part),
            "wash": _share(sizes.wash),
        },
        **_spread(steadiness.spread),
        "stays_within": [_share(stays) for stays in steadiness.stays],
        "palettes_compared": steadiness.weighed,
        "all_compared": steadiness.all_weighed,
        "taken_for_it": steadiness.taken,
        "ranks_best": steadiness.ranks_best,
        "coverage_given_up": _share(steadiness.given_up),
        "extra_cost": amount(steadiness.extra_cost),
        "other_recipes": steadiness.other_recipes,
        "rival": None if steadiness.rival is None else _rival(steadiness.rival),
    }


def _rival(rival: Rival) -> dict[str, object]:
    return {
        "tubes": [tube.id for tube in rival.bought],
        "cost": amount(rival.cost),
        "coverage": _share(rival.coverage),
        **_spread(rival.spread),
        "lead": _share(rival.lead),
        "lead_standard_error": _share(rival.lead_error),
        "steadier": rival.steadier,
    }


def _spread(spread: Spread) -> dict[str, object]:
    return {
        "expected_coverage": _share(spread.expected),
        "standard_error": _share(spread.standard_error),
        "coverage_5_percent": _share(spread.low),
        "coverage_95_percent": _share(spread.high),
    }


def _share(value: float) -> float:
    return round(value, DECIMALS) + 0.0
