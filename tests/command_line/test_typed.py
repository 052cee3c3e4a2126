"""Numbers on the command line are plain ones, and what is not is told with its option."""

from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from fewtubes.catalogue.commas import comma_hint
from fewtubes.command_line.typed import amount_reader, count_reader, number_reader
from fewtubes.errors import InputError

COMMA = "is '12,50', which is not a plain number; decimals take a point: write 12.50."


@pytest.mark.parametrize("option", ["--budget", "--tolerance", "--seconds", "--within"])
def test_a_decimal_comma_is_told(
    run: Any, fake_shop: Any, scenario: Path, small: Sequence[str], option: str
) -> None:
    told = run("shop", scenario, *small, option, "12,50")
    assert (told.code, told.out, told.err) == (2, "", f"{option}: {COMMA}\n")


@pytest.mark.parametrize("option", ["--most-tubes", "--seed", "--draws"])
@pytest.mark.parametrize("text", ["3,0", "3.0", "1_0", "1e1", "٣", "9" * 5000, ""])
def test_what_is_no_whole_number_is_told(
    run: Any, fake_shop: Any, scenario: Path, small: Sequence[str], *, option: str, text: str
) -> None:
    told = run("shop", scenario, *small, "--how-sure", option, text)
    assert told.code == 2
    assert told.err.startswith(f"{option}: is '{text[:40]}")
    assert told.err.endswith("which is not a whole number, such as 3.\n")
    assert len(told.err) < 150


@pytest.mark.parametrize("text", ["1_0", "nan", "inf", "٣", "twelve", "€12", "1,234.50", "", " 1"])
def test_what_is_no_plain_number_is_told(
    run: Any, fake_shop: Any, scenario: Path, small: Sequence[str], text: str
) -> None:
    told = run("shop", scenario, *small, "--budget", text)
    assert told.code == 2
    assert told.err == f"--budget: is '{text}', which is not a plain number, such as 12.50.\n"


@pytest.mark.parametrize(
    ("command", "option"),
    [
        *((command, "--budget") for command in ("why", "box", "compare")),
        *((command, "--tolerance") for command in ("why", "box", "compare")),
        *((command, "--seconds") for command in ("why", "box", "compare")),
        ("compare", "--within"),
    ],
)
def test_every_command_tells_it(
    run: Any, scenario: Path, small: Sequence[str], *, command: str, option: str
) -> None:
    told = run(command, scenario, *small, option, "12,50")
    assert (told.code, told.err) == (2, f"{option}: {COMMA}\n")


def test_mixes_and_pages_tell_it(run: Any, small: Sequence[str]) -> None:
    assert run("mix", "#ffffff", *small, "--tolerance", "12,50").err == f"--tolerance: {COMMA}\n"
    assert run("page", "--seconds", "12,50").err == f"--seconds: {COMMA}\n"
    assert "--most: is '3.5', which is not a whole" in run("mix", "#fff", "--most", "3.5").err
    assert "with a point before decimals" in run("mix", "45,5,60,1,5,0", *small).err


def test_an_amount_is_read_to_the_last_digit(
    run: Any, fake_shop: Any, scenario: Path, small: Sequence[str]
) -> None:
    told = run("shop", scenario, *small, "--budget", "12.50000000000000000001")
    assert told.code == 2
    assert "at most two decimals" in told.err
    assert run("shop", scenario, *small, "--budget", "12.50").code == 0
    assert [question.budget_hundredths for question in fake_shop.questions] == [1250]


def test_plain_numbers_are_read() -> None:
    assert amount_reader("--budget")("0.10") == Decimal("0.10")
    assert (number_reader("--seconds")("2.5"), number_reader("--seconds")(60.0)) == (2.5, 60.0)
    assert (count_reader("--most")("-3"), count_reader("--most")(8)) == (-3, 8)
    assert comma_hint("a,b") == comma_hint("2.5") == ""
    with pytest.raises(InputError):
        number_reader("--seconds")("")
