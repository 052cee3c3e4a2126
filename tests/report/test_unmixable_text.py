"""Which tubes no mix replaces, in words and tables."""

import csv
import io
import math
from dataclasses import replace

import pytest
from rich.cells import cell_len
from rich.console import Console

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.tube_ranking import Family, MixedTube, families_of
from fewtubes.mixing.matching import Match
from fewtubes.mixing.recipes import STRENGTHS, Recipe
from fewtubes.report.answer_files import unmixable_files
from fewtubes.report.terminal.unmixable import (
    family_words,
    hiding_words,
    print_unmixable,
    rule_words,
)
from fewtubes.shopping.plan import Plan

NAMES = {"magenta": "magenta", "gold": "golden yellow", "blue": "blue"}


def mixed(tube: Tube, *differences: float, family: tuple[Tube, ...] = ()) -> MixedTube:
    """Return a tube with so many matches, each 2 parts gold : 1 part blue."""
    recipe = Recipe(("gold", "blue"), (2, 1), 0.5)
    return MixedTube(
        tube=tube,
        labs=((50.0, 10.0, -10.0),) * len(STRENGTHS),
        matches=tuple(Match(recipe, (51.0, 9.0, -9.0), d) for d in differences),
        family=family,
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
    assert "ΔE00 2.0 (hardly different)" in " ".join(tail.split())


def test_it_tells_how_near_all_else_comes_and_where(tubes: tuple[Tube, Tube, Tube]) -> None:
    magenta, gold, _ = tubes
    item = mixed(magenta, 1.0, *(4.5,), *([0.0] * 9), 0.5, family=(gold,))
    # (1.0 + 4.5 + 0.5) ÷ 12 = 0.5; the second strength is a strong wash of 71 %.
    assert family_words(Family((item,)), NAMES) == (
        "At the strong wash (71 %) nothing else comes nearer than ΔE00 4.5 (clearly different): the"
        " nearest is 2 parts golden yellow : 1 part blue; half-strength wash (50 %). On average"
        " over its washes 0.5."
    )
    full = mixed(gold, 5.2, *([1.0] * 11), family=(magenta,))
    both = families_of([full, item])
    assert [[m.tube.id for m in one.members] for one in both] == [["magenta", "gold"]]
    said = family_words(both[0], NAMES)
    assert said.startswith("At the strong wash (71 %) of magenta nothing else comes nearer than")
    assert said.endswith("All else stays as far from each other one at some wash, up to ΔE00 5.2.")
    alone = family_words(Family((replace(full, family=()),)), NAMES)
    assert alone.startswith("At full strength (100 %) nothing else")


def test_one_of_a_family_is_to_be_bought(tubes: tuple[Tube, Tube, Tube]) -> None:
    magenta, gold, blue = tubes
    items = [
        mixed(magenta, *[4.1] * 12, family=(gold,)),
        mixed(gold, *[9.0] * 12, family=(magenta,)),
        mixed(blue, *[0.1] * 12),
    ]
    head, rest = printed(items).split("Can be mixed from the others")
    assert "One of: magenta (magenta) or golden yellow (gold)" in " ".join(head.split())
    assert "blue  (blue)" in rest
    # As soon as all else comes near one of them, none must be bought.
    items[0] = mixed(magenta, *[3.9] * 12, family=(gold,))
    assert "None: mixes of all others come near every tube." in " ".join(printed(items).split())


def test_what_hardly_shows_is_told_over_black(tubes: tuple[Tube, Tube, Tube]) -> None:
    magenta, gold, blue = tubes
    white = mixed(magenta, *[0.6] * 12)
    match = replace(white.matches[0], difference=14.1)
    white = replace(white, from_paper=0.3, over_black=match)
    text = " ".join(printed([white, mixed(gold, *[5.0] * 12), mixed(blue, *[0.1] * 12)]).split())
    hides = text.split("Bought for what they hide")[1].split("Can be mixed")[0]
    assert "magenta (magenta)" in hides
    assert "At every wash within ΔE00 0.3 of the bare paper" in hides
    assert "Over black, at full strength, nothing else comes nearer than ΔE00 14.1" in hides
    content = unmixable_files([white, mixed(gold), mixed(blue)])["unmixable.csv"]
    rows = {row["name"]: row for row in csv.DictReader(io.StringIO(content))}
    assert (rows["magenta"]["single"], rows["magenta"]["over_black"]) == ("yes", "14.1")
    lonely = hiding_words(Family((replace(white, over_black=None),)), NAMES)
    assert lonely.endswith("There is no other tube to mix it from.")


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
    bought, near = printed(items).split("Mixes of all others come near")
    assert "None: mixes of all others come near every tube." in " ".join(bought.split())
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
    assert "None: mixes of all others come near every tube." in text
    assert "tube 7" in printed(items, show_all=True)
    assert "more tube" not in printed(items, show_all=True)


def test_the_rule_about_families_is_told(tubes: tuple[Tube, Tube, Tube]) -> None:
    items = [mixed(tubes[0], *[1.0] * 12), mixed(tubes[1])]
    assert items[1].largest == math.inf
    told = rule_words(items, count_twins=False)
    assert "Each of 1 tube was compared, at 12 wash strengths" in told
    assert "stay within ΔE00 4.0 of each other at every strength, once the stronger one is" in told
    assert "the nearest mix is, at some strength, off by more than ΔE00 4.0; a family can" in told
    assert "none is off by more than ΔE00 2.0." in told
    counted = rule_words(items, count_twins=True)
    assert "Every tube was a family of its own, weaker editions of the same paint, too." in counted
    assert "complete linkage" not in counted


def test_a_lonely_tube(tubes: tuple[Tube, Tube, Tube]) -> None:
    assert (
        family_words(Family((mixed(tubes[0]),)), NAMES) == "There is no other tube to mix it from."
    )
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
    items = [mixed(tube, *[3.0] * 12, family=(tube,)), *others]
    text = printed(items, width=1000)
    assert "\x1b" not in text
    assert "\x07" not in text
    content = unmixable_files(items)["unmixable.csv"]
    if name.startswith("="):
        assert ",'=1+1," in content


def test_the_tables_hold_every_tube_and_wash(tubes: tuple[Tube, Tube, Tube]) -> None:
    magenta, gold, blue = tubes
    items = [mixed(magenta, *[5.0] * 6, *[1.0] * 6, family=(gold, blue)), mixed(gold)]
    files = unmixable_files(items)
    assert set(files) == {"unmixable.csv", "unmixable-washes.csv"}
    table = list(csv.DictReader(io.StringIO(files["unmixable.csv"], newline="")))
    table.sort(key=lambda row: row["name"] != magenta.name)
    assert (table[0]["largest"], table[0]["mean"]) == ("5", "3")
    assert (table[0]["single"], table[0]["family"]) == ("yes", f"{gold.name}; {blue.name}")
    assert (table[0]["family_largest"], table[0]["over_black"]) == ("5", "")
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


def test_clean_hues_are_told_first(tubes: tuple[Tube, Tube, Tube]) -> None:
    magenta, gold, blue = (mixed(tube, *([0.5] * 12)) for tube in tubes)
    pinks = [
        replace(magenta, hue="pink", other_hues=4.001),
        replace(gold, hue="pink", other_hues=7.24),
        replace(blue, hue="pink", other_hues=3.999),
    ]
    names = {item.tube.id: item.tube.name for item in pinks}
    text = " ".join(printed(pinks).split())
    assert f"A clean pink: one of {names[gold.tube.id]} or {names[magenta.tube.id]} Each" in text
    assert (
        "Each of them has a wash to which no mix of other hues comes nearer than ΔE00 4.001, that"
        f" of {names[gold.tube.id]} even ΔE00 7.2. 1 other tube of that hue can be mixed." in text
    )
    assert text.index("A clean pink") < text.index("One of each must be bought")
    alone = [replace(magenta, hue="pink", other_hues=5.0), gold, blue]
    assert "It has a wash to which no mix" in " ".join(printed(alone).split())
    none = " ".join(printed([replace(magenta, hue="violet", other_hues=4.0), gold, blue]).split())
    assert "violet can be mixed from tubes of other hues up to ΔE00 4.0." in none
    assert "A clean" not in none
