"""Buying bit by bit as text and files: sentences against the numbers they are drawn from."""

import csv
import io
import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from rich.console import Console

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.comparison.instalment_findings import Instalments
from fewtubes.comparison.instalments import instalments
from fewtubes.coverage.cache import Cache
from fewtubes.report.answer_files import instalment_files
from fewtubes.report.illustrated.instalments_page import InstalmentsReport
from fewtubes.report.terminal.instalments import print_instalments
from fewtubes.scenario.class_wish import ClassWish, Pupils
from fewtubes.scenario.reading import read_scenario
from fewtubes.selection.certificate import Status

FIRST_SET = Path(__file__).parents[2] / "scenarios" / "first-set.toml"


@pytest.fixture(scope="module")
def found(shared_cache: Cache) -> Instalments:
    """Return what 4, nothing, 4 and 4 euro buy of a beginner's first set."""
    catalogue = read_catalogue()
    asked = read_scenario(FIRST_SET, catalogue)
    return instalments(catalogue, asked, sums=[4, 0, 4, 4], cache=shared_cache)


def printed(found: Instalments, *, full: bool = False, width: int = 80) -> str:
    stream = io.StringIO()
    print_instalments(found, Console(file=stream, width=width), full=full)
    return stream.getvalue()


def words(text: str) -> str:
    return " ".join(text.split())


def test_there_is_a_block_for_each_sum(found: Instalments) -> None:
    lines = printed(found).splitlines()
    heads = [line for line in lines if line.startswith(("Now: ", "Then, "))]
    assert heads[0] == "Now: EUR 4.00"
    assert [head.partition(":")[0] for head in heads[1:]] == [
        "Then, 2 of 4",
        "Then, 3 of 4",
        "Then, 4 of 4",
    ]
    for head, time in zip(heads, found.times, strict=True):
        brought = f" and EUR {time.brought / 100:.2f} carried on" if time.brought else ""
        assert head.endswith(f"EUR {time.sum / 100:.2f}{brought}")


def test_every_tube_stands_in_its_block_with_its_price(found: Instalments) -> None:
    blocks = printed(found).split("\n\n")
    own = [block for block in blocks if block.startswith(("Now: ", "Then, "))]
    for block, time in zip(own, found.times, strict=True):
        for purchase in time.bought:
            (line,) = [row for row in block.splitlines() if row.startswith(purchase.tube.name)]
            assert line.endswith(f" {purchase.cost / 100:.2f}")
        if len(time.bought) > 1:
            assert f"total  {time.cost / 100:.2f}" in words(block).replace("total ", "total  ")
        told = f"{len(time.palette.covered)} of 39 colours" in words(block)
        assert told == (bool(time.bought) or time is found.times[0])
        last = time is found.times[-1]
        if time.carried_on:
            left = "is left." if last else "is carried on."
            assert f"EUR {time.carried_on / 100:.2f} {left}" in words(block)


def test_new_colours_are_counted_by_flower_or_named_in_full(found: Instalments) -> None:
    time = next(time for time in found.times if time.newly)
    samples = [found.question.samples[number] for number in time.newly]
    flower = samples[0].flower
    many = sum(sample.flower == flower for sample in samples)
    assert f"{many} of {flower}" in words(printed(found))
    in_full = words(printed(found, full=True, width=200))
    assert all(sample.name in in_full for sample in samples)
    assert f"{flower}: " in in_full
    assert "--full" in words(printed(found))
    assert "--full" not in in_full


def test_waiting_is_told(found: Instalments) -> None:
    assert not found.times[1].bought  # nothing comes in, and what is left buys nothing
    assert "Nothing yet: the money is kept for later." in printed(found)
    poor = replace(found.times[1], sum=0, brought=0)
    without = replace(found, times=(found.times[0], poor, *found.times[2:]))
    assert "Nothing yet: there is no money." in printed(without)
    spent = replace(found, times=(found.times[0], replace(found.times[1])))
    assert "Nothing more." in printed(spent)


def test_the_weights_are_stated(found: Instalments) -> None:
    said = words(printed(found))
    assert (
        "counts 4 from now on, then 3, 2 and 1, so that being able to paint now goes first." in said
    )
    even = replace(found, terms=replace(found.terms, weights=(found.terms.weights[0],) * 4))
    assert "counts the same from each of them on" in words(printed(even))
    alike = replace(found, terms=replace(found.terms, sums=(200,) * 4))
    assert "To spend: 4 times EUR 2.00, one after the other;" in words(printed(alike))
    rising = replace(found, terms=replace(found.terms, weights=found.terms.weights[::-1]))
    assert "counts 1 from now on, then 2, 3 and 4." in words(printed(rising))


def test_what_is_given_up_is_the_most_of_any_time(found: Instalments) -> None:
    most = max(time.given_up for time in found.times)
    assert most > 0
    said = words(printed(found))
    told = f"gives up at most {100 * most:.1f} % of what is to be painted at any time"
    assert told in said.replace(".0 %", " %")
    nothing = replace(found, times=tuple(replace(t, given_up=0.0) for t in found.times))
    assert "gives up nothing at any time" in words(printed(nothing))
    doubtful = replace(
        found, times=(*found.times[:-1], replace(found.times[-1], best_proven=False))
    )
    assert "maybe less: what could be had at once is not proven" in words(printed(doubtful))
    assert "at most" in printed(doubtful).split("Beside buying at once")[1].split("How sure")[0]


@pytest.mark.parametrize(
    ("status", "more", "told"),
    [
        (Status.PROVEN, 0, "Proven best: no order of buying within these sums covers more"),
        (Status.STOPPED, 0, "Only half proven: no order of buying within these sums covers more"),
        (Status.STOPPED, 10**4, "Not proven: the search was stopped"),
    ],
)
def test_only_what_is_proven_is_called_so(
    found: Instalments, status: Status, more: int, told: str
) -> None:
    known = found.certificate
    certificate = replace(known, status=status, bound=known.value + more)
    said = words(printed(replace(found, certificate=certificate)))
    assert told in said
    assert ("this order is proven best" in said) == (status is Status.PROVEN)


def test_given_tubes_and_must_haves_are_told_apart(found: Instalments) -> None:
    given = words(printed(replace(found, order_only=True)))
    assert "The tubes are given; what is sought is the order of buying them." in given
    assert "the best choice of these tubes for all the money there is by then" in given


def test_what_is_left_out_of_account_is_told(found: Instalments) -> None:
    asked = found.question.scenario
    wishes = replace(asked.wishes, least_coverage=0.25, must_have=("lemon",))
    question = replace(found.question, scenario=replace(asked, nearer=True, wishes=wishes))
    said = words(printed(replace(found, question=question)))
    assert "How near it comes to what is out of reach is left out of account here." in said
    assert "Tubes that must be bought are there in the end, not always at once." in said
    given = words(printed(replace(found, question=question, order_only=True)))
    assert "That 25 % be covered is left out of account." in given
    assert "not always at once" not in given


def test_of_a_class_paints_are_counted(found: Instalments) -> None:
    asked = replace(found.question.scenario, group=ClassWish(7, pupils=Pupils.GROWN_UPS))
    question = replace(found.question, scenario=asked)
    paints = len(found.purchases)
    assert f"{paints} paints for 7 grown-ups in" in words(
        printed(replace(found, question=question))
    )


def test_harmful_tubes_are_named(found: Instalments) -> None:
    said = words(printed(found))
    assert said.endswith("local rules and qualified advice decide.")
    for purchase in found.purchases:
        if purchase.tube.hazards:
            assert f"{purchase.tube.name} ({purchase.tube.hazards[0].value}" in said


@pytest.fixture(scope="module")
def values(found: Instalments) -> Any:
    return json.loads(instalment_files(found)["instalments.json"])


def test_keys_are_pinned(values: Any) -> None:
    """A regression pin: a key that goes or changes its meaning needs a new schema number."""
    assert values["schema"] == 1
    assert sorted(values) == [
        "catalogue", "certificate", "cost", "currency", "fellow_files_sha256",
        "for_fitted_paints", "mean_coverage", "most_given_up", "order_only", "program", "scenario",
        "schema", "sums", "times", "weights",
    ]  # fmt: skip
    assert sorted(values["times"][0]) == [
        "best_at_once", "best_at_once_proven", "bought", "brought", "carried_on", "cost",
        "coverage", "given_up", "newly_reached", "sum", "tubes_by_then",
    ]  # fmt: skip
    assert sorted(values["certificate"]) == [
        "branches", "gap", "mean_coverage_bound", "method", "proven", "seconds", "status",
        "weighted_bound", "weighted_value",
    ]  # fmt: skip


def test_json_holds_what_was_found(values: Any, found: Instalments) -> None:
    assert values["sums"] == ["4.00", "0.00", "4.00", "4.00"]
    assert values["weights"] == [4, 3, 2, 1]
    assert values["scenario"]["budget"] == "12.00"
    bought = [item["tube"] for time in values["times"] for item in time["bought"]]
    assert bought == [purchase.tube.id for purchase in found.purchases]
    assert values["times"][-1]["tubes_by_then"] == [
        found.question.tubes[number].id for number in found.times[-1].palette.bought
    ]


def test_the_table_has_a_row_a_tube_in_the_order_of_buying(found: Instalments) -> None:
    text = instalment_files(found)["instalments.csv"]
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    assert [row["tube"] for row in rows] == [item.tube.id for item in found.purchases]
    times = [int(row["time"]) for row in rows]
    assert times == sorted(times)
    assert sum(round(float(row["price"]) * 100) for row in rows) == found.cost
    assert len(found.tubes()) == len(rows)


def test_what_fades_is_told_of_the_tubes_bought(shared_cache: Cache) -> None:
    catalogue = read_catalogue()
    asked = read_scenario(FIRST_SET, catalogue)
    found = instalments(catalogue, asked, sums=[8, 5, 5], cache=shared_cache)
    assert "In light this one fades: middle red (naphthol) (III, fair)." in words(printed(found))
    assert not any(one.tube.lightfastness.fades for one in found.purchases[:-1])


def test_demands_of_the_end_are_told_beside_what_could_be_had_at_once(shared_cache: Cache) -> None:
    """The last time alone is asked for them, so that more money may cover less there."""
    catalogue = read_catalogue()
    plain = read_scenario(FIRST_SET, catalogue)
    asked = replace(plain, wishes=replace(plain.wishes, must_have=("cadmium-yellow",)))
    found = instalments(catalogue, asked, sums=[8, 1], cache=shared_cache)
    assert found.times[1].best < found.times[0].best
    said = "asked of the last time alone"
    assert said in words(printed(found))
    assert said in InstalmentsReport(found).page()
    without = instalments(catalogue, plain, sums=[8, 1], cache=shared_cache)
    assert said not in words(printed(without))
