"""Which tubes no mix replaces, in words and tables."""

import csv
import io
import math
from dataclasses import replace

import pytest
from rich.cells import cell_len
from rich.console import Console

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.tube_ranking import MixedTube
from fewtubes.mixing.matching import Match
from fewtubes.mixing.recipes import STRENGTHS, Recipe
from fewtubes.report.answer_files import unmixable_files
from fewtubes.report.terminal.unmixable import mixed_words, print_unmixable, rule_words
from fewtubes.shopping.plan import Plan

NAMES = {"magenta": "magenta", "gold": "golden yellow", "blue": "blue"}


def mixed(tube: Tube, *differences: float, twins: tuple[Tube, ...] = ()) -> MixedTube:
    """Return a tube with so many matches, each 2 parts gold : 1 part blue."""
    recipe = Recipe(("gold", "blue"), (2, 1), 0.5)
    return MixedTube(
        tube=tube,
        labs=((50.0, 10.0, -10.0),) * len(STRENGTHS),
        matches=tuple(Match(recipe, (51.0, 9.0, -9.0), d) for d in differences),
        twins=twins,
    )


@pytest.fixture
def tubes(plan: Plan) -> tuple[Tube, Tube, Tube]:
    magenta, gold, blue = (planned.tube for planned in plan.tubes)
    return magenta, gold, blue


def printed(
    items: list[MixedTube], *, width: int = 80, count_twins: bool = False, show_all: bool = False
) -> str:
    stream = io.StringIO()
    console = Console(
        file=stream, width=width, color_system=None, legacy_windows=False, _environ={}
    )
    print_unmixable(items, console, count_twins=count_twins, show_all=show_all)
    return stream.getvalue()


def test_a_tube_told_apart_is_never_hardly_different(tubes: tuple[Tube, Tube, Tube]) -> None:
    magenta, gold, blue = tubes
    apart, alike = mixed(magenta, *([2.03] * 12)), mixed(gold, *([1.97] * 12))
    text = printed([apart, alike, mixed(blue, *([0.5] * 12))])
    head, tail = text.split("Can be mixed from the others", 1)
    assert "come near: told apart side by side" in head
    assert "ΔE00 2.03 (near)" in head
    assert "hardly different" not in head
    assert "ΔE00 2.0 (hardly different)" in tail


def test_it_tells_how_far_off_and_where(tubes: tuple[Tube, Tube, Tube]) -> None:
    magenta, gold, _ = tubes
    item = mixed(magenta, 1.0, *(4.5,), *([0.0] * 9), 0.5, twins=(gold,))
    # (1.0 + 4.5 + 0.5) ÷ 12 = 0.5; the second strength is a strong wash of 71 %.
    assert mixed_words(item, NAMES) == (
        "off by up to ΔE00 4.5 (clearly different), on average 0.5; most at its strong wash (71 %),"
        " where the nearest is 2 parts golden yellow : 1 part blue; half-strength wash (50 %). Left"
        " out as the same paint: golden yellow."
    )


def test_it_parts_single_tubes_from_those_that_can_be_mixed(
    tubes: tuple[Tube, Tube, Tube],
) -> None:
    magenta, gold, blue = tubes
    items = [mixed(magenta, *[4.1] * 12), mixed(gold, *[2.0] * 12), mixed(blue, *[0.1] * 12)]
    text = printed(items)
    single, rest = text.split("Can be mixed from the others")
    assert "magenta  (magenta)" in single
    assert "golden yellow  (gold)" not in single
    assert rest.index("golden yellow  (gold)") < rest.index("blue  (blue)")
    assert "come near" not in text


@pytest.mark.parametrize("largest", [2.1, 4.0])
def test_what_a_mix_comes_near_is_not_headed_to_be_bought(
    tubes: tuple[Tube, Tube, Tube], largest: float
) -> None:
    magenta, gold, blue = tubes
    items = [mixed(magenta, *[largest] * 12), *(mixed(tube, *[0.1] * 12) for tube in (gold, blue))]
    bought, near = printed(items).split("Mixes of the others come near")
    assert "None: mixes of the others come near every tube." in " ".join(bought.split())
    assert "magenta  (magenta)" in near.split("Can be mixed")[0]
    table = unmixable_files(items)["unmixable.csv"]
    assert ",no," in table.splitlines()[1]


def test_only_the_next_few_are_shown_unless_all_are_asked_for(
    tubes: tuple[Tube, Tube, Tube],
) -> None:
    items = [
        mixed(replace(tubes[0], id=f"tube-{n}", name=f"tube {n}"), *[1.0] * 12) for n in range(8)
    ]
    items += [mixed(tube, *[0.1] * 12) for tube in tubes[1:]]
    text = printed(items)
    assert "tube 4" in text
    assert "tube 5" not in text
    assert "… and 5 more tubes; --all lists them." in text
    assert "None: mixes of the others come near every tube." in text
    assert "tube 7" in printed(items, show_all=True)
    assert "more tube" not in printed(items, show_all=True)


def test_the_rule_about_twins_is_told(tubes: tuple[Tube, Tube, Tube]) -> None:
    items = [mixed(tubes[0], *[1.0] * 12), mixed(tubes[1])]
    assert items[1].largest == math.inf
    told = rule_words(items, count_twins=False)
    assert "Each of 1 tube was compared, at 12 wash strengths" in told
    assert "within ΔE00 1.0 of it at every strength, once the stronger one is thinned" in told
    assert (
        "if at some strength the nearest mix is off by more than ΔE00 4.0, and as mixed if" in told
    )
    assert "none is off by more than ΔE00 2.0." in told
    counted = rule_words(items, count_twins=True)
    assert "Weaker editions of the same paint counted as other tubes." in counted
    assert "left out" not in counted


def test_a_lonely_tube(tubes: tuple[Tube, Tube, Tube]) -> None:
    assert mixed_words(mixed(tubes[0]), NAMES) == "there is no other tube to mix it from."
    text = printed([mixed(tubes[0])])
    assert "inf" not in text
    assert "None." in text


@pytest.mark.parametrize("width", [40, 80, 120])
def test_no_line_is_wider_than_the_terminal(tubes: tuple[Tube, Tube, Tube], width: int) -> None:
    text = printed([mixed(tube, *[3.0] * 12) for tube in tubes] * 4, width=width)
    assert max(map(cell_len, text.splitlines())) <= width


def test_hostile_names_do_no_harm(hostile: tuple[str, Plan]) -> None:
    name, plan = hostile
    tube = plan.tubes[0].tube
    others = [mixed(planned.tube, *[1.0] * 12) for planned in plan.tubes[1:]]
    items = [mixed(tube, *[3.0] * 12, twins=(tube,)), *others]
    text = printed(items, width=1000)
    assert "\x1b" not in text
    assert "\x07" not in text
    content = unmixable_files(items)["unmixable.csv"]
    if name.startswith("="):
        assert ",'=1+1," in content


def test_the_tables_hold_every_tube_and_wash(tubes: tuple[Tube, Tube, Tube]) -> None:
    magenta, gold, blue = tubes
    items = [mixed(magenta, *[5.0] * 6, *[1.0] * 6, twins=(gold, blue)), mixed(gold)]
    files = unmixable_files(items)
    assert set(files) == {"unmixable.csv", "unmixable-washes.csv"}
    table = list(csv.DictReader(io.StringIO(files["unmixable.csv"], newline="")))
    assert (table[0]["largest"], table[0]["mean"]) == ("5", "3")
    assert (table[0]["single"], table[0]["same_paint"]) == ("yes", f"{gold.name}; {blue.name}")
    assert (table[1]["largest"], table[1]["mean"]) == ("", "")  # nothing to mix it from
    washes = list(csv.DictReader(io.StringIO(files["unmixable-washes.csv"], newline="")))
    assert len(washes) == 12
    assert [float(row["strength"]) for row in washes] == pytest.approx(STRENGTHS, abs=1e-4)
    first = washes[0]
    assert (first["match"], first["mix_strength"]) == ("5", "0.5")
    assert first["name"] == magenta.name
    assert first["mix"].startswith(f"2 parts {gold.name} : 1 part {blue.name}")
    assert [first[f"{kind}_{n}"] for n in "123" for kind in ("tube", "parts")] == [
        "gold",
        "2",
        "blue",
        "1",
        "",
        "",
    ]
