"""How sure the answer is, as values for `plan.json`; there only when it was asked for."""

from fewtubes.shopping.steadiness import Rival, Spread, Steadiness
from fewtubes.words.decimals import file_share
from fewtubes.words.money import amount

__all__ = ["steadiness_values"]


def steadiness_values(steadiness: Steadiness) -> dict[str, object]:
    """Return the key ``steadiness`` of `plan.json`.

    Shares are 0–1, `variation` holds standard deviations of natural logarithms and, as ``fit``, how
    far fitted paints go from their fit to spectra as likely, 1 all the way; `stays_within` is in
    the order of ``samples``, and a `lead` is the rival's expected coverage − the plan's.
    """
    trials = steadiness.trials
    sizes = trials.variation
    return {
        "seed": trials.seed,
        "draws": trials.draws,
        "within": file_share(trials.within),
        "chosen_for_it": trials.choose,
        "variation": {
            "pigment_strength": file_share(sizes.pigment_strength),
            "pigment_curve": file_share(sizes.pigment_curve),
            "part": file_share(sizes.part),
            "wash": file_share(sizes.wash),
            "fit": file_share(sizes.fit),
        },
        **_spread(steadiness.spread),
        "stays_within": [file_share(stays) for stays in steadiness.stays],
        "palettes_compared": steadiness.weighed,
        "all_compared": steadiness.all_weighed,
        "taken_for_it": steadiness.taken,
        "proven": steadiness.proven,
        "ranks_best": steadiness.ranks_best,
        "coverage_given_up": file_share(steadiness.given_up),
        "extra_cost": amount(steadiness.extra_cost),
        "other_recipes": steadiness.other_recipes,
        "rival": None if steadiness.rival is None else _rival(steadiness.rival),
    }


def _rival(rival: Rival) -> dict[str, object]:
    return {
        "tubes": [tube.id for tube in rival.bought],
        "cost": amount(rival.cost),
        "coverage": file_share(rival.coverage),
        **_spread(rival.spread),
        "lead": file_share(rival.lead),
        "lead_standard_error": file_share(rival.lead_error),
        "steadier": rival.steadier,
    }


def _spread(spread: Spread) -> dict[str, object]:
    return {
        "expected_coverage": file_share(spread.expected),
        "standard_error": file_share(spread.standard_error),
        "coverage_5_percent": file_share(spread.low),
        "coverage_95_percent": file_share(spread.high),
    }
