"""The reasons for a plan in words: each sentence against the numbers it is drawn from."""

import csv
import io
from collections.abc import Callable
from dataclasses import replace

import pytest
from rich.cells import cell_len
from rich.console import Console

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.reasons import OneOfThese, Route, StandIn, TubeReason, Unreached, Why
from fewtubes.report.answer_files import why_files
from fewtubes.report.terminal.why import (
    one_of_these_words,
    print_why,
    reason_sentences,
    unreached_words,
)
from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import Obstacle
from fewtubes.shopping.plan_tables import recipes
from fewtubes.shopping.refusals import Refusal

Flat = Callable[[str], str]


def make_why(plan: Plan) -> Why:
    """Return reasons for the plan of three tubes, made by hand.

    The plan covers 70 %: magenta alone brings one colour, 20 % of all.
    """
    magenta, gold, blue = (planned.tube for planned in plan.tubes)
    covered, missed, step = plan.samples
    violet = missed.remedies[0].tube
    return Why(
        plan=plan,
        tubes=(
            TubeReason(
                planned=plan.tubes[0],
                wished=False,
                only_it_brings=(covered.sample,),
                without=0.65,
                without_bound=0.65,
                stand_in=StandIn(violet, 725, 0.6),
            ),
            TubeReason(
                planned=replace(plan.tubes[1], only_it_brings=0.0),
                wished=True,
                only_it_brings=(),
                without=0.7,
                without_bound=0.7,
                stand_in=None,
            ),
        ),
        unreached=(
            Unreached(
                planned=missed,
                singles=(
                    Route((violet,), 725, (None,)),
                    Route((blue,), 0, (Refusal.LIGHTFASTNESS,)),
                ),
                cheapest=Route((violet,), 725, (None,)),
            ),
        ),
        one_of_these=(
            OneOfThese((magenta,), (magenta,), (covered, step)),
            OneOfThese((gold, violet), (), (missed,)),
        ),
    )


@pytest.fixture
def why(plan: Plan) -> Why:
    return make_why(plan)


def printed_why(why: Why, width: int = 80, *, full: bool = True) -> str:
    stream = io.StringIO()
    console = Console(
        file=stream, width=width, color_system=None, legacy_windows=False, _environ={}
    )
    print_why(why, console, full=full)
    return stream.getvalue()


def violet_of(why: Why) -> Tube:
    return why.unreached[0].singles[0].tubes[0]


def test_a_tube_is_told_with_its_numbers(why: Why) -> None:
    only, without, stand_in = reason_sentences(why.tubes[0], why)
    assert only == (
        "Left out, with all else kept, it takes 1 colour along, 20 % of what is to be painted:"
        " rose (petal)."
    )
    assert without == ("If it were not on sale, the best choice would cover 65 % instead of 70 %.")
    assert stand_in == "In its place deep violet (EUR 7.25) loses least: 60 % instead of 70 %."


def test_a_tube_that_brings_nothing_alone(why: Why) -> None:
    wished, only, without, stand_in = reason_sentences(why.tubes[1], why)
    assert wished == "You asked for it."
    assert only == "No colour is lost if it alone is left out and all else is kept."
    assert without == "If it were not on sale, another choice would cover as much."
    assert stand_in == "No single tube that the money allows brings anything in its place."


def test_a_wish_may_cost_coverage(why: Why) -> None:
    reason = replace(
        why.tubes[0],
        wished=True,
        without=0.8,
        without_bound=0.8,
        stand_in=StandIn(violet_of(why), 725, 0.75),
    )
    text = " ".join(reason_sentences(reason, why))
    assert "the best choice would cover 80 % and so more than the 70 %." in text
    assert "In its place deep violet (EUR 7.25) brings most: 75 % instead of 70 %." in text


def test_an_equal_stand_in(why: Why) -> None:
    reason = replace(why.tubes[0], stand_in=StandIn(violet_of(why), 725, 0.7))
    assert reason_sentences(reason, why)[-1] == (
        "In its place deep violet (EUR 7.25) would do as well."
    )


def test_best_is_never_said_of_what_is_not_proven(why: Why) -> None:
    reason = replace(why.tubes[0], without=0.6, without_bound=0.68)
    sentence = reason_sentences(reason, why)[1]
    assert sentence == (
        "If it were not on sale, a choice would cover at least 60 %, and none more than 68 %; the"
        " search for more was stopped."
    )
    assert "best" not in sentence
    stopped = replace(why.plan, certificate=replace(why.plan.certificate, status=Status.STOPPED))
    half = " ".join(printed_why(replace(why, plan=stopped)).split())
    assert "It is only half proven: no choice covers more" in half
    open_ = replace(stopped, certificate=replace(stopped.certificate, bound=9000))
    unproven = " ".join(printed_why(replace(why, plan=open_)).split())
    assert "It is not proven; better choices are not ruled out." in unproven
    assert "This choice is proven best." in " ".join(printed_why(why).split())


def test_many_colours_are_counted(why: Why) -> None:
    sample = why.plan.samples[0].sample
    many = tuple(replace(sample, name=f"petal {n}") for n in range(1, 10))
    sentence = reason_sentences(replace(why.tubes[0], only_it_brings=many), why)[0]
    assert "it takes 9 colours along" in sentence
    assert "petal 6" in sentence
    assert "petal 7" not in sentence
    assert "3 more colours" in sentence


def test_a_colour_out_of_reach_is_told_with_what_would_bring_it(why: Why) -> None:
    assert unreached_words(why.unreached[0], why) == (
        "rose / throat (the nearest mix is off by ΔE00 6.1): it takes more money or more tubes, or"
        " giving up at least as much elsewhere. One tube more would bring it: deep violet (EUR"
        " 7.25); or blue (owned, which fades more than is asked for)."
    )


def test_a_colour_that_takes_two_more_tubes(why: Why) -> None:
    (missed,) = why.unreached
    violet, blue = (route.tubes[0] for route in missed.singles)
    route = Route((blue, violet), 1375, (Refusal.NEVER, None))
    text = unreached_words(replace(missed, singles=(), cheapest=route), why)
    assert text.endswith(
        "No one tube more that is sold in EUR would bring it. Cheapest to add: blue (which is"
        " never to be used) and deep violet, together EUR 13.75, though the wishes rule that out."
    )
    allowed = replace(route, refusals=(None, None))
    text = unreached_words(replace(missed, singles=(), cheapest=allowed), why)
    assert text.endswith("Cheapest to add: blue and deep violet, together EUR 13.75.")
    among_few = replace(allowed, cheapest=False)
    text = unreached_words(replace(missed, singles=(), cheapest=among_few), why)
    assert text.endswith("It would do to add: blue and deep violet, together EUR 13.75.")


def test_a_colour_that_no_tube_brings(why: Why) -> None:
    (missed,) = why.unreached
    planned = replace(missed.planned, obstacle=Obstacle.CATALOGUE, remedies=())
    text = unreached_words(replace(missed, planned=planned, singles=(), cheapest=None), why)
    assert "no mix of up to three tubes of the catalogue comes near enough." in text
    assert text.endswith("No tube of the catalogue would bring it.")


def test_many_single_tubes_are_counted(why: Why) -> None:
    (missed,) = why.unreached
    text = unreached_words(replace(missed, singles=missed.singles[:1] * 5), why)
    assert "or 2 others." in text


def test_one_of_these(why: Why) -> None:
    alone, either = why.one_of_these
    assert one_of_these_words(alone) == (
        "For rose (petal, between petal and fold), magenta must be bought. The plan buys magenta."
    )
    assert one_of_these_words(either) == (
        "For rose (throat), one of these must be bought: golden yellow or deep violet. The plan"
        " buys none of them."
    )


def test_nothing_to_tell_is_told(empty_plan: Plan, flat: Flat) -> None:
    text = flat(printed_why(Why(empty_plan, (), (), ())))
    assert "Nothing is bought." in text
    assert "Nothing: every colour is covered." in text
    assert "There is no colour for which only a few tubes will do." in text


@pytest.mark.parametrize("width", [40, 80, 120])
def test_no_line_is_wider_than_the_terminal(why: Why, width: int) -> None:
    lines = printed_why(why, width).splitlines()
    assert max(map(cell_len, lines)) <= width
    assert not any(line.endswith(" ") for line in lines)


def test_hostile_names_do_no_harm(hostile: tuple[str, Plan]) -> None:
    name, plan = hostile
    tube = plan.tubes[0].tube
    sample = plan.samples[0]
    missed = replace(plan.samples[1], obstacle=Obstacle.BUDGET)
    why = Why(
        plan=plan,
        tubes=(
            TubeReason(plan.tubes[0], False, (sample.sample,), 0.5, 0.5, StandIn(tube, 100, 0.5)),
        ),
        unreached=(Unreached(missed, (Route((tube,), 100, (None,)),), None),),
        one_of_these=(OneOfThese((tube,), (tube,), (sample,)),),
    )
    text = printed_why(why, 1000)
    assert "\x1b" not in text
    assert "\x07" not in text
    assert len(text) < 20_000
    for content in why_files(why).values():
        assert "\x1b" not in content
        if name.startswith("="):
            assert "'=1+1" in content
            assert ",=1+1" not in content


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_the_tables_hold_the_same_numbers(why: Why) -> None:
    files = why_files(why)
    assert set(files) == {"why-tubes.csv", "out-of-reach.csv", "one-of-these.csv"}
    tubes = rows(files["why-tubes.csv"])
    assert tubes[0]["tube"] == "magenta"
    assert (tubes[0]["price"], tubes[0]["only_it_brings"]) == ("13.00", "20%")
    assert tubes[0]["colours_only_it_brings"] == "rose / petal"
    assert (tubes[0]["coverage_not_on_sale"], tubes[0]["not_on_sale_proven"]) == ("65%", "yes")
    assert (tubes[0]["stand_in"], tubes[0]["stand_in_price"]) == ("deep violet", "7.25")
    assert (tubes[1]["must_have"], tubes[1]["stand_in"]) == ("yes", "")
    missed = rows(files["out-of-reach.csv"])
    assert [row["tubes_to_add"] for row in missed] == [
        "deep violet",
        why.unreached[0].singles[1].tubes[0].name,
    ]
    assert [row["allowed"] for row in missed] == ["yes", "no"]
    assert missed[0]["because_of"] == "the budget or the number of tubes"
    # The same share as in recipes.csv, so that the two tables can be laid side by side.
    shares = {row["swatch"]: row["importance"] for row in rows(recipes(why.plan).csv_text())}
    assert missed[0]["importance"] == shares[missed[0]["colour"]]
    assert 0 < float(missed[0]["importance"].removesuffix("%")) < 100
    choices = rows(files["one-of-these.csv"])
    assert [(row["choice"], row["tube"], row["bought"], row["reached"]) for row in choices] == [
        ("1", "magenta", "yes", "yes"),
        ("1", "magenta", "yes", "yes"),
        ("2", "gold", "no", "no"),
        ("2", "violet", "no", "no"),
    ]


def test_a_colour_that_nothing_brings_has_a_row_all_the_same(why: Why) -> None:
    (missed,) = why.unreached
    several = Route(missed.singles[0].tubes * 2, 1450, (None, None))
    nothing = replace(missed, singles=(), cheapest=None)
    two = replace(missed, singles=(), cheapest=several)
    table = rows(why_files(replace(why, unreached=(nothing, two)))["out-of-reach.csv"])
    assert [row["tubes_to_add"] for row in table] == ["", "deep violet; deep violet"]
    assert [row["price"] for row in table] == ["", "14.50"]


def test_the_short_form_takes_a_few_lines_a_tube(why: Why, flat: Flat) -> None:
    text = flat(printed_why(why, full=False))
    assert "- magenta (EUR 13.00): 1 colour, 20 %, hang on it." in text
    assert "In its place deep violet (EUR 7.25) brings" in text or "loses least" in text
    assert "- golden yellow (EUR 6.00): no colour hangs on it alone. You asked for it." in text
    assert "it takes 1 colour along" not in text
    assert "rose / throat 6.1 deep violet 7.25" in text
    assert "1 colour: it takes more money or more tubes, or giving up at least as much" in text
    assert "--full tells the rest" in text
    full = flat(printed_why(why))
    assert "it takes 1 colour along" in full
    assert "--full" not in full


def test_the_short_form_counts_tight_choices_beyond_a_few(why: Why, flat: Flat) -> None:
    many = replace(why, one_of_these=why.one_of_these * 3)
    assert "… and 3 more choices like these." in flat(printed_why(many, full=False))
    assert "more choice" not in flat(printed_why(many))


def test_both_forms_begin_like_the_plan(why: Why, flat: Flat) -> None:
    for full in (False, True):
        text = flat(printed_why(why, full=full))
        assert text.startswith("Why these tubes: A window box Asked: at most EUR 20.00")
        assert "Answer 2 tubes to buy for EUR 19.00; EUR 1.00 of the budget is left." in text
        assert "golden yellow (nickel)" in text.partition("Take care")[2]
