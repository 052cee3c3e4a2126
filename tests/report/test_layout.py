"""Lines of the terminal are broken at blanks, but not between a number and its unit."""

import io

import pytest
from rich.console import Console

from fewtubes.report.terminal.layout import FIXED, bullet, paragraph, put, table

SAID = "This covers 95.2 % for EUR 12.00, in 12 × 5 ml, off by ΔE00 4.0 at most, 0.4 points less."

UNITS = ("95.2 %", "EUR 12.00", "12 × 5 ml", "ΔE00 4.0", "0.4 points")


def console(width: int) -> Console:
    return Console(file=io.StringIO(), width=width, color_system=None)


def told(made: Console) -> list[str]:
    assert isinstance(made.file, io.StringIO)
    return made.file.getvalue().splitlines()


@pytest.mark.parametrize("width", range(14, 100))
def test_no_line_ends_between_a_number_and_its_unit(width: int) -> None:
    made = console(width)
    paragraph(made, SAID)
    bullet(made, SAID)
    lines = told(made)
    for unit in UNITS:
        assert sum(unit in line for line in lines) == 2, unit
    words = " ".join(line.strip().removeprefix("- ") for line in lines)
    assert words == f"{SAID} {SAID}"  # with blanks of the usual kind


def test_cells_of_tables_keep_them_together_too() -> None:
    made = console(30)
    shape = table("share", "what is said of it")
    shape.add_row("95.2 %", "some words and EUR 12.00 and more")
    put(made, shape)
    text = "\n".join(told(made))
    assert "95.2 %" in text
    assert "EUR 12.00" in text


def test_cells_are_taken_literally() -> None:
    made = console(60)
    shape = table("share")
    shape.add_row("[bold]a share[/bold]")
    put(made, shape)
    assert "[bold]a share[/bold]" in "\n".join(told(made))


def test_the_stand_in_cannot_come_from_outside() -> None:
    """It is for private use (Unicode, general category Co), and so escaped as unprintable."""
    made = console(60)
    paragraph(made, f"a{FIXED}b")
    assert told(made) == ["  a\\xe000b"]
