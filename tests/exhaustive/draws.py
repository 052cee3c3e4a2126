"""Small questions drawn at random, with what goes wrong most easily in them.

Each holds a handful of the demo tubes, so that every palette can be tried; white flowers, which
the paper may cover; importances with awkward common denominators; own colours near grey and in the
blue; wishes of all kinds, some of which cannot be met.
"""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from random import Random

import numpy as np

from fewtubes.catalogue.records import Catalogue, Flower, Hazard, Lightfastness, Role, Swatch
from fewtubes.mixing.mixture import Optics, mixture_lab
from fewtubes.scenario.class_wish import ClassWish, Pupils, TubesFor
from fewtubes.scenario.own_flowers import OwnFlower
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish, OwnColour

__all__ = ["draw_question"]

SHARES = tuple(map(Fraction, ("0.07", "0.1", "0.3", "0.5", "0.7", "1", "1", "1.5", "2", "3")))
"""Importances, decimals as in a file: their sums have denominators such as 7, 11, 13, 23."""

WHITE_ROLES = (Role.PETAL_LIGHT, Role.PETAL, Role.PETAL_SHADE)

SHARE_NEARER = 0.4
"""Share of questions that wish for nearness to what is out of reach."""

SHARE_CLASSES, SHARE_OF_THEM_AS_WISHED = 0.2, 0.5
"""Share of questions for a class, and of those in which the wishes alone tell of hazards."""

SHARE_DOUBLES = 0.2
DOUBLES = (
    ("ultramarine", "ultramarine-study"),
    ("green-leaning-blue", "green-leaning-blue-study"),
    ("rose", "soft-rose"),
    ("warm-red", "warm-red-study"),
    ("arylide-yellow", "middle-yellow-study"),
)
"""Some pairs of the demo catalogue are one paint at two strengths, as its README says."""

LEAST_TUBES_DRAWN, MOST_TUBES_DRAWN = 4, 7


def draw_question(seed: int, demo: Catalogue) -> tuple[Catalogue, Scenario]:
    """Return a catalogue of few tubes and a scenario for it, the same ones for the same seed."""
    random = Random(seed)  # noqa: S311  # drawing test cases
    tubes = random.sample(sorted(demo.tubes), random.randint(LEAST_TUBES_DRAWN, MOST_TUBES_DRAWN))
    tubes = _with_doubles(seed, tubes)
    flowers = {
        name: demo.flowers[name]
        for name in random.sample(sorted(demo.flowers), random.randint(0, 1))
    }
    flowers["white one"] = _white_flower(random)
    wished = [name for name in flowers if random.random() < 0.8]
    whole = Random(f"whole {seed}")  # noqa: S311  # flowers that the scenario brings along whole
    brought = {name for name in wished if whole.random() < 0.25}
    listed = {name: flower for name, flower in flowers.items() if name not in brought}
    catalogue = replace(demo, tubes={id_: demo.tubes[id_] for id_ in tubes}, flowers=listed)
    group = _class(seed)
    own = tuple(_own_colour(random, catalogue, n) for n in range(random.randint(not wished, 6)))
    scenario = Scenario(
        title=f"drawn {seed}",
        shows="",
        currency="EUR",
        budget=Decimal(random.choice([random.randint(1, 900), random.randint(600, 3000)]))
        / 100
        * (1 if group is None else group.painters),
        most_tubes=random.choice([None, None, None, 1, 2, 3]),
        tolerance=random.choice([2.5, 4.0, 4.0, 4.0, 6.0, 9.0, 18.0]),
        flowers=tuple(
            OwnFlower.of(flowers[name], share) if name in brought else FlowerWish(name, share)
            for name, share in ((name, random.choice(SHARES)) for name in wished)
        ),
        own_colours=own,
        wishes=replace(_wishes(random, tubes), most_in_mix=_most_in_mix(seed)),
        paper=random.choice(["cotton-white", *sorted(demo.papers)]),
        light=random.choice(["D65", "D65", *sorted(demo.lights)]),
        prefer=Random(f"prefer {seed}").choice(["lasting", "lasting", "cheapest"]),  # noqa: S311
        nearer=Random(f"nearer {seed}").random() < SHARE_NEARER,  # noqa: S311
        group=group,
    )
    return catalogue, scenario


def _class(seed: int) -> ClassWish | None:
    """Return the class that paints, in a fifth of all questions; pans need more than a pack."""
    random = Random(f"class {seed}")  # noqa: S311  # drawing test cases
    if random.random() > SHARE_CLASSES:
        return None
    tubes = random.choice([TubesFor.ONE_EACH, TubesFor.PANS])
    return ClassWish(
        painters=random.randint(2, 5),
        tubes=tubes,
        pupils=random.choice([Pupils.GROWN_UPS, Pupils.GROWN_UPS, *Pupils]),
        pan_millilitres=random.choice([None, 4.5]) if tubes is TubesFor.PANS else None,
        hazards_as_wished=random.random() < SHARE_OF_THEM_AS_WISHED,
    )


def _most_in_mix(seed: int) -> int:
    """Return how many tubes a mix may hold: fewer than three in two of five questions."""
    return Random(f"mix {seed}").choice([3, 3, 3, 2, 1])  # noqa: S311  # drawing test cases


def _with_doubles(seed: int, tubes: list[str]) -> list[str]:
    """Return the tubes, in a fifth of all questions two strengths of one paint among them."""
    random = Random(f"doubles {seed}")  # noqa: S311  # drawing test cases
    if random.random() > SHARE_DOUBLES:
        return tubes
    both = random.choice(DOUBLES)
    return [*both, *(tube for tube in tubes[2:] if tube not in both)]


def _white_flower(random: Random) -> Flower:
    """Return a flower with pale petals, some of which are no farther from paper than a tint."""
    swatches = [
        Swatch(
            f"petal {number}",
            random.choice(WHITE_ROLES),
            (random.uniform(86, 99), random.uniform(-4, 4), random.uniform(-4, 9)),
            random.choice(SHARES),
        )
        for number in range(random.randint(1, 4))
    ]
    leaf = Swatch("leaf", Role.LEAF, (random.uniform(30, 60), -18.0, 25.0), random.choice(SHARES))
    return Flower("white one", (*swatches, leaf))


def _own_colour(random: Random, catalogue: Catalogue, number: int) -> OwnColour:
    """Return a colour that some tubes come near to, or one near grey, in the blue, or anywhere."""
    if random.random() < 0.7:
        L, a, b = _mixed(random, catalogue)
    else:
        spread, middle_b = random.choice([(3.0, 0.0), (25.0, -40.0), (60.0, 10.0)])
        L = random.uniform(15, 97)
        a, b = random.uniform(-spread, spread), middle_b + random.uniform(-spread, spread)
    return OwnColour(f"own {number}", random.choice(SHARES), lab=(L, a, b))


def _mixed(random: Random, catalogue: Catalogue) -> tuple[float, float, float]:
    """Return the colour of a mixture on white paper in daylight, off by a few units."""
    used = random.sample(list(catalogue.tubes.values()), random.choice([1, 2, 3]))
    loads = np.array([random.random() for _ in used]) * random.uniform(0.05, 1)
    K, S = (np.array([getattr(tube, name) for tube in used]) for name in "KS")
    L, a, b = mixture_lab(loads, K, S, _daylight(catalogue)).tolist()
    return (L + random.gauss(0, 2), a + random.gauss(0, 3), b + random.gauss(0, 3))


_known_optics: list[Optics] = []


def _daylight(catalogue: Catalogue) -> Optics:
    """Return the optics of white paper in daylight, worked out once."""
    if not _known_optics:
        _known_optics.append(Optics.of(catalogue.papers["cotton-white"], catalogue.lights["D65"]))
    return _known_optics[0]


def _wishes(random: Random, tubes: list[str]) -> Wishes:
    """Return wishes about these tubes; most questions have few."""
    mixed = random.sample(tubes, len(tubes))
    owned = mixed[: random.choice([0, 0, 1, 2])]
    rest = mixed[len(owned) :]
    must_have = rest[: random.choice([0, 0, 0, 0, 0, 1])]
    never = rest[len(must_have) :][: random.choice([0, 0, 1])]
    return Wishes(
        owned=tuple(owned),
        must_have=tuple(must_have),
        never=tuple(never),
        lightfastness_floor=random.choice([None, None, None, Lightfastness.II]),
        avoid_hazards=random.choice([()] * 6 + [(Hazard.COPPER, Hazard.CADMIUM), tuple(Hazard)]),
        millilitres=random.choice([0.0, 0.0, 7.0, 20.0]),
        thinnest_wash=random.choice([0.0, 0.0, 0.0, 0.25]),
        least_coverage=random.choice([0.0] * 7 + [0.1, 0.3]),
    )
