"""`instalments.json`: all of what is bought bit by bit.

Schema 1. Amounts are decimal numbers in strings, so that no reader rounds them; coverages are
shares [0–1]; tubes are named by id. Under sellers' terms each time has a ``purchase`` as in
`plan.json`, and ``packs`` of a tube are what is bought of it singly.
"""

import json
from collections.abc import Mapping

from fewtubes import __version__
from fewtubes.comparison.instalment_findings import Instalment, Instalments
from fewtubes.report.fellow_files import digests
from fewtubes.report.json_values.purchase import bought_values
from fewtubes.report.json_values.scenario import scenario_values
from fewtubes.words.decimals import FILE_DECIMALS, file_share
from fewtubes.words.money import amount
from fewtubes.words.printable import printable

__all__ = ["SCHEMA", "instalments_json", "instalments_values"]

SCHEMA = 1
"""Raised when a key changes its meaning or goes; new keys do not raise it."""


def instalments_json(found: Instalments, *, fellows: Mapping[str, str | bytes]) -> str:
    """Return the order of buying as JSON text, indented.

    Parameters
    ----------
    found
        What was found.
    fellows
        Content of the files that are written with it, by name: their digests are told.
    """
    values = instalments_values(found) | digests(fellows)
    return json.dumps(values, ensure_ascii=False, indent=2, allow_nan=False) + "\n"


def instalments_values(found: Instalments) -> dict[str, object]:
    """Return the order of buying as values that JSON knows."""
    question, certificate = found.question, found.certificate
    return {
        "schema": SCHEMA,
        "program": f"fewtubes {__version__}",
        "catalogue": printable(question.catalogue.label),
        "scenario": scenario_values(question.scenario),
        "currency": question.scenario.currency,
        "sums": [amount(one) for one in found.terms.sums],
        "weights": [float(weight) for weight in found.terms.weights],
        "order_only": found.order_only,
        "cost": amount(found.cost),
        "times": [_time(found, time) for time in found.times],
        "mean_coverage": file_share(found.mean_coverage),
        "most_given_up": file_share(found.most_given_up),
        "for_fitted_paints": question.fitted_paints,
        "certificate": {
            "status": certificate.status.value,
            "method": certificate.method.value,
            "proven": found.proven,
            "weighted_value": certificate.value,
            "weighted_bound": certificate.bound,
            "mean_coverage_bound": file_share(found.mean_bound),
            "gap": file_share(certificate.gap),
            "branches": certificate.nodes,
            "seconds": round(certificate.seconds, FILE_DECIMALS),
        },
    }


def _time(found: Instalments, time: Instalment) -> dict[str, object]:
    question = found.question
    return {
        "sum": amount(time.sum),
        "brought": amount(time.brought),
        "bought": [
            {
                "tube": purchase.tube.id,
                "packs": [
                    {"count": pack.count, "ml": pack.offer.ml, "price": amount(pack.offer.price)}
                    for pack in purchase.packs
                ],
                # What a set brings has no price of its own; the set stands under `purchase`.
                "cost": amount(purchase.cost) if purchase.packs else None,
            }
            for purchase in time.bought
        ],
        **({} if time.purchase is None else {"purchase": bought_values(time.purchase)}),
        "cost": amount(time.cost),
        "carried_on": amount(time.carried_on),
        "tubes_by_then": [question.tubes[number].id for number in time.palette.bought],
        "coverage": file_share(time.coverage),
        "newly_reached": [
            {
                "flower": printable(question.samples[number].flower),
                "name": printable(question.samples[number].name, 1000),
            }
            for number in time.newly
        ],
        "best_at_once": file_share(time.best),
        "best_at_once_proven": time.best_proven,
        "given_up": file_share(time.given_up),
    }
