"""What palettes share, on lists small enough to check by eye, and as a property."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from fewtubes.comparison.in_common import exchanges, one_of_each, shared_tubes
from fewtubes.selection.instance import Palette


def bought(*tubes: int) -> Palette:
    return Palette(tuple(sorted(tubes)), (), 0, 0, 1, len(tubes))


lists = st.lists(
    st.frozensets(st.integers(0, 6), min_size=1, max_size=4).map(lambda tubes: bought(*tubes)),
    min_size=1,
    max_size=7,
    unique_by=lambda palette: palette.bought,
)


def test_by_eye() -> None:
    palettes = [bought(1, 2, 3), bought(1, 2, 4), bought(1, 5, 3), bought(1, 5, 4)]
    assert shared_tubes(palettes) == {1}
    assert one_of_each(palettes) == (frozenset({2, 5}), frozenset({3, 4}))
    assert [(e.given_up, e.taken) for e in exchanges(palettes[0], palettes)] == [(3, 4), (2, 5)]


def test_nothing_in_common() -> None:
    assert shared_tubes([]) == frozenset()
    assert exchanges(bought(1), []) == ()
    assert shared_tubes([bought(1, 2), bought(3)]) == frozenset()
    assert exchanges(bought(1, 2), [bought(1, 2), bought(3)]) == ()


def test_a_single_palette_leaves_no_choice() -> None:
    assert one_of_each([bought(1, 2)]) == ()
    assert shared_tubes([bought(1, 2)]) == {1, 2}


@given(lists)
def test_groups_are_what_they_are_said_to_be(palettes: list[Palette]) -> None:
    groups = one_of_each(palettes)
    for group in groups:
        assert len(group) >= 2
        assert all(len(group.intersection(palette.bought)) == 1 for palette in palettes)
    for one, other in combinations(groups, 2):
        assert one.isdisjoint(other)
    if not groups:  # then there is none at all, as trying every set of tubes shows
        tubes = sorted({tube for palette in palettes for tube in palette.bought})
        everywhere = shared_tubes(palettes)
        for size in (2, 3):
            for some in combinations([tube for tube in tubes if tube not in everywhere], size):
                assert any(len(set(some).intersection(palette.bought)) != 1 for palette in palettes)


@given(lists)
def test_exchanges_lead_to_listed_palettes(palettes: list[Palette]) -> None:
    for exchange in exchanges(palettes[0], palettes):
        kept = set(palettes[0].bought) - {exchange.given_up}
        assert set(exchange.palette.bought) == kept | {exchange.taken}
        assert exchange.palette in palettes
