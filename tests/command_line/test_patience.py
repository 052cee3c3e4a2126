"""A time that is given holds for the whole answer, and mixing that takes longer says so."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from fewtubes.command_line.patience import KEPT_FOR_DRAWING, limits_asked, seconds_for_mixing
from fewtubes.errors import InputError
from fewtubes.mixing.effort import MIXING_SECONDS
from fewtubes.selection.certificate import Method
from fewtubes.shopping.shop import Limits

Run = Callable[..., Any]

SCENARIO = """\
title = "A posy"
currency = "EUR"
budget = 9.00
[[flower]]
name = "primrose"
"""


def test_only_a_time_that_is_given_is_for_the_whole() -> None:
    assert limits_asked(None) == Limits()
    given = limits_asked(7.0, method=Method.PROGRAM, drawn=True)
    assert given == Limits(7.0, Method.PROGRAM, whole=True, kept=KEPT_FOR_DRAWING)
    assert seconds_for_mixing(None) == MIXING_SECONDS
    assert seconds_for_mixing(3.0) == 3
    with pytest.raises(InputError):
        seconds_for_mixing(0.0)


@pytest.mark.parametrize(
    "command",
    [
        ("shop", "{scenario}"),
        ("why", "{scenario}"),
        ("compare", "{scenario}"),
        ("instalments", "{scenario}", "--sum", "5"),
        ("box", "{scenario}", "--owned", "magenta"),
        ("mix", "#8a5fb0"),
        ("unmixable",),
    ],
)
def test_mixing_that_takes_hopelessly_longer_is_refused_in_a_sentence(
    run: Run, tmp_path: Path, command: tuple[str, ...]
) -> None:
    """72 tubes make 59,640 + 2,556 + 72 = 62,268 sets."""
    scenario = tmp_path / "posy.toml"
    scenario.write_text(SCENARIO, encoding="utf-8")
    asked = [part.format(scenario=scenario) for part in command]
    told = run(*asked, "--no-cache", "--seconds", 0.02)
    assert told.code == 2
    assert told.out == ""
    (sentence,) = told.err.splitlines()
    assert sentence.startswith("72 tubes make 62,268 sets of up to three.")
    assert "only 0.02 s are allowed" in sentence
    assert sentence.endswith("Mix fewer tubes, or allow more time (seconds).")


def test_mixing_that_is_not_over_in_time_ends_in_a_sentence(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("fewtubes.mixing.effort.HOPELESS", 1e6)  # it is tried in any case
    told = run("unmixable", "--no-cache", "--seconds", 0.5)
    assert told.code == 2
    assert told.err.startswith("Mixing 72 tubes was not over within the 0.5 s allowed")


def test_what_takes_long_is_told_where_stages_are_not_shown(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("fewtubes.mixing.effort.LONG_SECONDS", 0.5)
    told = run("mix", "#8a5fb0", "--no-cache", "--seconds", 1)
    assert told.err.splitlines()[0] == "mixing 72 tubes for one colour, about 2 seconds …"


def test_a_time_is_not_rounded_into_the_range_it_misses(run: Any, scenario: Path) -> None:
    told = run("mix", "#8a5fb0", "--seconds", "86400.04")
    assert told.err == "--seconds: is 86400.04; it must be above 0 and at most 86,400.\n"
    told = run("why", scenario, "--seconds", "86400.04")
    assert told.err == "--seconds: is 86400.04; it must be above 0 and at most 86,400.\n"
