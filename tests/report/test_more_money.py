"""What a little more money would buy, in a sentence."""

from dataclasses import replace

from fewtubes.report.sentences.more_money import left_words, more_money_words
from fewtubes.scenario.class_wish import ClassWish
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import MoreMoney


def test_what_is_left_of_the_budget(plan: Plan) -> None:
    """The plan costs 19.00."""
    assert left_words(plan) == "EUR 1.00 of the budget is left"
    spent = replace(plan, cost=plan.scenario.budget_hundredths)
    assert left_words(spent) == "nothing of the budget is left"


def test_each_step_is_told_with_its_price_beyond_the_budget(plan: Plan) -> None:
    magenta, gold = (planned.tube for planned in plan.bought)
    violet, blue = replace(gold, id="violet", name="deep violet"), plan.tubes[2].tube
    first = MoreMoney(beyond=3, coverage=0.9, tubes=(violet, blue), proven=True)
    last = MoreMoney(beyond=110, coverage=1.0, tubes=(magenta, gold, violet), proven=False)
    assert more_money_words(replace(plan, coverage=0.8, more_money=(first, last))) == (
        "EUR 0.03 more covers 90 %, with 2 tubes, all of them others than these; EUR 1.10 more"
        " covers 100 %, with these and deep violet (whether less would do is not proven)."
    )
    assert more_money_words(replace(plan, more_money=())) == ""


def test_a_class_is_told_what_that_is_a_head(plan: Plan) -> None:
    """EUR 1.10 among 12 are 9.17 hundredths each, of which 10 are enough: 12 × 0.10 = 1.20."""
    magenta, gold = (planned.tube for planned in plan.bought)
    violet = replace(gold, id="violet", name="deep violet")
    step = MoreMoney(beyond=110, coverage=1.0, tubes=(magenta, violet), proven=True)
    scenario = replace(plan.scenario, group=ClassWish(12))
    said = more_money_words(replace(plan, scenario=scenario, more_money=(step,)))
    assert said.startswith("EUR 1.10 more (EUR 0.10 a head) covers 100 %, with 2 paints")


def test_what_hardly_differs_is_told_apart(plan: Plan) -> None:
    step = MoreMoney(beyond=3, coverage=0.90049, tubes=(plan.tubes[0].tube,), proven=True)
    said = more_money_words(replace(plan, coverage=0.9004, more_money=(step,)))
    assert "covers 90.05 %" in said


def test_some_of_the_tubes_may_be_others(plan: Plan) -> None:
    magenta, gold = (planned.tube for planned in plan.bought)
    violet = replace(gold, id="violet", name="deep violet")
    step = MoreMoney(beyond=3, coverage=1.0, tubes=(magenta, violet), proven=True)
    assert "with 2 tubes, one of them another." in more_money_words(
        replace(plan, more_money=(step,))
    )


def test_where_nothing_is_bought_the_tubes_are_named_if_they_are_few(plan: Plan) -> None:
    tubes = tuple(planned.tube for planned in plan.tubes)
    nothing = replace(plan, tubes=(), coverage=0.0, cost=0)
    one = MoreMoney(beyond=3, coverage=0.2, tubes=tubes[:1], proven=True)
    all_of_it = MoreMoney(beyond=900, coverage=1.0, tubes=tubes, proven=True)
    assert more_money_words(replace(nothing, more_money=(one, all_of_it))) == (
        "EUR 0.03 more covers 20 %, with 1 tube: magenta; EUR 9.00 more covers 100 %, with 3 tubes."
    )
