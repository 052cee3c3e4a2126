"""How much paint one picture takes from each tube.

In one picture all flowers and own colours of a scenario are painted once. Areas are divided over
the colours of a flower as their importance is, steps between swatches included; colours out of
reach are not painted, and bare paper takes nothing.

For a puddle p with the colours t painted from it::

    painted   F_p = Σ_t a_t w_t                             [cm² of full-strength stroke]
    mixed     M_p = max(F_p (1 + waste), least · max_t w_t)  [cm² of full-strength stroke]
    from i    V_i = Σ_p M_p q_pi ÷ Σ_j q_pj ÷ c_i            [ml]

with the area a_t of a colour [cm²], its wash w_t as a share of full strength, q_pi the parts of a
tube in the mix, and c_i how far a millilitre from it goes (`fewtubes.mixing.covering_power`). Parts
are brushfuls let down to full strength, so that a part stands for the same area whatever the tube,
and a strong tinter gives less of itself. The least puddle is what would paint so many cm² in the
strongest wash that it is mixed for: a stamen takes a whole puddle.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from fewtubes.catalogue.records import Tube
from fewtubes.coverage.samples import Sample
from fewtubes.mixing.covering_power import covering_power
from fewtubes.mixing.matching import Match
from fewtubes.scenario.picture_wish import PictureWish
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.puddles import Puddle

__all__ = ["PaintedPuddle", "mixed_cm2", "paint_taken", "painted_areas", "painted_puddles"]


@dataclass(frozen=True)
class PaintedPuddle:
    """One mix, and the colours painted with it."""

    tubes: tuple[str, ...]
    """Ids."""
    parts: tuple[int, ...]
    """Brushfuls of each, let down to full strength."""
    colours: tuple[tuple[float, float], ...]
    """Area [cm²] and wash [0–1] of each colour."""


def painted_areas(scenario: Scenario, samples: Sequence[Sample]) -> tuple[float, ...]:
    """Return the area of each sample in one picture [cm²], shape (samples,).

    Where no pictures are planned a flower is as large as is usual.
    """
    usual = scenario.picture or PictureWish()
    whole = {
        **{it.name: it.area_cm2 or usual.flower_cm2 for it in scenario.flowers},
        **{it.name: it.area_cm2 or usual.colour_cm2 for it in scenario.own_colours},
    }
    weight = dict.fromkeys(whole, 0)
    for sample in samples:
        weight[sample.flower] += sample.weight
    return tuple(whole[sample.flower] * sample.weight / weight[sample.flower] for sample in samples)


def mixed_cm2(puddle: PaintedPuddle, picture: PictureWish) -> float:
    """Return what is mixed of a puddle [cm² of full-strength stroke]; M_p above."""
    painted = sum(area * wash for area, wash in puddle.colours)
    strongest = max((wash for _, wash in puddle.colours), default=0.0)
    return max(painted * (1 + picture.waste), picture.least_puddle_cm2 * strongest)


def paint_taken(
    puddles: Sequence[PaintedPuddle], tubes: Mapping[str, Tube], picture: PictureWish
) -> dict[str, float]:
    """Return the paint that one picture takes [ml] by tube; V_i above, tubes in no mix left out.

    Parameters
    ----------
    puddles
        All that are mixed for one picture.
    tubes
        By id, at least those in the puddles.
    picture
        Waste and least puddle.
    """
    taken: dict[str, float] = {}
    for puddle in puddles:
        part = mixed_cm2(puddle, picture) / sum(puddle.parts)
        for id_, parts in zip(puddle.tubes, puddle.parts, strict=True):
            taken[id_] = taken.get(id_, 0.0) + part * parts / covering_power(tubes[id_])
    return taken


def painted_puddles(
    mixed: Sequence[Puddle], matches: Sequence[Match | None], areas: Sequence[float]
) -> tuple[PaintedPuddle, ...]:
    """Return puddles with the area and wash of each colour painted from them.

    Parameters
    ----------
    mixed
        As of `Puddles`.
    matches
        The recipe of each sample; every one in a puddle has one.
    areas
        Of each sample [cm²].
    """
    washes = [0.0 if match is None else match.recipe.strength for match in matches]
    return tuple(
        PaintedPuddle(
            puddle.tubes, puddle.parts, tuple((areas[t], washes[t]) for t in puddle.colours)
        )
        for puddle in mixed
    )
