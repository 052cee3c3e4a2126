"""What a little more money would buy, in a sentence."""

from dataclasses import replace

from fewtubes.report.sentences.more_money import more_money_words
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import MoreMoney


def test_each_step_is_told_with_its_price_beyond_the_budget(plan: Plan) -> None:
    tubes = tuple(planned.tube for planned in plan.tubes)
    first = MoreMoney(beyond=3, coverage=0.9, tubes=tubes[:2], proven=True)
    last = MoreMoney(beyond=110, coverage=1.0, tubes=tubes, proven=False)
    assert more_money_words(replace(plan, coverage=0.8, more_money=(first, last))) == (
        "Beyond the budget, EUR 0.03 more covers 90 % with 2 tubes and EUR 1.10 more covers 100 %"
        " with 3 tubes (whether less would do is not proven)."
    )
    assert more_money_words(replace(plan, more_money=())) == ""


def test_what_hardly_differs_is_told_apart(plan: Plan) -> None:
    step = MoreMoney(beyond=3, coverage=0.90049, tubes=(plan.tubes[0].tube,), proven=True)
    said = more_money_words(replace(plan, coverage=0.9004, more_money=(step,)))
    assert "covers 90.05 %" in said
