"""``fewtubes instalments``: how it asks, writes and tells, on the small catalogue."""

import csv
import hashlib
import json
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., Any]


def test_it_prints_and_writes(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    out = tmp_path / "out"
    told = run(
        *("instalments", scenario, *small, "--tolerance", 12, "--sum", "6.50", "--sum", 6.5),
        *("--out", out),
    )
    assert told.code == 0, told.err
    assert "Bit by bit: A window box" in told.out
    assert "Now: EUR 6.50" in told.out
    assert {path.name for path in out.iterdir()} == {"instalments.csv", "instalments.json"}
    assert "Written to" in told.out
    with (out / "instalments.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    values = json.loads((out / "instalments.json").read_text(encoding="utf-8"))
    assert [row["tube"] for row in rows] == [
        item["tube"] for time in values["times"] for item in time["bought"]
    ]


def test_options_reach_the_question(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    out = tmp_path / "out"
    told = run(
        *("instalments", scenario, *small, "--tolerance", 12, "--sum", 20, "--sum", 0, "--sum"),
        *("3.25", "--weight", 1, "--weight", "2.5", "--weight", 1, "--most-tubes", 2, "--never"),
        *("leaf-green", "--flower", "primrose", "--must-have", "lemon", "--order-only"),
        *("--out", out, "--spreadsheet", "semicolon"),
    )
    assert told.code == 0, told.err
    values = json.loads((out / "instalments.json").read_text(encoding="utf-8"))
    assert values["sums"] == ["20.00", "0.00", "3.25"]
    assert values["weights"] == [1, 2.5, 1]
    assert values["order_only"] is True
    assert values["scenario"]["most_tubes"] == 2
    assert values["scenario"]["wishes"]["never"] == ["leaf-green"]
    assert [item["tube"] for time in values["times"] for item in time["bought"]] == ["lemon"]
    assert "time;name;" in (out / "instalments.csv").read_text(encoding="utf-8-sig")


def test_where_pictures_are_planned_it_is_the_sums_that_cannot_be_answered(
    run: Run, scenario: Path, small: Sequence[str]
) -> None:
    """Whether a price list or the scenario's own key is the reason, the sums are what asks."""
    text = scenario.read_text(encoding="utf-8")
    scenario.write_text(f"{text}\n[picture]\npictures = 3\n", encoding="utf-8")
    told = run("instalments", scenario, *small, "--tolerance", 12, "--sum", 9, "--sum", 9)
    assert told.code == 2
    assert told.err.startswith("--sum: buying bit by bit does not reckon with pictures planned")


@pytest.mark.parametrize(
    ("options", "told"),
    [
        ((), ["--sum: there is no sum to spend; give one for each time that something can be"
              " bought, the first for now."]),
        (("--sum", -1, "--sum", "2.345", "--weight", 0),
         ["--sum: number 1 is '-1'; it must be from 0 to 1,000,000.",
          "--sum: number 2 is '2.345'; it may have at most two decimals, so round it.",
          "--weight: number 1 is '0'; it must be above 0 and at most 100.",
          "--weight: there is 1 weight for 2 sums; give one for each sum, or none at all."]),
        (("--sum", "8,50"), ["--sum: is '8,50', which is not a plain number; decimals take a point:"
                             " write 8.50."]),
        (("--sum", 1) * 13, ["--sum: there are 13 sums; at most 12 are allowed."]),
        (("--sum", 5, "--order-only"),
         ["--order-only: the order of tubes that are chosen already is asked for, and none is"
          " named; name them as tubes that must be bought (must_have)."]),
        (("--sum", 1, "--must-have", "lemon"),
         ["the demands cannot all be met: the must-have tubes and the budget of EUR 1.00 clash.",
          "The smallest budget that would do is EUR 4.00.",
          "The budget here is all sums together."]),
        (("--sum", 5, "--report", "order.txt"),
         ["--report: 'order.txt' has the ending .txt; the report is a page, so its name must end in"
          " .html or .htm."]),
    ],
)  # fmt: skip
def test_bad_input_is_told_in_a_sentence_and_nothing_is_written(
    run: Run,
    scenario: Path,
    small: Sequence[str],
    tmp_path: Path,
    *,
    options: tuple[object, ...],
    told: list[str],
) -> None:
    out = tmp_path / "out"
    ended = run("instalments", scenario, *small, *options, "--out", out)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.splitlines() == told
    assert not out.exists()


def test_the_report_is_written_with_the_tables_and_known_to_them(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    page, out = tmp_path / "pages" / "order.html", tmp_path / "out"
    told = run(
        *("instalments", scenario, *small, "--tolerance", 12, "--sum", "6.50", "--sum", 6.5),
        *("--out", out, "--report", page),
    )
    assert told.code == 0, told.err
    assert f"Written: '{page}', the illustrated report." in told.out
    written = page.read_bytes()
    assert b"A window box" in written
    values = json.loads((out / "instalments.json").read_text(encoding="utf-8"))
    digest = hashlib.sha256(written).hexdigest()
    assert values["fellow_files_sha256"]["../pages/order.html"] == digest


def test_the_report_alone_is_written(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    page = tmp_path / "order.htm"
    told = run("instalments", scenario, *small, "--tolerance", 12, "--sum", 9, "--report", page)
    assert told.code == 0, told.err
    assert [path.name for path in tmp_path.iterdir() if path.suffix == ".htm"] == ["order.htm"]
    assert "Written to" not in told.out
