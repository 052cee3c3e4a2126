"""Covering problems whose smallest covers are published.

A covering problem "every line has a chosen point" is a choice in which a point is a tube, a line is
a sample that any one of its points covers, and every line must be covered: the fewest tubes are
the smallest cover.
"""

from collections.abc import Callable, Iterable, Sequence
from itertools import combinations, product

import pytest

from fewtubes.selection.certificate import Choice, Status
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.program import solve_program
from fewtubes.selection.search import search

LIMIT_S = 120.0
"""About a hundred times what the largest takes."""

Solve = Callable[[ChoiceInstance], Choice]


def by_program(instance: ChoiceInstance) -> Choice:
    return solve_program(instance, time_limit_s=LIMIT_S)


def by_search(instance: ChoiceInstance) -> Choice:
    return search(instance, seconds=LIMIT_S)


def covering(points: int, lines: Iterable[Sequence[int]]) -> ChoiceInstance:
    """Return the choice that is the covering problem of these lines, all points alike and free."""
    lines = tuple(lines)
    return ChoiceInstance(
        weights=(1,) * len(lines),
        minimal_sets=tuple(tuple((point,) for point in sorted(line)) for line in lines),
        prices=(0,) * points,
        fades=(1,) * points,
        owned=frozenset(),
        must_have=frozenset(),
        budget=0,
        most_tubes=points,
        least_value=len(lines),
    )


def affine_triples(dimension: int) -> tuple[int, list[tuple[int, ...]]]:
    """Return the points and lines of AG(d, 3): triples in {0, 1, 2}^d that sum to 0 modulo 3."""
    points = list(product(range(3), repeat=dimension))
    lines = [
        tuple(points.index(point) for point in triple)
        for triple in combinations(points, 3)
        if all(sum(axis) % 3 == 0 for axis in zip(*triple, strict=True))
    ]
    return len(points), lines


def cube_cycles(dimension: int) -> tuple[int, list[tuple[int, ...]]]:
    """Return the edges of the cube Q_d and its 4-cycles, each as its four edges."""
    corners = range(1 << dimension)
    edges = [(a, a | 1 << k) for a in corners for k in range(dimension) if not a >> k & 1]
    cycles = []
    for j, k in combinations(range(dimension), 2):
        for a in (a for a in corners if not a >> j & 1 and not a >> k & 1):
            b, c, d = a | 1 << j, a | 1 << k, a | 1 << j | 1 << k
            cycles.append(tuple(edges.index(edge) for edge in ((a, b), (a, c), (b, d), (c, d))))
    return len(edges), cycles


# The search takes some twenty seconds for each of the two larger ones; the program proves them.

# Fulkerson, Nemhauser, Trotter (1974): Two computationally difficult set covering problems that
# arise in computing the 1-width of incidence matrices of Steiner triple systems, Mathematical
# Programming Study 2, 72–81 (title from memory). A9 has 9 points, 12 triples, cover 5; A27 has 27
# points, 117 triples, cover 18.
STEINER = [
    pytest.param(by_program, 2, 9, 12, 5, id="A9 by program"),
    pytest.param(by_search, 2, 9, 12, 5, id="A9 by search"),
    pytest.param(by_program, 3, 27, 117, 18, id="A27 by program"),
]

# Grossman, Wool (1997): Computational experience with approximation algorithms for the set covering
# problem, European Journal of Operational Research 101, 81–92: the fewest edges of a cube that meet
# every 4-cycle (title from memory).
CUBES = [
    pytest.param(by_program, 3, 12, 6, 3, id="Q3 by program"),
    pytest.param(by_search, 3, 12, 6, 3, id="Q3 by search"),
    pytest.param(by_program, 4, 32, 24, 8, id="Q4 by program"),
]


@pytest.mark.parametrize(("solve", "dimension", "points", "lines", "cover"), STEINER)
def test_steiner_triple_covers(
    solve: Solve, dimension: int, points: int, lines: int, cover: int
) -> None:
    count, triples = affine_triples(dimension)
    assert (count, len(triples)) == (points, lines)
    instance = covering(count, triples)
    choice = solve(instance)
    assert choice.certificate.status is Status.PROVEN
    palette = choice.palettes[0]
    assert len(palette.bought) == cover
    assert all(set(triple) & set(palette.bought) for triple in triples)


@pytest.mark.parametrize(("solve", "dimension", "edges", "cycles", "cover"), CUBES)
def test_cube_edges_that_meet_every_four_cycle(
    solve: Solve, dimension: int, edges: int, cycles: int, cover: int
) -> None:
    count, lines = cube_cycles(dimension)
    assert (count, len(lines)) == (edges, cycles)
    choice = solve(covering(count, lines))
    assert choice.certificate.status is Status.PROVEN
    assert len(choice.palettes[0].bought) == cover


@pytest.mark.parametrize("solve", [by_program, by_search])
def test_one_tube_less_than_the_steiner_cover_is_impossible(solve: Solve) -> None:
    count, triples = affine_triples(2)
    instance = covering(count, triples)
    too_few = ChoiceInstance(
        instance.weights,
        instance.minimal_sets,
        instance.prices,
        instance.fades,
        instance.owned,
        instance.must_have,
        instance.budget,
        most_tubes=4,  # one less than the published 5
        least_value=instance.least_value,
    )
    choice = solve(too_few)
    assert choice.certificate.status is Status.INFEASIBLE
    assert choice.palettes == ()
