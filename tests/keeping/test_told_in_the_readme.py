"""What `catalogue/README.md` tells of a catalogue of one's own is true."""

import re
from pathlib import Path

import pytest
import typer

from fewtubes.catalogue.sizes import LARGEST_SHEET, MOST_ROWS
from fewtubes.command_line.main import app
from fewtubes.keeping.sheet_columns import COLUMNS, ENCODINGS, TOP_KEYS, Fills, read_sheet_columns

README = Path(__file__).parents[2] / "catalogue" / "README.md"


@pytest.fixture(scope="module")
def section() -> str:
    text = README.read_text(encoding="utf-8")
    return text[text.index("## A catalogue of your own") :]


def test_the_small_file_can_be_read(section: str, tmp_path: Path) -> None:
    (block,) = re.findall(r"^```toml\n(.*?)^```$", section, re.M | re.S)
    (tmp_path / "names.toml").write_text(block, encoding="utf-8")
    columns = read_sheet_columns(tmp_path / "names.toml")
    assert columns.fills is Fills.PRICES
    assert (columns.decimal, columns.unknown_left) == (",", True)
    assert columns.always == {"currency": "EUR"}


def test_every_key_and_column_has_its_line(section: str) -> None:
    told = re.findall(r"^\| (`[^|]+?) \|", section[section.index("### A spreadsheet") :], re.M)
    keys = {re.sub(r"\W", "", key) for cell in told for key in cell.split(",")}
    assert keys == set(TOP_KEYS)
    assert all(f"`{column}`" in section for columns in COLUMNS.values() for column in columns)
    assert all(encoding in section for encoding in ENCODINGS if encoding != "utf-8")


def test_limits_are_the_true_ones(section: str) -> None:
    words = " ".join(section.split())
    assert f"at most {LARGEST_SHEET:,} bytes and {MOST_ROWS:,} rows" in words


def test_every_command_and_option_is_there(section: str) -> None:
    group = typer.main.get_command(app).commands["catalogue"]  # type: ignore[attr-defined]
    told = set(re.findall(r"--[a-z][a-z-]*", section))
    for name, command in group.commands.items():
        assert f"`fewtubes catalogue {name} " in section
        told -= {opt for option in command.params for opt in option.opts}
    assert told == set()  # `--catalogue` is of `fewtubes check` and of `add-flower`
