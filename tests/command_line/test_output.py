"""Progress is for a terminal's standard error alone."""

import pytest

from fewtubes.command_line.output import progress


def test_a_terminal_sees_the_stage_as_it_is_written(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("FORCE_COLOR", "1")
    with progress("reading") as tell:
        tell("mixing [bold]sets[/]")
    told = capsys.readouterr()
    assert "mixing [bold]sets[/] …" in told.err
    assert told.out == ""


def test_a_file_sees_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    with progress("mixing") as tell:
        tell("matching")
    told = capsys.readouterr()
    assert (told.out, told.err) == ("", "")
