"""The report in the terminal: what it says, not how it is laid out."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from rich.cells import cell_len
from tests.remixed import with_samples

from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import Obstacle, Remedy, TradeOff

Printed = Callable[..., str]
Flat = Callable[[str], str]


def with_certificate(plan: Plan, status: Status, bound: int) -> Plan:
    return replace(plan, certificate=replace(plan.certificate, status=status, bound=bound))


def test_it_tells_what_to_buy_and_what_is_left(plan: Plan, printed: Printed, flat: Flat) -> None:
    text = flat(printed(plan))
    assert "2 tubes to buy for EUR 19.00; EUR 1.00 of the budget is left." in text
    assert "2 × 5 ml" in text
    assert "Of your own" in text
    assert "70 % of what is to be painted (2 of 3 colours" in text


def test_it_gives_each_swatch_its_recipe(plan: Plan, printed: Printed, flat: Flat) -> None:
    text = flat(printed(plan))
    assert "Puddle 1 2 parts magenta : 1 part golden yellow petal half-strength wash" in text
    assert "ΔE00 1.3, hardly different; forgiving (unsteady 2.9)" in text


def test_it_says_what_stays_out_of_reach_and_what_would_bring_it(
    plan: Plan, printed: Printed, flat: Flat
) -> None:
    text = flat(printed(plan))
    assert "out of reach — nearest is blue alone; full strength (100 %): ΔE00 6.1" in text
    assert "it takes more money or more tubes, or giving up at least as much elsewhere" in text
    assert "One tube more would bring it: deep violet (EUR 7.25)." in text


def test_the_number_of_tubes_is_blamed_only_where_it_is_limited(
    plan: Plan, printed: Printed, flat: Flat
) -> None:
    free = replace(plan, scenario=replace(plan.scenario, most_tubes=None))
    said = "Why: it takes more money, or giving up at least as much elsewhere."
    assert said in flat(printed(free))


def test_many_remedies_are_counted_and_refused_ones_marked(
    plan: Plan, printed: Printed, flat: Flat
) -> None:
    (remedy,) = plan.samples[1].remedies
    missed = replace(
        plan.samples[1],
        obstacle=Obstacle.WISHES,
        remedies=(Remedy(remedy.tube, 725, allowed=False), *[remedy] * 4),
    )
    text = flat(printed(with_samples(plan, missed)))
    assert "the wishes rule out the tubes it needs" in text
    assert "deep violet (EUR 7.25, which the wishes rule out)" in text
    assert "or 2 more." in text
    owned = replace(missed, remedies=(Remedy(remedy.tube, 0, allowed=False),))
    text = flat(printed(with_samples(plan, owned)))
    assert "deep violet (owned, which the wishes rule out)" in text


def test_steps_are_listed_in_full_alone(plan: Plan, printed: Printed, flat: Flat) -> None:
    assert "between petal and fold" in flat(printed(plan))
    assert "between petal and fold" not in flat(printed(plan, full=False))


def test_best_is_said_of_a_proven_answer(plan: Plan, printed: Printed, flat: Flat) -> None:
    text = flat(printed(plan))
    assert "Proven best: no choice within EUR 20.00 and 3 tubes covers more" in text
    assert "This holds among 4,000,000 recipes" in text
    assert "up to ΔE00 4.0" in text


@pytest.mark.parametrize("bound", [7000, 8000])
@pytest.mark.parametrize("ties", [1, 5])
def test_best_is_never_said_of_an_unproven_answer(
    plan: Plan, printed: Printed, flat: Flat, bound: int, ties: int
) -> None:
    stopped = replace(with_certificate(plan, Status.STOPPED, bound), ties=ties)
    text = flat(printed(stopped)).replace("The best choice without", "").lower()
    assert "best" not in text
    assert "stopped" in text


def test_a_stopped_search_tells_its_gap(plan: Plan, printed: Printed, flat: Flat) -> None:
    text = flat(printed(with_certificate(plan, Status.STOPPED, 8000)))
    # 8000 of 10,000 is 80 %; (8000 − 7000) ÷ 8000 is 12.5 %.
    assert (
        "This one covers 70 %; no choice within EUR 20.00 and 3 tubes covers more than 80 %" in text
    )
    assert "(gap: 12.5 % of that)" in text


def test_a_stopped_search_may_have_proven_the_coverage(
    plan: Plan, printed: Printed, flat: Flat
) -> None:
    text = flat(printed(with_certificate(plan, Status.STOPPED, 7000)))
    assert "Only half proven: no choice" in text


def test_an_impossible_demand_is_not_called_an_answer(
    plan: Plan, printed: Printed, flat: Flat
) -> None:
    text = flat(printed(with_certificate(plan, Status.INFEASIBLE, 7000)))
    assert "Proven impossible" in text
    assert "Proven best" not in text


def test_ties_are_counted(plan: Plan, printed: Printed, flat: Flat) -> None:
    assert "No other palette ranks equal" in flat(printed(plan))
    assert "5 palettes rank equal" in flat(printed(replace(plan, ties=5)))
    stopped = with_certificate(replace(plan, ties=5), Status.STOPPED, 8000)
    assert "At least 5 palettes rank equal" in flat(printed(stopped))


def test_a_list_of_ties_that_was_cut_short_is_not_called_whole(
    plan: Plan, printed: Printed, flat: Flat
) -> None:
    """The choice may be proven and yet not every equal palette known (see `Choice.complete`)."""
    cut = replace(plan, ties_complete=False)
    assert cut.certificate.status is Status.PROVEN
    text = flat(printed(cut))
    assert "No other palette ranks equal" not in text
    assert "Whether other palettes rank equal" in text
    assert "At least 50 palettes rank equal" in flat(printed(replace(cut, ties=50)))


def test_it_tells_what_limits_the_palette(plan: Plan, printed: Printed, flat: Flat) -> None:
    text = flat(printed(plan))
    assert "II, very good (ASTM D4303), because of blue." in text
    assert "of that grade or worse covers 60 % instead of 70 %." in text
    assert "because of magenta and golden yellow." in text
    assert "A choice without any tube of that grade or worse covers at least 10 % instead" in text


def test_sparing_a_tube_may_cost_nothing(plan: Plan, printed: Printed, flat: Flat) -> None:
    free = TradeOff(plan.lightfastness.worst, plan.lightfastness.limited_by, 0.7, True)
    assert "of that grade or worse covers as much." in flat(
        printed(replace(plan, lightfastness=free))
    )


def test_cautions_name_their_tubes(plan: Plan, printed: Printed, flat: Flat) -> None:
    assert "Holds nickel. (golden yellow)" in flat(printed(plan))


def test_an_empty_palette_is_told_plainly(empty_plan: Plan, printed: Printed, flat: Flat) -> None:
    text = flat(printed(empty_plan))
    assert "Nothing to buy; EUR 20.00 of the budget is left." in text
    assert "out of reach — there is no tube to mix from." in text
    assert "no mix of up to three tubes of the catalogue" in text
    assert "inf" not in text
    assert "nan" not in text


@pytest.mark.parametrize("width", [40, 80, 120])
def test_no_line_is_wider_than_the_terminal(plan: Plan, printed: Printed, width: int) -> None:
    lines = printed(plan, width=width).splitlines()
    assert max(map(cell_len, lines)) <= width
    assert not any(line.endswith(" ") for line in lines)


def test_hostile_names_are_printed_as_they_are(
    hostile: tuple[str, Plan], printed: Printed, flat: Flat
) -> None:
    name, plan = hostile
    text = printed(plan, width=1000)
    assert "\x1b" not in text
    assert "\x07" not in text
    assert len(text) < 60_000
    shown = (
        "x" * 199 + "…"
        if len(name) > 200
        else name.replace("\x1b", "\\x1b").replace("\x07", "\\x07")
    )
    assert flat(text).count(shown) >= 8


def test_colours_are_blocks_beside_words(plan: Plan, printed: Printed) -> None:
    coloured = printed(plan, colours=True)
    # Wanted and mix of two swatches and a step: six blocks in 24-bit colour.
    assert coloured.count("\x1b[38;2;") == 6
    assert "██" not in printed(plan)
    assert "out of reach" in coloured


def test_owned_tubes_that_are_set_aside_are_named(plan: Plan, printed: Printed, flat: Flat) -> None:
    aside = replace(plan, set_aside=(plan.tubes[0].tube, plan.tubes[1].tube))
    text = flat(printed(aside))
    assert "Set aside, because the wishes keep them out of use: magenta and golden yellow." in text


def test_tubes_filled_with_white_and_unused_ones_say_so(
    plan: Plan, printed: Printed, flat: Flat
) -> None:
    pale = replace(plan.tubes[0], white_filled=True, recipes=0)
    text = flat(printed(replace(plan, tubes=(pale,), samples=())))
    assert "in no mix of this plan" in text
    assert "half or more of it is white pigment" in text


def test_thick_paint_alone_is_told_as_such(plan: Plan, printed: Printed, flat: Flat) -> None:
    wishes = replace(plan.scenario.wishes, thinnest_wash=1.0)
    thick = replace(plan, scenario=replace(plan.scenario, wishes=wishes, most_tubes=None))
    text = flat(printed(thick))
    assert "at full strength only" in text
    assert "no choice within EUR 20.00 covers more" in text


def test_a_near_miss_is_printed_beyond_the_tolerance(
    plan: Plan, printed: Printed, flat: Flat
) -> None:
    """4.03 is out of reach at a tolerance of 4, and not "ΔE00 4.0, near"."""
    covered, missed, step = plan.samples
    close = replace(
        plan,
        samples=(
            replace(covered, match=3.98, match_if_unsteady=4.02),
            replace(missed, match=4.03),
            step,
        ),
    )
    text = flat(printed(close))
    assert "ΔE00 4.0, near; measure with care (unsteady 4.02)" in text
    assert "ΔE00 4.03, clearly different. Why:" in text


def test_coverages_that_differ_are_printed_apart(plan: Plan, printed: Printed, flat: Flat) -> None:
    trade_off = replace(plan.lightfastness, spared=0.69998)
    assert "covers 69.998 % instead of 70 %" in flat(
        printed(replace(plan, lightfastness=trade_off))
    )
