"""What an answer tells of a class: in the terminal, in its files, and of its proof."""

import json
from collections.abc import Callable
from dataclasses import replace

import pytest

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


@pytest.mark.parametrize(
    ("group", "whom"),
    [
        (ClassWish(12), "for 12 painters (a tube of each)"),
        (ClassWish(12, TubesFor.PANS), "for 12 painters (a pan of 1.5 ml of each)"),
        (
            ClassWish(12, TubesFor.SHARED, pictures=2),
            "for 12 painters (paint for 2 pictures each)",
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
    planned = of_class(plan, ClassWish(2))
    files = plan_files(planned)
    lines = files["for-the-class.csv"].splitlines()
    assert lines[0].startswith("name,pigments,tubes_needed,tubes_bought,tubes_spare,ml_needed")
    assert len(lines) == 1 + len(planned.bought)
    read = json.loads(files["plan.json"])["class"]
    assert (read["a_head"], read["a_head_together"]) == ("9.50", "19.00")  # 19.00 ÷ 2
    assert {tube["needed"] for tube in read["tubes"]} == {2}
    assert "for-the-class.csv" not in plan_files(plan)
    assert json.loads(plan_json(plan))["class"] is None


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
