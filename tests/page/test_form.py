"""What was filled in becomes a scenario, or a sentence for every field that is wrong."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from fewtubes.catalogue.records import Catalogue, Hazard, Lightfastness
from fewtubes.defaults import RIVALS_WITHIN
from fewtubes.errors import InputError
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.opacity import Transparency
from fewtubes.mixing.recipes import STRENGTHS, RecipeSpace
from fewtubes.page.assortment import assortment_of
from fewtubes.page.fields import LABELS
from fewtubes.page.form import first_values, monte_carlo_of, puddling_of, scenario_of
from fewtubes.page.own_rows import own_rows
from fewtubes.page.tabs import FormValues
from fewtubes.shopping.puddles import Puddling
from fewtubes.shopping.steadiness import MonteCarlo

Filled = dict[str, Any]


def values_of(filled: Filled, **changed: Any) -> FormValues:
    """Return the form's values, each as a list."""
    both = {**filled, **{key.replace("__", "-"): value for key, value in changed.items()}}
    return {key: value if isinstance(value, list) else [value] for key, value in both.items()}


def faults_of(values: FormValues, catalogue: Catalogue) -> dict[str, str]:
    """Return what is wrong, the last sentence for each field."""
    with pytest.raises(InputError) as caught:
        scenario_of(values, catalogue)
    return {fault.where: fault.what for fault in caught.value.faults}


def test_a_sound_form(demo: Catalogue, filled: Filled) -> None:
    place = list(demo.flowers).index("cornflower")
    values = values_of(
        filled,
        **{f"importance-{place}": "2.5"},
        most_tubes="6",
        lightfastness="II",
        transparency="semi-transparent",
        avoid=["cadmium", "lead"],
        millilitres="10",
        thinnest_wash=repr(STRENGTHS[3]),
        most_in_mix="2",
        least_coverage="62,5",
        **{"tube-lemon": "owned", "tube-green-yellow": "never", "tube-bismuth-yellow": "must_have"},
    )
    scenario = scenario_of(values, demo)
    assert scenario.budget_hundredths == 1200
    assert scenario.most_tubes == 6
    assert [(f.name, f.importance) for f in scenario.flowers] == [("cornflower", 2.5)]
    wishes = scenario.wishes
    assert wishes.lightfastness_floor is Lightfastness.II
    assert wishes.transparency_floor is Transparency.SEMI_TRANSPARENT
    assert wishes.avoid_hazards == (Hazard.CADMIUM, Hazard.LEAD)
    assert wishes.millilitres == 10
    assert wishes.thinnest_wash == STRENGTHS[3]
    assert wishes.most_in_mix == 2
    assert wishes.least_coverage == 0.625
    assert (wishes.owned, wishes.never, wishes.must_have) == (
        ("lemon",), ("green-yellow",), ("bismuth-yellow",),
    )  # fmt: skip


def test_any_hazard_is_one_tick(demo: Catalogue, filled: Filled) -> None:
    asked = scenario_of(values_of(filled, avoid=["any", "lead"]), demo)
    assert asked.wishes.avoid_hazards == tuple(Hazard)


def test_what_the_form_begins_with_lacks_only_the_flowers(demo: Catalogue) -> None:
    assert list(faults_of(first_values(demo), demo)) == ["flowers"]


def test_the_form_of_a_catalogue_without_prices(demo: Catalogue, filled: Filled) -> None:
    tubes = {id_: replace(tube, offers=()) for id_, tube in demo.tubes.items()}
    unpriced = replace(demo, tubes=tubes)
    assert first_values(unpriced)["currency"] == ["EUR"]
    assert scenario_of(values_of(filled), unpriced).currency == "EUR"
    few = replace(unpriced, tubes=dict(list(tubes.items())[:3]), flowers={})
    optics = Optics.of(demo.papers["cotton-white"], demo.lights["D65"])
    rows = assortment_of(few, optics).tubes
    assert [row.traits.rpartition(", ")[2] for row in rows] == ["not for sale"] * 3


def test_own_colours(demo: Catalogue, filled: Filled) -> None:
    values = values_of(
        filled,
        flower=[],
        **{
            "colour-name": ["petal", "", "", ""],
            "colour-hex": ["#FFFFFF", " 000000 ", "", ""],
            "colour-importance": ["3", "", "1"],
        },
    )
    colours = scenario_of(values, demo).own_colours
    assert [(c.name, c.importance) for c in colours] == [("petal", 3.0), ("000000", 1.0)]
    # White of sRGB is L* 100 and black L* 0 by definition (IEC 61966-2-1, CIE 15).
    assert colours[0].lab == pytest.approx((100, 0, 0), abs=1e-6)
    assert colours[1].lab == pytest.approx((0, 0, 0), abs=1e-6)
    assert len(own_rows(values)) == 2


@pytest.mark.parametrize(
    "typed", ["12", "12.00", "€12", "12 €", "EUR 12", "eur12", "12,00 EUR", " € 12,0 "]
)
def test_a_currency_beside_the_budget(demo: Catalogue, filled: Filled, typed: str) -> None:
    assert scenario_of(values_of(filled, budget=typed), demo).budget_hundredths == 1200


def test_a_comma_in_an_amount_is_a_point(demo: Catalogue, filled: Filled) -> None:
    scenario = scenario_of(values_of(filled, budget="12,50", tolerance="3,5"), demo)
    assert (scenario.budget_hundredths, scenario.tolerance) == (1250, 3.5)


def test_a_coverage_of_thousands_of_digits_is_read(demo: Catalogue, filled: Filled) -> None:
    # Python's `int` and `Fraction` refuse texts of more than 4,300 digits.
    typed = f"62,{'0' * 4_400}5"
    least = scenario_of(values_of(filled, least_coverage=typed), demo).wishes.least_coverage
    assert least == Fraction(62, 100) + Fraction(5, 10**4_403)


@pytest.mark.parametrize(
    ("field", "typed", "told"),
    [
        ("budget", "", "give an amount such as 35.00"),
        ("budget", "0", "buys nothing"),
        ("budget", "-3", "'-3'"),
        ("budget", "1e99", "1,000,000"),
        ("budget", "12.345", "decimal"),
        ("budget", "twelve", "'twelve'"),
        ("tolerance", "0", "from 0.01 to 20"),
        ("tolerance", "nan", "'nan'"),
        ("tolerance", "1_0", "'1_0'"),
        ("most_tubes", "0", "whole number from 1"),
        ("most_tubes", "2.5", "whole number"),
        ("millilitres", "-1", "from 0 to 1,000"),
        ("budget", "$12", "'$12'"),
        ("budget", "12¢", "'12¢'"),
        ("budget", "1,000", "leave out signs between thousands"),
        ("budget", "1.000,00 €", "leave out signs between thousands"),
        ("budget", "EUR", "an amount"),
        ("thinnest_wash", "2", "from 0 to 1"),
        ("most_in_mix", "4", "allowed: 1, 2, 3"),
        ("least_coverage", "101", "from 0 to 100"),
        ("title", "", "blank"),
        ("title", "a" * 10_000, "10,000 characters; at most 200"),
        ("title", "a\u202eb", "U+202E"),
        ("currency", "XYZ", "'XYZ'"),
        ("lightfastness", "VI", "'VI'"),
        ("transparency", "glassy", "'glassy'"),
        ("transparency", "opaque", "'opaque'; allowed: transparent, semi-transparent, semi-opaque"),
        ("avoid", "arsenic", "'arsenic'"),
        ("paper", "papyrus", "'papyrus'"),
        ("light", "moon", "'moon'"),
        ("prefer", "dearest", "'dearest'; allowed: lasting, cheapest"),
    ],
)
def test_faults(demo: Catalogue, filled: Filled, field: str, typed: str, told: str) -> None:
    faults = faults_of(values_of(filled, **{field: typed}), demo)
    assert list(faults) == [field]
    assert told in faults[field]
    assert faults[field].endswith((".", "?"))
    assert field in LABELS


@pytest.mark.parametrize(
    ("names", "hexes", "told"),
    [
        (["petal"], ["red"], "#rrggbb"),
        (["petal"], [""], "#rrggbb"),
        (["petal"], ["#12345"], "#rrggbb"),
        (["a", "a"], ["#111111", "#222222"], "twice"),
        (["a", "A"], ["#111111", "#222222"], "twice"),
        (["cornflower"], ["#111111"], "name of a flower"),
        (["Corn\ufe0fflower"], ["#111111"], "name of a flower"),
        (["moss\u3164"], ["#111111"], "invisible character U+3164"),
        (["a" * 10_000], ["#111111"], "at most 200"),
        ([f"{n}" for n in range(61)], ["#111111"] * 61, "at most 60"),
    ],
)
def test_faults_of_own_colours(
    demo: Catalogue, filled: Filled, names: list[str], hexes: list[str], told: str
) -> None:
    values = values_of(filled, **{"colour-name": names, "colour-hex": hexes})
    faults = faults_of(values, demo)
    assert told in faults["colours"]
    assert len(faults["colours"]) < 400


def test_a_flower_that_is_not_there(demo: Catalogue, filled: Filled) -> None:
    faults = faults_of(values_of(filled, flower=["cornflour"]), demo)
    assert faults["flowers"].endswith("Did you mean 'cornflower'?")


def test_every_fault_is_told_at_once(demo: Catalogue, filled: Filled) -> None:
    values = values_of(filled, budget="x", tolerance="x", most_tubes="x")
    assert set(faults_of(values, demo)) == {"budget", "tolerance", "most_tubes"}


def test_every_wash_that_is_offered_leaves_itself() -> None:
    for strength in STRENGTHS:
        assert RecipeSpace.no_thinner_than(float(repr(strength))).strengths[-1] == strength


@pytest.mark.parametrize(
    ("word", "trials"),
    [
        ("", None),
        ("tell", MonteCarlo()),
        ("steadiest", MonteCarlo(within=0.0, choose=True)),
        ("steadiest-near", MonteCarlo(within=RIVALS_WITHIN, choose=True)),
    ],
)
def test_what_is_asked_about_paint_and_hand(
    filled: Filled, word: str, trials: MonteCarlo | None
) -> None:
    assert monte_carlo_of(values_of(filled, trials=word)) == trials


def test_puddles_are_shared_for_each_flower_unless_asked_otherwise() -> None:
    assert puddling_of({}) is Puddling.EACH_FLOWER
    assert puddling_of({"puddling": ["sitting"]}) is Puddling.ONE_SITTING
    assert puddling_of({"puddling": ["colour"]}) is Puddling.EACH_COLOUR
    with pytest.raises(InputError, match="puddling"):
        puddling_of({"puddling": ["few"]})
