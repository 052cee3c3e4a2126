"""What is mixed for a plan, as values that JSON knows."""

from fewtubes.shopping.plan import Plan
from fewtubes.shopping.puddles import Addition, FewestPuddles, Puddle
from fewtubes.words.decimals import file_number
from fewtubes.words.printable import printable

__all__ = ["puddles_values"]


def puddles_values(plan: Plan) -> dict[str, object]:
    """Return the puddles of a plan, and how few would do."""
    mixed = plan.mixed
    return {
        "shared_for": str(mixed.puddling),
        "mixed": [*map(_puddle, mixed.mixed)],
        "fewest": [*map(_fewest, mixed.fewest)],
        "one_sitting": _fewest(mixed.sitting),
    }


def _puddle(puddle: Puddle) -> dict[str, object]:
    return {
        "flower": printable(puddle.subject) or None,
        "own_colours": puddle.own,
        "number": puddle.number,
        "tubes": [
            {"id": tube, "parts": parts}
            for tube, parts in zip(puddle.tubes, puddle.parts, strict=True)
        ],
        "mix_L": file_number(puddle.lightness),
        "samples": list(puddle.colours),
        "addition": None if puddle.addition is None else _addition(puddle.addition),
    }


def _addition(addition: Addition) -> dict[str, object]:
    return {
        "puddle": addition.puddle,
        "puddle_parts": addition.puddle_parts,
        "tube": addition.tube,
        "tube_parts": addition.tube_parts,
    }


def _fewest(fewest: FewestPuddles) -> dict[str, object]:
    return {
        "flower": printable(fewest.subject) or None,
        "own_colours": fewest.own,
        "puddles": fewest.number,
        "bound": fewest.bound,
        "proven": fewest.proven,
    }
