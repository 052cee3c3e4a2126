"""An empty name, as of an unset variable, is no place to write to."""

import pytest
from typer.testing import CliRunner

from fewtubes.command_line.main import app


@pytest.mark.parametrize("option", ["--out", "--report", "--pictures"])
def test_empty_name_is_refused(option: str) -> None:
    told = CliRunner().invoke(app, ["shop", "scenarios/first-set.toml", option, ""])
    assert told.exit_code == 2
    assert "the name is empty" in told.stderr
