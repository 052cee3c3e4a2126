"""In which order puddles are mixed, and what is made from what."""

from fewtubes.shopping.mixing_order import added_to, in_order

GOLD, ROSE, BLUE = "gold", "rose", "blue"


def test_light_goes_before_dark() -> None:
    order = in_order({((BLUE,), (1,)): 30.0, ((GOLD,), (1,)): 80.0, ((ROSE,), (1,)): 50.0})
    assert [placed.mix[0] for placed in order] == [(GOLD,), (ROSE,), (BLUE,)]
    assert all(placed.addition is None for placed in order)


def test_one_tube_is_added() -> None:
    """By hand: 2 : 1 of gold and rose are 3 parts; with 3 of blue that is 3 parts to 3."""
    pair = ((GOLD, ROSE), (2, 1))
    assert added_to(((GOLD,), (1,)), pair) == (2, ROSE, 1)
    assert added_to(pair, ((GOLD, ROSE, BLUE), (2, 1, 3))) == (1, BLUE, 1)
    # 1 : 1 to 3 : 1 by 2 parts of gold to 2 parts of the puddle
    assert added_to(((GOLD, ROSE), (1, 1)), ((GOLD, ROSE), (3, 1))) == (1, GOLD, 1)
    # 2 : 1 to 1 : 1 is 2 : 2, by 1 part of rose to 3 parts
    assert added_to(pair, ((GOLD, ROSE), (1, 1))) == (3, ROSE, 1)


def test_nothing_is_made_from_what_it_does_not_hold() -> None:
    pair = ((GOLD, ROSE), (2, 1))
    assert added_to(pair, ((GOLD, BLUE), (2, 1))) is None
    assert added_to(pair, ((GOLD,), (1,))) is None
    # 1 : 1 : 1 from 2 : 1 needs rose as well as blue.
    assert added_to(pair, ((GOLD, ROSE, BLUE), (1, 1, 1))) is None
    assert added_to(((GOLD,), (1,)), ((GOLD, ROSE, BLUE), (1, 1, 1))) is None
    assert added_to(pair, pair) is None


def test_what_would_be_drowned_is_mixed_anew() -> None:
    """From 1 : 4 to 8 : 1: 5 parts hold 1 and 4, and 31 more of the first make 32 and 4."""
    assert added_to(((BLUE, GOLD), (1, 4)), ((BLUE, GOLD), (8, 1))) is None
    # 1 : 2 to 2 : 1 takes 3 parts of the first to 3; 8 : 1 out of gold alone is the most there is.
    assert added_to(((BLUE, GOLD), (1, 2)), ((BLUE, GOLD), (2, 1))) == (1, BLUE, 1)
    assert added_to(((GOLD,), (1,)), ((BLUE, GOLD), (1, 8))) == (8, BLUE, 1)


def test_only_an_earlier_puddle_can_be_added_to() -> None:
    light, dark = ((GOLD,), (1,)), ((GOLD, BLUE), (3, 1))
    first, second = in_order({light: 80.0, dark: 50.0})
    assert first.addition is None
    assert second.addition is not None
    assert (second.addition.puddle, second.addition.tube) == (1, BLUE)
    assert (second.addition.puddle_parts, second.addition.tube_parts) == (3, 1)
    other = in_order({light: 40.0, dark: 50.0})
    assert [placed.addition for placed in other] == [None, None]
