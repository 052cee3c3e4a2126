"""The answer to a small question by trying everything, in exact rational arithmetic.

Nothing of the program's mixing, coverage, selection or shopping is used. Kubelka's formula is the
paper's own (JOSA 38(5), 448, 1948), CIELAB and CIEDE2000 are those of colour-science, shares are
fractions, and every palette is looked at. Shared are the catalogue's records, the recipe space as
declared in the README, and the tristimulus weights, which `tests/colour` holds to published tables.
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import chain, combinations, permutations, product

import colour
import numpy as np

from fewtubes.catalogue.records import Catalogue, Flower, Role, Swatch, Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.light import tristimulus_weights
from fewtubes.scenario.own_flowers import OwnFlower
from fewtubes.scenario.records import Scenario

__all__ = ["Answer", "Prices", "Target", "answer_by_trying_all", "targets_of"]

PATTERNS = {
    1: ("1",),
    2: ("11", "21", "31", "41", "61", "81"),
    3: ("111", "211", "221", "321", "411"),
}
"""Parts of a recipe as the README lists them, in any order."""

STRENGTHS = 2.0 ** (-np.arange(12) / 2)
"""Twelve wash strengths, from full to 2.2 %."""

K1, K2 = 0.040, 0.596
"""Saunderson's coefficients for a refractive index of 1.5."""

THINNINGS = 2.0 ** (-np.arange(65) / 32)
"""Shares of its strength to which a tube is let down to see whether it is another's paint."""

TOO_CLOSE = 1e-7
"""A match so near the tolerance would be decided by rounding [ΔE00]."""

GRADED = (Role.PETAL_LIGHT, Role.PETAL, Role.PETAL_SHADE)


@dataclass(frozen=True)
class Target:
    """A colour to be covered, with its share of the whole as a fraction."""

    lab: tuple[float, float, float]
    share: Fraction


@dataclass(frozen=True)
class Answer:
    """All palettes that rank first; none if the demands cannot be met."""

    best: frozenset[frozenset[str]]
    """Each as the ids of the tubes bought."""
    coverage: Fraction
    cost: int
    """[hundredths of the currency]."""
    covered: dict[frozenset[str], tuple[bool, ...]]
    """For each best palette, which targets it covers."""
    sets: tuple[frozenset[frozenset[str]], ...]
    """For each target the sets of tubes that a mix may hold, refused ones too, that reach it."""
    made: frozenset[tuple[str, str]] = frozenset()
    """Tubes and those, refused ones too, that water makes of them."""


Prices = Callable[[frozenset[str]], int | None]
"""What tubes, by id, cost together [hundredths of the currency]; None if they cannot be had."""


def answer_by_trying_all(
    catalogue: Catalogue, scenario: Scenario, prices: Prices | None = None
) -> Answer:
    """Return every palette that ranks first.

    By coverage, tubes, those of them of category III or worse unless the price is to go before,
    nearness to what is missed if that is wished, price, worst and summed category.

    Parameters
    ----------
    catalogue, scenario
        The question.
    prices
        What tubes cost together; by default the sum of the least price of each.
    """
    price = prices or (lambda ids: sum(_cost(catalogue.tubes[id_], scenario) for id_ in ids))
    targets = targets_of(catalogue, scenario)
    total = sum(target.share for target in targets)
    usable = [tube for tube in catalogue.tubes.values() if _usable(tube, scenario)]
    reached = _reached(catalogue, scenario, list(catalogue.tubes.values()), targets)
    owned = [tube.id for tube in usable if tube.id in scenario.wishes.owned]
    for_sale = [tube for tube in usable if tube.id not in owned]
    made = _made_by_water(catalogue, scenario, list(catalogue.tubes.values()))
    ranked: dict[frozenset[str], tuple[object, ...]] = {}
    covered: dict[frozenset[str], tuple[bool, ...]] = {}
    for bought in chain.from_iterable(combinations(for_sale, n) for n in range(len(for_sale) + 1)):
        ids = frozenset(tube.id for tube in bought)
        cost = price(ids)
        held = ids.union(owned)
        covers = tuple(any(tubes <= held for tubes in sets) for sets in reached)
        value = sum(
            (target.share for target, yes in zip(targets, covers, strict=True) if yes), Fraction()
        )
        if (
            cost is None
            or cost > scenario.budget_hundredths
            or (scenario.most_tubes is not None and len(ids) > scenario.most_tubes)
            or not ids.issuperset(set(scenario.wishes.must_have) - set(owned))
            or value < Fraction(str(scenario.wishes.least_coverage)) * total
            or _holds_a_double(ids, owned, made, scenario)
        ):
            continue
        grades = [int(tube.lightfastness) for tube in bought]
        fading = 0 if scenario.prefer == "cheapest" else sum(grade >= 3 for grade in grades)
        ranked[ids] = (-value, len(ids), fading, cost, max(grades, default=0), sum(grades))
        covered[ids] = covers
    if ranked and scenario.nearer:
        equal = min(rank[:3] for rank in ranked.values())
        ranked = {
            ids: (
                *rank[:3],
                _shortfall(catalogue, scenario, ids.union(owned), covered[ids]),
                *rank[3:],
            )
            for ids, rank in ranked.items()
            if rank[:3] == equal
        }
    if not ranked:
        return Answer(frozenset(), Fraction(), 0, {}, reached)
    first = min(ranked.values())
    best = frozenset(ids for ids, rank in ranked.items() if rank == first)
    return Answer(
        best=best,
        coverage=-first[0] / total,  # type: ignore[operator]
        cost=price(min(best, key=sorted)) or 0,
        covered={ids: covered[ids] for ids in best},
        sets=reached,
        made=frozenset(made),
    )


def targets_of(catalogue: Catalogue, scenario: Scenario) -> list[Target]:
    """Return the colours to be covered in the order flowers, own colours; swatches before steps."""
    targets: list[Target] = []
    for wish in scenario.flowers:
        flower = _whole(wish) if isinstance(wish, OwnFlower) else catalogue.flowers[wish.name]
        targets += _flower_targets(flower, Fraction(str(wish.importance)))
    for own in scenario.own_colours:
        assert own.lab is not None
        targets.append(Target(own.lab, Fraction(str(own.importance))))
    return targets


def _whole(own: OwnFlower) -> Flower:
    """Return a flower that the scenario brings along; what its colours count is said of each."""
    swatches = []
    for one in own.swatches:
        assert one.lab is not None
        assert one.importance is not None
        swatches.append(Swatch(one.name, one.role, one.lab, one.importance))
    return Flower(own.name, tuple(swatches))


def _flower_targets(flower: Flower, importance: Fraction) -> list[Target]:
    """Return swatches, then midway steps of half the mean importance of their ends."""
    parts = [(s.lab, Fraction(str(s.importance))) for s in flower.swatches]
    for a, b in _petal_courses(flower):
        middle = tuple((x + y) / 2 for x, y in zip(a.lab, b.lab, strict=True))
        share = (Fraction(str(a.importance)) + Fraction(str(b.importance))) / 4
        parts.append((middle, share))  # type: ignore[arg-type]
    total = sum(share for _, share in parts)
    return [Target(lab, importance * share / total) for lab, share in parts]


def _petal_courses(flower: Flower) -> list[tuple[Swatch, Swatch]]:
    """Return each petal colour with the next paler one of its hue.

    The rule is worded in `coverage/steps.py`, whose code is not used. Sorted by L*, equally light
    ones as in the table.
    """
    petals = sorted((s for s in flower.swatches if s.role in GRADED), key=lambda s: -s.lab[0])
    pairs = []
    for place, deep in enumerate(petals):
        paler = [
            light
            for light in petals[:place]
            if _one_hue(light.lab, deep.lab) and not _two_petals(light.name, deep.name)
        ]
        pairs += [(light, deep) for light in paler[-1:]]
    return pairs


def _one_hue(light: tuple[float, float, float], deep: tuple[float, float, float]) -> bool:
    """Whether a colour is 2 L* deeper and of nearly the hue of another: 20 degrees or ΔH* 8.

    ΔH*² = ΔE*ab² - ΔL*² - ΔC*² (CIE 015); with L* 88 and C* up to 8 the lighter counts as white.
    """
    (light_l, light_c, light_h), (deep_l, deep_c, deep_h) = colour.models.Jab_to_JCh([light, deep])
    square = colour.delta_E(light, deep, method="CIE 1976") ** 2
    square -= (light_l - deep_l) ** 2 + (light_c - deep_c) ** 2
    turn = min(abs(light_h - deep_h), 360 - abs(light_h - deep_h))
    white = light_l >= 88 and light_c <= 8
    return bool(light_l - deep_l >= 2 and (white or turn <= 20 or square <= 64))


def _two_petals(one: str, other: str) -> bool:
    """Whether two names tell a standard and a fall, as of the demo's iris."""
    return ("standard" in one and "fall" in other) or ("fall" in one and "standard" in other)


def _usable(tube: Tube, scenario: Scenario) -> bool:
    """Whether the wishes allow a tube, and it is owned or sold."""
    wishes = scenario.wishes
    floor = wishes.lightfastness_floor
    return (
        tube.id not in wishes.never
        and (floor is None or tube.lightfastness <= floor)
        and not any(
            set(pigment.hazards) & set(wishes.avoid_hazards) for pigment, _ in tube.pigments
        )
        and (
            tube.id in wishes.owned
            or any(offer.currency == scenario.currency for offer in tube.offers)
        )
    )


def _cost(tube: Tube, scenario: Scenario) -> int:
    """Return the least price of packs that hold the paint asked for, at least one pack.

    For a class as `scenarios/README.md` has it: a tube for each painter that holds, all together,
    what is wished for each; or as much as fills all pans.
    """
    offers = [offer for offer in tube.offers if offer.currency == scenario.currency]
    millilitres, tubes, group = scenario.wishes.millilitres, 1, scenario.group
    if group is not None and group.tubes == "one each":
        millilitres, tubes = millilitres * group.painters, group.painters
    elif group is not None and group.tubes == "pans":
        millilitres = max(millilitres, group.painters * (group.pan_millilitres or 1.5))
    most = [max(tubes, 1 + int(millilitres // offer.ml)) for offer in offers]
    return min(
        sum(n * offer.price for n, offer in zip(counts, offers, strict=True))
        for counts in product(*(range(count + 1) for count in most))
        if sum(counts) >= tubes
        and sum(n * offer.ml for n, offer in zip(counts, offers, strict=True)) >= millilitres
    )


def _reached(
    catalogue: Catalogue, scenario: Scenario, tubes: list[Tube], targets: list[Target]
) -> tuple[frozenset[frozenset[str]], ...]:
    """Return for each target the sets that a mix may hold and that reach it; bare paper is one."""
    paper = catalogue.papers[scenario.paper].reflectance
    weights = _weights(scenario.light, catalogue)
    labs = np.array([target.lab for target in targets])
    thinnest = scenario.wishes.thinnest_wash
    strengths = np.array([s for s in STRENGTHS if s >= thinnest - 1e-9])
    reached: list[set[frozenset[str]]] = [set() for _ in targets]
    for size in range(scenario.wishes.most_in_mix + 1):
        mixed = list(combinations(tubes, size))
        labs_seen = [_lab(_seen(set_, strengths, paper), weights) for set_ in mixed]
        if not labs_seen:
            continue
        nearest = _nearest(np.array(labs_seen), labs, scenario.tolerance)
        assert (abs(nearest - scenario.tolerance) > TOO_CLOSE).all(), "draw another question"
        for number, t in zip(*np.nonzero(nearest <= scenario.tolerance), strict=True):
            reached[t].add(frozenset(tube.id for tube in mixed[number]))
    return tuple(frozenset(sets) for sets in reached)


def _holds_a_double(
    bought: frozenset[str], owned: list[str], made: set[tuple[str, str]], scenario: Scenario
) -> bool:
    """Whether one is bought, not as a must-have, beside a tube that is the same paint.

    Beside an owned one only if that makes it.
    """
    free = bought - set(scenario.wishes.must_have)
    return any(
        (strong in bought and weak in bought and {strong, weak} & free)
        or (strong in owned and weak in free)
        for strong, weak in made
    )


def _made_by_water(
    catalogue: Catalogue, scenario: Scenario, tubes: list[Tube]
) -> set[tuple[str, str]]:
    """Return the tubes of which water makes others: within ΔE00 1 at every strength.

    Thinned to a quarter at most in steps of 2 %, as `mixing/likeness.py` declares. No tube of the
    demo that is made so lasts longer than the one it is made of; which of them would stay then is
    not asked here.
    """
    paper, weights = (
        catalogue.papers[scenario.paper].reflectance,
        _weights(scenario.light, catalogue),
    )
    plain = {t.id: _lab(_seen((t,), STRENGTHS, paper), weights) for t in tubes}
    full = {t.id: _lab(_seen((t,), THINNINGS, paper), weights) for t in tubes}
    made: set[tuple[str, str]] = set()
    for strong, weak in permutations(tubes, 2):
        near = np.abs(full[strong.id][:, 0] - plain[weak.id][0, 0]) <= 1.75  # as in `_nearest`
        for thinning in THINNINGS[near]:
            washes = _lab(_seen((strong,), STRENGTHS[::4] * thinning, paper), weights)
            if colour.difference.delta_E_CIE2000(washes, plain[weak.id][::4]).max() > 1:
                continue
            washes = _lab(_seen((strong,), STRENGTHS * thinning, paper), weights)
            apart = colour.difference.delta_E_CIE2000(washes, plain[weak.id]).max()
            assert abs(apart - 1) > TOO_CLOSE, "draw another question"
            if apart <= 1:
                assert strong.lightfastness <= weak.lightfastness, "draw another question"
                made.add((strong.id, weak.id))
                break
    return made


def _shortfall(
    catalogue: Catalogue, scenario: Scenario, held: frozenset[str], covers: tuple[bool, ...]
) -> Fraction:
    """Return the sum over missed targets of share and least ΔE00 in whole hundredths."""
    paper, weights = (
        catalogue.papers[scenario.paper].reflectance,
        _weights(scenario.light, catalogue),
    )
    strengths = np.array([s for s in STRENGTHS if s >= scenario.wishes.thinnest_wash - 1e-9])
    tubes = [catalogue.tubes[id_] for id_ in sorted(held)]
    sizes = range(scenario.wishes.most_in_mix + 1)
    sets = [set_ for size in sizes for set_ in combinations(tubes, size)]
    mixes = np.concatenate([_lab(_seen(set_, strengths, paper), weights) for set_ in sets])
    total = Fraction()
    for target, covered in zip(targets_of(catalogue, scenario), covers, strict=True):
        if not covered:
            least = 100 * float(colour.difference.delta_E_CIE2000(mixes, target.lab).min())
            assert abs(least % 1 - 0.5) > 100 * TOO_CLOSE, "draw another question"
            total += target.share * round(least)
    return total


def _seen(mixed: tuple[Tube, ...], strengths: FloatArray, paper: FloatArray) -> FloatArray:
    """Return what is seen of all mixtures of some tubes on a paper, (mixtures, bands)."""
    if not mixed:
        return paper[None]
    parts = np.array(_parts(len(mixed)), dtype=float)
    loads = strengths[:, None, None] * parts / parts.sum(axis=1, keepdims=True)
    K, S = (np.array([getattr(tube, name) for tube in mixed]) for name in "KS")
    return _film(loads.reshape(-1, len(mixed)) @ K, loads.reshape(-1, len(mixed)) @ S, paper)


@cache
def _parts(size: int) -> list[tuple[int, ...]]:
    """Return all parts of a number of tubes."""
    return sorted({tuple(map(int, p)) for text in PATTERNS[size] for p in permutations(text)})


_known_weights: dict[str, FloatArray] = {}


def _weights(light: str, catalogue: Catalogue) -> FloatArray:
    """Return the tristimulus weights of a light of the demo, (bands, 3), computed once."""
    if light not in _known_weights:
        shine = catalogue.lights[light]
        _known_weights[light] = tristimulus_weights(shine.wavelength_nm, shine.power)
    return _known_weights[light]


def _film(K: FloatArray, S: FloatArray, paper: FloatArray) -> FloatArray:
    """Return what is seen of films, (mixtures, bands), on a paper as seen, (bands,)."""
    ground = (paper - K1) / ((1 - K1) * (1 - K2) + K2 * (paper - K1))  # Saunderson, inverted
    S = np.maximum(S, 1e-9)
    K = np.maximum(K, 1e-12)
    a = 1 + K / S
    b = np.sqrt(a**2 - 1)
    coth = 1 / np.tanh(b * S)
    inner = (1 - ground * (a - b * coth)) / (a - ground + b * coth)
    return np.asarray(K1 + (1 - K1) * (1 - K2) * inner / (1 - K2 * inner))


def _lab(seen: FloatArray, weights: FloatArray) -> FloatArray:
    """Return CIELAB, (mixtures, 3), of reflectances, by colour-science."""
    white = weights.sum(axis=0)
    return np.asarray(colour.XYZ_to_Lab(seen @ weights / 100, white[:2] / white.sum()))


def _nearest(mixes: FloatArray, labs: FloatArray, tolerance: float) -> FloatArray:
    """Return the least ΔE00, (sets, targets), of mixtures, (sets, mixtures, 3), by colour-science.

    ΔE00 is at least |ΔL*| ÷ S_L, and S_L is at most 1 + 0.015 × 50² ÷ √(20 + 50²) = 1.747: what
    differs more than that in lightness is passed over, and infinity stands for it.
    """
    nearest = np.full((len(mixes), len(labs)), np.inf)
    for t, lab in enumerate(labs):
        number, mixture = np.nonzero(
            np.abs(mixes[..., 0] - lab[0]) <= 1.75 * (tolerance + TOO_CLOSE)
        )
        if len(number):
            apart = colour.difference.delta_E_CIE2000(mixes[number, mixture], lab)
            np.minimum.at(nearest[:, t], number, apart)
    return nearest
