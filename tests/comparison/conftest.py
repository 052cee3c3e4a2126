"""Small random instances of the choice, with every palette of them; the demo catalogue's paints."""

import random
from collections.abc import Callable, Mapping
from itertools import combinations

import pytest
from tests.drawn_doubles import drawn_doubles

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Tube
from fewtubes.mixing.mixture import Optics
from fewtubes.selection.instance import ChoiceInstance, Palette

Sets = tuple[tuple[int, ...], ...]


@pytest.fixture(scope="session")
def drawn() -> Callable[[int | str], ChoiceInstance]:
    """Return the maker of small random instances, one for each seed."""
    return draw_instance


@pytest.fixture(scope="session")
def tubes() -> Mapping[str, Tube]:
    """Return the tubes of the demo catalogue by id."""
    return read_catalogue().tubes


@pytest.fixture(scope="session")
def optics() -> Optics:
    """Return the demo catalogue's cotton paper by daylight."""
    demo = read_catalogue()
    return Optics.of(demo.papers["cotton-white"], demo.lights["D65"])


@pytest.fixture(scope="session")
def every_palette() -> Callable[[ChoiceInstance], tuple[Palette, ...]]:
    """Return the maker of all palettes with the must-have tubes, whatever they cost."""
    return list_palettes


def draw_instance(seed: int | str) -> ChoiceInstance:
    """Draw an instance of at most 9 tubes and 11 samples, with few distinct prices (so, ties)."""
    rng = random.Random(f"comparison {seed}")  # noqa: S311  # no secrets are drawn
    n, m = rng.randint(2, 9), rng.randint(1, 11)
    role = [rng.choices(("owned", "must have", ""), (1, 0.5, 8))[0] for _ in range(n)]
    highest = rng.choice((1, 3, 900))
    prices = tuple(0 if role[i] == "owned" else rng.randint(0, highest) for i in range(n))
    must_have = frozenset(i for i in range(n) if role[i] == "must have")
    floor = sum(prices[i] for i in must_have)
    fades = tuple(rng.randint(1, 3) for _ in range(n))
    return ChoiceInstance(
        weights=tuple(rng.randint(1, rng.choice((1, 3, 50))) for _ in range(m)),
        minimal_sets=_with_bare_paper(seed, tuple(_draw_sets(rng, n) for _ in range(m))),
        prices=prices,
        fades=fades,
        owned=frozenset(i for i in range(n) if role[i] == "owned"),
        must_have=must_have,
        budget=rng.randint(floor, max(floor, sum(prices))),
        most_tubes=rng.randint(max(1, len(must_have)), n + 1),
        least_value=rng.choice((0, 5)),
        fading=_drawn_fading(seed, fades),
        terms=None,
        **drawn_doubles(seed, n, [i for i in range(n) if role[i] == "owned"]),
    )


def _drawn_fading(seed: int | str, fades: tuple[int, ...]) -> frozenset[int]:
    """Draw from which category on tubes count as fading; in a third of all instances none do."""
    rng = random.Random(f"fading {seed}")  # noqa: S311  # no secrets are drawn
    least = rng.choice((1, 2, 5))
    return frozenset(i for i, fade in enumerate(fades) if fade > least)


def _with_bare_paper(seed: int | str, drawn: tuple[Sets, ...]) -> tuple[Sets, ...]:
    """Give some samples of a third of all instances the empty set alone, as bare paper does."""
    rng = random.Random(f"bare paper {seed}")  # noqa: S311  # no secrets are drawn
    often = rng.choice((0.0, 0.0, 0.2))
    return tuple(((),) if rng.random() < often else sets for sets in drawn)


def _draw_sets(rng: random.Random, n: int) -> tuple[tuple[int, ...], ...]:
    """Draw up to six sets of one to three tubes, none of which contains another."""
    sets = {
        frozenset(rng.sample(range(n), min(n, rng.choice((1, 2, 2, 3, 3)))))
        for _ in range(rng.randint(0, 6))
    }
    minimal = [tubes for tubes in sets if not any(other < tubes for other in sets)]
    return tuple(sorted(tuple(sorted(tubes)) for tubes in minimal))


def list_palettes(instance: ChoiceInstance) -> tuple[Palette, ...]:
    """Return every palette; its figures are counted by `ChoiceInstance.palette` alone."""
    others = sorted(set(range(instance.tube_count)) - instance.owned - instance.must_have)
    return tuple(
        instance.palette(instance.must_have.union(chosen))
        for size in range(len(others) + 1)
        for chosen in combinations(others, size)
        if size + len(instance.must_have) <= instance.most_tubes
        and not _holds_a_double(instance, set(chosen))
    )


def _holds_a_double(instance: ChoiceInstance, chosen: set[int]) -> bool:
    """Whether one is chosen beside a tube of the same paint, bought or, if it is spare, owned."""
    bought = chosen | instance.must_have
    return any({a, b} <= bought and {a, b} & chosen for a, b in instance.alike) or any(
        owned in instance.owned and tube in chosen for owned, tube in instance.spare
    )
