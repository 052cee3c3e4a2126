"""Of one set for several scenarios: the one of the greatest mean, above what each asks for."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from fewtubes.comparison.one_set_findings import LeastCoverage
from fewtubes.comparison.one_set_posed import PosedTogether
from fewtubes.errors import ClashError
from fewtubes.selection.certificate import Choice, Status
from fewtubes.selection.fairest import fairest_mean
from fewtubes.selection.instance import Palette
from fewtubes.selection.joint import JointChoice, JointInstance
from fewtubes.selection.search import search
from fewtubes.shopping.clash import clash_message

__all__ = ["BestByMean", "best_by_mean"]

LEAST_SECONDS = 1.0
"""Time for looking above what is asked for, however long it took without [s]."""


@dataclass(frozen=True, eq=False)
class BestByMean:
    """The palette of the greatest mean, and what became of the coverage asked for at least."""

    choice: JointChoice
    equals: tuple[Palette, ...]
    """Palettes as good, itself among them, to go on from."""
    asked: LeastCoverage
    """Kept, too, where nothing is asked for."""
    without: Fraction | None = None
    """The greatest mean found where nothing is asked for, if that is more [0–1]."""


def best_by_mean(
    posed: PosedTogether, joint: JointInstance, *, seconds: float, exact: bool
) -> BestByMean:
    """Return the palette of the greatest mean; of equals that of the best worst.

    The best of all is looked for first: where it covers what is asked for at least, it is the best
    of those that do. Where no palette covers that, it is asked of none.

    Parameters
    ----------
    posed, joint
        The scenarios, and the one choice for all.
    seconds
        Time for the proof.
    exact
        Whether the weights of the choice are not rounded.

    Raises
    ------
    ClashError
        If the other demands cannot all be met.
    """
    choice = search(joint.base, seconds=seconds)
    if not choice.palettes:
        raise ClashError(clash_message(posed.buying, choice, seconds=seconds))
    kept = tuple(one for one in choice.palettes if joint.keeps(joint.of(one)))
    free = _of_equals(joint, choice, kept or choice.palettes)
    if kept:
        return BestByMean(free, kept, LeastCoverage.KEPT)
    found = fairest_mean(
        joint,
        seconds=max(LEAST_SECONDS, seconds - choice.certificate.seconds),
        known=choice.palettes,
        most_mean=free.bound if exact else Fraction(1),
    )
    if found.palette is None:
        known = LeastCoverage.OUT_OF_REACH if found.infeasible else LeastCoverage.NOT_SETTLED
        return BestByMean(free, choice.palettes, known)
    without = free.aim if free.aim > found.aim else None
    return BestByMean(found, (found.palette,), LeastCoverage.KEPT, without)


def _of_equals(joint: JointInstance, choice: Choice, palettes: Sequence[Palette]) -> JointChoice:
    """Return of equal palettes that of the best worst coverage, with what is proven of them."""
    covered = [joint.of(palette) for palette in palettes]
    place = max(range(len(covered)), key=lambda number: (min(covered[number]), -number))
    certificate = choice.certificate
    mean = joint.mean(covered[place])
    bound = Fraction(certificate.bound, sum(joint.base.weights) or 1)
    return JointChoice(
        palette=palettes[place],
        coverages=covered[place],
        bound=mean if certificate.gap == 0 else max(mean, bound),
        proven=certificate.status is Status.PROVEN,
        infeasible=False,
        nodes=certificate.nodes,
        seconds=certificate.seconds,
        aim=mean,
    )
