"""What an answer tells of a class: in the terminal, in its files, and of its proof."""

import json
from collections.abc import Callable
from dataclasses import replace

import pytest

from fewtubes.report.json_values.class_share import class_values
from fewtubes.report.json_values.plan import plan_json
from fewtubes.report.plan_files import plan_files
from fewtubes.report.sentences.asked import asked_words
from fewtubes.report.sentences.more_money import more_money_words
from fewtubes.report.sentences.painters import (
    class_share_words,
    class_tube_cells,
    leader_words,
    painter_cautions,
)
from fewtubes.report.sentences.proof import standing_sentence
from fewtubes.report.sentences.trade_offs import fading_words
from fewtubes.scenario.class_wish import ClassWish, Pupils, TubesFor
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.class_share import ClassShare, ClassTube
from fewtubes.shopping.class_tables import needed_and_left
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import MoreMoney

Printed = Callable[..., str]

PLAIN = {"currency": "EUR", "flowers": ["rose"]}


def flat(text: str) -> str:
    return " ".join(text.split())


def of_class(plan: Plan, group: ClassWish) -> Plan:
    return replace(plan, scenario=replace(plan.scenario, group=group))


def asked_of(**group: object) -> str:
    return asked_words(Scenario(**PLAIN, group=ClassWish(levy="3.50", **group)), "")  # type: ignore[arg-type]


def test_what_a_class_asks_is_told_with_its_reasons() -> None:
    """12 × 3.50 = 42.00."""
    words = asked_of(painters=12, pupils="children", tubes="pans")
    assert words.startswith("Asked: at most EUR 42.00;")
    assert "mixes of up to two tubes" in words
    assert "For a class of 12 children: a pan of 1.5 ml of each paint for everybody" in words
    assert "Each pays EUR 3.50, which makes the sum above." in words
    assert "Every hazard is avoided, since children paint, whose fingers and brushes" in words
    assert "avoid_hazards under [wishes] says otherwise" in words
    assert "Children mix two tubes at most" in words


def test_what_is_not_avoided_because_of_who_paints_is_told_too() -> None:
    words = asked_of(painters=2, pupils="beginners", hazards_as_wished=True)
    assert "Of hazards no more is avoided than is wished" in words
    assert "Every hazard" not in words
    grown_ups = asked_of(painters=2, pupils="grown-ups", tubes="shared", pictures=3)
    assert "hazard" not in grown_ups
    assert "all share the tubes, with paint for 3 pictures each" in grown_ups
    assert "all share the tubes, with paint for 1 picture each" in asked_of(
        painters=2, tubes="shared"
    )


@pytest.mark.parametrize(
    ("tubes", "words"),
    [
        ("one each", "a tube of each paint for everybody"),
        ("pans", "a pan of 1.5 ml of each paint for everybody, filled from the tubes"),
    ],
)
def test_pictures_are_told_where_they_were_given(tubes: str, words: str) -> None:
    """7 × 500 = 3,500."""
    given = asked_of(painters=7, tubes=tubes, pictures=500)
    assert f"For a class of 7 beginners: {words}, with paint for 500 pictures each." in given
    assert "Paint is to be enough for 3,500 pictures." in given
    assert f"{words}. " in asked_of(painters=7, tubes=tubes)


@pytest.mark.parametrize(
    ("group", "whom"),
    [
        (ClassWish(12), "for 12 painters (a tube of each)"),
        (ClassWish(12, TubesFor.PANS), "for 12 painters (a pan of 1.5 ml of each)"),
        (
            ClassWish(12, TubesFor.SHARED, pictures=2),
            "for 12 painters (paint for 2 pictures each)",
        ),
        (
            ClassWish(12, pictures=1),
            "for 12 painters (a tube of each, paint for 1 picture each)",
        ),
        (
            ClassWish(12, TubesFor.PANS, pictures=2),
            "for 12 painters (a pan of 1.5 ml of each, paint for 2 pictures each)",
        ),
    ],
)
def test_the_proof_says_for_whom(plan: Plan, group: ClassWish, whom: str) -> None:
    said = standing_sentence(of_class(plan, group))
    assert f"Proven best: no choice within EUR 20.00 and 3 paints {whom} covers more." in said
    assert "painters" not in standing_sentence(plan)


def test_paints_are_counted_not_the_many_tubes_of_them(plan: Plan) -> None:
    """Of twelve painters each has a tube, so that one paint more is twelve tubes more."""
    magenta, gold = (planned.tube for planned in plan.bought)
    three = (magenta, replace(gold, id="other", name="other gold"), plan.tubes[2].tube)
    step = MoreMoney(beyond=300, coverage=0.95, tubes=three, proven=True)
    spared = replace(plan.lightfastness, spared=1.0, spared_tubes=3, spared_cost=plan.cost)
    told = replace(
        of_class(plan, ClassWish(12)),
        coverage=0.9,
        more_money=(step,),
        lasting=replace(spared, limited_by=(magenta,)),
    )
    assert "covers 95 %, with 3 paints, 2 of them others than these" in more_money_words(told)
    assert "takes 1 paint more" in fading_words(told)
    assert "takes 1 tube more" in fading_words(replace(told, scenario=plan.scenario))


def test_the_cost_a_head_is_told_with_its_sum() -> None:
    """19.00 ÷ 12 = 1.5833 → 1.59; 12 × 1.59 = 19.08, 0.08 more; 1.00 ÷ 12 = 0.083 → 0.08."""
    share = ClassShare(ClassWish(12), cost=1900, left=100, tubes=(), owned=())
    told = list(class_share_words(share, "EUR"))
    assert told == [
        "EUR 1.59 a head, rounded up to the hundredth: 12 × 1.59 = EUR 19.08, EUR 0.08 more than"
        " the EUR 19.00 that it costs.",
        "EUR 1.00 of the money is left, EUR 0.08 a head to give back.",
    ]
    even = ClassShare(ClassWish(10), cost=1900, left=5, tubes=(), owned=())
    assert list(class_share_words(even, "EUR")) == [
        "EUR 1.90 a head, to the hundredth: 10 × 1.90 = EUR 19.00.",
        "EUR 0.05 of the money is left.",
    ]


def test_what_is_needed_and_left_over_of_each_paint(plan: Plan) -> None:
    tube = plan.tubes[0].tube
    each = ClassTube(tube, needed=12, bought=14, needed_ml=0, bought_ml=70)
    assert class_tube_cells(each)[1:] == ("12 tubes", "14 tubes, 70 ml", "2 tubes")
    pans = ClassTube(tube, needed=1, bought=2, needed_ml=13.5, bought_ml=20)
    assert class_tube_cells(pans)[1:] == ("13.5 ml", "2 tubes, 20 ml", "6.5 ml")
    even = ClassTube(tube, needed=1, bought=1, needed_ml=20, bought_ml=20)
    assert class_tube_cells(even)[3] == "nothing"
    reckoned = ClassTube(tube, needed=1, bought=1, needed_ml=12.34, bought_ml=20, counted=False)
    assert class_tube_cells(reckoned)[1] == "about 10 ml"  # no figure finer than it is known
    beyond = ClassTube(tube, needed=3, bought=4, needed_ml=25, bought_ml=40, spare_ml=10)
    assert class_tube_cells(beyond)[3] == "1 tube, and 5 ml in the others"  # 3 × 10 − 25


@pytest.mark.parametrize(
    ("needed_ml", "bought_ml", "needed", "left"),
    [
        (9.66, 10, "about 10 ml", "just enough"),  # 0.34 beyond is lost in a factor of two
        (12.1, 20, "about 10 ml", "about 10 ml"),  # the two make the 20 there are
        (36.0, 45, "about 40 ml", "about 5 ml"),  # 9 beyond, a quarter of what is needed
        (36.0, 43, "about 40 ml", "just enough"),  # 7 beyond, less than a fifth
        (7.9, 10, "about 8 ml", "about 2 ml"),
        (18.2, 20, "about 20 ml", "just enough"),
        (1.75, 2.2, "about 2 ml", "about 0.2 ml"),  # 0.45 beyond 1.75, over a fifth
        (2.6, 2.9, "just under 2.9 ml", "just enough"),
        (20.0, 20, "about 20 ml", "just enough"),
    ],
)
def test_what_is_left_of_paint_for_pictures_is_told_as_roughly_as_it_is_known(
    plan: Plan, needed_ml: float, bought_ml: float, needed: str, left: str
) -> None:
    tube = plan.tubes[0].tube
    paint = ClassTube(tube, 1, 2, needed_ml=needed_ml, bought_ml=bought_ml, counted=False)
    _, told, _, over = class_tube_cells(paint)
    assert (told, over) == (needed, left)


def test_no_tube_that_pictures_need_is_called_left_over(plan: Plan) -> None:
    """261 ml take 27 of the tubes of 10 ml; of 280 ml in 28 one is left, and the rest is noise."""
    tube = plan.tubes[0].tube
    all_used = ClassTube(tube, 27, 27, needed_ml=261, bought_ml=270, counted=False)
    assert class_tube_cells(all_used)[1:] == (
        "27 tubes, just under 270 ml",
        "27 tubes, 270 ml",
        "just enough",
    )
    one_left = ClassTube(tube, 27, 28, needed_ml=261, bought_ml=280, spare_ml=10, counted=False)
    assert class_tube_cells(one_left)[1:] == (
        "27 tubes, just under 270 ml",
        "28 tubes, 280 ml",
        "1 tube; the others are just enough",
    )
    much = ClassTube(tube, 7, 8, needed_ml=32, bought_ml=80, spare_ml=10, counted=False)
    assert class_tube_cells(much)[3] == "1 tube, and about 40 ml in the others"  # 70 − 30


@pytest.mark.parametrize(
    ("needed_ml", "bought_ml", "counted", "figures"),
    [
        (9.66, 10.0, False, (9.7, 10.0, 0.3)),
        (12.1, 20.0, False, (12, 20.0, 8)),
        (12.6, 12.8, False, (12.8, 12.8, 0)),  # 13 is more than there is, which is enough
        (261.0, 270.0, False, (260, 270.0, 10)),
        (13.5, 20.0, True, (13.5, 20.0, 6.5)),
        (0.0, 20.0, True, (None, 20.0, None)),
    ],
)
def test_what_is_needed_and_left_in_files_adds_up(
    plan: Plan,
    needed_ml: float,
    bought_ml: float,
    counted: bool,
    figures: tuple[float | None, ...],
) -> None:
    share = ClassTube(
        plan.tubes[0].tube, 1, 2, needed_ml=needed_ml, bought_ml=bought_ml, counted=counted
    )
    assert needed_and_left(share) == figures
    written = class_values(ClassShare(ClassWish(2), 0, 0, tubes=(share,), owned=()))
    read = json.loads(json.dumps(written))
    assert [paint["needed_ml"] for paint in read["tubes"]] == [figures[0] or 0]


@pytest.mark.parametrize("width", [50, 80, 120])
def test_the_terminal_tells_what_a_class_buys(plan: Plan, printed: Printed, width: int) -> None:
    """Three tubes of 5 ml of the plan made by hand cost EUR 19.00 together."""
    text = flat(printed(of_class(plan, ClassWish(12, pupils=Pupils.CHILDREN)), width=width))
    assert "For 12 children" in text
    assert "EUR 1.59 a head" in text
    assert "paint that is labelled as fit for children" in text
    assert "local rules and the school demand" in text
    assert "a head" not in flat(printed(plan, width=width))


def test_files_hold_what_a_class_buys(plan: Plan) -> None:
    two = [
        replace(one, packs=tuple(replace(it, count=2) for it in one.packs)) for one in plan.tubes
    ]
    planned = replace(of_class(plan, ClassWish(2)), tubes=tuple(two))
    files = plan_files(planned)
    lines = files["for-the-class.csv"].splitlines()
    assert lines[0].startswith("name,pigments,tubes_needed,tubes_bought,tubes_spare,ml_needed")
    assert len(lines) == 1 + len(planned.bought)
    read = json.loads(files["plan.json"])["class"]
    assert (read["a_head"], read["a_head_together"]) == ("9.50", "19.00")  # 19.00 ÷ 2
    assert {tube["needed"] for tube in read["tubes"]} == {2}
    assert {line.split(",")[4] for line in lines[1:]} == {"0"}
    assert "for-the-class.csv" not in plan_files(plan)
    assert json.loads(plan_json(plan))["class"] is None


@pytest.mark.parametrize(
    ("needed", "sizes"),
    [(7, "of two sizes it is"), (27, "of two sizes, or more than one for each,")],
)
def test_paint_that_does_not_go_round_is_to_be_shared_out(
    plan: Plan, needed: int, sizes: str
) -> None:
    tube = ClassTube(plan.tubes[0].tube, needed, needed, needed_ml=60, bought_ml=10 * needed)
    share = ClassShare(ClassWish(7), cost=700, left=0, tubes=(tube,), owned=())
    assert f"together; where they are {sizes}" in [*class_share_words(share, "EUR")][-1]


def test_cautions_are_in_plain_words_for_the_age() -> None:
    children = " ".join(painter_cautions(Pupils.CHILDREN))
    assert "Never put the brush in your mouth." in children
    assert "Tell a grown-up at once." in children
    assert "smoking" in " ".join(painter_cautions(Pupils.GROWN_UPS))
    assert painter_cautions(None) == painter_cautions(Pupils.BEGINNERS)
    for pupils in (*Pupils, None):
        said = leader_words(pupils)
        for word in ("label", "safety data sheet", "local rules"):
            assert word in said.casefold()


def test_where_nothing_is_bought_nothing_is_summed() -> None:
    share = ClassShare(ClassWish(6), cost=0, left=900, tubes=(), owned=())
    assert [*class_share_words(share, "EUR")] == [
        "Nothing is bought, so nobody has anything to pay."
    ]
