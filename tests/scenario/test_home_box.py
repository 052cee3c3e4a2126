"""The box at home as a value: forms it is made from, what it answers, faults all at once."""

import pickle
from typing import Any

import pytest

from fewtubes.errors import InputError
from fewtubes.scenario.home_box import BoxAtHome, TubeAtHome
from fewtubes.scenario.records import Wishes

HALF = TubeAtHome("lemon", "half")


@pytest.mark.parametrize(
    "tubes",
    [
        {"lemon": "half", "magenta": 1},
        [("lemon", 0.5), "magenta"],
        [HALF, TubeAtHome("magenta")],
        iter([["lemon", "half"], "magenta"]),
    ],
)
def test_every_form_makes_the_same_box(tubes: Any) -> None:
    box = BoxAtHome(tubes)
    assert box == BoxAtHome((TubeAtHome("lemon", 0.5), TubeAtHome("magenta", 1.0)))
    assert (box.left("lemon"), box.left("magenta"), box.left("ochre")) == (0.5, 1.0, None)


def test_an_empty_tube_is_not_at_hand() -> None:
    box = BoxAtHome({"lemon": 0, "magenta": 1e-6, "ochre": "empty"})
    assert box.at_hand == ("magenta",)


def test_tubes_are_put_in_and_taken_out() -> None:
    box = BoxAtHome([("lemon", 0.5), "magenta"], title="tin")
    more = box.with_tubes(["magenta", "ochre"], "quarter")
    assert [(tube.id, tube.left) for tube in more.tubes] == [
        ("lemon", 0.5),
        ("magenta", 0.25),
        ("ochre", 0.25),
    ]
    assert more.without({"lemon", "ochre"}).at_hand == ("magenta",)
    assert (more.title, box.left("magenta")) == ("tin", 1.0)


@pytest.mark.parametrize(
    ("made", "told"),
    [
        ({"tubes": {"lemon": 1.1}}, "tubes: the left of 'lemon' is 1.1; it must be a number from"),
        ({"tubes": {"lemon": -0.1}}, "or one of 'full', 'half', 'quarter', 'nearly empty'"),
        ({"tubes": {"lemon": float("nan")}}, "the left of 'lemon' is nan"),
        ({"tubes": {"lemon": True}}, "it must be a number from 0 to 1"),
        ({"tubes": {"lemon": "ful"}}, "or a share from 0 to 1. Did you mean 'full'"),
        ({"tubes": ["lemon", "lemon"]}, "tubes: 'lemon' stands there twice; keep one of them."),
        ({"tubes": "lemon"}, "tubes: is 'lemon'; give a list, such as ['magenta']."),
        ({"tubes": [3]}, "tubes: holds 3; each must be an id, or an id and what is left"),
        ({"tubes": [""]}, "tubes: the id of '' is blank; fill it in."),
        ({"tubes": [f"t{n}" for n in range(1001)]}, "has 1,001 tubes; at most 1,000 are allowed."),
        ({"title": "a\u0007"}, "title: holds the unprintable character U+0007"),
        ({"catalogue": 3}, "catalogue: is 3; it must be a text."),
    ],
)
def test_faults_are_told(made: dict[str, Any], told: str) -> None:
    with pytest.raises(InputError) as caught:
        BoxAtHome(**made)
    assert told in str(caught.value)


def test_all_faults_are_told_at_once() -> None:
    with pytest.raises(InputError) as caught:
        BoxAtHome({"lemon": 2, "magenta": "none"}, title="\u0007")
    assert len(caught.value.faults) == 3


def test_a_box_goes_to_another_process() -> None:
    box = BoxAtHome([HALF], title="tin", catalogue="my-paints")
    assert pickle.loads(pickle.dumps(box)) == box  # noqa: S301  # our own


def test_wishes_own_what_is_listed_and_what_is_at_hand_in_the_box() -> None:
    box = BoxAtHome({"lemon": "half", "ochre": "empty", "magenta": 0.05, "white": 1})
    wishes = Wishes(owned=("red", "lemon"), must_have=("magenta",), never=("white",), box=box)
    # What the lists say goes first: magenta is bought anew; white is refused by `never` later.
    assert wishes.all_owned == ("red", "lemon", "white")
    assert Wishes(owned=("ochre",), box=box).all_owned[0] == "ochre"
    assert Wishes().all_owned == ()


def test_only_a_box_is_taken_for_one() -> None:
    with pytest.raises(InputError, match=r"box: is 'box\.toml'; it must be a BoxAtHome"):
        Wishes(box="box.toml")  # type: ignore[arg-type]
