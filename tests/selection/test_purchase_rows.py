"""The purchase in the integer program: its names in the LP file, and what it finds."""

import re
from dataclasses import replace

from tests.exhaustive.terms_tried import draw_choice

from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.lp_file import lp_text
from fewtubes.selection.program import solve_program
from fewtubes.selection.program_names import ProgramNames
from fewtubes.selection.terms import Need, PackOnSale, SellerTerms, SetOnSale, Terms

TERMS = Terms(
    (SellerTerms(delivery=300, free_from=1000, least_order=200), SellerTerms(delivery=250)),
    (
        PackOnSale(tube=0, seller=0, amount=5000, price=600, price_of_more=550),
        PackOnSale(tube=1, seller=1, amount=5000, price=500),
    ),
    (SetOnSale(seller=0, price=900, holds=((0, 1, 5000), (1, 1, 5000)), stock=1),),
    (Need(amount=7000), Need()),
)

INSTANCE = ChoiceInstance(
    weights=(3, 2),
    minimal_sets=(((0,),), ((1,),)),
    prices=(0, 0),
    fades=(1, 1),
    owned=frozenset(),
    must_have=frozenset(),
    budget=2000,
    most_tubes=2,
    terms=TERMS,
)

NAMES = ProgramNames(("rose", "lemon"), ("petal", "leaf"), ("corner_shop", "by_post"))


def test_the_file_reads_well() -> None:
    text = lp_text(INSTANCE, names=NAMES)
    for name in (
        "pack_0__rose__corner_shop",
        "packs_0__rose__corner_shop",
        "pack_1__lemon__by_post",
        "set_0__corner_shop",
        "seller_by_post",
        "free_delivery_corner_shop",
    ):
        assert re.search(rf"\b{name}\b", text)
    for row in ("containers_of_rose", "paint_of_rose", "least_order_corner_shop", "budget"):
        assert re.search(rf"^{row}:", text, re.MULTILINE)
    assert "free_delivery_by_post" not in text  # it is never free there
    assert "paint_of_lemon" not in text  # one container is all that is needed


def test_sellers_without_names_have_numbers() -> None:
    assert "seller_1" in lp_text(INSTANCE, names=replace(NAMES, sellers=()))


def test_the_purchase_is_the_cheapest() -> None:
    """By hand, for 7 ml of rose and a lemon.

    Two of rose are 1100, delivered free, and the lemon by post 500 + 250: 1850. The set and one of
    rose are 900 + 600 = 1500, delivered free.
    """
    (best,) = solve_program(INSTANCE, time_limit_s=60).palettes
    assert (best.bought, best.cost) == ((0, 1), 1500)
    poor = replace(INSTANCE, budget=1499)
    (best,) = solve_program(poor, time_limit_s=60).palettes
    assert (best.bought, best.cost) == ((0,), 1100)


def test_a_palette_dearer_than_the_program_can_tell_is_not_chosen() -> None:
    """What depends on the palette it learns by counting anew what it finds."""
    changed = [one for one in map(draw_choice, range(60)) if one.instance.must_serve]
    least = [replace(one.instance, terms=_without(one.instance.terms)) for one in changed]
    for one in changed:
        assert solve_program(one.instance, time_limit_s=60, most_ties=50).palettes == one.best
    pairs = zip(changed, least, strict=True)
    assert any(
        solve_program(plain, time_limit_s=60).palettes[:1] != one.best[:1] for one, plain in pairs
    )


def _without(terms: Terms | None) -> Terms | None:
    return None if terms is None else replace(terms, needs_of=None)
