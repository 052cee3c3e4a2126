"""What was asked, in words."""

import pytest

from fewtubes.catalogue.records import Hazard, Lightfastness
from fewtubes.mixing.opacity import Transparency
from fewtubes.report.sentences.asked import asked_words, floor_words, wish_words
from fewtubes.scenario.records import Scenario, Wishes


@pytest.mark.parametrize(
    ("wishes", "words"),
    [
        (Wishes(), ""),
        (Wishes(lightfastness_floor=Lightfastness.II), "lightfastness II or better"),
        (Wishes(transparency_floor=Transparency.SEMI_OPAQUE), "every tube semi-opaque or clearer"),
        (Wishes(avoid_hazards=(Hazard.LEAD, Hazard.ZINC)), "no lead or zinc"),
        (Wishes(avoid_hazards=tuple(Hazard)), "nothing that the catalogue names as a hazard"),
        (Wishes(millilitres=7.5), "at least 7.5 ml of every tube bought"),
        (Wishes(thinnest_wash=0.5), "no wash thinner than a half-strength wash (50 %)"),
        (Wishes(most_in_mix=2), "mixes of up to two tubes"),
        (Wishes(most_in_mix=1), "mixes of single tubes"),
        (Wishes(least_coverage=0.9), "at least 90 % covered"),
        (Wishes(must_have=("a", "b")), "in any case a and b"),
        (Wishes(never=("a", "b", "c")), "never a, b or c"),
        (Wishes(never=tuple("abcdefg")), "never 7 tubes of the catalogue"),
        (Wishes(owned=("a",)), "1 tube owned already"),
        (
            Wishes(lightfastness_floor=Lightfastness.I, least_coverage=1.0),
            "lightfastness I; at least 100 % covered",
        ),
    ],
)
def test_wishes(wishes: Wishes, words: str) -> None:
    assert wish_words(wishes) == words


def test_the_best_grade_has_none_above_it() -> None:
    assert floor_words(Lightfastness.I) == "lightfastness I"
    assert floor_words(Transparency.TRANSPARENT) == "every tube transparent"


def test_what_was_asked_and_nothing_that_steers_a_terminal() -> None:
    scenario = Scenario(
        title="t",
        shows="",
        currency="EUR",
        budget="12.50",
        most_tubes=1,
        tolerance=4.0,
        flowers=["rose"],
        wishes=Wishes(never=("\x1b[2J",)),
    )
    words = asked_words(scenario, "my \x1b tubes")
    assert words.startswith("Asked: at most EUR 12.50 and 1 tube; ")
    assert "paper cotton-white, light D65" in words
    assert "Wished: never " in words
    assert "\x1b" not in words
    assert "cheapest" not in words  # what is usual is not said


def test_that_the_price_goes_first_is_said() -> None:
    scenario = Scenario(budget=12, currency="EUR", flowers=["rose"], prefer="cheapest")
    said = "Of choices that cover as much with as few tubes the cheapest is preferred."
    assert asked_words(scenario, "tubes").endswith(f"; tubes from: tubes. {said}")


def test_that_what_is_missed_is_to_come_near_is_said() -> None:
    scenario = Scenario(budget=12, currency="EUR", flowers=["rose"], nearer=True)
    said = asked_words(scenario, "tubes")
    assert said.endswith("the one is taken that also comes nearest to what is out of reach.")
    usual = Scenario(budget=12, currency="EUR", flowers=["rose"])
    assert "comes nearest" not in asked_words(usual, "tubes")
